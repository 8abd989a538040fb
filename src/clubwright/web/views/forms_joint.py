"""Forms of the joint and after: mix, glue, cure, grip, bend, tag."""

from __future__ import annotations

from clubwright.club.quantities import ANGLES
from clubwright.journal.job import Job
from clubwright.journal.mixes import mix_in_hand
from clubwright.notation import units_shown
from clubwright.planning.cautions import RELEASE_TRIAL
from clubwright.services.checks.cold_joint import no_release
from clubwright.services.jobs.clocks import cure_clock, pot_clock
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.mixed_batch import missing_mix, mix_lacking, mix_lacks
from clubwright.services.jobs.signatures import signature_reasons
from clubwright.services.report.bend_rows import bend_rows
from clubwright.web.views.forms import FieldView, Form
from clubwright.words import on_page, spoken
from clubwright.words.gate import said_at
from clubwright.words.say import say

_OF_THE_SHEET = {
    "basis": FieldView(name="adhesive.basis", label="the ratio is by", choices=("weight", "volume"), needed=True),
    "density_a": FieldView(name="adhesive.density_a", label="density of part A", kind="density", needed=True),
    "density_b": FieldView(name="adhesive.density_b", label="density of part B", kind="density", needed=True),
}
"""What the cup is held against, as the adhesive's data sheet says it."""


def _done_earlier() -> FieldView:
    """When it was done, where it is written down later: its clock runs from then."""
    return FieldView(name="done_at", label=on_page("done earlier"), how=on_page("done earlier how"))


def mix(worked: JobAnswer, job: Job) -> Form:
    """Both weights in the mix, the bench's temperature, the lot; before them what the mix is held against."""
    ticket = worked.club_state.ticket
    lacks = mix_lacks(ticket.club.adhesive)
    if lacks:
        return Form(
            kind="fields",
            action="figures",
            button=on_page("button figures"),
            fields=tuple(_OF_THE_SHEET[key] for key in mix_lacking(ticket.club.adhesive)),
            open_points=tuple(finding.sentence() for finding in lacks),
        )
    fields = (
        FieldView(name="part_a", label=on_page("part of mix", part="A"), kind="mass", needed=True),
        FieldView(name="part_b", label=on_page("part of mix", part="B"), kind="mass", needed=True),
        _temperature(on_page("temperature bench")),
        FieldView(name="batch", label=on_page("batch"), how=on_page("as printed")),
        _done_earlier(),
    )
    clock = pot_clock(job, ticket)
    return Form(
        kind="fields",
        action="mix",
        button=on_page("button mixed"),
        fields=fields,
        clock=clock,
        clock_name=on_page("clock pot"),
    )


def _temperature(label: str, offered: str = "") -> FieldView:
    """Ask for a temperature; the ticket's own plans, and is no measurement, so it is not even shown."""
    return FieldView(name="temperature", label=label, kind="temperature", needed=True, offered=offered)


def _at_the_mix(job: Job) -> str:
    """Return the temperature of the bench as it was measured at the mix in hand; empty without one."""
    mix = mix_in_hand(job)
    return "" if mix is None else mix.temperature


def glue(worked: JobAnswer, job: Job) -> Form:
    """First the signature, then the time and temperature of the joint; the mix's clock runs beside both."""
    clock = pot_clock(job, worked.club_state.ticket)
    checks = (check for gate in worked.gates if gate.step == "glue" for check in gate.checks)
    wrong = any(check.key == "mix" and not check.met for check in checks) or bool(missing_mix(job) and job.mixes)
    back = (on_page("back of the mix"), "mix") if wrong else ()
    if signature_reasons(job, worked, "glue"):
        return Form(
            kind="gate",
            action="sign",
            button=on_page("button sign checked"),
            checked=_checked(worked, "glue"),
            hidden=(("gate", "glue"),),
            clock=clock,
            clock_name=on_page("clock pot"),
            back=back,
        )
    return Form(
        kind="fields",
        action="glue",
        button=on_page("button glued"),
        fields=(_temperature(on_page("temperature part"), _at_the_mix(job)), _done_earlier()),
        clock=clock,
        clock_name=on_page("clock pot"),
        open_points=tuple(said_at(finding) for finding in missing_mix(job)),
        blocked=bool(missing_mix(job)),
        back=back,
    )


def _checked(worked: JobAnswer, step: str) -> str:
    """Name what a gate has checked, so that a signature says no more than was looked at; nothing while it is closed."""
    return next((say(gate.why, units_shown()) for gate in worked.gates if gate.step == step and gate.open), "")


def cure(worked: JobAnswer, job: Job) -> Form:
    """The countdown to the release; the button waits for it."""
    gate = next((gate for gate in worked.gates if gate.step == "release"), None)
    cold = no_release(job, worked.club_state.ticket)
    return Form(
        kind="clock",
        action="step",
        button=on_page("button cured"),
        clock=cure_clock(job, worked.club_state.ticket),
        clock_name=on_page("clock cure"),
        open_points=tuple(said_at(finding) for finding in cold),
        open_why=tuple("gates/release" for _ in cold),
        blocked=gate is None or not gate.open,
    )


def grip(_worked: JobAnswer, _job: Job) -> Form:
    """The grip is on for good."""
    return Form(kind="step", action="grip", button=on_page("button gripped"))


def bend(worked: JobAnswer, job: Job) -> Form:
    """Angles before and after, and what was measured after the last pull."""
    rows = bend_rows(worked.club_state)
    fields = tuple(
        FieldView(name=key, label=on_page("angle after", angle=spoken("quantity", key)), kind="angle") for key in ANGLES
    )
    bent = any(row.words for row in rows)
    leave, skips = (on_page("unbent"), "a planned bend") if bent else (on_page("nothing bent"), "")
    if job.head_was:
        leave, skips = on_page("measured done"), ""
    return Form(
        kind="bend", action="bend", button=on_page("button angles"), fields=fields, bends=rows, done=leave, skips=skips
    )


def tag(worked: JobAnswer, job: Job) -> Form:
    """First the release is signed, then the papers are printed and the job is closed."""
    released = any(gate.step == "release" for gate in worked.gates)
    if released and signature_reasons(job, worked, "release"):
        return Form(
            kind="gate",
            action="sign",
            button=on_page("button sign release"),
            checked=_checked(worked, "release"),
            to_try=say(RELEASE_TRIAL, units_shown()),
            hidden=(("gate", "release"),),
        )
    return Form(kind="tag", action="finish", button=on_page("button closed"))

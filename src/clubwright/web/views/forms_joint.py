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
from clubwright.words.say import say

_OF_THE_SHEET = {
    "basis": FieldView(name="adhesive.basis", label="the ratio is by", choices=("weight", "volume"), needed=True),
    "density_a": FieldView(name="adhesive.density_a", label="density of part A", kind="density", needed=True),
    "density_b": FieldView(name="adhesive.density_b", label="density of part B", kind="density", needed=True),
}
"""What the cup is held against, as the adhesive's data sheet says it."""

POT = "of the pot life"
DONE_EARLIER = FieldView(name="done_at", label="done earlier, at", how="hour:minute; left empty, it is done now")
"""When it was done, where it is written down later: its clock runs from then."""


def mix(worked: JobAnswer, job: Job) -> Form:
    """Both masses in the cup, the bench's temperature, the lot; before them what the cup is held against."""
    ticket = worked.club_state.ticket
    lacks = mix_lacks(ticket.club.adhesive)
    if lacks:
        return Form(
            kind="fields",
            action="figures",
            button="Keep the sheet's figures",
            fields=tuple(_OF_THE_SHEET[key] for key in mix_lacking(ticket.club.adhesive)),
            open_points=tuple(finding.sentence() for finding in lacks),
        )
    fields = (
        FieldView(name="part_a", label="part A in the cup", kind="mass", needed=True),
        FieldView(name="part_b", label="part B in the cup", kind="mass", needed=True),
        _temperature("temperature of the bench"),
        FieldView(name="batch", label="lot", how="as printed on the product"),
        DONE_EARLIER,
    )
    clock = pot_clock(job, ticket)
    return Form(kind="fields", action="mix", button="Mixed", fields=fields, clock=clock, clock_name=POT)


def _temperature(label: str, offered: str = "") -> FieldView:
    """Ask for a temperature; the ticket's own plans, and is no measurement, so it is not even shown."""
    return FieldView(name="temperature", label=label, kind="temperature", needed=True, offered=offered)


def _at_the_cup(job: Job) -> str:
    """Return the temperature of the bench as it was measured at the mix in hand; empty without one."""
    mix = mix_in_hand(job)
    return "" if mix is None else mix.temperature


def glue(worked: JobAnswer, job: Job) -> Form:
    """First the signature, then the time and temperature of the joint; the cup's clock runs beside both."""
    clock = pot_clock(job, worked.club_state.ticket)
    checks = (check for gate in worked.gates if gate.step == "glue" for check in gate.checks)
    wrong = any(check.key == "mix" and not check.met for check in checks) or bool(missing_mix(job) and job.mixes)
    back = ("Mix anew", "mix") if wrong else ()
    if signature_reasons(job, worked, "glue"):
        return Form(
            kind="gate",
            action="sign",
            button="Sign: what was checked agrees",
            checked=_checked(worked, "glue"),
            hidden=(("gate", "glue"),),
            clock=clock,
            clock_name=POT,
            back=back,
        )
    return Form(
        kind="fields",
        action="glue",
        button="Head is glued",
        fields=(_temperature("temperature of the part", _at_the_cup(job)), DONE_EARLIER),
        clock=clock,
        clock_name=POT,
        open_points=tuple(finding.sentence() for finding in missing_mix(job)),
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
        button="Cured",
        clock=cure_clock(job, worked.club_state.ticket),
        clock_name="until the release",
        open_points=tuple(finding.sentence() for finding in cold),
        open_why=tuple("gates/release" for _ in cold),
        blocked=gate is None or not gate.open,
    )


def grip(_worked: JobAnswer, _job: Job) -> Form:
    """The grip is on for good."""
    return Form(kind="step", action="grip", button="Grip is on")


def bend(worked: JobAnswer, job: Job) -> Form:
    """Angles before and after, and what was measured after the last pull."""
    rows = bend_rows(worked.club_state)
    fields = tuple(FieldView(name=key, label=f"{key} after", kind="angle") for key in ANGLES)
    bent = any(row.words for row in rows)
    leave, skips = ("Leave it unbent", "a planned bend") if bent else ("Nothing is bent: step done", "")
    if job.head_was:
        leave, skips = "Measured: step done", ""
    return Form(
        kind="bend", action="bend", button="Keep the angles", fields=fields, bends=rows, done=leave, skips=skips
    )


def tag(worked: JobAnswer, job: Job) -> Form:
    """First the release is signed, then the papers are printed and the job is closed."""
    released = any(gate.step == "release" for gate in worked.gates)
    if released and signature_reasons(job, worked, "release"):
        return Form(
            kind="gate",
            action="sign",
            button="Sign: released to play",
            checked=_checked(worked, "release"),
            to_try=say(RELEASE_TRIAL, units_shown()),
            hidden=(("gate", "release"),),
        )
    return Form(kind="tag", action="finish", button="Close the job")

"""Which form each step of the plan has."""

from __future__ import annotations

from collections.abc import Callable

import msgspec

from clubwright.errors import Finding
from clubwright.journal.job import Job
from clubwright.notation import shown_in
from clubwright.planning.gates.types import Lack
from clubwright.planning.steps.plan import Step
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.step_needs import known_steps, lacking
from clubwright.state.steps import STEPS
from clubwright.web.second_tap import HELD
from clubwright.web.sent_gauges import gauges_asked
from clubwright.web.views import forms_joint, forms_parts, forms_reading
from clubwright.web.views.forms import Form
from clubwright.words import on_page
from clubwright.words.gate import said_at


def _weigh(worked: JobAnswer, job: Job) -> Form:
    """Work that keeps the joint weighs the club, other work its parts."""
    if worked.club_state.ticket.job in ("weight", "regrip"):
        return forms_reading.as_it_came(worked, job)
    return forms_parts.weigh(worked, job)


MAKERS: dict[str, Callable[[JobAnswer, Job], Form]] = {
    "pull": forms_parts.pull,
    "read as it came": forms_reading.as_it_came,
    "strip grip": forms_parts.strip_grip,
    "pull head": forms_parts.pull_head,
    "weigh": _weigh,
    "head check": forms_parts.head_check,
    "bore": forms_parts.bore,
    "trim": forms_parts.trim,
    "dry fit": forms_parts.dry_fit,
    "cut": forms_parts.cut,
    "tape": forms_parts.tape,
    "read dry": forms_reading.dry,
    "weights": forms_reading.weights,
    "mix": forms_joint.mix,
    "glue": forms_joint.glue,
    "cure": forms_joint.cure,
    "grip": forms_joint.grip,
    "bend": forms_joint.bend,
    "inspect": forms_reading.inspect,
    "tag": forms_joint.tag,
}
"""By the form that the register of steps names; every other step is only ticked."""


SKIPPED_HERE = ("measure", "tape")
"""Forms that offer to go on without what is still missing; the other forms have words of their own for it, or nothing."""


BUTTON_CHARS = 36
"""Longest words of a second button: three lines of it (seen at 1280 x 800)."""


def _with_skip(form: Form, step: Step, worked: JobAnswer, job: Job) -> Form:
    missing = lacking(step.key, worked, job)
    if not missing:
        return form
    with shown_in(None):  # what is passed over is kept with its reason, and what is kept is canonical
        left_out = "; ".join(finding.what for finding in lacking(step.key, worked, job))
    words = on_page("missing many", count=len(missing)) if len(missing) > 1 else in_short(missing[0])
    lacks = tuple(said_at(finding) for finding in missing if isinstance(finding, Lack) and finding.short)
    return msgspec.structs.replace(form, done=on_page("skip", what=words), skips=left_out, lacks=lacks)


def in_short(finding: Finding) -> str:
    """Return what is missing in the few words that a button has room for; the card says the rest."""
    short = finding.short if isinstance(finding, Lack) else ""
    short = short or finding.what
    return short if len(short) <= BUTTON_CHARS else on_page("missing one")


_KNOWN = {"weigh": "known weights", "head check": "known angles", "bore to ground": "known lengths"}
MEASURING = ("measure", "cut", "tape")
"""Actions that say which gauge measured what is typed."""


def form_of(step: Step, worked: JobAnswer, job: Job, *, closed: bool) -> Form:
    """Return the form of a step; its button waits while the step's gate is closed."""
    maker = MAKERS.get(STEPS[step.key].form)
    form = Form(kind="step", action="step", button=on_page("button done")) if maker is None else maker(worked, job)
    if not form.done and (form.action in SKIPPED_HERE or (step.key == "mark and cut" and worked.cut is None)):
        form = _with_skip(form, step, worked, job)
    following = known_steps(worked, job)
    if step.key in following[:1] and len(following) > 1 and form.action == "measure":
        words = ", ".join(on_page(_KNOWN[key]) for key in following)
        form = msgspec.structs.replace(form, done=on_page("known", what=words), second="known")
    if form.action in MEASURING:
        form = msgspec.structs.replace(form, measured_with=gauges_asked(form, worked.club_state.ticket))
    return msgspec.structs.replace(form, blocked=closed or form.blocked, hold=form.action in HELD)

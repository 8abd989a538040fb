"""What must stand before a step of the plan can be said done: one table, for page, command line and programs alike.

A step that a fact completes (`clubwright.journal.reducers.completion`) is done by that fact; said by hand, it needs the fact
too. A step may be passed over only where that does no harm that a gate would not catch; the record says what was left out.
"""

from __future__ import annotations

from collections.abc import Callable
from itertools import takewhile

from clubwright.club.quantities import ANGLES, QUANTITIES, WEIGHING
from clubwright.club.stages import AS_IT_CAME
from clubwright.errors import DocumentPlace, Finding, Where
from clubwright.journal.job import Job
from clubwright.notation import units_shown
from clubwright.planning.advice.weights import choices
from clubwright.planning.bending.advice import bend_plan_of
from clubwright.planning.cut import CUT_JOBS
from clubwright.planning.gates.fit_checks import fit_checks
from clubwright.planning.gates.glue_checks import DRY_STAGES, loft_checks
from clubwright.planning.steps.types import StepKey
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.signatures import signature_reasons
from clubwright.state.particulars import whole_number
from clubwright.ticket.fields.figures import laid_mass
from clubwright.words import spoken
from clubwright.words.gate import lack_of

_HEAD = DocumentPlace("head")
Need = Callable[[JobAnswer, Job], tuple[Finding, ...]]
"""Says what is missing, with how to mend it; nothing when it stands."""

WEIGHED = ("head", "shaft", "grip")
"""Parts that are weighed before a shaft is cut."""


def lacking(step: StepKey, worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    """Return everything that is missing before a step can be said done."""
    return tuple(finding for need in STEP_NEEDS.get(step, ()) for finding in need(worked, job))


MEASURING: frozenset[StepKey] = frozenset({"weigh", "head check", "bore to ground"})
"""Steps of parts that only measure: on a ticket whose parts are known nothing is left to type in them."""


def known_steps(worked: JobAnswer, job: Job) -> tuple[StepKey, ...]:
    """Return the next steps of the plan that only measure and lack nothing, as far as they follow each other."""
    waiting = (step.key for step in worked.steps if not step.done)
    return tuple(takewhile(lambda key: key in MEASURING and not lacking(key, worked, job), waiting))


def _missing(where: Where, what: str, mend: str) -> tuple[Finding, ...]:
    return (Finding(where=where, what=what, mend=mend),)


def _hand(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    ticket = worked.club_state.ticket
    row = ticket.club.head
    said = row.hand
    if said is None:
        mend = f'Look at the head, and write hand = "{ticket.hand}" only if it is.'
        return _missing(_HEAD.at("hand"), "nobody has looked at the hand of the head", mend)
    if said != ticket.hand:
        what = f"this head is {said}-handed, the ticket is {ticket.hand}"
        return _missing(_HEAD.at("hand"), what, "Put it back and pull the right one.")
    return ()


def _weighed(worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    """Parts by their masses; a club that came in whole by readings of it, before anything is changed on it."""
    ticket = worked.club_state.ticket
    if ticket.job not in CUT_JOBS:
        return _read_as_it_came(worked, job)
    read = {entry.quantity for entry in worked.club_state.present_entries}
    return tuple(
        Finding(where=f"[{section}] mass", what=f"the {section} is not weighed", mend="Weigh it and write its mass.")
        for section in WEIGHED
        if "mass" not in ticket.row(section).numbers and f"{section}.mass" not in read
    )


def _read_as_it_came(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    ticket = worked.club_state.ticket
    stages = {entry.stage for entry in ticket.readings if entry.quantity in WEIGHING}
    read = AS_IT_CAME.name in stages if ticket.job in CUT_JOBS else stages
    mend = "Read its total weight and swing weight before anything is changed."
    return () if read else _missing("reading", "the club as it came was not read", mend)


def _head_measured(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    row = worked.club_state.ticket.club.head
    wanted = [key for key in ANGLES if worked.club_state.goal(key) is not None]
    if worked.club_state.ticket.job in CUT_JOBS:
        wanted += ["bore_depth", "bore_diameter"]
    missing = tuple(
        Finding(where=_HEAD.at(key), what=f"the {spoken('key', key)} is not measured", mend="Measure it.")
        for key in wanted
        if row.entry(key) is None
    )
    checks = () if row.loft is None or worked.club_state.ticket.job not in CUT_JOBS else loft_checks(worked.club_state)
    return (*missing, *(lack_of(check, units_shown()) for check in checks if not check.met))


def _bore(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    if worked.club_state.ticket.club.head.bore_to_ground is not None:
        return ()
    mend = "Seat a straight test shaft, read R, and write R - T."
    return _missing(_HEAD.at("bore_to_ground"), "the bore is not measured", mend)


def _trimmed(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    if worked.club_state.ticket.club.shaft.tip_trimmed == "yes":
        return ()
    mend = 'Record what came off the tip; if it came trimmed, measure it and write [shaft] tip_trimmed = "yes".'
    return _missing("tip trim", "nothing is off the tip by the record", mend)


def _cut(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    if worked.club_state.ticket.club.shaft.cut_length is not None:
        return ()
    mend = "Cut it at its marks, measure it tip to butt, and record that length."
    return _missing("cut", "the shaft is not cut by the record", mend)


def _fits(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    """Tip, bore and bond line agree, and the hosel is whole: what the glue gate asks, said where it can still be mended."""
    checks = fit_checks(worked.club_state)
    return tuple(lack_of(check, units_shown()) for check in checks if not check.met)


def _tape(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    return tuple(
        Finding(
            where=row.where.at("mass"),
            what=f"the {row.name or 'tape'} was not weighed",
            mend="Weigh the strips before they are laid.",
        )
        for row in worked.club_state.ticket.tapes
        if row.mass is None and laid_mass(row, whole_number(row.layers, 1)) is None
    )


def _dry_reading(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    judged = worked.club_state.present
    if any(item.taken and item.reading.stage.name in DRY_STAGES for item in judged):
        return ()
    mend = "Read swing weight and total weight with their stage, or pass the step over, saying so."
    return _missing("dry reading", "nothing was read dry that stands", mend)


def _weight_fitted(worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    fitted = any(line.kind == "weights fitted" and not line.undone for line in job.trail)
    if fitted or worked.club_state.fitted_now.any() or not choices(worked.club_state)[0].changed:
        return ()
    mend = "Record what is fitted, or pass the step over, saying that no weight is."
    return _missing("weight", "no weight is fitted by the record, and one is advised", mend)


def _mixed(_worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    mend = "Weigh both parts into one cup, and record their masses."
    return () if job.mixes else _missing("mix", "no mix is on the record", mend)


def _glued(_worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    mend = "Close the joint and record it, with the temperature of the part."
    return () if job.glued_at is not None else _missing("glue", "the joint is not glued by the record", mend)


def _gripped(_worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    return () if job.gripped else _missing("grip", "no grip is on by the record", "Put it on, and record it.")


def _angles(worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    """The ordered angles measured, and bent where a bend is planned."""
    club_state, row = worked.club_state, worked.club_state.ticket.club.head
    unmeasured = tuple(
        Finding(where=_HEAD.at(key), what=f"the {key} is not measured", mend="Measure it after the last pull.")
        for key in ANGLES
        if club_state.goal(key) is not None and row.entry(key) is None
    )
    plan = bend_plan_of(club_state)
    if unmeasured or plan is None or plan.refused or not plan.bends or job.head_was:
        return unmeasured
    angles = " and ".join(dict.fromkeys(bend.angle for bend in plan.bends))
    mend = "Bend, measure, and record the angles; or pass the step over, saying why nothing is bent."
    return _missing("bend", f"a bend of the {angles} is planned, and none is on the record", mend)


def _inspected(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    return tuple(
        Finding(
            where=goal.key,
            what=f"the {QUANTITIES[goal.key].name} of the finished club was not read",
            mend=f"Read it with the {QUANTITIES[goal.key].read_by}, or pass it over by name.",
        )
        for goal in worked.club_state.goals
        if goal.key not in worked.inspected
    )


def released(worked: JobAnswer, _job: Job) -> tuple[Finding, ...]:
    """The joint has cured by its table; work without a joint has no such gate."""
    gate = next((gate for gate in worked.gates if gate.step == "release"), None)
    return () if gate is None else tuple(lack_of(check, units_shown()) for check in gate.checks if not check.met)


def _signed_off(worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    if all(gate.step != "release" for gate in worked.gates):
        return ()
    mend = "Twist the head by hand, tap for a rattle, then have the release signed."
    return tuple(
        Finding(where="release", what=reason, mend=mend) for reason in signature_reasons(job, worked, "release")
    )


def _no_bend_before_release(worked: JobAnswer, job: Job) -> tuple[Finding, ...]:
    """A head that is glued on is not bent before the joint has cured; one that is not glued may be."""
    return released(worked, job) if job.glued_at is not None else ()


STEP_NEEDS: dict[StepKey, tuple[Need, ...]] = {
    "pull": (_hand,),
    "as it came": (_read_as_it_came,),
    "weigh": (_weighed,),
    "head check": (_head_measured,),
    "bore to ground": (_bore,),
    "loft and lie": (_angles, _no_bend_before_release),
    "tip trim": (_trimmed,),
    "dry fit": (_fits,),
    "mark and cut": (_cut,),
    "tape": (_tape,),
    "dry reading": (_dry_reading,),
    "choose weight": (_weight_fitted,),
    "mix": (_mixed,),
    "glue": (_glued,),
    "cure": (released,),
    "ferrule finish": (_glued,),
    "grip": (_gripped,),
    "inspect": (_inspected, released),
    "tag": (released, _signed_off),
}
"""Each says what is missing of what a step leaves behind. Every other step leaves nothing on the record but that a person
says it is done; whether one may be passed over stands in the register of steps."""

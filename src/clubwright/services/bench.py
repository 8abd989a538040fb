"""The bench actions: each checks what it is given against the job as it stands, then writes one fact.

Checking means working the job's ticket with the new fact in it: an input that the ticket reader would refuse is refused
here with the same findings, and nothing is written.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Literal

from clubwright.errors import Finding, GateClosed, InputError, RecordError
from clubwright.journal.facts import (
    AdhesiveMixed,
    Fact,
    Finished,
    GateSigned,
    Glued,
    Gripped,
    HeadBent,
    PartChanged,
    ReadingDecided,
    ReadingTaken,
    ShaftCut,
    ShaftTrimmed,
    StepDone,
    TapeLaid,
    TicketTaken,
    Undone,
    WeightsFitted,
    What,
)
from clubwright.journal.fold import Job, fold
from clubwright.planning.tray import names_of
from clubwright.services.desk import Desk
from clubwright.services.job_work import work_job
from clubwright.services.work import Worked, work_document


def take_ticket(desk: Desk, document: Mapping[str, Any], source: str, key: str | None = None) -> Fact:
    """Take a ticket into the record.

    Raises:
        InputError: with every finding about the document.
        RecordError: when the record already has a ticket of that number.
    """
    worked = work_document(document, source)
    job = worked.situation.ticket.id
    if job in desk.shop().jobs:
        raise RecordError(f"ticket {job} is already in the record; take it under another number, or change its parts")
    return desk.keep(TicketTaken(job=job, document=dict(document), source=source), f"ticket from {source}", key)


def take_reading(
    desk: Desk,
    job: str,
    quantity: str,
    value: str,
    *,
    stage: str = "finished",
    weights: Sequence[str] | None = None,
    instrument: str | None = None,
    repeats: str = "1",
    key: str | None = None,
) -> tuple[Fact, Worked]:
    """Keep a reading; one that does not fit is kept too, aside, until a person decides.

    Args:
        desk: Who and where.
        job: Ticket number.
        quantity: What was read.
        value: As the gauge showed it, in trade notation.
        stage: Stage of the build.
        weights: Weights fitted at the time; those the record has fitted when None.
        instrument: Gauge, by its name on the ticket.
        repeats: How many readings the value is the mean of.
        key: Idempotency key.

    Returns:
        The fact, and the job worked with it.

    Raises:
        InputError: when the reading cannot be understood; nothing is kept.
    """
    state = desk.job(job)
    names = list(weights) if weights is not None else _fitted_names(work_job(state, desk.now()))
    what = ReadingTaken(
        job=job, quantity=quantity, value=value, stage=stage, weights=names, instrument=instrument, repeats=repeats
    )
    return _kept(desk, what, f"{quantity} {value}", key)


def decide_reading(desk: Desk, job: str, reading: int, *, keep: bool, reason: str, key: str | None = None) -> Fact:
    """Record a person's decision about a reading that does not fit."""
    what = ReadingDecided(job=job, reading=reading, keep=keep, reason=reason)
    return _kept(desk, what, f"reading {reading}: {'use it' if keep else 'leave it out'}", key)[0]


def fit_weights(desk: Desk, job: str, weights: Sequence[str], key: str | None = None) -> Fact:
    """Record the weights that are on now: the whole list, a name for each piece."""
    return _kept(desk, WeightsFitted(job=job, weights=list(weights)), "fitted " + (", ".join(weights) or "none"), key)[
        0
    ]


def trim_shaft(desk: Desk, job: str, end: str, amount: str, key: str | None = None) -> Fact:
    """Record a trim of the tip or the butt before the cut to length."""
    ends: dict[str, Literal["tip", "butt"]] = {"tip": "tip", "butt": "butt"}
    if end not in ends:
        raise InputError([Finding(where="end", what=f'"{end}" is no end of a shaft', mend="Write tip or butt.")])
    what = ShaftTrimmed(job=job, end=ends[end], amount=amount)
    return _kept(desk, what, f"trimmed {amount} off the {end}", key)[0]


def cut_shaft(desk: Desk, job: str, cut_length: str, key: str | None = None) -> Fact:
    """Record the cut, with the length of the shaft as measured after it.

    Raises:
        GateClosed: while bore, cap or lie are not known.
    """
    require_gate(desk, job, "cut")
    return _kept(desk, ShaftCut(job=job, cut_length=cut_length), f"cut to {cut_length}", key)[0]


def bend_head(
    desk: Desk,
    job: str,
    *,
    loft: str | None = None,
    lie: str | None = None,
    bounce: str | None = None,
    key: str | None = None,
) -> Fact:
    """Record the angles as measured after a bend."""
    said = [f"{name} {value}" for name, value in (("loft", loft), ("lie", lie), ("bounce", bounce)) if value]
    if not said:
        raise InputError(
            [Finding(where="bend", what="no angle given", mend="Measure loft, lie or bounce after the bend.")]
        )
    return _kept(desk, HeadBent(job=job, loft=loft, lie=lie, bounce=bounce), "bent to " + ", ".join(said), key)[0]


def lay_tape(desk: Desk, job: str, name: str, layers: str, mass: str, key: str | None = None) -> Fact:
    """Record the tape laid, as weighed."""
    what = TapeLaid(job=job, name=name, layers=layers, mass=mass)
    return _kept(desk, what, f"laid {layers} of {name}, {mass}", key)[0]


def change_part(desk: Desk, job: str, section: str, values: Mapping[str, str], key: str | None = None) -> Fact:
    """Record what was measured of a part, or another part in its place."""
    what = PartChanged(job=job, section=section, values=dict(values))
    words = ", ".join(f"{name} {value}" for name, value in values.items())
    return _kept(desk, what, f"{section}: {words}", key)[0]


def mix_adhesive(
    desk: Desk, job: str, part_a: str, part_b: str, temperature: str, batch: str, key: str | None = None
) -> Fact:
    """Record the mix as weighed."""
    what = AdhesiveMixed(job=job, part_a=part_a, part_b=part_b, temperature=temperature, batch=batch)
    return _kept(desk, what, f"mixed {part_a} + {part_b}", key)[0]


def glue(desk: Desk, job: str, temperature: str, key: str | None = None) -> Fact:
    """Record that the joint is closed; its cure runs from now at that temperature.

    Raises:
        GateClosed: while hand, loft, grip core, length and dry reading do not agree, or nobody has pulled and checked.
    """
    require_gate(desk, job, "glue")
    return _kept(desk, Glued(job=job, temperature=temperature), f"glued at {temperature}", key)[0]


def slide_grip(desk: Desk, job: str, key: str | None = None) -> Fact:
    """Record that the grip is on for good."""
    return _kept(desk, Gripped(job=job), "gripped", key)[0]


def do_step(desk: Desk, job: str, step: str, note: str = "", key: str | None = None) -> Fact:
    """Record that a step of the plan is done."""
    known = {item.key for item in work_job(desk.job(job), desk.now()).steps}
    if step not in known:
        mend = "Steps of this job: " + ", ".join(sorted(known)) + "."
        raise InputError([Finding(where="step", what=f'no step is called "{step}"', mend=mend)])
    return _kept(desk, StepDone(job=job, step=step, note=note), f"done: {step}" + (f" ({note})" if note else ""), key)[
        0
    ]


def sign_gate(desk: Desk, job: str, step: str, key: str | None = None) -> Fact:
    """Sign a gate: the person answers for it, and what was shown is stored with the signature.

    Raises:
        GateClosed: while the gate is closed.
    """
    worked = require_gate(desk, job, step, signed=False)
    shown = {"answer": worked.answer(), "gate": step}
    return _kept(desk, GateSigned(job=job, step=step, shown=shown), f"signed: {step}", key)[0]


def finish(desk: Desk, job: str, key: str | None = None) -> Fact:
    """Close the job: the verdicts are stored as they were shown.

    Raises:
        GateClosed: while a build or re-shaft is not released to play.
    """
    state = desk.job(job)
    worked = work_job(state, desk.now())
    if any(gate.step == "release" for gate in worked.gates):
        require_gate(desk, job, "release", signed=False)
    return _kept(desk, Finished(job=job, shown={"answer": worked.answer()}), "finished", key)[0]


def undo(desk: Desk, job: str, fact: int | None = None, reason: str = "", key: str | None = None) -> Fact:
    """Reverse an earlier fact of a job by a new one; the last that stands when none is named.

    Raises:
        RecordError: when there is nothing to undo, or the fact is not one of this job's.
    """
    state = desk.job(job)
    number = state.last_standing() if fact is None else fact
    return _kept(desk, Undone(job=job, fact=number, reason=reason), f"undo {number}", key)[0]


def require_gate(desk: Desk, job: str, step: str, *, signed: bool = True) -> Worked:
    """Return the job worked, once a gate is open (and signed, where a person must answer for it).

    Raises:
        GateClosed: with every reason.
    """
    state = desk.job(job)
    worked = work_job(state, desk.now())
    gate = next((gate for gate in worked.gates if gate.step == step), None)
    if gate is None:
        raise InputError(
            [Finding(where="gate", what=f'this job has no gate "{step}"', mend="Gates: cut, glue, release.")]
        )
    reasons = [] if gate.open else [gate.why]
    if step == "glue" and "pull" not in state.steps_done:
        reasons.append('nobody has pulled and checked the parts: look at the hand, then mark the step "pull" done')
    if signed and step not in state.gates_signed:
        reasons.append(f'nobody has signed the gate "{step}"')
    if reasons:
        raise GateClosed(step, reasons)
    return worked


def _kept(desk: Desk, what: What, typed: str, key: str | None) -> tuple[Fact, Worked]:
    """Try a fact on the job as it stands; keep it when the job can still be worked."""
    worked = work_job(_tried(desk, what), desk.now())
    return desk.keep(what, typed, key), worked


def _tried(desk: Desk, what: What) -> Job:
    facts = list(desk.ledger.facts())
    mine = [fact.sequence for fact in facts if fact.site == desk.site]
    trial = Fact(
        site=desk.site,
        sequence=max(mine, default=0) + 1,
        at=facts[-1].at if facts else "",
        by=desk.by,
        typed="",
        what=what,
        key="trial",
        previous_hash="",
        hash="",
    )
    return fold([*facts, trial]).job(what.job)


def _fitted_names(worked: Worked) -> list[str]:
    return names_of(worked.situation.ticket, worked.situation.fitted_now[0])

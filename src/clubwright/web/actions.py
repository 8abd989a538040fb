"""What the page's buttons do: each name is one bench action, or one with the step that a person says done with it."""

from __future__ import annotations

from collections.abc import Callable

from clubwright.errors import Finding, InputError
from clubwright.journal.names import AT
from clubwright.services.actions import bench
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.record.session import Session
from clubwright.ticket.part_readings import OF_THE_CUT_SHAFT
from clubwright.web.guard.limits import whole_number
from clubwright.web.scanned import scan
from clubwright.web.sent import Sent, WrongPartError, needed, one
from clubwright.web.sent_gauges import TAPE_FIELD, sent_figures, sent_gauges

__all__ = ["ACTIONS", "Sent", "WrongPartError", "needed", "one"]


def _key(sent: Sent, part: str = "") -> str | None:
    key = one(sent, "key")
    return f"{key}{part}" if key else None


def _step(session: Session, job: str, sent: Sent, step: str) -> None:
    bench.do_step(session, job, step, key=_key(sent, "-step"))


def do_step(session: Session, job: str, sent: Sent) -> None:
    """A step of the plan is done."""
    bench.do_step(session, job, needed(sent, "step", "step"), note=one(sent, "note"), key=_key(sent))


def skip(session: Session, job: str, sent: Sent) -> None:
    """A step is passed over, and the record says what was left out."""
    skipped = one(sent, "skips") or "nothing was done"
    bench.do_step(session, job, needed(sent, "step", "step"), skipped=skipped, key=_key(sent, "-skip"))


def pull(session: Session, job: str, sent: Sent) -> None:
    """The parts were looked at: the head's hand is kept, and the step is done only when it is the ordered one."""
    hand = needed(sent, "hand", "hand of the head")
    if ticket_of(session.job(job)).club.head.hand != hand:
        bench.change_part(session, job, "head", {"hand": hand}, key=_key(sent))
    if hand != one(sent, "ordered"):
        what = f"this head is {hand}-handed, the ticket is {one(sent, 'ordered')}"
        raise WrongPartError([Finding(where="hand", what=what, mend="Put it back and pull the right one.")])
    _step(session, job, sent, "pull")


def look_again(session: Session, job: str, sent: Sent) -> None:
    """Another head is in the hand: its hand is not looked at yet."""
    bench.change_part(session, job, "head", {"hand": ""}, key=_key(sent))


def another_head(session: Session, job: str, sent: Sent) -> None:
    """The head is out, and another one is in its place: nothing measured of the old one is kept."""
    bench.change_part(session, job, "head", {}, key=_key(sent), another=True)


def figures(session: Session, job: str, sent: Sent) -> None:
    """Figures of parts: one fact for each part whose figures changed."""
    changed = sent_figures(sent, ticket_of(session.job(job)))
    if changed:
        bench.change_parts(session, job, changed, key=_key(sent, "-parts"), gauge=sent_gauges(sent))


def measure(session: Session, job: str, sent: Sent) -> None:
    """Figures of parts were measured, which is the step."""
    figures(session, job, sent)
    _step(session, job, sent, needed(sent, "step", "step"))


def trim(session: Session, job: str, sent: Sent) -> None:
    """The tip is trimmed."""
    bench.trim_shaft(session, job, "tip", needed(sent, "amount", "trim"), key=_key(sent))


def cut(session: Session, job: str, sent: Sent) -> None:
    """The shaft is cut and measured."""
    measured = {name: one(sent, name) for name in (*OF_THE_CUT_SHAFT, "done_at")}
    length, short = needed(sent, "cut_length", "length after the cut"), one(sent, "short") == "yes"
    bench.cut_shaft(session, job, length, _key(sent), short=short, **measured, gauge=sent_gauges(sent))


def tape(session: Session, job: str, sent: Sent) -> None:
    """The tape is laid, as weighed."""
    for row in ticket_of(session.job(job)).tapes:
        name, mass = row.name or "", one(sent, f"{TAPE_FIELD}{row.name or ''}")
        if mass:
            layers = "1" if row.layers is None else row.layers.typed
            bench.lay_tape(session, job, name, layers, mass, key=_key(sent, f"-{name}"), gauge=sent_gauges(sent))
    _step(session, job, sent, "tape")


def read(session: Session, job: str, sent: Sent) -> None:
    """A reading, as echoed and confirmed."""
    bench.note_reading(
        session,
        job,
        needed(sent, "quantity", "what was read"),
        needed(sent, "value", "reading"),
        stage=one(sent, "stage") or "finished",
        instrument=one(sent, "gauge") or None,
        repeats=one(sent, "repeats") or "1",
        key=_key(sent),
        done_at=one(sent, "done_at"),
    )


def decide(session: Session, job: str, sent: Sent) -> None:
    """A person's decision about a reading that does not fit."""
    keep = one(sent, "choice") == "keep"
    fact = _fact_number(needed(sent, "reading", "reading"))
    bench.decide_reading(session, job, fact, keep=keep, reason=one(sent, "reason"), key=_key(sent))


def fit(session: Session, job: str, sent: Sent) -> None:
    """The weights that are on now."""
    names = [name for name in sent.get("weights", []) if name]
    bench.fit_weights(session, job, names, key=_key(sent))


def mix(session: Session, job: str, sent: Sent) -> None:
    """The adhesive is mixed; its clock runs."""
    bench.mix_adhesive(
        session,
        job,
        needed(sent, "part_a", "part A"),
        needed(sent, "part_b", "part B"),
        needed(sent, "temperature", "bench temperature"),
        one(sent, "batch"),
        key=_key(sent),
        done_at=one(sent, "done_at"),
    )


def mix_from(session: Session, job: str, sent: Sent) -> None:
    """The joint is glued from a mix that was made for another one."""
    bench.take_from_mix(session, job, needed(sent, "mix", "mix"), key=_key(sent))


def bad_mix(session: Session, job: str, sent: Sent) -> None:
    """A mix is bad, on every job."""
    bench.call_mix_bad(session, job, needed(sent, "reason", "why it is bad"), one(sent, "mix") or None, key=_key(sent))


def glue(session: Session, job: str, sent: Sent) -> None:
    """The joint is closed; its cure runs."""
    temperature = needed(sent, "temperature", "temperature")
    bench.glue(session, job, temperature, key=_key(sent), done_at=one(sent, "done_at"))


def grip(session: Session, job: str, sent: Sent) -> None:
    """The grip is on."""
    bench.slide_grip(session, job, key=_key(sent), done_at=one(sent, "done_at"))


def bend(session: Session, job: str, sent: Sent) -> None:
    """The angles after the bend."""
    bench.bend_head(
        session,
        job,
        loft=one(sent, "loft") or None,
        lie=one(sent, "lie") or None,
        bounce=one(sent, "bounce") or None,
        key=_key(sent),
        done_at=one(sent, "done_at"),
    )


def sign(session: Session, job: str, sent: Sent) -> None:
    """A gate is signed."""
    bench.sign_gate(session, job, needed(sent, "gate", "gate"), key=_key(sent))


def accept(session: Session, job: str, sent: Sent) -> None:
    """How a target stands is accepted by name; what the page had shown of it comes along."""
    quantity = needed(sent, "target", "what is accepted")
    bench.accept(
        session,
        job,
        quantity,
        name=one(sent, "accepted_by"),
        reason=one(sent, "reason"),
        shown=dict(mark.partition(":")[::2] for mark in one(sent, "marks").split()).get(quantity),
        key=_key(sent),
    )


def finish(session: Session, job: str, sent: Sent) -> None:
    """The job is closed, which is its last step."""
    bench.finish(session, job, key=_key(sent))


def undo(session: Session, job: str, sent: Sent) -> None:
    """One line of the trail is undone: its number, and behind an @ the bench that wrote it where no field says that."""
    number, at, site = needed(sent, "fact", "line").partition(AT)
    fact, site = _fact_number(number), site or one(sent, "site")
    # the lines of a trail stand in one form, with one key
    key = _key(sent, f"-{site}-{fact}" if at else "")
    bench.undo(session, job, fact, reason=one(sent, "reason"), site=site or None, key=key)


def reopen(session: Session, job: str, sent: Sent) -> None:
    """A closed job is opened again."""
    bench.reopen(session, job, one(sent, "reason"), key=_key(sent))


def _fact_number(text: str) -> int:
    number = whole_number(text)
    if number is None:
        raise InputError([Finding(where="trail", what=f'"{text}" is no number of the trail', mend="Use the buttons.")])
    return number


ACTIONS: dict[str, Callable[[Session, str, Sent], str | None]] = {
    "step": do_step,
    "skip": skip,
    "look again": look_again,
    "another head": another_head,
    "pull": pull,
    "scan": scan,
    "figures": figures,
    "measure": measure,
    "trim": trim,
    "cut": cut,
    "tape": tape,
    "read": read,
    "decide": decide,
    "fit": fit,
    "mix": mix,
    "mix from": mix_from,
    "bad mix": bad_mix,
    "glue": glue,
    "grip": grip,
    "bend": bend,
    "sign": sign,
    "accept": accept,
    "finish": finish,
    "undo": undo,
    "withdraw": undo,
    "reopen": reopen,
}

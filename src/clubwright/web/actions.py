"""What the page's buttons do: each name is one action of the register, given what its form sent."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, get_origin

import msgspec

from clubwright.errors import Finding, InputError, StepNotReady
from clubwright.services.actions.door import Kept, act
from clubwright.services.actions.register.actions import ACTIONS as REGISTER
from clubwright.services.actions.register.fields import Said, fields_of
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.step_needs import known_steps
from clubwright.services.record.session import Session
from clubwright.web.guard.limits import whole_number
from clubwright.web.scanned import scan
from clubwright.web.sent import Sent, WrongPartError, line_of_trail, marks, needed, one
from clubwright.web.sent_gauges import sent_figures, sent_gauges
from clubwright.web.typed import TAPE_FIELD

__all__ = ["ACTIONS", "Sent", "WrongPartError", "needed", "one"]

KEY_OF = {"step": "done", "mix from": "mix-from", "bad mix": "bad-mix", "withdraw": "undo"}
"""What a button calls an action that the register calls otherwise."""


def _do(session: Session, job: str, sent: Sent, action: str, part: str = "", **given: Any) -> Kept:
    """Do an action with what the form says of its fields, and what is given here in their place."""
    entry, key = REGISTER[action], one(sent, "key")
    fields = (field for field in fields_of(entry.payload) if field.name not in given)
    values = {field.name: value for field in fields if (value := _value(sent, field)) is not msgspec.UNSET}
    return act(session, action, entry.payload(job=job, **values, **given), f"{key}{part}" if key else None)


def _value(sent: Sent, field: Said) -> Any:
    """Read one field of an action from a form; what an empty one means is left to the register."""
    text = one(sent, field.page)
    if field.choices is not None:
        return one(sent, field.option) == field.choices[0]
    if field.kind is bool:
        return text != "no" if field.default is True else text == "yes"
    if get_origin(field.kind) is list:
        return (
            [name for name in sent.get(field.page, []) if name] if field.needed or field.page in sent else msgspec.UNSET
        )
    if field.needed and not field.late:
        text = needed(sent, field.page, field.label)
    if not text:
        return "" if field.needed else msgspec.UNSET
    return _fact_number(text) if field.kind is int else text


def _plain(name: str) -> Callable[[Session, str, Sent], None]:
    def do(session: Session, job: str, sent: Sent) -> None:
        _do(session, job, sent, KEY_OF.get(name, name))

    do.__doc__ = REGISTER[KEY_OF.get(name, name)].says
    return do


def do_step(session: Session, job: str, sent: Sent) -> None:
    """A step of the plan is done."""
    _do(session, job, sent, "done", skipped=None)


def go_on(session: Session, job: str, sent: Sent) -> None:
    """The step ends with the action that was just done."""
    _do(session, job, sent, "done", "-then", skipped=None)


def known(session: Session, job: str, sent: Sent) -> None:
    """The steps from this one on that only measure are done: all that they ask for is known."""
    standing = session.job(job)
    for step in known_steps(answer_job(standing, session.now()), standing):
        _do(session, job, sent, "done", f"-{step}", step=step, skipped=None)


def skip(session: Session, job: str, sent: Sent) -> None:
    """A step is passed over, and the record says what was left out."""
    _do(session, job, sent, "done", "-skip", skipped=one(sent, "skips") or "nothing was done")


def pull(session: Session, job: str, sent: Sent) -> None:
    """The parts were looked at: the head's hand is kept, and the step is done only when it is the ordered one."""
    try:
        lacks = _do(session, job, sent, "pull").lacks
    except StepNotReady as refused:
        lacks = refused.findings
    if lacks:
        raise WrongPartError(lacks)


def look_again(session: Session, job: str, sent: Sent) -> None:
    """Another head is in the hand: its hand is not looked at yet."""
    _do(session, job, sent, "measure", section="head", values={"hand": ""})


def another_head(session: Session, job: str, sent: Sent) -> None:
    """The head is out, and another one is in its place: nothing measured of the old one is kept; who said so, and why."""
    _do(session, job, sent, "measure", section="head", values={}, another=True)


def figures(session: Session, job: str, sent: Sent) -> None:
    """Figures of parts: one fact for each part whose figures changed."""
    _figures(session, job, sent, None)


def measure(session: Session, job: str, sent: Sent) -> None:
    """Figures of parts were measured, which is the step."""
    _figures(session, job, sent, needed(sent, "step", "step"))


def _figures(session: Session, job: str, sent: Sent, step: str | None) -> None:
    changed = sent_figures(sent, ticket_of(session.job(job)))
    values = {f"{section}.{key}": text for section, part in changed.items() for key, text in part.items()}
    if values or step:
        _stepped(step, _do(session, job, sent, "figures", values=values, gauges=sent_gauges(sent), step=step))


def tape(session: Session, job: str, sent: Sent) -> None:
    """The tape is laid, as weighed."""
    kept, gauge = None, sent_gauges(sent).get("mass")
    for row in ticket_of(session.job(job)).tapes:
        name, mass = row.name or "", one(sent, f"{TAPE_FIELD}{row.name or ''}")
        if mass:
            layers = "1" if row.layers is None else row.layers.typed
            kept = _do(session, job, sent, "tape", f"-{name}", name=name, layers=layers, mass=mass, gauge=gauge)
    if kept is None or (kept.step is None and not kept.lacks and "tape" not in session.job(job).steps_done):
        kept = _do(session, job, sent, "done", step="tape", skipped=None)
    _stepped("tape", kept)


def _stepped(step: str | None, kept: Kept) -> None:
    """Say what a step still needs whose figures were kept."""
    if kept.lacks:
        raise StepNotReady(step or "", kept.lacks)


def trim(session: Session, job: str, sent: Sent) -> None:
    """An end is trimmed: the tip, where the form says no other."""
    _do(session, job, sent, "trim", end=one(sent, "end") or "tip")


def cut(session: Session, job: str, sent: Sent) -> None:
    """The shaft is cut and measured."""
    gauges = sent_gauges(sent)
    _do(session, job, sent, "cut", mass_gauge=gauges.get("mass"), balance_gauge=gauges.get("length"))


def accept(session: Session, job: str, sent: Sent) -> None:
    """How a target stands is accepted by name; what the page had shown of it comes along."""
    _do(session, job, sent, "accept", shown=marks(sent, "marks").get(one(sent, "target")))


def undo(session: Session, job: str, sent: Sent) -> None:
    """One line of the trail is undone: its number, and behind an @ the bench that wrote it where no field says that."""
    number, bench_of_line = line_of_trail(needed(sent, "fact", "line"))
    fact, site = _fact_number(number), bench_of_line or one(sent, "site")
    # the lines of a trail stand in one form, with one key
    part = "" if bench_of_line is None else f"-{site}-{fact}"
    _do(session, job, sent, "undo", part, fact=fact, site=site or None)


def _fact_number(text: str) -> int:
    number = whole_number(text)
    if number is None:
        raise InputError([Finding(where="trail", what=f'"{text}" is no number of the trail', mend="Use the buttons.")])
    return number


_SAME = (
    "read",
    "decide",
    "fit",
    "mix",
    "mix from",
    "bad mix",
    "glue",
    "grip",
    "bend",
    "sign",
    "finish",
    "reopen",
)
"""Buttons whose forms say the fields of their action, and nothing else."""

ACTIONS: dict[str, Callable[[Session, str, Sent], str | None]] = {
    "step": do_step,
    "skip": skip,
    "known": known,
    "look again": look_again,
    "another head": another_head,
    "pull": pull,
    "scan": scan,
    "figures": figures,
    "measure": measure,
    "trim": trim,
    "cut": cut,
    "tape": tape,
    "accept": accept,
    "undo": undo,
    "withdraw": undo,
    **{name: _plain(name) for name in _SAME},
}

"""The trail of a job as the bench page shows it, and what its last undo took back."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.journal.facts import Place
from clubwright.journal.job import Job, TrailLine
from clubwright.journal.times import to_the_minute
from clubwright.services.record.done_at import done_text

NOTHING_VOID: Mapping[Place, str] = {}

Lines = dict[Place, TrailLine]


class TrailRow(msgspec.Struct, frozen=True, kw_only=True):
    """One line of the trail.

    Attributes:
        number: Of its fact.
        site: Bench that wrote it.
        at: When.
        by: Who.
        text: What, in words.
        undone: Whether it no longer stands.
        undo: Action that takes it back; empty where nothing does.
        back: Whether taking it back brings something back that it had undone.
        void: Why a signature no longer holds; empty while it does.
    """

    number: int
    site: str
    at: str
    by: str
    text: str
    undone: bool
    undo: str
    back: bool = False
    void: str = ""


_UNDO = {
    "ticket taken": "",
    "club came back": "",
    "gate signed": "withdraw",
    "deviation accepted": "withdraw",
    "order changed": "withdraw",
}
"""What takes a line back, by its kind; a signature is withdrawn by somebody who may sign."""


def trail_rows(job: Job, void: Mapping[Place, str] = NOTHING_VOID) -> tuple[TrailRow, ...]:
    """Return the lines of a trail, newest first.

    Args:
        job: Whose trail.
        void: Why signatures no longer hold, by their facts.
    """
    rows: list[TrailRow] = []
    lines = _by_place(job)
    for line in reversed(job.trail):
        undid = _undid(line, lines)
        kinds = {each.kind for each in undid} or {line.kind}
        # to bring a signature back is to sign
        ways = {_UNDO.get(kind, "undo") for kind in kinds} - {""}
        rows.append(
            TrailRow(
                number=line.sequence,
                site=line.site,
                at=to_the_minute(line.at),
                by=line.by,
                text=_words(line, lines),
                undone=line.undone,
                undo="" if line.undone or job.finished is not None or not ways else max(ways),
                back=line.kind == "undone",
                void=void.get((line.site, line.sequence), ""),
            )
        )
    return tuple(rows)


def just_undone(job: Job) -> str:
    """Say what the last line took back; empty where that is no undo, or the undo of one."""
    last = job.trail[-1] if job.trail else None
    return "" if last is None or last.kind != "undone" else _taken_back(last, _by_place(job)) or last.text


def _by_place(job: Job) -> Lines:
    return {(line.site, line.sequence): line for line in job.trail}


def _undid(line: TrailLine, lines: Lines) -> list[TrailLine]:
    return [lines[place] for place in line.undid]


def _taken_back(line: TrailLine, lines: Lines) -> str:
    return ", ".join(_words(other, lines) for other in _undid(line, lines) if other.kind != "undone")


def _words(line: TrailLine, lines: Lines) -> str:
    """Say a line in words: a quantity by its name, an undo by what it undid or brought back."""
    if line.kind == "undone":
        brought = [_taken_back(other, lines) for other in _undid(line, lines) if other.kind == "undone"]
        back = ", ".join(filter(None, brought))
        taken = _taken_back(line, lines)
        said = [f"undid: {taken}" if taken else "", f"brought back: {back}" if back else ""]
        words = "; ".join(filter(None, said)) or line.text
        # a job is opened again with words of its own
        return f"{line.text} ({words})" if any(other.kind == "finished" for other in _undid(line, lines)) else words
    if line.read is not None and line.read[0] in QUANTITIES:
        key, value = line.read
        return f"read {QUANTITIES[key].name} {value}{done_text(line.done_at)}"
    return line.text

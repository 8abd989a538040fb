"""Between a row of the table and a fact: a row that is not the fact that was written is told, never taken for one."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec
from sqlalchemy import RowMapping

from clubwright.errors import Finding, RecordError
from clubwright.journal.chain import ENVELOPE, GO_BACK, canonical, hash_over, payload, plain
from clubwright.journal.facts import Fact, Place, Span, What, kind_of
from clubwright.services.record.ledger import Damage, DamagedError

Row = RowMapping | Mapping[str, Any]
_SAME = (*ENVELOPE, "hash")
_STORED: msgspec.json.Decoder[What] = msgspec.json.Decoder(What)
ERASED = "erased"
"""Beside the content of a fact in its row: what was erased in it. No kind of fact has such a field."""
_UNREADABLE = "\N{REPLACEMENT CHARACTER}"


def row_of(fact: Fact) -> dict[str, Any]:
    """Return the row that keeps a fact."""
    same = {name: getattr(fact, name) for name in _SAME}
    what = plain(fact.what)
    if fact.erased:
        what[ERASED] = msgspec.to_builtins(fact.erased)
    return {**same, "kind": kind_of(fact.what), "job": fact.what.job, "what": what}


def fact_of(row: Row) -> Fact:
    """Read a fact back.

    Raises:
        DamagedError: when it is not the one that was written.
    """
    found = judged(row)
    if isinstance(found, Damage):
        raise DamagedError([found])
    return found


def judged(row: Row) -> Fact | Damage:
    """Read a fact back, or say why the row is not the one that was written: it cannot be read, or its hash is another."""
    if not all(isinstance(row[name], int if name == "sequence" else str) for name in _SAME):
        return _damage(row, "this row holds no fact", None)
    erased: tuple[Span, ...] = ()
    try:
        what, stored, erased = _content(row["what"])
        if not erased and hash_over({name: row[name] for name in ENVELOPE}, stored) != row["hash"]:
            return _damage(row, "this fact was changed after it was written", what)
    except RecordError as refused:
        return _damage(row, f"this fact cannot be read: {refused}", None)
    if (kind_of(what), what.job) != (row["kind"], row["job"]):
        return _damage(row, "the columns kind and job contradict the fact itself", what)
    return Fact(what=what, erased=erased, **{name: row[name] for name in _SAME})


def _content(stored: Any) -> tuple[What, bytes, tuple[Span, ...]]:
    """Return what happened, the bytes that the hash is over, and what was erased; such bytes are there no more then.

    Raises:
        RecordError: when it is none that this version knows.
    """
    if isinstance(stored, Mapping):  # PostgreSQL keeps the data, not their spelling
        return _parted(stored) if ERASED in stored else (payload(stored), canonical(dict(stored)), ())
    if not isinstance(stored, str):
        raise RecordError("it has no content")
    try:
        return _STORED.decode(stored), stored.encode("utf-8"), ()
    except (msgspec.MsgspecError, UnicodeError, RecursionError) as refused:
        try:
            plainly = msgspec.json.decode(stored)
        except (msgspec.MsgspecError, UnicodeError, RecursionError):
            plainly = None
        if isinstance(plainly, Mapping):
            return _parted(plainly)  # raises where nothing was erased, and says what a newer version may have written
        raise RecordError(f"its content is no JSON ({refused})") from refused


def _parted(stored: Mapping[str, Any]) -> tuple[What, bytes, tuple[Span, ...]]:
    """Read content in which texts were erased."""
    rest = {name: value for name, value in stored.items() if name != ERASED}
    try:
        spans = msgspec.convert(stored.get(ERASED, []), tuple[Span, ...])
    except msgspec.ValidationError as refused:
        raise RecordError(f"what was erased in it cannot be read ({refused})") from refused
    what = payload(rest)
    if not spans:
        raise RecordError("its content is not as this program writes it")
    return what, b"", spans


def _damage(row: Row, what: str, content: What | None) -> Damage:
    site, sequence, job = row["site"], row["sequence"], row["job"]
    known = isinstance(site, str) and isinstance(sequence, int)
    place: Place | None = (site, sequence) if known else None
    said = {job} if isinstance(job, str) and job and _UNREADABLE not in job else set()
    jobs = said | ({content.job} if content is not None else set())
    where = f"record {site}/{sequence}" if known else "record file"
    return Damage(finding=Finding(where=where, what=what, mend=GO_BACK), jobs=tuple(sorted(jobs)), place=place)

"""Between a row of the table and a fact."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec
from sqlalchemy import RowMapping

from clubwright.errors import Finding, RecordError
from clubwright.journal.chain import payload, plain
from clubwright.journal.facts import Fact, kind_of

_SAME = ("site", "sequence", "at", "by", "typed", "key", "previous_hash", "hash")


def row_of(fact: Fact) -> dict[str, Any]:
    """Return the row that keeps a fact."""
    same = {name: getattr(fact, name) for name in _SAME}
    return {**same, "kind": kind_of(fact.what), "job": fact.what.job, "what": plain(fact.what)}


def fact_of(row: RowMapping | Mapping[str, Any]) -> Fact:
    """Read a fact back.

    Raises:
        RecordError: when the row is none that this version wrote.
    """
    what = row["what"]
    if not isinstance(what, Mapping):
        raise RecordError(f"fact {row['site']}/{row['sequence']} has no readable content: verify the record")
    return Fact(what=payload(what), **{name: row[name] for name in _SAME})


def judged(row: RowMapping) -> Fact | Finding:
    """Read a fact back for verification: what cannot be read, or contradicts its own row, is a finding."""
    where = f"record {row['site']}/{row['sequence']}"
    mend = "Keep this file as it is, and go back to the last backup that verifies."
    try:
        fact = fact_of(row)
    except (RecordError, msgspec.ValidationError) as refused:
        return Finding(where=where, what=f"this fact cannot be read: {refused}", mend=mend)
    if (kind_of(fact.what), fact.what.job) != (row["kind"], row["job"]):
        return Finding(where=where, what="the columns kind and job contradict the fact itself", mend=mend)
    return fact

"""What a person answered for on a job: a signature, one that no longer stands, and a deviation accepted by name."""

from __future__ import annotations

from typing import Any

import msgspec

from clubwright.journal.facts import DeviationAccepted


class Signed(msgspec.Struct, frozen=True, kw_only=True):
    """A signature: who answered for what, and what they were shown."""

    sequence: int
    site: str
    at: str
    by: str
    shown: dict[str, Any]


class Voided(msgspec.Struct, frozen=True, kw_only=True):
    """A signature that was taken away by what happened to the club since.

    Attributes:
        signed: The signature.
        why: What happened, in a few words.
    """

    signed: Signed
    why: str


class Accepted(msgspec.Struct, frozen=True, kw_only=True):
    """A deviation accepted by name.

    Attributes:
        what: The fact: which target, who accepts it, why, and what was shown.
        signed: Who wrote it down, and when.
        club_changed: Whether anything was changed on the club since.
    """

    what: DeviationAccepted
    signed: Signed
    club_changed: bool = False

"""What is known, as the key of what follows from it, so that the same is worked once."""

from __future__ import annotations

from hashlib import sha256
from typing import Any, Generic, TypeVar

import msgspec

State = TypeVar("State")


class StateKey(Generic[State]):
    """A struct, or several, equal to another where all that is in them is equal.

    Compared by the SHA-256 of its canonical JSON (keys in order, floats by their shortest exact form): structs that hold
    tables cannot be hashed themselves.
    """

    __slots__ = ("digest", "state")

    def __init__(self, state: State) -> None:
        self.state = state
        self.digest = sha256(msgspec.json.encode(state, order="deterministic")).digest()

    def __eq__(self, other: Any) -> bool:
        return isinstance(other, StateKey) and other.digest == self.digest

    def __hash__(self) -> int:
        return hash(self.digest)

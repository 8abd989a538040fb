"""The outcome of a decision: the verdict, with every number that led to it."""

from __future__ import annotations

from typing import Literal

import msgspec

Outcome = Literal["within", "outside", "cannot tell"]

ROUNDING = 1e-12
"""Relative error of a number that went through a change of units: no gauge sees it, so no verdict may hang on it."""


class Verdict(msgspec.Struct, frozen=True, kw_only=True):
    """What a reading proves about its limits; numbers in the unit they were given in.

    Attributes:
        verdict: ``within``, ``outside`` or ``cannot tell``.
        named: A sentence that names the rule.
        figures: A sentence with its numbers.
        settle: What would settle an open verdict, in sentences, and whether the tolerance is beyond this gauge; empty when
            there is nothing to say.
        margin: Distance from the reading to the nearest limit, positive inside.
        guard: Guard band w.
        u: Standard uncertainty of the reading.
        measured: The reading.
        low: Lower limit, minus infinity when there is none.
        high: Upper limit, infinity when there is none.
        guard_factor: w / u of the rule.
    """

    verdict: Outcome
    named: str
    figures: str
    settle: str
    margin: float
    guard: float
    u: float
    measured: float
    low: float
    high: float
    guard_factor: float

    @property
    def rule(self) -> str:
        """Both sentences about the rule."""
        return f"{self.named} {self.figures}"

    @property
    def can_prove(self) -> bool:
        """False when even a reading in the middle of the tolerance would leave the question open."""
        return 2 * self.guard <= (self.high - self.low) * (1 + ROUNDING)


def plain(value: float) -> str:
    """Write a number in its own unit with six significant digits: the default when no notation is asked for."""
    return f"{value:.6g}"

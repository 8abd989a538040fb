"""Checks that a number handed to a plan can be one: finite, and on the right side of zero."""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite

from clubwright.errors import Finding, InputError


def positive(where: str, value: float, mend: str) -> list[Finding]:
    """Return a finding unless `value` is a finite number above zero."""
    if isfinite(value) and value > 0:
        return []
    return [Finding(where=where, what=f"{value!r} is not a number above zero", mend=mend)]


def not_negative(where: str, value: float, mend: str) -> list[Finding]:
    """Return a finding unless `value` is a finite number, zero or above."""
    if isfinite(value) and value >= 0:
        return []
    return [Finding(where=where, what=f"{value!r} is not zero or a number above it", mend=mend)]


def refuse(findings: Iterable[Finding]) -> None:
    """Raise every finding at once, if there is any.

    Raises:
        InputError: There is at least one finding.
    """
    found = tuple(findings)
    if found:
        raise InputError(found)

"""Amounts that go on the record beside the ticket, checked before they are written: trims, mixes, temperatures."""

from __future__ import annotations

import math
from typing import Any

from clubwright.errors import Finding, InputError
from clubwright.notation import parse

ABOVE_ZERO = ("length", "mass")


def amount_findings(*amounts: tuple[str, str, str]) -> list[Finding]:
    """Say what is wrong with amounts as typed, each given as (kind of notation, what it is, text).

    Masses and lengths must be above zero.
    """
    findings: list[Finding] = []
    for kind, where, text in amounts:
        try:
            value = parse(kind, text, where=where).value
        except InputError as refused:
            findings += refused.findings
            continue
        if kind in ABOVE_ZERO and value <= 0:
            findings.append(Finding(where=where, what=f'"{text}" is not above zero', mend="Write what was measured."))
    return findings


def is_number(text: Any) -> bool:
    """True for what can be read again as a finite number."""
    try:
        return math.isfinite(float(text))
    except (TypeError, ValueError):
        return False

"""A gate and the checks it is made of: what was looked at, its figures, and how to mend what is not met.

A gate never says more than its checks: what nobody measured has no check, or one that is not met.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.errors import ClauseFinding, Finding
from clubwright.planning.said.phrases import Listed, Value, Word, phrase

GateKey = Literal["cut", "glue", "release"]

CheckKey = Literal[
    "club",
    "target",
    "bore to ground",
    "bore depth",
    "cap",
    "lie",
    "shaft",
    "taper",
    "bends",
    "butt trim",
    "hand",
    "loft",
    "grip core",
    "length",
    "readings",
    "dry reading",
    "chance",
    "tip weight",
    "hosel",
    "fit",
    "pull",
    "mix",
    "joint",
    "cure",
    "time",
]

CHECKS: dict[CheckKey, str] = {
    "club": "one job on the club",
    "target": "target length",
    "bore to ground": "bottom of bore to ground (BBG)",
    "bore depth": "bore depth",
    "cap": "cap",
    "lie": "lie",
    "shaft": "length of the raw shaft",
    "taper": "taper tip untrimmed",
    "bends": "bends before the cut",
    "butt trim": "trims of the butt",
    "hand": "hand",
    "loft": "loft",
    "grip core": "grip core",
    "length": "length",
    "readings": "every reading",
    "dry reading": "dry reading",
    "chance": "chance",
    "tip weight": "tip weight",
    "hosel": "hosel",
    "fit": "tip in bore",
    "pull": "parts laid out",
    "mix": "mix",
    "joint": "head glued",
    "cure": "cure",
    "time": "time at which the head was glued",
}
"""Every check there is, with its name in a sentence."""

BY_WORD: tuple[CheckKey, ...] = ("time",)
"""Checks that rest on a person's word alone: whoever signs is shown it."""


class Lack(Finding, frozen=True, kw_only=True):
    """A finding that keeps a step from being done.

    Attributes:
        short: It in a few words, for a button; empty where ``what`` is as short.
    """

    short: str = ""


class Check(msgspec.Struct, frozen=True, kw_only=True):
    """One check that was made.

    Attributes:
        key: Which.
        met: Whether what it asks for is so.
        figures: What was looked at: label (empty for the thing itself) and figure.
        what: What is wrong, for one that is not met.
        mend: How to mend it; empty where `what` says it all.
        short: What is wrong in a few words, for a button; empty where `what` is as short.
    """

    key: CheckKey
    met: bool
    figures: tuple[tuple[Value, Value], ...] = ()
    what: Value = ""
    mend: Value = ""
    short: Value = ""

    @property
    def name(self) -> str:
        """Its name in a sentence."""
        return CHECKS[self.key]

    @property
    def reason(self) -> Value:
        """What is wrong and how to mend it, in one line; empty when it is met."""
        return phrase("check.reason", what=self.what, mend=self.mend) if self.mend else self.what

    @property
    def said(self) -> Listed:
        """Its figures, to be said."""
        return Listed(
            tuple(
                phrase("check.figure", label=label, figure=figure) if label and figure else label or figure
                for label, figure in self.figures
            )
        )


class Gate(msgspec.Struct, frozen=True, kw_only=True):
    """One gate: the step it guards, and every check that was made for it.

    Attributes:
        step: Which.
        checks: The checks made; what could not be checked and is not asked for has none.
    """

    step: GateKey
    checks: tuple[Check, ...]

    @property
    def open(self) -> bool:
        """True when every check is met."""
        return all(check.met for check in self.checks)

    @property
    def reasons(self) -> tuple[Value, ...]:
        """Why it is closed, every reason with its mend."""
        return tuple(check.reason for check in self.checks if not check.met)

    @property
    def why(self) -> Value:
        """Every reason while it is closed; else what was checked, and nothing more."""
        if not self.open:
            return Listed(self.reasons, "semicolon")
        return phrase("gate.checked", checks=Listed(tuple(_checked(check) for check in self.checks)))


def _checked(check: Check) -> Value:
    name = Word("check", check.key)
    return phrase("check.by word", name=name, figures=check.said) if check.key in BY_WORD else name


def met(key: CheckKey, *figures: tuple[Value, Value]) -> Check:
    """Return a check that is met, with what was looked at."""
    return Check(key=key, met=True, figures=figures)


def unmet_by(key: CheckKey, finding: Finding) -> Check:
    """Return a check that a finding keeps from being met; its mend is a clause of a gate's reason where it is one."""
    return unmet(key, finding.what, finding.clause if isinstance(finding, ClauseFinding) else finding.mend)


def unmet(key: CheckKey, what: Value, mend: Value = "", *figures: tuple[Value, Value], short: Value = "") -> Check:
    """Return a check that is not met: what is wrong, and how to mend it."""
    return Check(key=key, met=False, figures=figures, what=what, mend=mend, short=short)

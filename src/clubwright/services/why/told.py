"""Why a number is what it is: its budget, the readings that moved it and whose, its equation, page, source and tests.

A number goes by its place in the answer: ``finished/swing_weight``, ``stages/dry, gripped/swing_weight``,
``verdicts/loft``, ``advice/leave``, ``cut``, ``gates/glue``, ``bends/lie``, ``minutes``; what a gauge should show by
``expected/STEP/STAGE/QUANTITY``, the figures of a card by ``steps/STEP``, a number of a part by ``belief/UNKNOWN``. A bare
quantity is that of the finished club. Definition of a share: docs/theory/belief.md, "A budget".
"""

from __future__ import annotations

from clubwright.notation import decimal_marked
from clubwright.services.told.base import Told
from clubwright.services.why.budgets import WhyReading, WhyRow
from clubwright.services.why.formulas.formulas import WhyFormula


class WhyFigure(Told, frozen=True, kw_only=True):
    """A figure that a number is made of or goes with.

    Attributes:
        name: What it is.
        text: In trade notation, or as typed.
        key: Its own key, where it has one.
        formula: Name of the equation that gives it; empty where it is as typed, or has a key of its own.
    """

    name: str
    text: str
    key: str = ""
    formula: str = ""


class Why(Told, frozen=True, kw_only=True):
    """Everything behind one number, or behind the figures of one card.

    Attributes:
        key: Its key.
        name: What it is.
        text: The number in trade notation; empty where several figures are told.
        mean, sd: In SI; None where there is none.
        formulas: The equations behind it, its own first.
        rows: Its budget, the largest share first; none for what rests on no belief.
        readings: Every reading of the club, the one that sharpened it most first; none where no reading can move it.
        inputs: What was typed on the ticket or taken for it.
        figures: The figures of the card, or what the number goes with.
        note: What has to be known about it.
    """

    key: str
    name: str
    text: str = ""
    mean: float | None = None
    sd: float | None = None
    formulas: tuple[WhyFormula, ...] = ()
    rows: tuple[WhyRow, ...] = ()
    readings: tuple[WhyReading, ...] = ()
    inputs: tuple[WhyFigure, ...] = ()
    figures: tuple[WhyFigure, ...] = ()
    note: str = ""


LEAST_SHARE = 1e-3
"""Rows with a smaller share than this, either way, are told together for a person; a program gets all of them."""


def main_rows(why: Why) -> tuple[tuple[WhyRow, ...], int, float]:
    """Return the rows that matter to a person, how many others there are, and what those come to."""
    kept = tuple(row for row in why.rows if abs(row.share) >= LEAST_SHARE)
    left = [row.share for row in why.rows if abs(row.share) < LEAST_SHARE]
    return kept, len(left), sum(left)


def share_text(share: float) -> str:
    """Write a share for a person: ``72.1 %``."""
    return decimal_marked(f"{100 * share:.1f} %")

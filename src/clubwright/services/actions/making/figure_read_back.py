"""Say what a figure that is typed on a card is understood as, and what it goes against, before it is kept.

A cut that is too short, or a bend the wrong way, is cheapest to see while its figure is typed: what is told of it is worked
from the mark of the cut and from the plan of the bends, and stays a question, since the figure may be a slip of the finger.
"""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import ANGLES
from clubwright.errors import Finding, InputError
from clubwright.notation import parse
from clubwright.notation.register import KINDS
from clubwright.planning.bending.advice import bend_plan_of
from clubwright.planning.bending.plan import LEAST_BEND_RAD
from clubwright.planning.said.phrases import Phrase, at_mark, figure, phrase
from clubwright.services.actions.making.cutting import MOST_SHORT_M
from clubwright.services.jobs.job_answer import JobAnswer

WRONG_WAY_RAD = 2 * LEAST_BEND_RAD
"""An angle that went the wrong way by more than the finest step of a bench gauge is told (estimate of ours)."""


class FigureEcho(msgspec.Struct, frozen=True, kw_only=True):
    """What was understood of a figure.

    Attributes:
        text: In words, such as ``34 1/64 in = 863.998 mm``; empty when it was not understood.
        against: What of the work it goes against; None for most figures.
        findings: Why it was not understood.
    """

    text: str = ""
    against: Phrase | None = None
    findings: tuple[Finding, ...] = ()


def read_figure_back(worked: JobAnswer, name: str, kind: str, text: str) -> FigureEcho:
    """Read a figure as the bench's action will, and hold it against the work it belongs to.

    Args:
        worked: The job, worked.
        name: Of the field, as the card's form has it, such as ``cut_length``, ``loft`` or ``head.mass``.
        kind: Its kind of notation.
        text: In trade notation.
    """
    if kind not in KINDS:
        finding = Finding(where=name, what=f'"{kind}" is no kind of figure', mend="Type it on the card.")
        return FigureEcho(findings=(finding,))
    try:
        understood = parse(kind, text, where=name)
    except InputError as refused:
        return FigureEcho(findings=refused.findings)
    against = None
    if name == "cut_length":
        against = _against_the_mark(worked, understood.value)
    elif name in ANGLES:
        against = _against_the_bend(worked, name, understood.value)
    return FigureEcho(text=understood.echo, against=against)


def _against_the_mark(worked: JobAnswer, length_m: float) -> Phrase | None:
    """Say that a cut is off its mark by more than the club's length may be; None where it is not, or no mark is known."""
    if worked.cut is None:
        return None
    goal = worked.club_state.goal("length")
    allowed_m = MOST_SHORT_M if goal is None else goal.half_width
    mark_m = worked.cut.shaft_length_m
    if abs(length_m - mark_m) <= allowed_m:
        return None
    key = "echo.cut short" if length_m < mark_m else "echo.cut long"
    return phrase(key, off=at_mark(abs(length_m - mark_m)), mark=at_mark(mark_m))


def _against_the_bend(worked: JobAnswer, angle: str, value_rad: float) -> Phrase | None:
    """Say that an angle has gone the other way than its bend is planned; None where it has not, or none is planned."""
    club_state = worked.club_state
    plan = bend_plan_of(club_state)
    bend = None if plan is None else next((bend for bend in plan.bends if bend.angle == angle), None)
    if bend is None:
        return None
    moved_rad = value_rad - club_state.belief.mean_of(f"head.{angle}_rad")
    if moved_rad * bend.amount_rad >= 0 or abs(moved_rad) <= WRONG_WAY_RAD:
        return None
    return phrase("echo.wrong way", was=figure("angle", value_rad - moved_rad), planned=bend.amount)

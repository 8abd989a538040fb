"""The rule under the club: inches above, millimetres below, both from the outer face of the grip cap."""

from __future__ import annotations

from math import floor

from clubwright.labels.sheet import svg
from clubwright.units import INCH_M

RULE_MM = 6.4
FIGURE_MM = 1.75


def rule(cap_x: float, y: float, mm_per_m: float, length_m: float) -> list[str]:
    """Return the rule's elements.

    Args:
        cap_x: Where zero stands on the paper, mm.
        y: Its upper edge, mm.
        mm_per_m: mm of paper per m of club.
        length_m: Length to be covered; the rule ends at the next half inch.
    """
    half_inches = floor(length_m / INCH_M * 2 - 1e-9) + 1
    end = cap_x + half_inches / 2 * INCH_M * mm_per_m
    middle = y + RULE_MM / 2
    drawn = [
        svg.element(
            "rect",
            x=float(cap_x),
            y=float(y),
            width=end - cap_x,
            height=RULE_MM,
            class_="rule",
            fill=svg.PAPER,
            stroke=svg.INK,
            stroke_width=0.2,
        ),
    ]
    # one path for each scale: a line apiece would be two thirds of a page that has to load fast
    inch_ticks, mm_ticks = [], []
    for half in range(half_inches + 1):
        x, inch = cap_x + half / 2 * INCH_M * mm_per_m, half // 2
        numbered = half % 4 == 0
        reach = 0.7 if half % 2 else 1.5 if numbered else 1.1
        inch_ticks.append(_tick(x, y, reach))
        if numbered and 0 < half < half_inches:
            drawn.append(_figure(x, middle - 0.05, str(inch)))
    for centimetre in range(floor(half_inches / 2 * INCH_M * 100) + 1):
        x = cap_x + centimetre * 0.01 * mm_per_m
        numbered = centimetre % 10 == 0
        reach = 1.5 if numbered else 1.1 if centimetre % 5 == 0 else 0.7
        foot = y + RULE_MM
        mm_ticks.append(_tick(x, foot, -reach))
        if numbered and centimetre > 0 and x < end - 4:
            drawn.append(_figure(x, foot - 1.65, str(centimetre * 10)))
    drawn += [_ticks("tick-in", inch_ticks), _ticks("tick-mm", mm_ticks)]
    drawn.append(_figure(cap_x + 1.6, middle - 0.05, "in"))
    drawn.append(_figure(cap_x + 2.2, y + RULE_MM - 1.65, "mm"))
    return drawn


def _tick(x: float, y: float, reach: float) -> str:
    return f"M{svg.number(x)},{svg.number(y)}v{svg.number(reach)}"


def _ticks(scale: str, ticks: list[str]) -> str:
    return svg.element("path", d="".join(ticks), class_=scale, fill="none", stroke=svg.INK, stroke_width=0.12)


def _figure(x: float, y: float, words: str) -> str:
    return svg.text(x, y, words, class_="figure", font_size=FIGURE_MM, text_anchor="middle")

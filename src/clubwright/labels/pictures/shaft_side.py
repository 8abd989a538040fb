"""The shaft from the side, tip at the left: its waste, the bore and the jaws of the clamp, to scale along its length."""

from __future__ import annotations

from itertools import pairwise

from clubwright.labels.sheet import svg
from clubwright.labels.sheet.drawing import MARGIN_MM, SCALES
from clubwright.labels.sheet.paper import BUTT_RADIUS_M, TIP_RADIUS_M
from clubwright.labels.sheet.rule import RULE_MM
from clubwright.services.shaft.curves import ShaftCurve

AXIS_MM = 9.0
"""Room for the figures of the stiffness, left of the tip."""
PLOT_MM = 30.0
SHAFT_MM = 9.0
"""Room for the shaft between curve and rule."""
HOSEL_RADIUS_M = 0.0068
JAW_MM = 1.6


class LengthPaper:
    """Where things lie: x of a place from the raw tip, y of a stiffness."""

    def __init__(self, curve: ShaftCurve, width_mm: float, head_mm: float) -> None:
        room = width_mm - 2 * MARGIN_MM - AXIS_MM
        end_m = curve.points[-1][0]
        self.scale = next((s for s in SCALES if end_m * 1000 / s <= room), end_m * 1000 / room)
        self.mm_per_m = 1000 / self.scale
        self.left = MARGIN_MM + AXIS_MM + (room - end_m * self.mm_per_m) / 2
        self.right = self.x(end_m)
        self.top, self.base = head_mm, head_mm + PLOT_MM
        self.high = curve.top_n_m2
        self.shaft_y = self.base + SHAFT_MM / 2
        self.rule_y = self.base + SHAFT_MM
        self.height = self.rule_y + RULE_MM + 1.0

    def x(self, place_m: float) -> float:
        """Return the x of a place from the raw tip."""
        return self.left + place_m * self.mm_per_m

    def y(self, ei_n_m2: float) -> float:
        """Return the y of a stiffness."""
        return self.base - ei_n_m2 / self.high * PLOT_MM


def cut_ink(curve: ShaftCurve) -> str:
    """Return the ink of what has to do with the cuts."""
    # The accent says "do this": a cut that is done is a fact like any other.
    return svg.INK if curve.done else svg.ACCENT


def draw(curve: ShaftCurve, paper: LengthPaper) -> list[str]:
    """Return the shaft itself, its waste at both ends, the bore and the jaws of the clamp."""
    stations = sorted({0.0, curve.tip_cut_m, curve.butt_cut_m, max(curve.raw_m, curve.butt_cut_m)})
    drawn = []
    for low, high in pairwise(stations):
        waste = high <= curve.tip_cut_m + 1e-9 or low >= curve.butt_cut_m - 1e-9
        look: svg.Look = {"class_": "part waste" if waste else "part on shaft", "fill": "none" if waste else svg.FILL}
        if waste:
            look |= {"stroke": cut_ink(curve), "stroke_width": 0.2}
            look |= {"stroke_dasharray": "0.6 0.4"} if curve.done else {}
        corners = [(low, 1), (high, 1), (high, -1), (low, -1)]
        drawn.append(
            svg.polygon(
                [(paper.x(m), paper.shaft_y - side * _radius(curve, m) * paper.mm_per_m) for m, side in corners], **look
            )
        )
        if waste and not curve.done:
            drawn.append(_slant(curve, paper, low, high))
    reach = HOSEL_RADIUS_M * paper.mm_per_m
    drawn.append(
        svg.element(
            "rect",
            x=paper.x(curve.tip_cut_m),
            y=paper.shaft_y - reach,
            width=paper.x(curve.insertion_end_m) - paper.x(curve.tip_cut_m),
            height=2 * reach,
            class_="bore",
            fill="none",
            stroke=svg.INK,
            stroke_width=0.25,
        )
    )
    butt = BUTT_RADIUS_M * paper.mm_per_m
    jaws = [
        svg.element(
            "rect",
            x=paper.x(curve.clamp_m),
            y=y,
            width=paper.x(curve.butt_cut_m) - paper.x(curve.clamp_m),
            height=JAW_MM,
            class_="jaw",
            fill=svg.FILL,
            stroke=svg.INK,
            stroke_width=0.25,
        )
        for y in (paper.shaft_y - butt - JAW_MM, paper.shaft_y + butt)
    ]
    return [*drawn, *jaws]


def _slant(curve: ShaftCurve, paper: LengthPaper, low_m: float, high_m: float) -> str:
    strokes, x, end = "", paper.x(low_m), paper.x(high_m)
    while x + 0.8 <= end + 1e-9:
        half = _radius(curve, (x - paper.left) / paper.mm_per_m) * paper.mm_per_m
        foot, top = paper.shaft_y + half, paper.shaft_y - half
        strokes += f"M{svg.number(x)},{svg.number(foot)}L{svg.number(x + 0.8)},{svg.number(top)}"
        x += 0.8
    return svg.element("path", d=strokes, class_="hatch", fill="none", stroke=cut_ink(curve), stroke_width=0.15)


def _radius(curve: ShaftCurve, place_m: float) -> float:
    return TIP_RADIUS_M + (BUTT_RADIUS_M - TIP_RADIUS_M) * place_m / curve.points[-1][0]

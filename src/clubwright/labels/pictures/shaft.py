"""The shaft's stiffness along its length, as SVG: the curve, the shaft below it, and the rule they both stand on.

One scale along the shaft for curve, shaft and rule, tip at the left and zero there. What is cut off is hatched as on the
club's drawing; bore and clamp are shaded. Drawn from `clubwright.services.shaft.curves`, which does the arithmetic.
"""

from __future__ import annotations

from clubwright.labels.pictures import shaft_side
from clubwright.labels.pictures.shaft_side import PLOT_MM, SHAFT_MM, LengthPaper
from clubwright.labels.sheet import flags, svg
from clubwright.labels.sheet.flags import Flag
from clubwright.labels.sheet.marks import place_text
from clubwright.labels.sheet.rule import rule
from clubwright.services.shaft.curves import Point, ShaftCurve, tick_step

HATCH_MM = 1.2
FIGURE_MM = 2.3


def draw_stiffness(curve: ShaftCurve, *, width_mm: float = 240.0) -> str:
    """Return the picture as one SVG text; the same curve gives the same text.

    Args:
        curve: What to draw; places in m from the raw tip, stiffness in N m2.
        width_mm: Width on paper. The scale along the shaft is the largest of the club drawing's that fits.
    """
    placed = flags.place(_flags(curve, LengthPaper(curve, width_mm, 0.0)), width_mm)
    rows = max((item.row for item in placed), default=0)
    paper = LengthPaper(curve, width_mm, 5.0 + flags.ROW_MM * rows + flags.SIZE_MM)
    drawn = [
        svg.element("title", f"Stiffness along the shaft, drawn to scale 1 : {paper.scale:g}"),
        svg.element("desc", described(curve)),
        *_zones(curve, paper),
        *_grid(paper),
        *_waste(curve, paper),
        svg.path(
            [("M", (_at(curve.points[0], paper),)), ("L", tuple(_at(p, paper) for p in curve.points[1:]))],
            class_="curve",
            fill="none",
            stroke_width=0.5,
        ),
        *shaft_side.draw(curve, paper),
        *rule(paper.left, paper.rule_y, paper.mm_per_m, curve.points[-1][0]),
        *_marks(curve, paper),
        *flags.draw(flags.place(_flags(curve, paper), width_mm), paper.top - 2.0, upwards=True),
    ]
    return svg.element(
        "svg",
        "\n" + "\n".join(drawn) + "\n",
        xmlns="http://www.w3.org/2000/svg",
        class_="stiffness-drawing",
        role="img",
        viewBox=f"0 0 {svg.number(width_mm)} {svg.number(paper.height)}",
        width=f"{svg.number(width_mm)}mm",
        height=f"{svg.number(paper.height)}mm",
    )


def described(curve: ShaftCurve) -> str:
    """Say the picture in words, for those who cannot see it."""
    cut = "was cut" if curve.done else "is to be cut"
    return (
        f"Bending stiffness from the raw tip, at the left, to the raw butt at {place_text(curve.raw_m)}: "
        f"{curve.ei_n_m2(curve.tip_cut_m):.1f} N m² where the tip {cut} at {place_text(curve.tip_cut_m)}, "
        f"{curve.ei_n_m2(curve.clamp_m):.1f} N m² where the clamp begins at {place_text(curve.clamp_m)}. "
        f"The butt {cut} at {place_text(curve.butt_cut_m)}. The bore holds it up to {place_text(curve.insertion_end_m)}."
    )


def _at(point: Point, paper: LengthPaper) -> tuple[float, float]:
    return paper.x(point[0]), paper.y(point[1])


def _zones(curve: ShaftCurve, paper: LengthPaper) -> list[str]:
    """Return what bore and clamp hold, as shaded bands."""
    bands = [
        svg.element(
            "rect",
            x=paper.x(low),
            y=paper.top,
            width=paper.x(high) - paper.x(low),
            height=PLOT_MM,
            class_=name,
            fill=svg.FILL,
        )
        for name, low, high in (
            ("bore", curve.tip_cut_m, curve.insertion_end_m),
            ("clamp", curve.clamp_m, curve.butt_cut_m),
        )
    ]
    middle = (paper.x(curve.clamp_m) + paper.x(curve.butt_cut_m)) / 2
    return [*bands, svg.text(middle, paper.base - 1.6, "clamp", class_="word clamp", text_anchor="middle")]


def _grid(paper: LengthPaper) -> list[str]:
    step = tick_step(paper.high)
    # inside, where a shaft is never that stiff: outside it would stand in the way of the flags
    drawn = [
        svg.text(paper.x(0.35), paper.top + 3.2, "bending stiffness EI, N m²", class_="scale", font_size=FIGURE_MM)
    ]
    count = round(paper.high / step)
    for tick in range(count + 1):
        y = paper.y(tick * step)
        look: svg.Look = {"stroke_width": 0.25 if tick == 0 else 0.12, "stroke": svg.INK if tick == 0 else svg.QUIET}
        drawn.append(svg.line(paper.left, y, paper.right, y, class_="grid", **look))
        drawn.append(
            svg.text(
                paper.left - 1.2, y + 0.8, f"{tick * step:g}", class_="figure", text_anchor="end", font_size=FIGURE_MM
            )
        )
    return drawn


def _waste(curve: ShaftCurve, paper: LengthPaper) -> list[str]:
    """Hatch what is cut off, under the curve; what is gone is not hatched any more."""
    return [
        line
        for low, high in ((0.0, curve.tip_cut_m), (curve.butt_cut_m, curve.raw_m))
        if high - low > 1e-6 and not curve.done
        for line in _hatch(curve, paper, paper.x(low), paper.x(high))
    ]


def _hatch(curve: ShaftCurve, paper: LengthPaper, left: float, right: float) -> list[str]:
    strokes, x = "", left + HATCH_MM / 2
    while x < right:
        top = paper.y(curve.ei_n_m2((x - paper.left) / paper.mm_per_m))
        strokes += f"M{svg.number(x)},{svg.number(paper.base)}V{svg.number(top)}"
        x += HATCH_MM
    return [
        svg.element(
            "path", d=strokes, class_="hatch waste", fill="none", stroke=shaft_side.cut_ink(curve), stroke_width=0.2
        )
    ]


def _marks(curve: ShaftCurve, paper: LengthPaper) -> list[str]:
    """Return the cut marks through curve and shaft; the ticket's own, dashed, while another trim is looked at."""
    foot = paper.shaft_y + SHAFT_MM / 2 - 0.4
    drawn = [
        svg.line(
            paper.x(m),
            paper.top,
            paper.x(m),
            foot,
            class_="cut-mark",
            stroke=shaft_side.cut_ink(curve),
            stroke_width=0.4,
        )
        for m in (curve.tip_cut_m, curve.butt_cut_m)
    ]
    for place in curve.was_m or ():
        look: svg.Look = {"stroke": svg.QUIET, "stroke_width": 0.3, "stroke_dasharray": "1 0.7"}
        drawn.append(svg.line(paper.x(place), paper.top, paper.x(place), foot, class_="cut-was", **look))
    return drawn


def _flags(curve: ShaftCurve, paper: LengthPaper) -> list[Flag]:
    """Return the words above: both cuts with what they take off, and where the bore ends."""
    ink, off = shaft_side.cut_ink(curve), curve.raw_m - curve.butt_cut_m
    cut = "cut off" if curve.done else "waste"
    found = [
        Flag(paper.x(curve.insertion_end_m), paper.top, f"bore to {place_text(curve.insertion_end_m)}", "bore"),
    ]
    if curve.tip_cut_m > 1e-6:
        words = f"tip {cut} {place_text(curve.tip_cut_m)}"
        found.append(Flag(paper.x(curve.tip_cut_m), paper.top, words, "cut", ink, "600"))
    if off > 1e-6:
        found.append(Flag(paper.x(curve.butt_cut_m), paper.top, f"butt {cut} {place_text(off)}", "cut", ink, "600"))
    return found

"""The club drawn to scale, as SVG: an engineer's side view on an inch-and-millimetre rule.

One picture for the paper and for the page: the axis lies level with the grip at the left, the head stands at its lie, and
the rule starts at the outer face of the grip cap. Lengths along the axis are to scale; widths are the usual ones for the
kind of part, at the same scale. Parts on the club are filled, parts still to come are outlined.
"""

from __future__ import annotations

from itertools import chain
from math import cos, sin

from clubwright.labels.sheet import flags, marks, svg
from clubwright.labels.sheet.data import ClubDrawing
from clubwright.labels.sheet.drawing_check import check_drawing
from clubwright.labels.sheet.heads import HEADS, Stroke, head_on_axis, on_axis
from clubwright.labels.sheet.paper import (
    BUTT_RADIUS_M,
    GRIP_CAP_RADIUS_M,
    GRIP_MOUTH_RADIUS_M,
    TIP_RADIUS_M,
    Paper,
    radius,
    tapered,
)
from clubwright.labels.sheet.rule import RULE_MM, rule
from clubwright.notation import units_shown
from clubwright.planning.said.phrases import phrase
from clubwright.words import on_page, say, spoken

SCALES = (4.0, 4.5, 5.0, 5.5, 6.0, 6.5, 7.0, 7.5, 8.0, 9.0, 10.0, 12.0, 15.0, 20.0, 30.0)
MARGIN_MM = 4.0
FERRULE_RADIUS_M = 0.0066
TAPE_LIFT_M = 0.0025
BELOW_AXIS_MM = 5.0


def draw_club(club: ClubDrawing, *, width_mm: float = 190.0) -> str:
    """Return the club as one SVG text; the same club gives the same text.

    Args:
        club: What to draw; lengths in m, angles in rad.
        width_mm: Width of the picture on paper. The scale is the largest of ``SCALES`` that fits.

    Raises:
        InputError: When a number is not finite, out of range, or in the wrong order, with every finding.
    """
    check_drawing(club)
    head = head_on_axis(club.kind, club.lie_rad)
    points = list(chain.from_iterable(points for _, points in head))
    beyond_cap_m = max(0.0, (club.cut.raw_butt_from_ground_m if club.cut else 0.0) - club.length_m)
    beyond_ground_m = max(0.0, -min(along for along, _ in points), 0.02)
    room_mm = width_mm - 2 * MARGIN_MM
    whole_m = beyond_cap_m + club.length_m + beyond_ground_m
    scale = next((s for s in SCALES if whole_m * 1000 / s <= room_mm), whole_m * 1000 / room_mm)
    mm_per_m = 1000 / scale
    left = MARGIN_MM + (room_mm - whole_m * mm_per_m) / 2

    flat = Paper(left + beyond_cap_m * mm_per_m, 0.0, mm_per_m, club.length_m)
    above = flags.place(marks.above(club, flat), width_mm)
    below = flags.place(marks.below(club, flat), width_mm)
    top_row = max((p.row for p in above), default=0)
    head_top = max(off for _, off in points) * mm_per_m
    axis_y = max(head_top, 5.5 + flags.ROW_MM * top_row + flags.SIZE_MM) + 1.5
    paper = flat._replace(axis_y=axis_y)
    below_row = max((p.row for p in below), default=0)
    rule_y = axis_y + BELOW_AXIS_MM + flags.ROW_MM * (below_row + 1) + 1.2
    height = rule_y + RULE_MM + 1.0

    drawn = [
        svg.element("title", on_page("drawn", club=spoken("choice", club.kind).capitalize(), scale=f"{scale:g}")),
        svg.element("desc", _described(club, scale)),
        *_ground(club, paper),
        *_shaft(club, paper),
        *_grip(club, paper),
        *_tapes(club, paper),
        *_head(club, paper, head),
        *_ferrule(club, paper),
        *_hidden_ends(club, paper),
        *marks.cut(club, paper),
        *rule(paper.cap_x, rule_y, mm_per_m, club.length_m),
        *marks.signs(club, paper),
        *flags.draw(flags.place(marks.above(club, paper), width_mm), axis_y - 5.5, upwards=True),
        *flags.draw(flags.place(marks.below(club, paper), width_mm), axis_y + BELOW_AXIS_MM + 1.5, upwards=False),
        svg.text(
            paper.from_ground(0.14),
            3.0,
            on_page("scale", scale=f"{scale:g}"),
            class_="scale",
            text_anchor="end",
            font_size=2.1,
        ),
    ]
    return svg.element(
        "svg",
        "\n" + "\n".join(drawn) + "\n",
        xmlns="http://www.w3.org/2000/svg",
        class_="club-drawing",
        role="img",
        viewBox=f"0 0 {svg.number(width_mm)} {svg.number(height)}",
        width=f"{svg.number(width_mm)}mm",
        height=f"{svg.number(height)}mm",
    )


def _described(club: ClubDrawing, scale: float) -> str:
    on = ", ".join(spoken("drawn part", part) for part in club.on_club) or say(phrase("nothing"), units_shown())
    return on_page("side view", length=marks.place_text(club.length_m), scale=f"{scale:g}", parts=on)


def _look(club: ClubDrawing, part: str) -> dict[str, str | float]:
    if part in club.on_club:
        return {"class_": f"part on {part}", "fill": svg.FILL}
    return {"class_": f"part to-come {part}", "fill": "none"}


def _shaft(club: ClubDrawing, paper: Paper) -> list[str]:
    ends = (club.shaft_butt_from_ground_m, club.shaft_tip_from_ground_m)
    return [tapered(paper, ends, (BUTT_RADIUS_M, TIP_RADIUS_M), **_look(club, "shaft"))]


def _grip(club: ClubDrawing, paper: Paper) -> list[str]:
    if club.grip_length_m is None:
        return []
    ends = (club.length_m, club.length_m - club.grip_length_m)
    return [tapered(paper, ends, (GRIP_CAP_RADIUS_M, GRIP_MOUTH_RADIUS_M), **_look(club, "grip"))]


def _tapes(club: ClubDrawing, paper: Paper) -> list[str]:
    drawn = []
    for tape in club.tapes:
        ends = (club.length_m - tape.from_cap_m, club.length_m - tape.to_cap_m)
        radii = (radius(club, ends[0]) + TAPE_LIFT_M, radius(club, ends[1]) + TAPE_LIFT_M)
        look = _look(club, "tape") | {"stroke_width": 0.15, "stroke_dasharray": "0.6 0.4"}
        if "grip" in club.on_club:
            look["fill"] = "none"
        drawn.append(tapered(paper, ends, radii, **look))
    return drawn


def _ferrule(club: ClubDrawing, paper: Paper) -> list[str]:
    if club.ferrule_from_ground_m is None or club.ferrule_to_ground_m is None:
        return []
    look = _look(club, "ferrule")
    if "ferrule" in club.on_club:
        look["fill"] = svg.INK
    radii = (radius(club, club.ferrule_to_ground_m), FERRULE_RADIUS_M)
    return [tapered(paper, (club.ferrule_to_ground_m, club.ferrule_from_ground_m), radii, **look)]


def _head(club: ClubDrawing, paper: Paper, head: tuple[Stroke, ...]) -> list[str]:
    look = _look(club, "head")
    radius = HEADS[club.kind].hosel_radius_mm / 1000
    foot_m = min(0.022 if club.kind in ("iron", "wedge", "putter") else 0.03, club.hosel_top_from_ground_m)
    hosel = tapered(paper, (club.hosel_top_from_ground_m, foot_m), (radius, radius), **look)
    outline = [(command, tuple(paper.point(p) for p in points)) for command, points in head]
    lines = []
    for start, end in HEADS[club.kind].face_lines:
        a, b = on_axis(start, club.lie_rad), on_axis(end, club.lie_rad)
        lines.append(svg.line(*paper.point(a), *paper.point(b), class_="face", stroke=svg.QUIET, stroke_width=0.12))
    return [hosel, svg.path(outline, **look), *lines]


def _ground(club: ClubDrawing, paper: Paper) -> list[str]:
    ends = [(-u * cos(club.lie_rad), u * sin(club.lie_rad)) for u in (-0.03, 0.11)]
    return [
        svg.line(*paper.point(ends[0]), *paper.point(ends[1]), class_="ground", stroke=svg.QUIET, stroke_width=0.15),
        svg.line(
            paper.from_cap(0) - 2,
            paper.axis_y,
            paper.from_ground(-0.02),
            paper.axis_y,
            class_="axis",
            stroke=svg.QUIET,
            stroke_width=0.1,
            stroke_dasharray="3 0.6 0.6 0.6",
        ),
    ]


def _hidden_ends(club: ClubDrawing, paper: Paper) -> list[str]:
    drawn = []
    for place in (club.shaft_butt_from_ground_m, club.shaft_tip_from_ground_m):
        r = radius(club, place)
        a, b = paper.point((place, r)), paper.point((place, -r))
        drawn.append(svg.line(*a, *b, class_="hidden-end", stroke_width=0.2, stroke_dasharray="0.5 0.3"))
    return drawn

"""The marks on the club: the cut and its waste side, balance point, fulcrum, weights, and the words beside them."""

from __future__ import annotations

from clubwright.labels.sheet import svg
from clubwright.labels.sheet.data import ClubDrawing, CutPlace
from clubwright.labels.sheet.flags import Flag, named
from clubwright.labels.sheet.paper import BUTT_RADIUS_M, GRIP_MOUTH_RADIUS_M, Paper, radius, tapered
from clubwright.notation import decimal_marked, units_shown
from clubwright.notation.showing import decimal_text, exact_of
from clubwright.units import INCH_EXACT_M
from clubwright.words import on_page, spoken

CUT_REACH_M = 0.019
"""How far the cut mark stands out on either side of the axis."""
SIGN_MM = 1.3


def place_text(length_m: float) -> str:
    """Return a length for a word beside a mark: inches with two decimals, or mm with one where those come first."""
    units = units_shown()
    if units is not None and units.length == "mm":
        return decimal_marked(f"{decimal_text(exact_of(length_m) * 1000, 1)} mm")
    return decimal_marked(f"{decimal_text(exact_of(length_m) / INCH_EXACT_M, 2)} in")


def cut(club: ClubDrawing, paper: Paper) -> list[str]:
    """Return the cut mark and the waste beyond it: hatched while it is to be cut off, outlined when it is gone.

    While the gate is closed there is no mark, and the waste is only outlined.
    """
    if club.cut is None:
        return []
    mark, raw = club.cut.mark_from_ground_m, club.cut.raw_butt_from_ground_m
    ink = _cut_ink(club.cut)
    look: dict[str, str | float] = {"fill": "none", "stroke": ink, "stroke_width": 0.2}
    if club.cut.done or club.cut.about:
        look["stroke_dasharray"] = "0.6 0.4"
    drawn = [tapered(paper, (raw, mark), (BUTT_RADIUS_M, BUTT_RADIUS_M), class_="waste", **look)]
    x, end = paper.from_ground(raw), paper.from_ground(mark)
    top, foot = paper.off(BUTT_RADIUS_M), paper.off(-BUTT_RADIUS_M)
    while not (club.cut.done or club.cut.about) and x + 0.8 < end:
        drawn.append(svg.line(x, foot, x + 0.8, top, class_="hatch", stroke=ink, stroke_width=0.15))
        x += 0.8
    if club.cut.about:
        return drawn
    reach = paper.off(-CUT_REACH_M), paper.off(CUT_REACH_M)
    drawn.append(svg.line(end, reach[0], end, reach[1], class_="cut-mark", stroke=ink, stroke_width=0.45))
    return drawn


def _cut_ink(place: CutPlace) -> str:
    # The accent says "do this": a cut that is done is a fact like any other.
    return svg.INK if place.done or place.about else svg.ACCENT


def signs(club: ClubDrawing, paper: Paper) -> list[str]:
    """Return the signs that stand on the club: fulcrum, weights, centres of gravity."""
    x, foot = paper.from_cap(club.fulcrum_m), paper.off(-radius(club, club.length_m - club.fulcrum_m))
    triangle = [(x, foot), (x - 1.2, foot + 2.1), (x + 1.2, foot + 2.1)]
    drawn = [svg.polygon(triangle, class_="fulcrum", fill=svg.PAPER)]
    for weight in club.weights:
        wx, wy = paper.point((weight.from_ground_m, weight.off_axis_m))
        drawn.append(
            svg.element(
                "rect",
                x=wx - 0.9,
                y=wy - 0.9,
                width=1.8,
                height=1.8,
                class_="weight on" if weight.fitted else "weight to-come",
                fill=svg.INK if weight.fitted else svg.PAPER,
                stroke=svg.INK,
                stroke_width=0.25,
            )
        )
    cg = paper.point((club.head_cg_from_ground_m, club.head_cg_off_axis_m))
    drawn.append(svg.centre_of_gravity(*cg, 1.0, class_="head-cg"))
    if club.balance_point_m is not None:
        drawn.append(
            svg.centre_of_gravity(paper.from_cap(club.balance_point_m), paper.axis_y, SIGN_MM, class_="balance")
        )
    return drawn


def _at(what: str, place_m: float) -> str:
    return on_page(f"mark {what}", place=place_text(place_m))


def _ends(what: str, place_m: float) -> str:
    return on_page("mark to", what=what, place=place_text(place_m))


def above(club: ClubDrawing, paper: Paper) -> list[Flag]:
    """Return the words above the club: the cut, the tapes, the grip."""
    found = []
    if club.cut:
        x, y = paper.from_ground(club.cut.mark_from_ground_m), paper.off(CUT_REACH_M)
        words = on_page("mark done", mark=club.cut.text) if club.cut.done else club.cut.text
        found.append(Flag(x, y, words, "cut", _cut_ink(club.cut), "600"))
    for tape in club.tapes:
        x = paper.from_cap(tape.to_cap_m)
        found.append(
            Flag(
                x,
                paper.off(GRIP_MOUTH_RADIUS_M),
                _ends(named(tape.name), tape.to_cap_m),
                "tape",
            )
        )
    if club.grip_length_m is not None:
        x = paper.from_cap(club.grip_length_m)
        found.append(
            Flag(
                x,
                paper.off(GRIP_MOUTH_RADIUS_M),
                _ends(spoken("part", "grip"), club.grip_length_m),
                "grip",
            )
        )
    return found


def below(club: ClubDrawing, paper: Paper) -> list[Flag]:
    """Return the words below the club: fulcrum, balance, waste side, and everything about the head."""
    found = [
        Flag(
            paper.from_cap(club.fulcrum_m),
            paper.off(-0.006) + 2.1,
            _at("fulcrum", club.fulcrum_m),
            "fulcrum",
        )
    ]
    cg = paper.point((club.head_cg_from_ground_m, club.head_cg_off_axis_m))
    found.append(Flag(cg[0], cg[1] + 1.0, on_page("mark head cg"), "head-cg"))
    if club.balance_point_m is not None:
        x = paper.from_cap(club.balance_point_m)
        found.append(Flag(x, paper.axis_y + SIGN_MM, _at("balance", club.balance_point_m), "balance"))
    if club.cut and not club.cut.done and not club.cut.about:
        middle = (club.cut.mark_from_ground_m + club.cut.raw_butt_from_ground_m) / 2
        found.append(
            Flag(
                paper.from_ground(middle), paper.off(-BUTT_RADIUS_M), on_page("mark waste"), "waste", svg.ACCENT, "600"
            )
        )
    for weight in club.weights:
        x, y = paper.point((weight.from_ground_m, weight.off_axis_m))
        found.append(
            Flag(
                x,
                y + 0.9,
                named(weight.name) if weight.fitted else on_page("mark to fit", what=named(weight.name)),
                "weight",
            )
        )
    end = paper.from_ground(0.0)
    found.append(Flag(end, paper.axis_y, _at("length", club.length_m), "length"))
    return found

"""Our own simple outlines of a head, seen along the line of play, at a plausible size.

Points are millimetres in the ground's frame: u along the ground towards the toe, v up, and (0, 0) where the shaft's axis
meets the ground. They are a picture, not a measurement: no mass, centre of gravity or angle is read from them.
"""

from __future__ import annotations

from math import cos, sin
from typing import NamedTuple

from clubwright.labels.sheet.data import HeadKind

Point = tuple[float, float]
Stroke = tuple[str, tuple[Point, ...]]
"""One path command of SVG (M, L, C or Z) with its points."""


class HeadShape(NamedTuple):
    """An outline, the lines on its face, and half the outer diameter of its hosel, all in mm."""

    outline: tuple[Stroke, ...]
    face_lines: tuple[tuple[Point, Point], ...]
    hosel_radius_mm: float


def _curve(*points: Point) -> Stroke:
    return "C", points


def _line(to: Point) -> Stroke:
    return "L", (to,)


def _closed(start: Point, *strokes: Stroke) -> tuple[Stroke, ...]:
    return ("M", (start,)), *strokes, ("Z", ())


_GROOVES = tuple(((10.0, v), (50.0, v)) for v in (7.0, 12.0, 17.0, 22.0, 27.0))

HEADS: dict[HeadKind, HeadShape] = {
    "driver": HeadShape(
        _closed(
            (-24, 30),
            _curve((-18, 10), (10, 0), (45, 0)),
            _curve((80, 0), (104, 14), (104, 32)),
            _curve((104, 50), (78, 63), (46, 63)),
            _curve((20, 63), (-2, 56), (-16, 46)),
            _curve((-22, 43), (-26, 40), (-24, 30)),
        ),
        tuple(((18.0, v), (72.0, v)) for v in (20.0, 32.0, 44.0)),
        6.5,
    ),
    "fairway": HeadShape(
        _closed(
            (-18, 20),
            _curve((-14, 6), (6, 0), (34, 0)),
            _curve((62, 0), (80, 8), (80, 20)),
            _curve((80, 32), (58, 40), (34, 40)),
            _curve((14, 40), (-4, 36), (-12, 30)),
            _curve((-17, 27), (-20, 26), (-18, 20)),
        ),
        tuple(((14.0, v), (54.0, v)) for v in (12.0, 20.0, 28.0)),
        6.5,
    ),
    "hybrid": HeadShape(
        _closed(
            (-17, 19),
            _curve((-13, 6), (2, 0), (24, 0)),
            _curve((50, 0), (68, 6), (69, 20)),
            _curve((69, 32), (52, 39), (34, 39)),
            _curve((14, 39), (-4, 34), (-11, 29)),
            _curve((-16, 26), (-19, 25), (-17, 19)),
        ),
        tuple(((12.0, v), (48.0, v)) for v in (11.0, 19.0, 27.0)),
        6.5,
    ),
    "iron": HeadShape(
        _closed(
            (-19, 24),
            _curve((-17, 8), (-8, 0), (6, 0)),
            _line((58, 0)),
            _curve((74, 0), (82, 12), (81, 30)),
            _curve((80, 44), (77, 54), (71, 55)),
            _curve((66, 56), (60, 53), (54, 50)),
            _line((0, 29)),
            _curve((-4, 27), (-7, 30), (-8, 33)),
        ),
        _GROOVES,
        6.5,
    ),
    "wedge": HeadShape(
        _closed(
            (-20, 24),
            _curve((-18, 8), (-9, 0), (6, 0)),
            _line((50, 0)),
            _curve((72, 0), (84, 14), (83, 34)),
            _curve((82, 50), (76, 61), (68, 61)),
            _curve((62, 61), (56, 57), (50, 53)),
            _line((0, 29)),
            _curve((-4, 27), (-7, 30), (-8, 33)),
        ),
        _GROOVES,
        6.5,
    ),
    "putter": HeadShape(
        _closed(
            (-16, 4),
            _curve((-16, 1), (-14, 0), (-11, 0)),
            _line((92, 0)),
            _curve((97, 0), (99, 3), (99, 8)),
            _line((99, 20)),
            _curve((99, 25), (97, 27), (92, 27)),
            _line((-12, 27)),
            _curve((-15, 27), (-16, 25), (-16, 22)),
        ),
        (((41.5, 21.0), (41.5, 27.0)),),
        6.5,
    ),
}


def on_axis(point: Point, lie_rad: float) -> Point:
    """Return a point of the ground's frame as (along the axis towards the grip, off the axis towards the toe), in m.

    The axis rises from the ground at the lie angle, away from the toe: its direction is (-cos lie, sin lie), and the
    direction off it towards the toe is (sin lie, cos lie).
    """
    u, v = point
    along = -u * cos(lie_rad) + v * sin(lie_rad)
    off = u * sin(lie_rad) + v * cos(lie_rad)
    return along / 1000, off / 1000


def head_on_axis(kind: HeadKind, lie_rad: float) -> tuple[Stroke, ...]:
    """Return a head's outline in the axis' frame, in m."""
    return tuple((command, tuple(on_axis(p, lie_rad) for p in points)) for command, points in HEADS[kind].outline)

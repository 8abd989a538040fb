"""Where the club lies on the paper, and how wide its round parts are drawn."""

from __future__ import annotations

from typing import NamedTuple

from clubwright.labels.sheet import svg
from clubwright.labels.sheet.data import ClubDrawing
from clubwright.labels.sheet.heads import Point

# Usual widths of the kind of part, for a picture only: 0.600 in butt, 0.370 in tip, and a grip of standard size.
BUTT_RADIUS_M, TIP_RADIUS_M = 0.0076, 0.0047
GRIP_CAP_RADIUS_M, GRIP_MOUTH_RADIUS_M = 0.0135, 0.0095


class Paper(NamedTuple):
    """Where the club lies on the paper: the cap's x, the axis' y, and mm of paper per m of club."""

    cap_x: float
    axis_y: float
    mm_per_m: float
    length_m: float

    def from_ground(self, along_m: float) -> float:
        """Return the x of a place counted from the axis' ground point."""
        return self.cap_x + (self.length_m - along_m) * self.mm_per_m

    def from_cap(self, along_m: float) -> float:
        """Return the x of a place counted from the outer face of the cap."""
        return self.cap_x + along_m * self.mm_per_m

    def off(self, off_m: float) -> float:
        """Return the y of a place off the axis; towards the toe is up."""
        return self.axis_y - off_m * self.mm_per_m

    def point(self, along_and_off_m: Point) -> Point:
        """Return a point of the axis' frame on the paper."""
        return self.from_ground(along_and_off_m[0]), self.off(along_and_off_m[1])


def radius(club: ClubDrawing, along_m: float) -> float:
    """Return the radius the shaft is drawn with at a place counted from the ground, in m."""
    tip, butt = club.shaft_tip_from_ground_m, club.shaft_butt_from_ground_m
    share = min(1.0, max(0.0, (along_m - tip) / (butt - tip)))
    return TIP_RADIUS_M + share * (BUTT_RADIUS_M - TIP_RADIUS_M)


def tapered(paper: Paper, ends_m: tuple[float, float], radii_m: tuple[float, float], **look: str | float) -> str:
    """Return a round part between two places counted from the ground, with a radius at each, in m."""
    (a, b), (ra, rb) = ends_m, radii_m
    return svg.polygon([paper.point(p) for p in ((a, ra), (b, rb), (b, -rb), (a, -ra))], **look)

"""A whole tube from the few figures that a sheet or a caliper gives: plain ends, even steps, walls.

Places are from the raw tip. Derivation: docs/theory/frequency.md; checked against the tube's own area and second moment, and
against a straight taper cut ever finer, in tests/unit/belief/stiffness/test_ticket_stiffness.py.
"""

from __future__ import annotations

from itertools import pairwise

import msgspec
import numpy as np

from clubwright.club.beam.section import STEEL, Metal, tube_piece
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.errors import NotPossible
from clubwright.units import INCH_M

TAPER_PIECES = 64


class Tube(msgspec.Struct, frozen=True, kw_only=True):
    """A tube whose outside goes from tip to butt between two plain ends.

    Attributes:
        length_m: Raw length.
        tip_m, butt_m: Outside diameters.
        tip_parallel_m, butt_parallel_m: Lengths of the plain ends.
        tip_wall_m, butt_wall_m: Wall on the plain ends.
        middle_wall_m: Wall half-way between them, straight on either side; None for straight all along.
        steps: Steps of the diameter, the first where the plain tip ends and the last where the plain butt begins; 0 for a
            straight taper.
        metal: What it is made of.
    """

    length_m: float
    tip_m: float
    butt_m: float
    tip_parallel_m: float
    butt_parallel_m: float
    tip_wall_m: float
    butt_wall_m: float
    middle_wall_m: float | None = None
    steps: int = 0
    metal: Metal = STEEL


def tube_profile(tube: Tube) -> StiffnessProfile:
    """Return the stiffness of a tube along its raw length; the wall of a stretch between steps is that of its middle.

    Raises:
        NotPossible: when the plain ends leave nothing between them, with a single step, or where a wall is no wall.
    """
    low, high = tube.tip_parallel_m, tube.length_m - tube.butt_parallel_m
    if min(tube.tip_parallel_m, tube.butt_parallel_m) < 0 or not low < high:
        raise NotPossible(
            f"plain ends of {tube.tip_parallel_m / INCH_M:.2f} in and {tube.butt_parallel_m / INCH_M:.2f} in leave nothing "
            f"between them on a tube of {tube.length_m / INCH_M:.2f} in",
            "Look at the plain ends and at raw_length.",
        )
    if tube.steps == 1:
        raise NotPossible("a tube with a single step is not read", "Write at least two steps, 0 for a straight taper.")
    places = [low, high] if tube.middle_wall_m is None else [low, (low + high) / 2, high]
    walls = [wall for wall in (tube.tip_wall_m, tube.middle_wall_m, tube.butt_wall_m) if wall is not None]
    inner = np.linspace(low, high, tube.steps or TAPER_PIECES + 1)
    made = []
    for start, end in pairwise((0.0, *inner.tolist(), tube.length_m)):
        if not end > start:
            continue
        middle = (start + end) / 2
        ends = (middle, middle) if tube.steps else (start, end)
        wall = np.interp(ends, places, walls).tolist()
        if tube.steps:
            # So many steps lie below the middle of this stretch.
            share = int(np.searchsorted(inner, middle)) / tube.steps
            outside = [tube.tip_m + share * (tube.butt_m - tube.tip_m)] * 2
        else:
            outside = np.interp(ends, [low, high], [tube.tip_m, tube.butt_m]).tolist()
        made.append(tube_piece(start, end, outside, wall, tube.metal))
    return StiffnessProfile(pieces=tuple(made))

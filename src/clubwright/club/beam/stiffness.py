"""The bending stiffness of a shaft along its raw length, with what is known of its twist and its mass along it.

Straight lines between stations, with a jump where a step of the tube is. A trim cuts the profile: the remaining shaft has
what is left of it. Derivation and sources: docs/theory/frequency.md; checked in
tests/published/test_published_frequency.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import isfinite
from typing import NamedTuple

import msgspec

from clubwright.errors import NotPossible
from clubwright.units import MILLIMETRE_M


class StiffnessPiece(NamedTuple):
    """A stretch of shaft along which everything runs straight.

    Ends in m from the raw tip; bending stiffness in N m2 at both; torsional stiffness in N m2, 0 where not known; mass per
    length in kg/m, 0 where not known.
    """

    start_m: float
    end_m: float
    start_ei_n_m2: float
    end_ei_n_m2: float
    start_gj_n_m2: float = 0.0
    end_gj_n_m2: float = 0.0
    start_density_kg_m: float = 0.0
    end_density_kg_m: float = 0.0

    def at(self, place_m: float) -> tuple[float, float, float]:
        """Return EI, GJ and mass per length at a place (beyond the ends the lines run on)."""
        share = (place_m - self.start_m) / (self.end_m - self.start_m)
        return (
            self.start_ei_n_m2 + share * (self.end_ei_n_m2 - self.start_ei_n_m2),
            self.start_gj_n_m2 + share * (self.end_gj_n_m2 - self.start_gj_n_m2),
            self.start_density_kg_m + share * (self.end_density_kg_m - self.start_density_kg_m),
        )


class StiffnessProfile(msgspec.Struct, frozen=True, kw_only=True):
    """A chain of pieces from the raw tip to the raw butt, without gaps.

    Raises:
        NotPossible: when there is no piece, a gap, a stiffness that is not positive, or torsion or mass known for some
            of the pieces only.
    """

    pieces: tuple[StiffnessPiece, ...]

    def __post_init__(self) -> None:
        if not self.pieces:
            raise NotPossible("a stiffness profile without pieces", "Give at least two stations with their stiffness.")
        for low, high in pairwise(self.pieces):
            if abs(low.end_m - high.start_m) > 1e-9:
                raise NotPossible(
                    f"the stiffness profile has a gap between {low.end_m:.4f} m and {high.start_m:.4f} m from the tip",
                    "Let each stretch start where the one before ends.",
                )
        for piece in self.pieces:
            _check_piece(piece)
        for what, known in (("torsional stiffness", self.has_gj), ("mass per length", self.has_density)):
            some = [_knows_gj(p) if what == "torsional stiffness" else _knows_density(p) for p in self.pieces]
            if any(some) and not known:
                raise NotPossible(
                    f"the {what} is known for some stretches of the shaft only", "Give it for all of them, or for none."
                )

    @property
    def start_m(self) -> float:
        """Where the profile begins, from the raw tip."""
        return self.pieces[0].start_m

    @property
    def end_m(self) -> float:
        """Where it ends, from the raw tip."""
        return self.pieces[-1].end_m

    @property
    def has_gj(self) -> bool:
        """True when the torsional stiffness is known all along."""
        return all(_knows_gj(piece) for piece in self.pieces)

    @property
    def has_density(self) -> bool:
        """True when the mass per length is known all along."""
        return all(_knows_density(piece) for piece in self.pieces)

    def piece_at(self, place_m: float) -> StiffnessPiece:
        """Return the piece over a place; at a step, the one on the butt side; beyond the ends, the last one there."""
        return next((piece for piece in self.pieces if place_m < piece.end_m), self.pieces[-1])

    def ei_n_m2(self, place_m: float) -> float:
        """Return the bending stiffness at a place from the raw tip, in N m2."""
        return self.piece_at(place_m).at(place_m)[0]

    def cut(self, from_m: float, to_m: float) -> StiffnessProfile:
        """Return what is left between two cuts (from the raw tip), counted from the new tip.

        Raises:
            NotPossible: when a cut lies outside the profile.
        """
        if not self.start_m - 1e-9 <= from_m < to_m <= self.end_m + 1e-9:
            raise NotPossible(
                f"the cuts at {from_m:.4f} m and {to_m:.4f} m from the tip do not lie on this shaft",
                "Give cuts within the profile, lower one first.",
            )
        kept = []
        for piece in self.pieces:
            low, high = max(piece.start_m, from_m), min(piece.end_m, to_m)
            if high - low > 1e-12:
                (e0, g0, d0), (e1, g1, d1) = piece.at(low), piece.at(high)
                kept.append(StiffnessPiece(low - from_m, high - from_m, e0, e1, g0, g1, d0, d1))
        return StiffnessProfile(pieces=tuple(kept))


def from_table(
    stations_m: Sequence[float],
    ei_n_m2: Sequence[float],
    gj_n_m2: Sequence[float] | None = None,
    density_kg_m: Sequence[float] | None = None,
) -> StiffnessProfile:
    """Return the profile through the stations of a table, straight between them.

    Args:
        stations_m: Places from the raw tip, rising; a place given twice is a step.
        ei_n_m2: Bending stiffness at each.
        gj_n_m2: Torsional stiffness at each, when measured.
        density_kg_m: Mass per length at each, when known.

    Raises:
        NotPossible: for fewer than two stations, columns of unequal length, or stations that do not rise.
    """
    count = len(stations_m)
    gj = gj_n_m2 if gj_n_m2 is not None else [0.0] * count
    density = density_kg_m if density_kg_m is not None else [0.0] * count
    if count < 2 or not len(ei_n_m2) == len(gj) == len(density) == count:
        raise NotPossible("the table of stiffness has fewer than two rows, or a column is short", "Fill each row.")
    if any(high < low for low, high in pairwise(stations_m)):
        raise NotPossible("the stations of the stiffness table do not rise from the tip", "Sort them from the tip up.")
    rows = list(zip(stations_m, ei_n_m2, gj, density, strict=True))
    pieces = [
        StiffnessPiece(low[0], high[0], low[1], high[1], low[2], high[2], low[3], high[3])
        for low, high in pairwise(rows)
        if high[0] > low[0]
    ]
    return StiffnessProfile(pieces=tuple(pieces))


def from_law(slope_n_m: float, length_m: float, constant_below_m: float = 300 * MILLIMETRE_M) -> StiffnessProfile:
    """Return the profile of a shaft with ``EI = a X``, X from the raw tip, held constant near the tip.

    Source of the law: US patent 6,652,389 B2, abstract and claims 1 and 2 (a of 0.06 to 0.12 N m2 per mm from 300 mm on).

    Args:
        slope_n_m: The slope a, in N m2 per m.
        length_m: Raw length.
        constant_below_m: Nearer to the tip than this the stiffness is that at this place.
    """
    low = slope_n_m * constant_below_m
    return from_table([0.0, constant_below_m, length_m], [low, low, slope_n_m * length_m])


def _knows_gj(piece: StiffnessPiece) -> bool:
    return piece.start_gj_n_m2 > 0 and piece.end_gj_n_m2 > 0


def _knows_density(piece: StiffnessPiece) -> bool:
    return piece.start_density_kg_m > 0 and piece.end_density_kg_m > 0


def _check_piece(piece: StiffnessPiece) -> None:
    """Refuse a piece of no length, or with a stiffness that is not a positive number."""
    if not (all(isfinite(number) for number in piece) and piece.end_m > piece.start_m >= -1e-12):
        raise NotPossible(
            f"a stretch of the stiffness profile runs from {piece.start_m:.4f} m to {piece.end_m:.4f} m",
            "Give finite numbers, and places that rise from the tip.",
        )
    if min(piece.start_ei_n_m2, piece.end_ei_n_m2) <= 0 or min(piece[4:]) < 0:
        raise NotPossible(
            f"the stiffness between {piece.start_m:.4f} m and {piece.end_m:.4f} m from the tip is not positive",
            "Give the bending stiffness in N m2; shafts have some 15 to 150.",
        )

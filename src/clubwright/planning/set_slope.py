"""How the frequency of a set climbs as its clubs get shorter: the straight line through them, and who lies off it.

Ordinary least squares of frequency on length. Derivation: docs/theory/frequency.md; checked against a general-purpose
library in tests/published/test_published_frequency_tickets.py.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np

from clubwright.errors import NotPossible
from clubwright.units import INCH_M


class SetClub(msgspec.Struct, frozen=True, kw_only=True):
    """One club of a set: its name, length in m, frequency in Hz and the uncertainty of that."""

    name: str
    length_m: float
    frequency_hz: float
    frequency_sd_hz: float


class SetSlope(msgspec.Struct, frozen=True, kw_only=True):
    """The line through a set.

    Attributes:
        slope_hz_m: Change of frequency by length; negative, since shorter clubs are stiffer.
        slope_sd_hz_m: Standard error of it from the scatter; None for two clubs.
        middle_m, middle_hz: The point that every such line goes through: the mean length and frequency.
        residuals_hz: Each club's frequency less the line's, in the order given.
        scatter_hz: Their standard deviation about the line, with n - 2 degrees of freedom; None for two clubs.
    """

    slope_hz_m: float
    slope_sd_hz_m: float | None
    middle_m: float
    middle_hz: float
    residuals_hz: tuple[float, ...]
    scatter_hz: float | None

    def at_hz(self, length_m: float) -> float:
        """Return the frequency of the line at a length."""
        return self.middle_hz + self.slope_hz_m * (length_m - self.middle_m)


def set_slope(clubs: Sequence[SetClub]) -> SetSlope:
    """Return the line of least squares through the clubs of a set.

    Raises:
        NotPossible: for fewer than two clubs, or clubs of one length.
    """
    lengths = np.array([club.length_m for club in clubs])
    if len(clubs) < 2 or float(np.ptp(lengths)) < INCH_M / 16:
        raise NotPossible("a slope needs at least two clubs of different length", "Name the tickets of the whole set.")
    heard = np.array([club.frequency_hz for club in clubs])
    off = lengths - lengths.mean()
    square = float(off @ off)
    slope = float(off @ heard) / square
    residuals = heard - heard.mean() - slope * off
    scatter = float(np.sqrt(residuals @ residuals / (len(clubs) - 2))) if len(clubs) > 2 else None
    return SetSlope(
        slope_hz_m=slope,
        slope_sd_hz_m=None if scatter is None else scatter / square**0.5,
        middle_m=float(lengths.mean()),
        middle_hz=float(heard.mean()),
        residuals_hz=tuple(residuals.tolist()),
        scatter_hz=scatter,
    )

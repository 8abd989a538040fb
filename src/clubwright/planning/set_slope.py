"""How the frequency of a set climbs as its clubs get shorter: the straight line through them, and who lies off it.

Least squares of frequency on length, each club weighed by its doubt: one that is only planned, known to 5 cpm, hardly
moves the line of those that were read. Derivation: docs/theory/frequency.md; checked against a general-purpose
library in tests/published/test_published_frequency_tickets.py.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np

from clubwright.errors import NotPossible
from clubwright.units import CPM_HZ, INCH_M

ALIKE_HZ = 1.0 * CPM_HZ
"""How closely a set is built to its line; a club known better than that counts for no more (estimate of ours)."""


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
        middle_m, middle_hz: The point that every such line goes through: the weighed mean length and frequency.
        residuals_hz: Each club's frequency less the line's, in the order given.
        scatter_hz: Their standard deviation about the line, weighed as they were, with n - 2 degrees
            of freedom; None for two.
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
    """Return the line of least squares through the clubs of a set, each weighed by ``1 / (sd^2 + ALIKE_HZ^2)``.

    Clubs known equally well weigh the same, and it is the ordinary line.

    Raises:
        NotPossible: for fewer than two clubs, or clubs of one length.
    """
    lengths = np.array([club.length_m for club in clubs])
    if len(clubs) < 2 or float(np.ptp(lengths)) < INCH_M / 16:
        raise NotPossible("a slope needs at least two clubs of different length", "Name the tickets of the whole set.")
    heard = np.array([club.frequency_hz for club in clubs])
    weights = 1 / (np.array([club.frequency_sd_hz for club in clubs]) ** 2 + ALIKE_HZ**2)
    weights /= weights.mean()
    middle, mean_hz = float(weights @ lengths) / len(clubs), float(weights @ heard) / len(clubs)
    off = lengths - middle
    square = float(weights @ off**2)
    slope = float(weights @ (off * heard)) / square
    residuals = heard - mean_hz - slope * off
    scatter = float(np.sqrt(weights @ residuals**2 / (len(clubs) - 2))) if len(clubs) > 2 else None
    return SetSlope(
        slope_hz_m=slope,
        slope_sd_hz_m=None if scatter is None else scatter / square**0.5,
        middle_m=middle,
        middle_hz=mean_hz,
        residuals_hz=tuple(residuals.tolist()),
        scatter_hz=scatter,
    )

"""Instruments: what one reading, or the mean of several, is worth; every place that needs it asks here.

A reading's error has three shares. Its scatter (repeatability) is new with every reading. Its rounding to the step of the
scale has the variance step^2 / 12 (JCGM 100:2008 F.2.2.1); as far as the readings do not scatter over the steps by
themselves, readings of an unchanged club round alike, and that part of it is shared by all of them. Its bias is one
unknown for all readings of the gauge. Averaging takes nothing off what is shared. Derivation: docs/theory/belief.md;
checked in tests/published/test_published_rounding.py.
"""

from __future__ import annotations

import math

import msgspec

SHORT_SCATTER = 0.1
"""Scatter, in steps, below which the closed form is exact to 1e-11 of step^2, and the series would be long."""

TERMS = 12
LONG_SCATTER = 3.0
"""Scatter, in steps, beyond which nothing is shared (1e-155 of step^2)."""


def shared_rounding(scatter: float, step: float) -> float:
    """Return the variance of the rounding that all readings of an unchanged club share.

    ``sum over k of step^2 / (2 pi^2 k^2) exp(-4 pi^2 k^2 scatter^2 / step^2)``: step^2 / 12 without scatter, next to
    nothing from half a step of scatter on. Source: theory of quantisation (B. Widrow, I. Kollar, Quantization Noise, 2008,
    from memory); derived in docs/theory/belief.md.

    Args:
        scatter: Standard deviation of one reading before it is rounded, at least 0.
        step: Step of the scale, at least 0, in the same unit.

    Returns:
        A variance, in that unit squared.
    """
    if step <= 0:
        return 0.0
    if scatter > LONG_SCATTER * step:
        return 0.0
    ratio = scatter / step
    if ratio < SHORT_SCATTER:
        return step * step * (1 / 12 - ratio / math.sqrt(math.pi) + ratio * ratio)
    falls = 4 * (math.pi * ratio) ** 2
    total = math.fsum(math.exp(-falls * k * k) / (k * k) for k in range(1, TERMS))
    return step * step * total / (2 * math.pi**2)


class Instrument(msgspec.Struct, frozen=True, kw_only=True):
    """A gauge as far as its readings are concerned; all in the SI unit of what it reads.

    Attributes:
        name: As the workshop calls it.
        resolution: Smallest step it shows; 0 when it shows more digits than it can hold.
        repeatability: Standard deviation of one reading under the same hands.
        bias: Standard uncertainty of its constant error; 0 when it was just checked against a master.
        stated: Standard uncertainty that was typed behind the value, in place of the other figures. Nobody knows what it
            is made of, so readings of an unchanged club share it whole.
    """

    name: str
    resolution: float
    repeatability: float
    bias: float = 0.0
    stated: float = 0.0

    @property
    def shared_variance(self) -> float:
        """What all readings of an unchanged club have in common, bias left out: it is never averaged."""
        return self.stated**2 + shared_rounding(self.repeatability, self.resolution)

    @property
    def own_variance(self) -> float:
        """What is new with every reading: its scatter, and its rounding as far as that goes with the scatter."""
        rounding = self.resolution**2 / 12 - shared_rounding(self.repeatability, self.resolution)
        return max(self.repeatability**2 + rounding, 0.0)

    def noise(self, repeats: int = 1) -> float:
        """Return the standard deviation of the mean of that many readings of an unchanged club, bias left out."""
        return math.sqrt(self.shared_variance + self.own_variance / repeats)

    def uncertainty(self, repeats: int = 1) -> float:
        """Return the standard uncertainty of the mean of that many readings of an unchanged club, bias included."""
        return math.hypot(self.noise(repeats), self.bias)

    def noise_of_more(self, repeats: int, before: int) -> float:
        """Return the noise of an independent reading that would teach as much as further readings of the same club do.

        The mean goes from ``noise(before)`` to ``noise(before + repeats)``, and precisions add up.

        Args:
            repeats: How many further readings, at least 1.
            before: How many the club was read already; none gives ``noise(repeats)``.

        Returns:
            Infinity where nothing scatters: one more reading would show the same again.
        """
        if before == 0:
            return self.noise(repeats)
        gain = 1 / self.noise(before + repeats) ** 2 - 1 / self.noise(before) ** 2
        return 1 / math.sqrt(gain) if gain > 0 else math.inf

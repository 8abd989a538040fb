"""Instruments: what a reading's own uncertainty is made of.

The resolution is the step of the scale: a reading stands anywhere within half a step, so its share is step / sqrt(12)
(JCGM 100:2008 F.2.2.1). Repeating a reading averages its repeatability. It averages the resolution too, but only where the
readings scatter over the steps by themselves (quantisation theory: B. Widrow and I. Kollar, Quantization Noise, 2008, from
memory): else every repeat falls on the same step. It never averages the bias: the bias is one
unknown for all readings of one gauge, which makes them correlated.
"""

from __future__ import annotations

import math

import msgspec

SCATTER = 0.5
"""Repeatability, in steps, from which the rounding of repeated readings counts as independent."""


class Instrument(msgspec.Struct, frozen=True, kw_only=True):
    """A gauge as far as its readings are concerned; all in the SI unit of what it reads.

    Attributes:
        name: As the workshop calls it.
        resolution: Smallest step it shows; 0 when it shows more digits than it can hold.
        repeatability: Standard deviation of one reading under the same hands.
        bias: Standard uncertainty of its constant error; 0 when it was just checked against a master.
    """

    name: str
    resolution: float
    repeatability: float
    bias: float = 0.0

    def noise(self, repeats: int = 1) -> float:
        """Return the standard deviation of the mean of that many readings, bias left out."""
        scattered = self.repeatability >= SCATTER * self.resolution
        step = self.resolution**2 / 12 / (repeats if scattered else 1)
        return math.sqrt(self.repeatability**2 / repeats + step)

    def uncertainty(self, repeats: int = 1) -> float:
        """Return the standard uncertainty of the mean of that many readings, bias included."""
        return math.hypot(self.noise(repeats), self.bias)

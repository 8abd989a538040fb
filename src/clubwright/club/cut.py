"""How long the shaft must be for a finished length. Derivation: docs/theory/length.md.

Along the axis from the ground up: the head's bore-to-ground distance, what a weight under the tip lifts, the shaft, and
the cap of the grip. So S = L - bore_to_ground - lift - cap.
"""

from __future__ import annotations

from clubwright.units import Number


def shaft_length_m(axis_length_m: Number, bore_to_ground_m: Number, lift_m: Number, cap_m: Number) -> Number:
    """Return tip-to-butt length of the shaft for a club of that axis-to-ground length, all in m."""
    return axis_length_m - bore_to_ground_m - lift_m - cap_m

"""What would settle an open verdict: more readings, a finer gauge, or a nudge of the club towards its target.

A repeated reading averages what is its own; what all readings of the club share, and the gauge's bias, are a floor under
every mean (`clubwright.belief.instruments`). Derivation: docs/theory/conformity.md.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import msgspec

from clubwright.belief.instruments import Instrument
from clubwright.conformity.outcome import ROUNDING, Verdict, plain
from clubwright.conformity.rules import require_numbers

MOST_REPEATS = 30
"""More readings than a person takes with care: beyond it the answer is another gauge. Common practice, no source."""


class Settling(msgspec.Struct, frozen=True, kw_only=True):
    """What would settle a verdict, supposing that the next readings say the same as this one.

    Attributes:
        settled: Whether the reading has decided already.
        needed_u: Largest standard uncertainty with which this reading would decide; 0 when it lies on the limit itself.
        proving_u: Largest standard uncertainty that can prove anything of this tolerance; infinity with one limit only.
        can_prove: Whether the present uncertainty can prove the tolerance at all.
        repeats: Number of readings whose mean decides, or None when the gauge is not known or its floor is too high.
        floor_u: Standard uncertainty of this gauge after endless readings, or None when the gauge is not known.
        move: How far the reading has to move inward to be proved within; None when the uncertainty cannot prove it.
    """

    settled: bool
    needed_u: float
    proving_u: float
    can_prove: bool
    repeats: int | None
    floor_u: float | None
    move: float | None


def settle(found: Verdict, gauge: Instrument | None = None) -> Settling:
    """Work out what would settle a verdict.

    Args:
        found: The verdict.
        gauge: The gauge that would be read again; None when it is not known.

    Raises:
        InputError: A figure of the gauge is negative or not finite.
    """
    if gauge is not None:
        figures = {"repeatability": gauge.repeatability, "resolution": gauge.resolution, "bias": gauge.bias}
        require_numbers(any_sign={}, at_least_zero={**figures, "stated uncertainty": gauge.stated})
    factor = found.guard_factor
    needed = abs(found.margin) / factor if factor > 0 else math.inf
    if abs(found.margin) <= ROUNDING * abs(found.measured):
        needed = 0.0
    floor, repeats = None, None
    if gauge is not None:
        floor = math.hypot(math.sqrt(gauge.shared_variance), gauge.bias)
        repeats = _repeats(needed, floor, gauge)
    return Settling(
        settled=found.verdict != "cannot tell",
        needed_u=needed,
        proving_u=(found.high - found.low) / 2 / factor if factor > 0 else math.inf,
        can_prove=found.can_prove,
        repeats=repeats,
        floor_u=floor,
        move=max(0.0, found.guard - found.margin) if found.can_prove else None,
    )


def settle_text(settling: Settling, render: Callable[[float], str] = plain) -> str:
    """Say what would settle the verdict, in a few short sentences; nothing when it is settled.

    Args:
        settling: The numbers.
        render: Writes a number of the quantity's unit.
    """
    if settling.settled:
        return ""
    sentences = []
    # more readings may still do what this one's uncertainty cannot: then that is said, and nothing against it
    if not settling.can_prove and (settling.floor_u is None or settling.floor_u >= settling.proving_u):
        sentences.append(
            f"This gauge cannot prove this tolerance, wherever the reading falls: that takes a standard uncertainty of "
            f"{render(settling.proving_u)} or less, or a wider tolerance agreed before the reading."
        )
    if settling.needed_u <= 0:
        sentences.append("The reading lies on the limit itself, where no gauge decides.")
    elif settling.repeats is not None and settling.repeats <= MOST_REPEATS:
        sentences.append(f"The mean of {settling.repeats} readings decides, if it stays where this one is.")
    elif settling.repeats is not None:
        sentences.append(
            f"It would take {settling.repeats} readings, more than anyone takes with care: use a gauge with a standard "
            f"uncertainty of {render(settling.needed_u)} or less."
        )
    elif settling.floor_u is not None:
        sentences.append(
            f"More readings do not help: what they share, step and bias, leaves {render(settling.floor_u)}. Use a gauge "
            f"with a standard uncertainty of {render(settling.needed_u)} or less, or agree on a wider tolerance."
        )
    else:
        sentences.append(f"A standard uncertainty of {render(settling.needed_u)} or less decides.")
    if settling.move is not None and settling.move > 0:
        sentences.append(f"Or bring the club {render(settling.move)} further to the safe side of the limit.")
    return " ".join(sentences)


def _repeats(needed: float, floor: float, gauge: Instrument) -> int | None:
    """Smallest n whose mean has an uncertainty of at most `needed`, or None when no n does it."""
    if needed <= 0:
        return None
    if gauge.uncertainty() <= needed:
        return 1
    room = needed**2 - floor**2
    if room <= 0:
        return None
    # A quotient that is a whole number up to rounding must not cost one more reading.
    return max(1, math.ceil(gauge.own_variance / room * (1 - 1e-9)))

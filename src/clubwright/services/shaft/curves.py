"""The shaft of one club along its own length: its stiffness, what is cut off, what the bore and the clamp hold.

Places are counted from the raw tip, as in the stiffness profile. What is drawn is what is believed: the profile of the
ticket times the believed stiffness factor. Equations: docs/theory/frequency.md; what the page says of it:
docs/user/shaft.md. Checked in tests/unit/services/shaft/test_shaft_curves.py.
"""

from __future__ import annotations

import math

import msgspec

from clubwright.belief.gaussian import Gaussian
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.club.frequency import end_place_m, stiffness_of
from clubwright.planning.advice.trim_planner import TrimOption
from clubwright.planning.club_state import ClubState

FACTOR = "shaft.stiffness_factor"
TICKS = 5
"""About so many lines across the picture."""

Point = tuple[float, float]


class ShaftCurve(msgspec.Struct, frozen=True, kw_only=True):
    """One shaft, tip to butt.

    Attributes:
        points: Place from the raw tip (m) and bending stiffness (N m2), corner to corner; a step gives a place twice.
        raw_m: Where the raw butt is.
        tip_cut_m: Where the tip is, or will be, cut: what lies before it is waste.
        butt_cut_m: Where the butt is, or will be, cut: what lies beyond is waste.
        insertion_end_m: Up to here the bore holds the shaft still.
        clamp_m: From here to the butt the clamp holds the finished club.
        done: True when the shaft has its length already.
        factor: Believed stiffness factor, mean and standard uncertainty.
        was_m: Cuts at tip and butt of the ticket's own trim while another one is looked at, else None.
    """

    points: tuple[Point, ...]
    raw_m: float
    tip_cut_m: float
    butt_cut_m: float
    insertion_end_m: float
    clamp_m: float
    done: bool
    factor: tuple[float, float]
    was_m: tuple[float, float] | None = None

    def ei_n_m2(self, place_m: float) -> float:
        """Return the stiffness at a place on the shaft, in N m2; on a step, that of the butt side."""
        low, high = next(
            (pair for pair in zip(self.points, self.points[1:], strict=False) if pair[0][0] <= place_m < pair[1][0]),
            self.points[-2:],
        )
        share = (place_m - low[0]) / (high[0] - low[0])
        return low[1] + share * (high[1] - low[1])

    @property
    def factor_text(self) -> str:
        """The stiffness factor in words, to a thousandth."""
        mean, sd = self.factor
        return f"{mean:.3f} ± {sd:.3f}"

    @property
    def top_n_m2(self) -> float:
        """Upper end of the scale: the first tick at or above everything drawn."""
        step = tick_step(max(ei for _, ei in self.points))
        return math.ceil(max(ei for _, ei in self.points) / step - 1e-9) * step


def has_shaft_page(club_state: ClubState) -> bool:
    """True when the bench leads to the page of the shaft: a stiffness is given, or a frequency is ordered."""
    return club_state.ticket.club.stiffness is not None or "frequency" in club_state.ticket.targets


def shaft_curve(club_state: ClubState, option: TrimOption | None = None) -> ShaftCurve:
    """Return the curve of a club's shaft as the ticket trims it, or as an option of the trim planner would.

    Args:
        club_state: The club.
        option: A trim that is looked at; None for the ticket's own.

    Raises:
        NotPossible: when the ticket gives no stiffness.
    """
    build = club_state.build()
    profile, shaft = stiffness_of(build.club.shaft), build.club.shaft
    known = FACTOR in club_state.belief.names
    factor = factor_of(club_state.belief) if known else (float(shaft.stiffness_factor), 0.0)
    raw, length = float(shaft.raw_length_m), float(shaft.length_m)
    own = float(shaft.tip_trim_m)
    tip = own if option is None else option.tip_trim_m
    meter = club_state.prior.conventions.meter
    return ShaftCurve(
        points=curve_points(profile, max(raw, tip + length), factor[0]),
        raw_m=raw,
        tip_cut_m=tip,
        butt_cut_m=tip + length,
        insertion_end_m=tip + float(end_place_m(build) - build.tip_m),
        clamp_m=tip + float(build.stop_m - build.tip_m) - meter.clamp_length_m,
        done=club_state.ticket.is_cut,
        factor=factor,
        was_m=None if option is None or abs(tip - own) < 1e-6 else (own, own + length),
    )


def curve_points(profile: StiffnessProfile, to_m: float, factor: float = 1.0) -> tuple[Point, ...]:
    """Return the corners of a profile up to a place, each (place in m, stiffness in N m2 times the factor)."""
    found: list[Point] = []
    for piece in profile.pieces:
        if piece.start_m >= to_m - 1e-9:
            break
        end = min(piece.end_m, to_m)
        for point in ((piece.start_m, piece.start_ei_n_m2 * factor), (end, piece.at(end)[0] * factor)):
            if not found or max(abs(point[0] - found[-1][0]), abs(point[1] - found[-1][1])) > 1e-9:
                found.append(point)
    return tuple(found)


def tick_step(span: float, ticks: int = TICKS) -> float:
    """Return the step of 1, 2 or 5 times a power of ten that lays about so many ticks over a span."""
    rough = span / ticks
    power = 10.0 ** math.floor(math.log10(rough))
    return next(size * power for size in (1.0, 2.0, 5.0, 10.0) if size * power >= rough * (1 - 1e-9))


def factor_of(belief: Gaussian) -> tuple[float, float]:
    """Return what is believed of a stiffness factor that is not certain: mean and standard deviation."""
    return belief.mean_of(FACTOR), belief.sd_of(FACTOR)

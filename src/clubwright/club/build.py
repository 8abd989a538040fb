"""A club as it stands at one stage, and the place of every part of it on one axis.

The axis is the shaft's. Here a place is counted from the axis' ground point up towards the grip; `Build.stop_m` is where
the butt stop of a gauge touches, so that a part at place y reads at x = stop - y from the stop. Derivation:
docs/theory/statics.md.
"""

from __future__ import annotations

from collections.abc import Collection
from functools import cached_property
from typing import Any, Literal, NamedTuple

import msgspec

from clubwright.club.parts import Club, as_it_came
from clubwright.club.shaft import trimmed
from clubwright.club.stages import FINISHED, Stage
from clubwright.units import GRAM_INCH_KG_M, INCH_M, OUNCE_INCH_KG_M, STANDARD_GRAVITY_M_S2, Number


class SwingWeightScale(msgspec.Struct, frozen=True):
    """A 14-inch scale: fulcrum from the butt stop, first moment of mass at A0, and the size of one point."""

    name: str
    fulcrum_m: float
    zero_kg_m: float
    point_kg_m: float
    source: str


INCH_OUNCE_SCALE = SwingWeightScale(
    "1.75 in oz",
    14 * INCH_M,
    161.0 * OUNCE_INCH_KG_M,
    1.75 * OUNCE_INCH_KG_M,
    "D0 = 213.5 in oz and 1.75 in oz a point: from memory, agrees within 0.12 point with three published clubs",
)
GRAM_INCH_SCALE = SwingWeightScale(
    "50 g in",
    14 * INCH_M,
    4550.0 * GRAM_INCH_KG_M,
    50.0 * GRAM_INCH_KG_M,
    "50 g in a point: Tutelman, golf club design notes; D0 = 6050 g in from memory",
)
SWING_WEIGHT_SCALES = {scale.name: scale for scale in (INCH_OUNCE_SCALE, GRAM_INCH_SCALE)}


class FrequencyMeter(msgspec.Struct, frozen=True, kw_only=True):
    """How a club is held and set swinging when its frequency is read; a reading means nothing without it.

    Attributes:
        clamp_length_m: What the clamp holds, from the butt stop; clamps of 2.5 in and of 5 in are both in use, and the
            longer one reads higher (an article on shaft dynamics at swingsurgeon.com).
        clamp_compliance_rad_n_m: How far the clamp gives way in turning; 0 for a rigid one.
        head_down: How far the club hangs: 0 lying level, 1 hanging head down, -1 standing head up.
        hosel: ``rigid`` where the bore holds the shaft still, ``open`` where it bends down to its tip.
        test_mass_kg: Mass put on the tip of a bare shaft; 205 g is common practice, no source.
        test_insertion_m: How far the tip sits in that mass, its centre half-way.
    """

    clamp_length_m: float = 5 * INCH_M
    clamp_compliance_rad_n_m: float = 0.0
    head_down: float = 0.0
    hosel: Literal["rigid", "open"] = "rigid"
    test_mass_kg: float = 0.205
    test_insertion_m: float = 1.0 * INCH_M


class Conventions(msgspec.Struct, frozen=True, kw_only=True):
    """Where the trade has more than one definition, the one in use; stored with every number it makes.

    Attributes:
        scale: Definition of the swing-weight point.
        length_method: ``axis to ground`` or ``60 degree plane``.
        gravity_m_s2: For the period of a pendulum.
        pivot_beyond_butt_m: Where a pendulum's pivot sits, beyond the butt stop.
        meter: How the frequency is read.
    """

    scale: SwingWeightScale = INCH_OUNCE_SCALE
    length_method: str = "axis to ground"
    gravity_m_s2: float = STANDARD_GRAVITY_M_S2
    pivot_beyond_butt_m: float = 0.0
    meter: FrequencyMeter = FrequencyMeter()


class Piece(NamedTuple):
    """One mass on the axis: how much, how far up from the ground point, how far off the axis, own inertia."""

    part: str
    mass_kg: Number
    place_m: Number
    off_axis_m: Number
    own_inertia_kg_m2: Number


class Build(msgspec.Struct, frozen=True, kw_only=True, dict=True):
    """One club at one stage with some weights of its tray fitted.

    Attributes:
        club: Its parts; at a stage with old parts those it came in with, whatever club was given.
        stage: Which of them are on.
        fitted: How many of each weight of ``club.weights`` are fitted, in that order; empty means none.
        conventions: The definitions in use.
    """

    club: Club
    stage: Stage = FINISHED
    fitted: tuple[Number, ...] = ()
    conventions: Conventions = Conventions()

    def __post_init__(self) -> None:
        """Put the old parts on where the stage has them, and cut a shaft that is still to be cut for what is fitted.

        No quantity can then take a new part for an old one, nor the shaft of another set of weights for this one's.
        """
        if self.stage.old_parts and self.club.came is not None:
            msgspec.structs.force_setattr(self, "club", as_it_came(self.club))
        elif "weights" in self.stage.parts and any(weight.cut_allows_m for weight in self.club.weights):
            msgspec.structs.force_setattr(self, "club", _cut_for(self.club, self.fitted))

    @cached_property
    def kept(self) -> dict[str, Any]:
        """What several quantities of this build share, worked out once (`clubwright.club.statics` keeps its sums here)."""
        return {}

    @property
    def lift_m(self) -> Number:
        """How far weights under the tip lift the shaft."""
        lift: Number = 0.0
        for weight, count in zip(self.club.weights, self.fitted, strict=False):
            if weight.seat == "tip":
                lift = lift + weight.lifts_shaft_m * count
        return lift

    @property
    def tip_m(self) -> Number:
        """Place of the shaft's tip end."""
        return self.club.head.bore_to_ground_m + self.lift_m

    @property
    def butt_m(self) -> Number:
        """Place of the shaft's butt end."""
        return self.tip_m + self.club.shaft.length_m

    @property
    def cap_face_m(self) -> Number:
        """Place of the outer face of the grip cap, where it is or will be."""
        return self.butt_m + self.club.grip.cap_m

    @property
    def stop_m(self) -> Number:
        """Place of what a gauge's butt stop touches at this stage."""
        return self.cap_face_m if self.stage.stop_on_cap else self.butt_m

    @property
    def hosel_top_m(self) -> Number:
        """Place of the top of the hosel, where the ferrule sits."""
        return self.club.head.bore_to_ground_m + self.club.head.bore_depth_m


def _cut_for(club: Club, fitted: tuple[Number, ...]) -> Club:
    """Return the club with its shaft as long as the cut leaves it when those weights go under its tip."""
    length = club.shaft.length_m
    for weight, count in zip(club.weights, fitted or (0.0,) * len(club.weights), strict=False):
        length = length - weight.cut_allows_m * (count - weight.cut_for)
    weights = tuple(msgspec.structs.replace(weight, cut_allows_m=0.0) for weight in club.weights)
    shaft = msgspec.structs.replace(club.shaft, length_m=length)
    return msgspec.structs.replace(club, shaft=shaft, weights=weights)


def pieces(build: Build, parts: Collection[str] | None = None) -> list[Piece]:
    """List the masses that are on the club at this stage, or those of some parts only, each at its place."""
    club, on = build.club, build.stage.parts if parts is None else parts
    found: list[Piece] = []
    if "shaft" in on:
        mass, cg, inertia = trimmed(club.shaft)
        found.append(Piece("shaft", mass, build.tip_m + cg, 0.0, inertia))
    if "head" in on:
        head = club.head
        found.append(
            Piece("head", head.mass_kg, head.cg_from_ground_m, head.cg_off_axis_m, head.own_inertia_kg_m2),
        )
    if "adapter" in on and club.adapter is not None:
        found.append(Piece("adapter", club.adapter.mass_kg, club.adapter.from_ground_m, 0.0, 0.0))
    if "ferrule" in on:
        place = build.hosel_top_m + club.ferrule.length_m / 2
        found.append(
            Piece("ferrule", club.ferrule.mass_kg, place, 0.0, _rod(club.ferrule.mass_kg, club.ferrule.length_m))
        )
    if "adhesive" in on:
        place = club.head.bore_to_ground_m + club.head.bore_depth_m / 2
        found.append(
            Piece("adhesive", club.adhesive.mass_kg, place, 0.0, _rod(club.adhesive.mass_kg, club.head.bore_depth_m))
        )
    if "weights" in on:
        for weight, count in zip(club.weights, build.fitted, strict=False):
            place = build.cap_face_m - weight.place_m if weight.seat == "butt" else weight.place_m
            found.append(Piece(weight.name, weight.mass_kg * count, place, weight.off_axis_m, 0.0))
    if "tapes" in on:
        for tape in club.tapes:
            place = build.cap_face_m - tape.cg_from_cap_m
            found.append(Piece("tapes", tape.mass_kg, place, 0.0, _rod(tape.mass_kg, tape.length_m)))
    if "grip" in on:
        grip = club.grip
        place = build.cap_face_m - grip.cg_from_cap_m
        found.append(Piece("grip", grip.mass_kg, place, 0.0, _rod(grip.mass_kg, grip.length_m)))
    return found


def _rod(mass_kg: Number, length_m: Number) -> Number:
    """Inertia of a uniform rod about its middle."""
    return mass_kg * length_m * length_m / 12

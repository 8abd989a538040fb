"""The parts of a club, each with its mass, its place along the shaft axis, and what else the mechanics need.

Places are given the way a clubmaker measures them: from the ground point of the shaft axis up ("from ground"), from the
tip of the shaft, or from the outer face of the grip cap. `clubwright.club.build` puts them on one axis. Every number may
be an array, so that a thousand clubs, or one club with a thousand guesses about it, are worked at once.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.units import Number

Kind = Literal["driver", "fairway", "hybrid", "iron", "wedge", "putter"]
Hand = Literal["right", "left"]
Seat = Literal["port", "tip", "butt", "head"]

KINDS: tuple[Kind, ...] = ("driver", "fairway", "hybrid", "iron", "wedge", "putter")
WOODS: tuple[Kind, ...] = ("driver", "fairway", "hybrid")
SEATS: tuple[Seat, ...] = ("port", "tip", "butt", "head")


class Head(msgspec.Struct, frozen=True, kw_only=True):
    """A bare head as it lies on the scale, with its measured angles.

    Attributes:
        mass_kg: Mass without shaft, ferrule or loose weights.
        cg_from_ground_m: Centre of gravity along the shaft axis, from the axis' ground point towards the grip; negative
            when it lies beyond that point.
        cg_off_axis_m: Distance of the centre of gravity from the shaft axis.
        own_inertia_kg_m2: Moment of inertia about its own centre of gravity, across the shaft axis.
        loft_rad, lie_rad, bounce_rad: As measured, as the head stands now.
        bore_to_ground_m: From the bottom of the bore, where the tip seats, to the ground point, along the axis.
        bore_depth_m: Depth of the bore from the hosel top.
        bore_diameter_m: Of the bore where the tip sits; 0 while nobody measured it.
        sole_camber_m, sole_contact_m: Heel-toe radius of the sole, and how far toe-ward of the axis it touches the
            ground; they make the difference between the two length conventions.
    """

    mass_kg: Number
    cg_from_ground_m: Number
    cg_off_axis_m: Number = 0.0
    own_inertia_kg_m2: Number = 0.0
    loft_rad: Number = 0.0
    lie_rad: Number = 0.0
    bounce_rad: Number = 0.0
    bore_to_ground_m: Number = 0.0
    bore_depth_m: Number = 0.0
    bore_diameter_m: Number = 0.0
    sole_camber_m: Number = 0.25
    sole_contact_m: Number = 0.055


class Shaft(msgspec.Struct, frozen=True, kw_only=True):
    """A shaft: weighed and balanced raw, then cut.

    Attributes:
        raw_length_m: Length before any trim.
        mass_kg: Mass before any trim.
        balance_from_tip_m: Balance point before any trim, from the tip end.
        length_m: Tip end to butt end after trims.
        tip_trim_m: What was cut from the tip; 0 for a taper tip.
        tip_density_kg_m, butt_density_kg_m: Mean mass per length of what is cut off at either end.
        butt_diameter_m, lower_diameter_m: Outside diameter under the grip, 2 in and 6 in below the cap.
        tip_diameter_m: Outside diameter of the prepared tip where it sits in the bore; 0 while nobody measured it.
        stiffness: Bending stiffness along the raw shaft, when it is known; the frequency needs it.
        stiffness_factor: What this shaft's bending stiffness is of its profile's, one number for all of it.
    """

    raw_length_m: Number
    mass_kg: Number
    balance_from_tip_m: Number
    length_m: Number
    tip_trim_m: Number = 0.0
    tip_density_kg_m: Number = 0.0
    butt_density_kg_m: Number = 0.0
    butt_diameter_m: Number = 0.0
    lower_diameter_m: Number = 0.0
    tip_diameter_m: Number = 0.0
    stiffness: StiffnessProfile | None = None
    stiffness_factor: Number = 1.0


class Grip(msgspec.Struct, frozen=True, kw_only=True):
    """A grip as weighed.

    Attributes:
        mass_kg: Mass of the grip alone, tape not included.
        cg_from_cap_m: Centre of gravity from the outer face of the cap, on the club.
        cap_m: Thickness of the end cap: how far the outer face stands beyond the butt of the shaft.
        length_m: Overall length.
        core_m: Inside diameter it is made for, 2 in below the cap.
        core_taper_m: How much narrower the core is 6 in below the cap: it narrows with the shaft that it is made for.
        nominal_2in_m, nominal_6in_m: Outside diameter when the core equals the butt.
        build_up_blend: Which of the two published build-up models holds for this grip: 0 constant volume, 1 additive.
    """

    mass_kg: Number
    cg_from_cap_m: Number
    cap_m: Number
    length_m: Number = 0.267
    core_m: Number = 0.0
    core_taper_m: Number = 0.0
    nominal_2in_m: Number = 0.0
    nominal_6in_m: Number = 0.0
    build_up_blend: Number = 0.5


class Tape(msgspec.Struct, frozen=True, kw_only=True):
    """All layers of one kind of tape under the grip.

    Attributes:
        mass_kg: Mass of all its layers together.
        cg_from_cap_m: Where its centre ends up on the finished club, from the outer face of the cap.
        build_up_2in_m, build_up_6in_m: Thickness it adds, on one side, 2 in and 6 in below the cap. The base layer that
            a grip's nominal size already counts on adds none.
        length_m: Extent along the shaft.
    """

    mass_kg: Number
    cg_from_cap_m: Number
    build_up_2in_m: Number = 0.0
    build_up_6in_m: Number = 0.0
    length_m: Number = 0.254


class Ferrule(msgspec.Struct, frozen=True, kw_only=True):
    """The ferrule, sitting on the top of the hosel."""

    mass_kg: Number
    length_m: Number = 0.0254


class Adhesive(msgspec.Struct, frozen=True, kw_only=True):
    """What the adhesive leaves in the joint once cured; its centre is taken at half the bore depth."""

    mass_kg: Number


class Adapter(msgspec.Struct, frozen=True, kw_only=True):
    """The sleeve of a wood and its screw, when they were not weighed with the head."""

    mass_kg: Number
    from_ground_m: Number


class Weight(msgspec.Struct, frozen=True, kw_only=True):
    """A loose weight of the tray, and where it would sit.

    Attributes:
        name: As the tray calls it.
        mass_kg: Mass of one piece.
        seat: ``port`` of the head, ``tip`` (in or under the shaft tip), ``butt`` (inside the shaft under the cap), or
            ``head`` (lead tape, hot melt).
        place_m: Centre of gravity along the axis: from the ground point, or from the cap for a ``butt`` weight.
        off_axis_m: Its distance from the shaft axis.
        lifts_shaft_m: Thickness under the tip, by which the shaft sits higher.
        cut_allows_m: What the saw still takes more off the butt for each piece that is fitted beyond `cut_for`, so that the
            club keeps its length; 0 once the shaft is cut.
        cut_for: How many of them the shaft's length already allows for.
    """

    name: str
    mass_kg: Number
    seat: Seat
    place_m: Number
    off_axis_m: Number = 0.0
    lifts_shaft_m: Number = 0.0
    cut_allows_m: float = 0.0
    cut_for: float = 0.0


class Came(msgspec.Struct, frozen=True, kw_only=True):
    """What was on a club when it came in and comes off in the job; None where the part stays what it is.

    Attributes:
        grip: The old grip.
        tapes: The old tape under it, in a job that takes the old grip off.
        shaft: The old shaft, as it was cut.
        ferrule: The old ferrule.
        adhesive: What the old adhesive left in the joint.
    """

    grip: Grip | None = None
    tapes: tuple[Tape, ...] | None = None
    shaft: Shaft | None = None
    ferrule: Ferrule | None = None
    adhesive: Adhesive | None = None


class Earlier(msgspec.Struct, frozen=True, kw_only=True):
    """What one change of the club made different, as it was before it; None where it changed nothing.

    Attributes:
        head, shaft, grip, ferrule, adhesive: Another part that was on before.
        tapes: All tape that was on before; a number stands for that tape of the club after the change.
        length_m: Length of the shaft before it was cut anew, tip end to butt end.
        off_butt_m: What was off the butt of a shaft that was not yet cut to length.
        tip_trim_m: What was off its tip.
        loft_rad, lie_rad, bounce_rad: Angles of the head before a bend; with the loft bent and no bounce given, the sole has
            turned with the face, one to one.
        bore_diameter_m: Of the bore before it was reamed.
        came: Whether the parts that the club came in with were on (`Club.came`).
    """

    head: Head | None = None
    shaft: Shaft | None = None
    grip: Grip | None = None
    ferrule: Ferrule | None = None
    adhesive: Adhesive | None = None
    tapes: tuple[Tape | int, ...] | None = None
    length_m: Number | None = None
    off_butt_m: Number | None = None
    tip_trim_m: Number | None = None
    loft_rad: Number | None = None
    lie_rad: Number | None = None
    bounce_rad: Number | None = None
    bore_diameter_m: Number | None = None
    came: bool = False


class Club(msgspec.Struct, frozen=True, kw_only=True):
    """All the parts meant for one club, the tray of weights to choose from, and what was on it before.

    `came` is what comes off a club that came in; `earlier` what each change made different, the first change first.
    """

    kind: Kind
    head: Head
    shaft: Shaft
    grip: Grip
    ferrule: Ferrule
    adhesive: Adhesive
    tapes: tuple[Tape, ...] = ()
    adapter: Adapter | None = None
    weights: tuple[Weight, ...] = ()
    came: Came | None = None
    earlier: tuple[Earlier, ...] = ()


def as_it_came(club: Club) -> Club:
    """Return the club with the parts that it came in with; the club itself where none of them comes off."""
    if club.came is None:
        return club
    old = {name: part for name in Came.__struct_fields__ if (part := getattr(club.came, name)) is not None}
    return msgspec.structs.replace(club, came=None, **old)

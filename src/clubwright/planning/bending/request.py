"""What a bend plan is asked with: the head as measured, what is ordered, the metal, and what was bent before."""

from __future__ import annotations

import msgspec

from clubwright.club.parts import Hand, Kind
from clubwright.units import DEGREE_RAD


class Angles(msgspec.Struct, frozen=True, kw_only=True):
    """Loft, lie and bounce of a head, in rad; None where it is not known or not asked for."""

    loft_rad: float | None = None
    lie_rad: float | None = None
    bounce_rad: float | None = None


class BentSoFar(msgspec.Struct, frozen=True, kw_only=True):
    """All bends a head has had, added up without their signs: going back and forth uses the metal up as well."""

    loft_rad: float = 0.0
    lie_rad: float = 0.0


class BendRequest(msgspec.Struct, frozen=True, kw_only=True):
    """One head and what it should become.

    Attributes:
        kind: Kind of club.
        hand: Hand it is for.
        now: Angles as measured, not as stamped.
        target: Angles as ordered; any of them.
        metal: As the ticket has it; None when nobody said.
        bent_so_far: Bends made on this head before; None when nobody knows, which counts as none and is said.
        expert: The person at the vise answers for going beyond the routine limit, up to the expert one.
        bounce_tolerance_rad: How far the bounce may end from its target; half a degree unless said otherwise (common
            practice, no source).
        sleeve: Whether the head is on a sleeve, whose settings turn loft, lie and face.
        cg_from_ground_m, cg_off_axis_m: The head's centre of gravity, along the axis from its ground point and square
            to it in the lie plane, when known.
        sole_camber_m, sole_contact_m: Shape of the sole; the defaults of `clubwright.club.length` when not given.
    """

    kind: Kind
    hand: Hand
    now: Angles
    target: Angles
    metal: str | None = None
    bent_so_far: BentSoFar | None = None
    expert: bool = False
    sleeve: bool = False
    bounce_tolerance_rad: float = DEGREE_RAD / 2
    cg_from_ground_m: float | None = None
    cg_off_axis_m: float | None = None
    sole_camber_m: float | None = None
    sole_contact_m: float | None = None

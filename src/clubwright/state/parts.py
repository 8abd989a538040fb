"""The parts that go on a club, each with the figures and words that are known of it.

`gauges` says by the key of a figure which gauge measured it; what is not in it was measured by nobody knows what.
"""

from __future__ import annotations

import msgspec

from clubwright.state.particulars import Entry, Part, Particulars, StiffnessTyped


class HeadPart(Part, frozen=True, kw_only=True):
    """A head, its hosel and what was bent of it."""

    family: str | None = None
    lot: str | None = None
    piece: str | None = None
    hand: str | None = None
    mass: Entry | None = None
    loft: Entry | None = None
    lie: Entry | None = None
    bounce: Entry | None = None
    metal: str | None = None
    bore_to_ground: Entry | None = None
    bore_depth: Entry | None = None
    bore_diameter: Entry | None = None
    bore_reamed: str | None = None
    hosel: str | None = None
    bore_type: str | None = None
    cg_from_ground: Entry | None = None
    cg_off_axis: Entry | None = None
    own_inertia: Entry | None = None
    sole_camber: Entry | None = None
    sole_contact: Entry | None = None
    bent_loft: Entry | None = None
    bent_lie: Entry | None = None
    ports: Entry | None = None
    ports_to_fill: Entry | None = None
    gauges: dict[str, str] = msgspec.field(default_factory=dict)


class HeadBefore(HeadPart, frozen=True, kw_only=True):
    """The head as it was before a change of the club; ``another`` says whether it was another one."""

    another: str | None = None


class AdapterPart(Particulars, frozen=True, kw_only=True):
    """The sleeve between shaft and head."""

    mass: Entry | None = None
    from_ground: Entry | None = None
    setting: str | None = None
    torque: str | None = None
    gauges: dict[str, str] = msgspec.field(default_factory=dict)


class ShaftPart(Part, frozen=True, kw_only=True):
    """A shaft: raw figures, what came off it, figures as cut."""

    family: str | None = None
    lot: str | None = None
    piece: str | None = None
    material: str | None = None
    tip: str | None = None
    raw_length: Entry | None = None
    mass: Entry | None = None
    balance_from_tip: Entry | None = None
    tip_trim: Entry | None = None
    tip_trimmed: str | None = None
    butt_density: Entry | None = None
    tip_density: Entry | None = None
    weighed: str | None = None
    cut_length: Entry | None = None
    cut_mass: Entry | None = None
    cut_balance_from_tip: Entry | None = None
    cut_mass_length: Entry | None = None
    cut_balance_length: Entry | None = None
    butt_diameter: Entry | None = None
    lower_diameter: Entry | None = None
    tip_size: Entry | None = None
    tip_diameter: Entry | None = None
    tip_trim_limit: Entry | None = None
    stiffness: StiffnessTyped | None = None
    stiffness_factor: Entry | None = None
    gauges: dict[str, str] = msgspec.field(default_factory=dict)


class ShaftBefore(ShaftPart, frozen=True, kw_only=True):
    """The shaft as it was before a change of the club: ``another`` one, or the same, of which ``butt_off`` came off."""

    butt_off: Entry | None = None
    another: str | None = None


class GripPart(Part, frozen=True, kw_only=True):
    """A grip."""

    family: str | None = None
    lot: str | None = None
    piece: str | None = None
    mass: Entry | None = None
    length: Entry | None = None
    cap: Entry | None = None
    cg_from_cap: Entry | None = None
    core: Entry | None = None
    core_taper: Entry | None = None
    shape: str | None = None
    diameter_2in: Entry | None = None
    diameter_6in: Entry | None = None
    build_up_blend: Entry | None = None
    logo: str | None = None
    gauges: dict[str, str] = msgspec.field(default_factory=dict)


class TapePart(Part, frozen=True, kw_only=True):
    """Tape of one kind under the grip."""

    layers: Entry | None = None
    mass: Entry | None = None
    layer_mass: Entry | None = None
    cg_from_cap: Entry | None = None
    length: Entry | None = None
    width: Entry | None = None
    thickness: Entry | None = None
    area_density: Entry | None = None
    covers: str | None = None
    gauges: dict[str, str] = msgspec.field(default_factory=dict)


class FerrulePart(Particulars, frozen=True, kw_only=True):
    """A ferrule."""

    family: str | None = None
    lot: str | None = None
    piece: str | None = None
    mass: Entry | None = None
    length: Entry | None = None
    gauges: dict[str, str] = msgspec.field(default_factory=dict)


class ShimPart(Part, frozen=True, kw_only=True):
    """What fills the gap between tip and bore."""

    thickness: Entry | None = None


class ReleaseRow(Particulars, frozen=True, kw_only=True):
    """One row of an adhesive's sheet: at which temperature the joint may be released after which time."""

    temperature: Entry | None = None
    time: Entry | None = None


class AdhesivePart(Part, frozen=True, kw_only=True):
    """The adhesive of the joint, with the figures of its sheet."""

    in_joint: Entry | None = None
    ratio: Entry | None = None
    basis: str | None = None
    density_a: Entry | None = None
    density_b: Entry | None = None
    per_joint: Entry | None = None
    joints: Entry | None = None
    waste: Entry | None = None
    scale_error: Entry | None = None
    pot_life: Entry | None = None
    temperature: Entry | None = None
    bond_line_min: Entry | None = None
    bond_line_max: Entry | None = None


class WeightPart(Part, frozen=True, kw_only=True):
    """One kind of weight of the tray."""

    name: str = ""
    mass: Entry | None = None
    count: Entry | None = None
    seat: str = ""
    from_ground: Entry | None = None
    from_cap: Entry | None = None
    off_axis: Entry | None = None
    lifts_shaft: Entry | None = None
    fitted: Entry | None = None
    gauges: dict[str, str] = msgspec.field(default_factory=dict)

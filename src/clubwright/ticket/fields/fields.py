"""The ticket file, field by field: the one list from which it is read, documented and described to other programs.

Every value is a string in trade notation. A field that is a number of a part also says which unknown it is, and how well
such a figure is usually known when the ticket does not say (`sd`): those are estimates of ours for a careful bench.
"""

from __future__ import annotations

import msgspec

from clubwright.club.part_paths import TAPES, WEIGHTS, came_path
from clubwright.club.parts import KINDS, SEATS
from clubwright.club.quantities import QUANTITIES, TARGETS
from clubwright.club.quantity import Asked

JOBS = ("build", "regrip", "reshaft", "loft-lie", "weight")
CUT_JOBS = ("build", "reshaft")
"""Work for which the shaft is cut; at any other the club came with its shaft cut."""
GRIP_JOBS = (*CUT_JOBS, "regrip")
"""Work at which a grip is put on."""
HANDS = ("right", "left")
PRIORITIES = ("now", "today", "this week")
LENGTH_METHODS = ("axis to ground", "60 degree plane")
SCALES = ("1.75 in oz", "50 g in")
RULES = ("guard 2u", "guard 95 %", "simple")


class Field(msgspec.Struct, frozen=True, kw_only=True):
    """One key of one section.

    Attributes:
        key: Its name in the file.
        kind: Kind of notation; ``text`` and ``choice`` are words, ``key`` is one word, ``table`` is a table of its own (`stiffness_fields`),
            ``gauges`` one of gauges by the key of a figure.
        meaning: One line for the person who fills it in.
        example: A value that is understood.
        choices: The words allowed, for a choice.
        needed: Whether the file is refused without it.
        number: The attribute of the part that it sets, if it is a number of a part.
        sd: Standard uncertainty, in trade notation, when the ticket gives none.
        sd_share: The same as a share of the value, where that is the natural form.
        figure: What follows from the part's numbers and is measured here (`clubwright.club.part_figures`).
        shop: Whether the workshop may say it once for all its tickets (`clubwright.ticket.fields.shop`).
        by: Usual name of the gauge that it is read straight off; empty where what that gauge shows is not all of its doubt
            (how well a shaft was balanced, the bottom of a bore, what a box says), so that a person says what measured it.
    """

    key: str
    kind: str
    meaning: str
    example: str
    choices: tuple[str, ...] = ()
    needed: bool = False
    number: str | None = None
    sd: str | None = None
    sd_share: float | None = None
    figure: str | None = None
    shop: bool = False
    by: str = ""


SCALE = QUANTITIES["total_weight"].gauge.name
RULE = QUANTITIES["length"].gauge.name
ANGLE_GAUGE = QUANTITIES["loft"].gauge.name
MICROMETER, PLUG_GAUGE = "micrometer", "plug gauge"
"""Usual names of gauges on a ticket, those of the club's quantities first; the names are ours. What a ticket says of its caliper
is how well it reads a soft grip, far from how well it reads a steel tip: no diameter of a bare part is taken for its."""

BENT = ("bent_loft", "bent_lie")
"""How far a head was bent: what was done, and no figure that a gauge shows."""

MEASURED_KINDS = ("mass", "length", "diameter", "angle")


def is_measured(field: Field) -> bool:
    """True for a figure that a gauge measures: a mass, a length, a diameter or an angle of a part."""
    return field.kind in MEASURED_KINDS and field.key not in BENT


class Section(msgspec.Struct, frozen=True, kw_only=True):
    """One table of the file, or one of several alike (``[[weight]]``).

    Attributes:
        name: Its name in the file.
        meaning: One line.
        fields: Its keys.
        many: Whether it may come several times.
        named: Whether there is one for each name.
        part: Path of the part that it is of (`clubwright.club.part_paths`); empty where it is of no part of the mechanics.
        outer: Name of the table that it stands in, where it stands in one; its name is then of both.
        inner: Its own name there.
    """

    name: str
    meaning: str
    fields: tuple[Field, ...]
    many: bool = False
    named: bool = False
    part: str = ""
    outer: str = ""
    inner: str = ""

    @property
    def table(self) -> str:
        """Name of the table of the document that it is in, or is."""
        return self.outer or self.name

    @property
    def own_name(self) -> str:
        """Its name without that of the table it stands in."""
        return self.inner or self.name

    def field(self, key: str) -> Field | None:
        """Return the field of that key, or None."""
        return next((field for field in self.fields if field.key == key), None)


def _f(
    key: str,
    kind: str,
    meaning: str,
    example: str,
    number: str | None = None,
    sd: str | None = None,
    *,
    share: float | None = None,
    choices: tuple[str, ...] = (),
    needed: bool = False,
    figure: str | None = None,
    by: str = "",
) -> Field:
    return Field(
        key=key,
        kind=kind,
        meaning=meaning,
        example=example,
        number=number,
        sd=sd,
        sd_share=share,
        figure=figure,
        choices=choices,
        needed=needed,
        by=by or (SCALE if kind == "mass" else ""),
    )


def _of_the_shop(*fields: Field) -> tuple[Field, ...]:
    """Mark fields that the workshop may say once, for every ticket that does not say them itself."""
    return tuple(msgspec.structs.replace(field, shop=True) for field in fields)


METER_FIELDS = (
    _f("clamp", "length", "what the frequency meter's clamp holds, from its butt stop", "5 in"),
    _f("clamp_give", "angle", "how far that clamp turns when 1 kg hangs 1 m out from it", "0.05 deg"),
    _f("frequency_test_weight", "mass", "what hangs on the tip of a bare shaft when its frequency is read", "205 g"),
    _f("frequency_test_insertion", "length", "how far the tip sits in that weight", "1 in"),
)
"""How a frequency is read: of the shop, of one meter, of one reading; the narrower one counts."""

TICKET = Section(
    name="ticket",
    meaning="whose club, which club, what work",
    fields=(
        _f(
            "id",
            "text",
            "ticket number; capitals, digits, - and . only, so that it fits a small code",
            "T-0042",
            needed=True,
        ),
        _f("player", "text", "whose club", "A. Example"),
        _f("label", "text", "what the club is called", "54 wedge"),
        _f("kind", "choice", "kind of club", "wedge", choices=KINDS, needed=True),
        _f("hand", "choice", "which hand the club is for", "right", choices=HANDS, needed=True),
        _f("job", "choice", "the work asked for; build when left out", "build", choices=JOBS),
        _f("priority", "choice", "how soon it is needed; this week when left out", "today", choices=PRIORITIES),
        _f("promised", "text", "when it is promised, as said", "Wed 15:00"),
        _f("asked", "text", "the words it was asked in", "54, mid bounce, D4, half flat"),
        _f("club", "text", "ticket of an earlier job on the same club, in the record", "T-0042"),
        _f("again_of", "text", "ticket of the club that this one makes again", "T-0042"),
        _f("note", "text", "anything else; it changes nothing that is computed", "plays in the rain"),
        _f(
            "invented",
            "choice",
            "whether all of it is made up; sheets and pages are then marked",
            "yes",
            choices=("yes", "no"),
        ),
    ),
)

_LENGTH_METHOD = _f("length_method", "choice", "how that length is measured", "axis to ground", choices=LENGTH_METHODS)


def _asked(key: str, asked: Asked) -> tuple[Field, ...]:
    field = _f(key, QUANTITIES[key].kind, asked.meaning, asked.example)
    return (field, _LENGTH_METHOD) if key == "length" else (field,)


TARGET = Section(
    name="target",
    meaning="what the finished club shall read; any subset",
    fields=tuple(field for key, asked in TARGETS.items() for field in _asked(key, asked)),
)

TOLERANCE = Section(
    name="tolerance",
    meaning="half-widths; missing ones are the shop's defaults",
    fields=_of_the_shop(
        *(_f(key, QUANTITIES[key].tolerance_kind, "half-width", asked.half_width) for key, asked in TARGETS.items())
    ),
)

BASE = Section(
    name="base",
    meaning="what a relative target (`+1/4`, `1/2 flat`) is counted from",
    fields=tuple(
        _f(key, QUANTITIES[key].shown_kind, asked.base_meaning, asked.base)
        for key, asked in TARGETS.items()
        if asked.base
    ),
)

_GAUGES = Field(
    key="gauges",
    kind="gauges",
    meaning="which gauge of [instrument.NAME] measured which of these figures; one that is not in it has the usual "
    "uncertainty of its own",
    example='{ mass = "gram scale" }',
)

KEY_PATTERN = "[A-Za-z0-9][A-Za-z0-9._/-]{0,39}"
"""What a key may be: one word that two people write alike."""

WHICH_PART = ("family", "lot", "piece")
"""Keys that say which part it is: of which kind, out of which delivery, which one of them. No free text, so that they can be
compared."""


def _which(family: str) -> tuple[Field, ...]:
    return (
        _f("family", "key", "which model of it, one word for all of that model", family),
        _f("lot", "key", "which delivery or production lot it is of", "lot-7"),
        _f("piece", "key", "which single piece, such as its serial number", "0042"),
    )


HEAD = Section(
    name="head",
    part="head",
    meaning="the head in hand, as measured",
    fields=(
        _f("name", "text", "what the bin calls it", "Kestrel 54 mid"),
        *_which("kestrel-54-mid"),
        _f("hand", "choice", "which hand the head is for, by eye", "right", choices=HANDS),
        _f("mass", "mass", "bare head", "296.4 g", "mass_kg", "0.1 g"),
        _f("loft", "angle", "loft as measured", "54.3 deg", "loft_rad", "0.25 deg", by=ANGLE_GAUGE),
        _f("lie", "angle", "lie as measured", "64 deg", "lie_rad", "0.25 deg", by=ANGLE_GAUGE),
        _f("bounce", "angle", "bounce as measured", "10 deg", "bounce_rad", "0.5 deg", by=ANGLE_GAUGE),
        _f("metal", "text", "what it is made of, for the bending limit", "forged carbon steel"),
        _f(
            "bore_to_ground",
            "length",
            "bottom of bore to ground (BBG), along the shaft",
            "1.10 in",
            "bore_to_ground_m",
            "0.3 mm",
        ),
        _f("bore_depth", "length", "depth of the bore", "1.25 in", "bore_depth_m", "0.5 mm"),
        _f(
            "bore_diameter",
            "diameter",
            "inside diameter of the bore where the tip sits, as measured; after reaming, measured again",
            "0.359 in",
            "bore_diameter_m",
            "0.001 in",
            by=PLUG_GAUGE,
        ),
        _f("bore_reamed", "choice", "whether the bore was reamed here", "yes", choices=("yes", "no")),
        _f(
            "hosel",
            "choice",
            "what a look at the hosel found; a cracked one is never glued",
            "sound",
            choices=("sound", "cracked"),
        ),
        _f("bore_type", "choice", "blind, or through to the sole", "blind", choices=("blind", "through")),
        _f(
            "cg_from_ground",
            "length",
            "CG from the sole, along the shaft towards the grip; negative beyond its ground point",
            "-6 mm",
            "cg_from_ground_m",
            "1.5 mm",
        ),
        _f("cg_off_axis", "length", "centre of gravity off the shaft axis", "36 mm", "cg_off_axis_m", "2 mm"),
        _f(
            "own_inertia",
            "moi",
            "inertia about its own centre, across the shaft",
            "2.7 kg cm2",
            "own_inertia_kg_m2",
            share=0.2,
        ),
        _f("sole_camber", "length", "heel-toe radius of the sole", "250 mm", "sole_camber_m", share=0.1),
        _f("sole_contact", "length", "where the sole touches, toe-ward of the axis", "55 mm", "sole_contact_m", "5 mm"),
        _f("bent_loft", "angle", "loft bends made on it so far, added up", "1 deg"),
        _f("bent_lie", "angle", "lie bends made on it so far, added up", "1 deg"),
        _f("ports", "count", "how many port weights it takes; no limit when left out", "1"),
        _f("ports_to_fill", "count", "how many ports must never stay empty; none when left out", "1"),
        _GAUGES,
    ),
)

ADAPTER = Section(
    name="adapter",
    part="adapter",
    meaning="sleeve and screw of a wood, when not weighed with the head",
    fields=(
        _f("mass", "mass", "sleeve with its screw", "6.2 g", "mass_kg", "0.1 g", needed=True),
        _f("from_ground", "length", "its centre from the axis' ground point", "40 mm", "from_ground_m", "3 mm"),
        _f("setting", "text", "which setting it is at, as its maker marks it", "one notch upright"),
        _f("torque", "text", "torque of its screw, as its maker's sheet gives it", "4.5 N m"),
        _GAUGES,
    ),
)

SHAFT = Section(
    name="shaft",
    part="shaft",
    meaning="the shaft in hand",
    fields=(
        _f("name", "text", "what the rack calls it", "Larch 125"),
        *_which("larch-125"),
        _f("material", "choice", "steel or graphite", "steel", choices=("steel", "graphite")),
        _f("tip", "choice", "taper or parallel tip", "taper", choices=("taper", "parallel")),
        _f("raw_length", "length", "before any trim", "37 in", "raw_length_m", "0.3 mm", by=RULE),
        _f("mass", "mass", "before any trim; where it was weighed as cut, cut_mass", "125.2 g", "mass_kg", "0.1 g"),
        _f(
            "balance_from_tip",
            "length",
            "balance point of the raw shaft, from the tip",
            "19 1/4 in",
            "balance_from_tip_m",
            "1 mm",
        ),
        _f(
            "tip_trim",
            "length",
            "to cut, or cut, from the tip; from the shaft's own sheet",
            "1/2 in",
            "tip_trim_m",
            "0.3 mm",
        ),
        _f(
            "tip_trimmed",
            "choice",
            "whether that is off already; while it is not, trims below it are planned too",
            "no",
            choices=("yes", "no"),
        ),
        _f(
            "butt_density",
            "linear_density",
            "grams an inch at the butt, of what is cut off",
            "3.6 g/in",
            "butt_density_kg_m",
            share=0.03,
        ),
        _f(
            "tip_density",
            "linear_density",
            "grams an inch at the tip, of what is cut off",
            "2.8 g/in",
            "tip_density_kg_m",
            share=0.03,
        ),
        _f(
            "weighed",
            "choice",
            "of what weight and balance_from_tip are: the raw shaft, or the shaft as cut; asked where neither "
            "raw_length nor cut_mass tells",
            "raw",
            choices=("raw", "cut"),
        ),
        _f("cut_length", "length", "tip end to butt end as measured after the cut", "34.01 in", "length_m", "0.2 mm"),
        _f("cut_mass", "mass", "after trims and cut", "114.6 g", sd="0.1 g", figure="cut_mass_kg"),
        _f(
            "cut_balance_from_tip",
            "length",
            "balance point after trims and cut, from the tip as it is then",
            "17.8 in",
            sd="1 mm",
            figure="cut_balance_from_tip_m",
        ),
        _f("cut_mass_length", "length", "length at which cut_mass was weighed, if it was cut again since", "34.27 in"),
        _f("cut_balance_length", "length", "length at which it was balanced, if it was cut again since", "34.27 in"),
        _f(
            "butt_diameter",
            "diameter",
            "outside diameter 2 in below the cap",
            "0.600 in",
            "butt_diameter_m",
            "0.002 in",
        ),
        _f(
            "lower_diameter",
            "diameter",
            "outside diameter 6 in below the cap",
            "0.560 in",
            "lower_diameter_m",
            "0.002 in",
        ),
        _f("tip_size", "diameter", "trade size of the tip, as ordered or named; nothing is worked with it", "0.355 in"),
        _f(
            "tip_diameter",
            "diameter",
            "outside diameter of the prepared tip where it sits in the bore, as measured",
            "0.3545 in",
            "tip_diameter_m",
            "0.0005 in",
            by=MICROMETER,
        ),
        _f(
            "tip_trim_limit",
            "length",
            "most that may come off the tip in all; from the shaft's own sheet",
            "3 in",
        ),
        _f(
            "stiffness",
            "table",
            "bending stiffness along the raw shaft, in one of three forms; the frequency needs it",
            '{ kind = "slope", alpha = "0.09 N m2/mm", from = "300 mm" }',
        ),
        _f(
            "stiffness_factor",
            "number",
            "what this shaft's stiffness is of that, all along",
            "1.02",
            "stiffness_factor",
            "0.02",
        ),
        _GAUGES,
    ),
)

GRIP = Section(
    name="grip",
    part="grip",
    meaning="the grip in hand",
    fields=(
        _f("name", "text", "what the box calls it", "Heather cord"),
        *_which("heather-cord"),
        _f("mass", "mass", "grip alone", "49.6 g", "mass_kg", "0.1 g"),
        _f("length", "length", "overall length", "10 1/2 in", "length_m", "2 mm", by=RULE),
        _f("cap", "length", "thickness of the end cap", "1/8 in", "cap_m", "0.2 mm"),
        _f(
            "cg_from_cap",
            "length",
            "centre of gravity from the outer face of the cap",
            "4.1 in",
            "cg_from_cap_m",
            "2 mm",
        ),
        _f("core", "grip_core", "core size as printed", "M60R", "core_m", "0.002 in"),
        _f(
            "core_taper",
            "length",
            "how much narrower the core is at 6 in than at 2 in",
            "0.030 in",
            "core_taper_m",
            "0.004 in",
        ),
        _f("shape", "choice", "round, or ribbed", "round", choices=("round", "ribbed")),
        _f(
            "diameter_2in",
            "diameter",
            "outside diameter at 2 in when core equals butt",
            "0.900 in",
            "nominal_2in_m",
            "0.004 in",
        ),
        _f(
            "diameter_6in",
            "diameter",
            "outside diameter at 6 in when core equals butt",
            "0.800 in",
            "nominal_6in_m",
            "0.004 in",
        ),
        *_of_the_shop(
            _f(
                "build_up_blend",
                "number",
                "0 constant-volume to 1 additive, from the shop's own readings",
                "0.4",
                "build_up_blend",
                "0.1",
            ),
        ),
        _f("logo", "text", "logo up or down", "down"),
        _GAUGES,
    ),
)

TAPE = Section(
    name="tape",
    part=TAPES,
    many=True,
    meaning="tape under the grip, one entry for each kind",
    fields=(
        _f("name", "text", "which tape", "double-sided"),
        _f("layers", "count", "how many wraps", "1"),
        _f("mass", "mass", "all its wraps together", "1.6 g", "mass_kg", "0.15 g"),
        *_of_the_shop(
            _f("layer_mass", "mass", "one wrap, when its wraps were not weighed together", "1.6 g", sd="0.15 g"),
            _f("cg_from_cap", "length", "its centre from the outer face of the cap", "5.1 in", "cg_from_cap_m", "4 mm"),
            _f("length", "length", "its extent along the shaft", "10 in", "length_m", "3 mm"),
            _f("width", "length", "width of the tape as it comes", "2 in"),
            _f(
                "thickness",
                "length",
                "of one wrap, if it builds the grip up; leave out for the base tape",
                "0.005 in",
            ),
            _f("area_density", "area_density", "weight of an area, when the wraps were not weighed", "120 g/m2"),
        ),
        _f("covers", "choice", "whole grip, or only the lower hand", "whole", choices=("whole", "lower")),
        _GAUGES,
    ),
)

FERRULE = Section(
    name="ferrule",
    part="ferrule",
    meaning="the ferrule",
    fields=(
        _f("mass", "mass", "as weighed", "0.7 g", "mass_kg", "0.05 g"),
        _f("length", "length", "its length", "1 in", "length_m", "0.5 mm", by=RULE),
        *_which("collar-1"),
        _GAUGES,
    ),
)

SHIM = Section(
    name="shim",
    meaning="a shim between tip and bore, over the full glued length",
    fields=(
        _f("name", "text", "what it is", "brass sleeve"),
        _f("thickness", "length", "its wall: what it takes up on each side of the tip", "0.005 in", sd="0.0005 in"),
    ),
)

ADHESIVE = Section(
    name="adhesive",
    part="adhesive",
    meaning="the adhesive, from its data sheet",
    fields=(
        _f("name", "text", "product and lot", "two-part, lot 7"),
        *_of_the_shop(
            _f("in_joint", "mass", "weight left in the joint", "0.8 g", "mass_kg", "0.2 g"),
            _f("ratio", "ratio", "part A to part B", "2:1"),
            _f(
                "basis",
                "choice",
                "whether that ratio is by weight or by volume",
                "weight",
                choices=("weight", "volume"),
            ),
            _f("density_a", "density", "density of part A, for a ratio by volume", "1.16 g/cm3"),
            _f("density_b", "density", "density of part B, for a ratio by volume", "0.97 g/cm3"),
            _f("per_joint", "mass", "weight mixed for one joint", "1.2 g"),
            _f("joints", "count", "joints from this batch", "1"),
            _f("waste", "number", "share mixed on top and thrown away", "0.25"),
            _f("scale_error", "mass", "error of the scale it is weighed on", "0.1 g"),
            _f("pot_life", "duration", "working time of the mix", "30 min"),
            _f("temperature", "temperature", "of the bench while it cures", "22 C"),
            _f("bond_line_min", "length", "thinnest bond line a side that its data sheet allows", "0.001 in"),
            _f("bond_line_max", "length", "thickest bond line a side that its data sheet allows", "0.006 in"),
        ),
    ),
)

RELEASE = Section(
    name="adhesive.release",
    outer="adhesive",
    inner="release",
    many=True,
    meaning="one row of the data sheet's table of cure times, [[adhesive.release]]",
    fields=_of_the_shop(
        _f("temperature", "temperature", "temperature of the row", "25 C", needed=True),
        _f("time", "duration", "time at that temperature until it is cured and may be hit", "12 h", needed=True),
    ),
)

WEIGHT = Section(
    name="weight",
    part=WEIGHTS,
    many=True,
    meaning="loose weights in the tray, one entry for each",
    fields=(
        _f("name", "text", "what the tray calls it", "port 6", needed=True),
        _f("mass", "mass", "one piece", "6.05 g", "mass_kg", "0.05 g", needed=True),
        _f("count", "count", "how many are in the tray; 1 when left out", "2"),
        _f("seat", "choice", "where it goes in", "port", choices=SEATS, needed=True),
        _f("from_ground", "length", "its centre from the axis' ground point", "10 mm", "place_m", "1 mm"),
        _f(
            "from_cap",
            "length",
            "its centre from the outer face of the cap, for a butt weight",
            "20 mm",
            "place_m",
            "1 mm",
        ),
        _f("off_axis", "length", "its centre off the shaft axis", "30 mm", "off_axis_m", "3 mm"),
        _f(
            "lifts_shaft",
            "length",
            "by how much it holds the shaft off the bottom",
            "2 mm",
            "lifts_shaft_m",
            "0.1 mm",
        ),
        _f("fitted", "count", "how many are fitted now; else those of the last reading", "1"),
        _GAUGES,
    ),
)

OLD_GRIP = Section(
    name="old_grip",
    part=came_path("grip"),
    meaning="the grip that the club came in with, for a re-grip or a re-shaft",
    fields=(
        _f("name", "text", "what is printed on it", "Thistle round"),
        _f("mass", "mass", "the old grip alone, once it is off", "51.2 g", "mass_kg", "0.3 g"),
        _f(
            "mass_with_tape",
            "mass",
            "old grip and old tape together, as they came off",
            "53.0 g",
        ),
        _f("length", "length", "overall length", "10 1/2 in", "length_m", "2 mm"),
        _f("cap", "length", "thickness of its end cap", "1/8 in", "cap_m", "0.2 mm"),
        _f(
            "cg_from_cap",
            "length",
            "centre of gravity from the outer face of the cap",
            "4.1 in",
            "cg_from_cap_m",
            "3 mm",
        ),
    ),
)

OLD_TAPE = Section(
    name="old_tape",
    part=came_path(TAPES),
    many=True,
    meaning="tape under the grip that the club came in with, one entry for each kind",
    fields=(
        _f("name", "text", "which tape", "double-sided"),
        _f("layers", "count", "how many wraps", "2"),
        _f("mass", "mass", "all its wraps together, once they are off", "1.8 g", "mass_kg", "0.3 g"),
        _f("cg_from_cap", "length", "its centre from the outer face of the cap", "5.1 in", "cg_from_cap_m", "4 mm"),
        _f("length", "length", "its extent along the shaft", "10 in", "length_m", "5 mm"),
    ),
)

OLD_SHAFT = Section(
    name="old_shaft",
    part=came_path("shaft"),
    meaning="the shaft that the club came in with, for a re-shaft; as it was cut, its grip off",
    fields=(
        _f("name", "text", "what is printed on it", "Alder 110"),
        _f("mass", "mass", "as it was cut, without grip, tape and ferrule", "104.5 g", "mass_kg", "0.3 g"),
        _f("length", "length", "tip end to butt end", "36.4 in", "length_m", "0.5 mm"),
        _f("balance_from_tip", "length", "its balance point, from the tip", "19 in", "balance_from_tip_m", "1 mm"),
    ),
)

OLD_FERRULE = Section(
    name="old_ferrule",
    part=came_path("ferrule"),
    meaning="the ferrule that the club came in with, for a re-shaft",
    fields=(
        _f("mass", "mass", "as weighed; 0 g when there was none", "0.7 g", "mass_kg", "0.05 g"),
        _f("length", "length", "its length", "1 in", "length_m", "0.5 mm"),
    ),
)

READING = Section(
    name="reading",
    many=True,
    meaning="what was read, in order",
    fields=(
        _f(
            "quantity",
            "text",
            "which quantity, or a figure of a part such as `grip.mass` or `weight.port 6.mass`",
            "swing_weight",
            needed=True,
        ),
        _f("value", "text", "what the gauge showed", "D0.5", needed=True),
        _f("stage", "text", "stage of the build; finished when left out", "dry, gripped"),
        _f("weights", "text", "names of the weights fitted at the time", "port 6"),
        _f("instrument", "text", "which gauge", "bench scale"),
        _f("repeats", "count", "how many readings the value is the mean of", "1"),
        _f("second_plane", "frequency", "the weaker of two close frequencies in one recording", "326.1 cpm ± 0.1 cpm"),
        *METER_FIELDS,
        _f("keep", "choice", "a person's decision about a reading that does not fit", "no", choices=("yes", "no")),
        _f("fact", "text", "its number in the record, when it comes from one", "12"),
        _f(
            "job", "text", "the earlier job on this club that it was read in; it proves nothing of this order", "T-0042"
        ),
        _f("before", "text", "the first change of the club after it, by name; none when left out", "1"),
    ),
)

CHANGE = Section(
    name="change",
    many=True,
    meaning="what a change of the club made different, as it was before it: readings taken then are held against that",
    fields=(
        _f("name", "text", "what the readings from before it call it", "1", needed=True),
        _f("came", "choice", "yes where its parts are those the club came in with", "yes", choices=("yes", "no")),
    ),
)

_ANOTHER = _f(
    "another", "choice", "yes where it was another part, not this one as it was", "yes", choices=("yes", "no")
)

CHANGED: dict[str, Section] = {
    section.name: Section(
        name=f"change.{section.name}",
        outer="change",
        inner=section.name,
        meaning=meaning,
        fields=fields,
        many=section.many,
        part=section.part,
    )
    for section, meaning, fields in (
        (HEAD, "angles of the head before a bend; or the head that was on", (*HEAD.fields, _ANOTHER)),
        (
            SHAFT,
            "the shaft before a cut or a trim; or the shaft that was on",
            (
                *SHAFT.fields,
                _f("butt_off", "length", "what was off the butt of a shaft not yet cut to length", "0 in"),
                _ANOTHER,
            ),
        ),
        (GRIP, "the grip that was on", GRIP.fields),
        (FERRULE, "the ferrule that was on", FERRULE.fields),
        (ADHESIVE, "the adhesive of the joint as it was", ADHESIVE.fields),
        (TAPE, "all tape that was on", TAPE.fields),
    )
}
"""Tables of a change, by the part's own table. An empty text says that a figure was not known then."""

INSTRUMENT = Section(
    name="instrument",
    named=True,
    meaning="gauges by name, [instrument.NAME], in the notation of what they read",
    fields=_of_the_shop(
        _f("resolution", "text", "smallest step it shows", "1/4 pt"),
        _f("repeatability", "text", "standard deviation of one reading", "0.1 pt"),
        _f("bias", "text", "standard uncertainty of its constant error", "0.1 pt"),
        *METER_FIELDS,
    ),
)

SHOP = Section(
    name="shop",
    meaning="the workshop's settings",
    fields=_of_the_shop(
        _f("swing_weight_point", "choice", "definition of the swing-weight point", "1.75 in oz", choices=SCALES),
        _f("decision_rule", "choice", "how a reading proves a tolerance", "guard 2u", choices=RULES),
        _f("kerf", "length", "width of the saw cut", "1/16 in"),
        *METER_FIELDS,
        _f("local_length_limit", "length", "longest club that a local rule allows; putters are exempt", "46 in"),
        _f("lead_tape", "linear_density", "what the shop's lead tape weighs by length", "1.3 g/in"),
        _f("most_pieces", "count", "most loose weights fitted at once; as many as fit when left out", "3"),
    ),
)

SECTIONS: tuple[Section, ...] = (
    TICKET,
    TARGET,
    TOLERANCE,
    BASE,
    HEAD,
    ADAPTER,
    SHAFT,
    GRIP,
    TAPE,
    FERRULE,
    SHIM,
    ADHESIVE,
    RELEASE,
    WEIGHT,
    OLD_GRIP,
    OLD_TAPE,
    OLD_SHAFT,
    OLD_FERRULE,
    CHANGE,
    READING,
    INSTRUMENT,
    SHOP,
)

_OF_PARTS = (HEAD, ADAPTER, SHAFT, GRIP, TAPE, FERRULE, WEIGHT)


def measured_field(section: str, key: str) -> Field | None:
    """Return the field of a figure of a part that a gauge measures; None for any other key of any table."""
    field = next((part.field(key) for part in _OF_PARTS if part.name == section), None)
    return field if field is not None and is_measured(field) else None


def measured_kind(section: str, key: str) -> str | None:
    """Return the kind of a figure of a part that a gauge measures, likewise."""
    field = measured_field(section, key)
    return None if field is None else field.kind

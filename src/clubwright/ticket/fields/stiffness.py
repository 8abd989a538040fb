"""The three forms of ``[shaft] stiffness``, key by key: geometry of a tube, a table of EI, a straight law."""

from __future__ import annotations

from clubwright.ticket.fields.fields import Field, Section

_KIND = {
    "tube": "the outside of the tube steps, or runs straight, from tip to butt",
    "table": "EI at stations, straight between them; a place given twice is a step",
    "slope": "EI grows with the distance from the tip",
}


def _kind(name: str) -> Field:
    return Field(key="kind", kind="choice", meaning=_KIND[name], example=name, choices=(name,), needed=True)


def _f(key: str, kind: str, meaning: str, example: str, *, needed: bool = False) -> Field:
    return Field(key=key, kind=kind, meaning=meaning, example=example, needed=needed)


TUBE = Section(
    name="tube",
    meaning="a step-taper tube, or with 0 steps a straight-taper one, along the raw length",
    fields=(
        _kind("tube"),
        _f("butt", "diameter", "outside diameter of the butt", "0.600 in", needed=True),
        _f("tip", "diameter", "outside diameter of the tip", "0.370 in", needed=True),
        _f("wall_butt", "length", "wall where the stepped part meets the butt", "0.016 in", needed=True),
        _f("wall_middle", "length", "wall half-way along the stepped part; when left out it runs straight", "0.014 in"),
        _f("wall_tip", "length", "wall where the stepped part meets the tip", "0.020 in", needed=True),
        _f(
            "steps", "count", "how many steps of the diameter, evenly spaced; 0 for a straight taper", "15", needed=True
        ),
        _f("butt_parallel", "length", "length of the plain butt", "6 in", needed=True),
        _f("tip_parallel", "length", "length of the plain tip", "10 in", needed=True),
        _f("modulus", "modulus", "Young's modulus; 205 GPa when left out", "205 GPa"),
        _f("density", "density", "of the metal; 7.85 g/cm3 when left out", "7850 kg/m3"),
    ),
)
TABLE = Section(
    name="table",
    meaning="bending stiffness at stations along the raw shaft",
    fields=(
        _kind("table"),
        _f("at", "length", "stations from the raw tip, rising, from 0 to the raw length", "0 in", needed=True),
        _f("ei", "stiffness", "bending stiffness EI at each", "28.8 N m2", needed=True),
        _f("gj", "stiffness", "torsional stiffness GJ at each, when it was measured", "22.3 N m2"),
        _f("density", "linear_density", "grams an inch at each, when it is known", "2.8 g/in"),
    ),
)
SLOPE = Section(
    name="slope",
    meaning="EI = alpha X, X from the raw tip, held constant nearer to the tip than `from`",
    fields=(
        _kind("slope"),
        _f("alpha", "stiffness_slope", "how EI grows along the shaft", "0.09 N m2/mm", needed=True),
        _f("from", "length", "where it starts to grow; 300 mm when left out", "300 mm"),
    ),
)
FORMS: dict[str, Section] = {form.name: form for form in (TUBE, TABLE, SLOPE)}
LISTED = frozenset(("table", key) for key in ("at", "ei", "gj", "density"))
"""The keys that hold a list."""

"""Read ``[shaft] stiffness`` into the shaft's profile, with every finding about it at once."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.club.beam.section import STEEL, Metal
from clubwright.club.beam.stiffness import StiffnessProfile, from_law, from_table
from clubwright.club.beam.tube import Tube, tube_profile
from clubwright.errors import DocumentPlace, Finding, NotPossible
from clubwright.notation import Collector, length_in_full
from clubwright.state.particulars import Entry
from clubwright.ticket.fields.fields import SHAFT, Section
from clubwright.ticket.fields.stiffness import FORMS, LISTED
from clubwright.ticket.rows.rows import Row

SHORT_M = 0.010
"""A table may begin and end so far from the ends of the shaft; the frequency runs its last line on."""
MOST_STATIONS = 200

Figures = dict[str, float]
Columns = dict[str, list[float]]


def read_stiffness(content: Any, shaft: Row, notes: Collector) -> StiffnessProfile | None:
    """Read the value of ``stiffness``; None with findings when it cannot be read, or when it is nothing but words.

    Args:
        content: As the document holds it.
        shaft: The shaft's other figures, as read.
        notes: Where findings gather.
    """
    where = shaft.where.at("stiffness")
    field = SHAFT.field("stiffness")
    assert field is not None
    mend = f"Write a table, like stiffness = {field.example}."
    if isinstance(content, str):
        what = f'"{content}" is words, and nothing is computed from them'
        notes.findings.append(Finding(where=where, what=what, mend=mend, severity="warning"))
        return None
    if not isinstance(content, Mapping):
        notes.add(where, "this must be a table of keys", mend)
        return None
    kind = content.get("kind")
    form = FORMS.get(kind) if isinstance(kind, str) else None
    if form is None:
        notes.add(where.at("kind"), f"{kind!r} is none of the forms", "Use one of: " + ", ".join(FORMS) + ".")
        return None
    before = len(notes.findings)
    figures, columns = _values(form, content, where, notes)
    if any(finding.severity == "error" for finding in notes.findings[before:]):
        return None
    try:
        return _made(form.name, figures, columns, _length_m(form, columns, shaft))
    except NotPossible as refused:
        notes.add(where, refused.what, refused.instead)
        return None


def _values(
    form: Section, content: Mapping[str, Any], where: DocumentPlace, notes: Collector
) -> tuple[Figures, Columns]:
    """Take every value of a form, lists and single ones."""
    figures: Figures = {}
    columns: Columns = {}
    for key, raw in content.items():
        place = where.at(key)
        field = form.field(key)
        if field is None:
            known = ", ".join(item.key for item in form.fields)
            notes.add(place, f"no such key in the form {form.name}", f"Known here: {known}.")
        elif (form.name, key) in LISTED:
            if not isinstance(raw, list) or len(raw) > MOST_STATIONS:
                example = f'["{field.example}", ...]'
                notes.add(place, f"this must be a list of up to {MOST_STATIONS} values", f"Write {key} = {example}.")
                continue
            taken = [_taken(field.kind, item, place.at(row), notes) for row, item in enumerate(raw, start=1)]
            columns[key] = [item for item in taken if item is not None]
        elif key != "kind":
            value = _taken(field.kind, str(raw) if field.kind == "count" and type(raw) is int else raw, place, notes)
            if value is not None:
                figures[key] = value
    for field in form.fields:
        if field.needed and field.key not in content:
            notes.add(where.at(field.key), "missing", f'Add {field.key} = "{field.example}".')
    return figures, columns


def _taken(kind: str, raw: Any, place: DocumentPlace, notes: Collector) -> float | None:
    found = notes.take(kind, raw, where=place)
    if found is None:
        return None
    if found.sd is not None:
        mend = "Write how well the stiffness is known behind stiffness_factor, such as 1 ± 0.02."
        notes.findings.append(Finding(where=place, what="the ± here is not used", mend=mend, severity="warning"))
    return found.value


def _length_m(form: Section, columns: Columns, shaft: Row) -> float:
    """Return the raw length that the profile must run along, and see that a table does."""
    raw: Entry | None = shaft.numbers.get("raw_length")
    if form.name != "table":
        if raw is None:
            raise NotPossible(
                f"the form {form.name} needs the raw length of the shaft", f"Write {shaft.where} raw_length."
            )
        return raw.value
    stations = columns["at"]
    if len({len(column) for column in columns.values()}) > 1 or len(stations) < 2:
        counts = ", ".join(f"{key} {len(column)}" for key, column in columns.items())
        raise NotPossible(
            f"the columns of the table do not make rows: {counts}", "Give two rows or more, each one full."
        )
    if abs(stations[0]) > SHORT_M:
        what = f"the table begins {length_in_full(stations[0])} from the tip"
        raise NotPossible(what, 'Let it begin at the raw tip, "0 in".')
    if raw is not None and stations[-1] < raw.value - SHORT_M:
        what = f"the table ends at {length_in_full(stations[-1])}, the raw shaft at {length_in_full(raw.value)}"
        raise NotPossible(what, "Let it run along the whole raw shaft.")
    return stations[-1]


def _made(form: str, figures: Figures, columns: Columns, length_m: float) -> StiffnessProfile:
    """Make the profile.

    Raises:
        NotPossible: when the figures are those of no shaft.
    """
    if form == "table":
        return from_table(columns["at"], columns["ei"], columns.get("gj"), columns.get("density"))
    if form == "slope":
        start = figures.get("from", 0.300)
        if not 0 < start < length_m:
            raise NotPossible(
                f"from {length_in_full(start)} lies not on this shaft", "Give a place on it, such as 300 mm."
            )
        return from_law(figures["alpha"], length_m, start)
    metal = Metal(
        young_pa=figures.get("modulus", STEEL.young_pa),
        # The shear modulus goes with Young's: same metal, same ratio of the two.
        shear_pa=figures.get("modulus", STEEL.young_pa) * STEEL.shear_pa / STEEL.young_pa,
        density_kg_m3=figures.get("density", STEEL.density_kg_m3),
    )
    tube = Tube(
        length_m=length_m,
        tip_m=figures["tip"],
        butt_m=figures["butt"],
        tip_parallel_m=figures["tip_parallel"],
        butt_parallel_m=figures["butt_parallel"],
        tip_wall_m=figures["wall_tip"],
        butt_wall_m=figures["wall_butt"],
        middle_wall_m=figures.get("wall_middle"),
        steps=round(figures["steps"]),
        metal=metal,
    )
    return tube_profile(tube)

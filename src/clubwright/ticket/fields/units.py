"""In which units this shop wants figures shown first: the table ``[units]`` of its settings."""

from __future__ import annotations

from clubwright.notation.units_shown import LENGTHS, TEMPERATURES
from clubwright.ticket.fields.fields import Field, Section

UNITS = Section(
    name="units",
    meaning="units shown first on page, sheet, tag and screen; what is typed is read as ever",
    fields=(
        Field(key="length", kind="choice", meaning="of lengths and diameters", example="mm", choices=LENGTHS),
        Field(key="mass", kind="choice", meaning="of masses", example="g", choices=("g",)),
        Field(key="temperature", kind="choice", meaning="of temperatures", example="F", choices=TEMPERATURES),
        Field(key="angle", kind="choice", meaning="of angles", example="deg", choices=("deg",)),
    ),
)

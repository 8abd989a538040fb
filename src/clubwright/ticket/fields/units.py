"""In which units this shop wants figures shown first, and how it types numbers: the table ``[units]`` of its settings."""

from __future__ import annotations

from clubwright.notation.typist import BARE_LENGTHS
from clubwright.notation.units_shown import DECIMAL_MARKS, LANGUAGES, LENGTHS, TEMPERATURES
from clubwright.ticket.fields.fields import Field, Section

UNITS = Section(
    name="units",
    meaning="units shown first on page, sheet, tag and screen, and how numbers are typed here",
    fields=(
        Field(key="length", kind="choice", meaning="of lengths and diameters", example="mm", choices=LENGTHS),
        Field(key="mass", kind="choice", meaning="of masses", example="g", choices=("g",)),
        Field(key="temperature", kind="choice", meaning="of temperatures", example="F", choices=TEMPERATURES),
        Field(key="angle", kind="choice", meaning="of angles", example="deg", choices=("deg",)),
        Field(
            key="decimal",
            kind="choice",
            meaning="decimal mark of what is shown and typed; a point is always read too",
            example="comma",
            choices=DECIMAL_MARKS,
        ),
        Field(
            key="bare_length",
            kind="choice",
            meaning="unit of a length or diameter typed without one; a fraction is always in inches",
            example="mm",
            choices=BARE_LENGTHS,
        ),
        Field(
            key="language",
            kind="choice",
            meaning="language of the cards of the steps, of advice and of what does not fit, on page, sheet and screen",
            example="de",
            choices=LANGUAGES,
        ),
    ),
)

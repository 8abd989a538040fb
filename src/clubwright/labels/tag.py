"""The tag: a 62 x 29 mm label that goes round the shaft or on the bag's club tube, with the code that finds the record."""

from __future__ import annotations

from clubwright.labels.code import ticket_code
from clubwright.labels.data import TagData
from clubwright.labels.glyphs import check_letters
from clubwright.labels.typesetting import Format, typeset

WIDTH_MM, HEIGHT_MM = 62.0, 29.0
LEAST_CODE_MM = 12.0
"""Side of the code when a caution takes its share of the label; without one it is larger."""


def tag_label(data: TagData, *, format: Format = "pdf", ppi: float = 300) -> bytes:  # noqa: A002
    """Return the tag as a PDF or a PNG of 62 x 29 mm; the same data gives the same bytes.

    Args:
        data: What the tag says.
        format: ``pdf``, or ``png`` for a label printer that takes pictures.
        ppi: Pixels an inch of the PNG; the printer's own resolution keeps the code crisp.

    Raises:
        InputError: When a text cannot be printed, or the id cannot be coded at 0.3 mm a module.
        NotPrinted: When the texts do not fit the label.
    """
    check_letters(data)
    code = ticket_code(data.ticket_id, side_mm=LEAST_CODE_MM)
    return typeset("tag.typ", data, format=format, ppi=ppi if format == "png" else None, code=code)

"""The tag: a 62 x 29 mm label that goes round the shaft or on the bag's club tube, with the code that finds the record."""

from __future__ import annotations

import struct
import zlib

from clubwright.errors import Finding, InputError
from clubwright.labels.code import ticket_code
from clubwright.labels.printable import printable
from clubwright.labels.tag.data import TagData
from clubwright.labels.typesetting import Format, typeset
from clubwright.units import INCH_M

WIDTH_MM, HEIGHT_MM = 62.0, 29.0
LEAST_CODE_MM = 12.0
"""Side of the code when a caution takes its share of the label; without one it is larger."""

AFTER_HEADER = 33
"""Bytes of a PNG's signature and its first chunk, IHDR."""

USUAL_DPI = 300
LEAST_DPI, MOST_DPI = 150, 1200
"""Dots an inch of label printers: below, a module of the code is not two dots wide (0.3 mm at 150 is 1.8)."""


def tag_label(data: TagData, *, format: Format = "pdf", dpi: float = USUAL_DPI) -> bytes:  # noqa: A002
    """Return the tag as a PDF or a PNG of 62 x 29 mm; the same data gives the same bytes.

    Nothing is refused for its width. Names shrink, then wrap, then end in "…"; the ± of the figures goes first, then their
    size; figures that still find no room are counted ("and 3 more on the sheet"), the most important stay. A figure is
    printed whole or not at all.

    Args:
        data: What the tag says. Letters that the font does not have leave a line to write on.
        format: ``pdf``, or ``png`` for a label printer that takes pictures.
        dpi: Dots an inch of the PNG, 150 to 1200; the printer's own resolution keeps the code crisp.

    Raises:
        InputError: When the id cannot be coded at 0.3 mm a module, or the resolution is out of range.
        NotPrinted: When not even names and code fit the label.
    """
    if format == "png" and not LEAST_DPI <= dpi <= MOST_DPI:
        what = f"{dpi:g} dots an inch is no resolution of a label printer"
        mend = f"Write {LEAST_DPI} to {MOST_DPI}, such as 180, 203 or 300."
        raise InputError([Finding(where="dpi", what=what, mend=mend)])
    code = ticket_code(data.ticket_id, side_mm=LEAST_CODE_MM)
    ppi = float(dpi) if format == "png" else None
    dots = "" if ppi is None else f"{ppi:g}"
    printed = typeset("tag.typ", printable(data), format=format, ppi=ppi, code=code, dots=dots)
    return printed if ppi is None else _sized(printed, ppi)


def _sized(png: bytes, dpi: float) -> bytes:
    """Write the resolution into a PNG, so that it prints at its true size (PNG specification, chunk pHYs)."""
    body = b"pHYs" + struct.pack(">IIB", *2 * (round(dpi / INCH_M),), 1)
    chunk = struct.pack(">I", len(body) - 4) + body + struct.pack(">I", zlib.crc32(body))
    return png[:AFTER_HEADER] + chunk + png[AFTER_HEADER:]

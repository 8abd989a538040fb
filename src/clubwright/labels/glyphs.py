"""Which letters the shipped font can draw.

Typst sets a letter that no font has as an empty box without a word, so texts are made printable before they are set
(`printable`). Only the character map's format 12 is read (OpenType specification, table `cmap`): the shipped fonts carry it.
"""

from __future__ import annotations

import struct
from functools import cache
from pathlib import Path

FONT_FOLDER = Path(__file__).parent / "fonts"
FAMILY = "Inter"


@cache
def letters(font: Path = FONT_FOLDER / "Inter-Regular.otf") -> frozenset[int]:
    """Return the code points a font has a glyph for.

    Raises:
        ValueError: When the font has no character map of format 12.
    """
    data = font.read_bytes()
    tables = {
        data[at : at + 4]: struct.unpack_from(">I", data, at + 8)[0]
        for at in range(12, 12 + 16 * struct.unpack_from(">H", data, 4)[0], 16)
    }
    cmap = tables[b"cmap"]
    for index in range(struct.unpack_from(">H", data, cmap + 2)[0]):
        start = cmap + struct.unpack_from(">I", data, cmap + 4 + 8 * index + 4)[0]
        if struct.unpack_from(">H", data, start)[0] == 12:
            count = struct.unpack_from(">I", data, start + 12)[0]
            groups = struct.iter_unpack(">III", data[start + 16 : start + 16 + 12 * count])
            return frozenset(point for first, last, _ in groups for point in range(first, last + 1))
    raise ValueError(f"{font.name} has no character map of format 12")

"""Which letters the shipped font can draw.

Typst sets a letter that no font has as an empty box without a word, so texts are checked before they are set. Only the
character map's format 12 is read (OpenType specification, table `cmap`): the shipped fonts carry it.
"""

from __future__ import annotations

import struct
import unicodedata
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import msgspec

from clubwright.errors import Finding, InputError

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


def check_letters(data: msgspec.Struct) -> None:
    """Refuse texts with letters that cannot be printed.

    Raises:
        InputError: With one finding for every such text.
    """
    findings = []
    for where, text in _texts(type(data).__name__, msgspec.to_builtins(data)):
        missing = sorted({letter for letter in text if not _printable(letter)})
        if missing:
            named = ", ".join(f"{letter!r} (U+{ord(letter):04X})" for letter in missing)
            findings.append(
                Finding(
                    where=where,
                    what=f"the print font has no sign for {named} in {text!r}",
                    mend="Write it in Latin, Greek or Cyrillic letters and plain signs.",
                )
            )
    if findings:
        raise InputError(findings)


def _printable(letter: str) -> bool:
    # The font maps some control characters to an empty sign: they are no text all the same.
    return letter in "\n\t" or (ord(letter) in letters() and unicodedata.category(letter) != "Cc")


def _texts(where: str, value: Any) -> Iterator[tuple[str, str]]:
    if isinstance(value, str):
        yield where, value
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from _texts(f"{where}.{key}", inner)
    elif isinstance(value, list | tuple):
        for number, inner in enumerate(value, 1):
            yield from _texts(f"{where}[{number}]", inner)

"""What a person chose as a ticket number: whether it can be carried about, and what it counts on."""

from __future__ import annotations

import re
from collections.abc import Iterator

from clubwright.errors import DocumentPlace, Finding

_COUNTED = re.compile(r"(.*?)([0-9]{1,9})", re.ASCII | re.DOTALL)
_OF_A_CODE = re.compile(r"[A-Za-z0-9.-]{1,24}")


def wrong_number(where: DocumentPlace, number: str) -> Iterator[Finding]:
    """Say what of a number an address, a file name or the code of a label cannot carry; nothing of an empty one."""
    mend = "Use up to 24 letters, digits, - and . only."
    if number and not number.strip("."):
        what = f'"{number}" is the way to a folder where an address or a file name is wanted'
        yield Finding(where=where, what=what, mend=mend)
    elif "/" in number:
        what = f'"{number}" has a stroke, which an address and a file name cannot carry'
        yield Finding(where=where, what=what, mend=mend)
    elif number and not _OF_A_CODE.fullmatch(number):
        what = f'"{number}" does not fit the code of a label'
        yield Finding(where=where, what=what, mend=mend, severity="warning")


def counted(number: str) -> tuple[str, int] | None:
    """Part a ticket number into what it starts with and the number behind that; None where none stands there."""
    match = _COUNTED.fullmatch(number)
    return None if match is None else (match[1], int(match[2]))

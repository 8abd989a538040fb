"""Slips of the pen in a ticket or settings file, told as a clubmaker would: an inch mark within quotes, a key twice.

Asked only once the file has turned out to be no TOML: every line is looked at by itself, and all slips are told at once.
"""

from __future__ import annotations

import re
import tomllib

from clubwright.errors import Finding

_HEADER = re.compile(r"\[{1,2}\s*([^\[\]#]*?)\s*\]{1,2}\s*(?:#.*)?")
_PAIR = re.compile(r"""\s*([A-Za-z0-9_.\- ]+?|"[^"]*"|'[^']*')\s*=\s*(.*?)\s*""")
_INCH_MARK = re.compile(r"""(["'])(.*?[0-9])\s*(?:"|'')\s*\1\s*,?""")
_BARE = re.compile(r"""["']?([^"'#\[\]{}=]*?)(["']{0,2})\s*,?\s*(?:#.*)?""")
_FEET = "''"
_CURLY: dict[str, str | int | None] = dict.fromkeys(
    "\N{LEFT DOUBLE QUOTATION MARK}\N{RIGHT DOUBLE QUOTATION MARK}\N{DOUBLE LOW-9 QUOTATION MARK}", '"'
)
_CURLY |= dict.fromkeys("\N{LEFT SINGLE QUOTATION MARK}\N{RIGHT SINGLE QUOTATION MARK}\N{DOUBLE PRIME}", '"')
_LONG_TEXT = ('"' * 3, "'" * 3)


def slips_of(text: str, source: str) -> list[Finding]:
    """Return every slip in a text that is no TOML, with its line; none where what is wrong is of another kind."""
    found: list[Finding] = []
    tables: dict[str, int] = {}
    keys: dict[str, int] = {}
    open_list, open_text = 0, False
    for number, line in enumerate(text.splitlines(), start=1):
        where = f"{source} line {number}"
        marks = sum(line.count(mark) for mark in _LONG_TEXT)
        if open_text or marks:
            open_text ^= marks % 2 == 1
            continue
        bare = line.strip()
        if open_list > 0:
            open_list += _opened(bare)
            continue
        if not bare or bare.startswith("#"):
            continue
        if bare.startswith("["):
            found += _header_slips(where, bare, number, tables)
            keys = {}
            continue
        match = _PAIR.fullmatch(line)
        if match is None:
            found.append(_no_pair(where, bare))
            continue
        key, value = match[1], match[2]
        if key in keys:
            mend = "Keep the one that is meant, and delete the other."
            found.append(Finding(where=where, what=f"{key} stands here and in line {keys[key]} already", mend=mend))
        keys.setdefault(key, number)
        if value.startswith("[") and (opened := _opened(value)) > 0:
            open_list = opened
        elif not _is_toml(line):
            found.append(_value_slip(where, key, value))
    return found


def _opened(text: str) -> int:
    """Return how many brackets are opened and not closed; those within quotes do not count."""
    bare = re.sub(r"""#.*|"[^"]*"|'[^']*'""", "", text)
    return bare.count("[") - bare.count("]")


def _is_toml(line: str) -> bool:
    try:
        tomllib.loads(line)
    except tomllib.TOMLDecodeError:
        return False
    return True


def _header_slips(where: str, line: str, number: int, tables: dict[str, int]) -> list[Finding]:
    if not _is_toml(line):
        line = line.partition("#")[0].strip()
        mend = "Write a table's name as [head], or [[weight]] where there are several."
        return [Finding(where=where, what=f"{line} is no name of a table", mend=mend)]
    match = _HEADER.fullmatch(line)
    name = line if match is None else match[1]
    if line.startswith("[["):
        for inside in [other for other in tables if other.startswith(f"{name}.")]:
            del tables[inside]  # each of several has its own tables inside
        return []
    first = tables.setdefault(name, number)
    if first == number:
        return []
    mend = f"Put its lines below those of line {first}."
    return [Finding(where=where, what=f"[{name}] stands here and in line {first} already", mend=mend)]


def _no_pair(where: str, line: str) -> Finding:
    key, colon, value = line.partition(":")
    if not colon:
        key, _, value = line.partition(" ")
    value = _plain(value)
    written = f'Write {key.strip()} = "{value}".' if value else 'Write name = "value".'
    return Finding(where=where, what=f"there is no = between name and value: {line}", mend=written)


def _value_slip(where: str, key: str, value: str) -> Finding:
    """Say what is wrong with a value that TOML does not take, and how it is written."""
    value = "" if value.startswith("#") else value
    if not re.fullmatch(r"""[A-Za-z0-9_\-]+(\s*\.\s*[A-Za-z0-9_\-]+)*|"[^"]*"|'[^']*'""", key):
        what, mend = f'the name "{key}" has a space', f"Write {key.replace(' ', '_')} = ..., with _ for the space."
        return Finding(where=where, what=what, mend=mend)
    if _CURLY.keys() & set(value):
        mend = f'Write {key} = "{_plain(value)}" with straight quotes; turn off the editor\'s "smart quotes".'
        return Finding(where=where, what=f"curly quotes are no quotes here: {value}", mend=mend)
    inch = _INCH_MARK.fullmatch(value)
    if inch is not None:
        what = f"the inch mark within the quotes ends the text too early: {value}"
        return Finding(where=where, what=what, mend=f'Write {key} = "{inch[2]} in".')
    if "\\" in value:
        return Finding(
            where=where,
            what=f"a backslash within double quotes begins a sign of its own: {value}",
            mend=f"Write {key} = '...' with single quotes.",
        )
    bare = _BARE.fullmatch(value)
    if bare is None or not bare[1].strip():
        mend = f'Write {key} = "value", with one quote before and one behind.'
        return Finding(
            where=where, what=f"this value cannot be read: {value}" if value else f"{key} has no value", mend=mend
        )
    inches = bare[2] in ('"', _FEET) and value[:1] not in "\"'" and bare[1].strip()[-1:].isdecimal()
    mend = f'Write {key} = "{bare[1].strip()}{" in" if inches else ""}".'
    return Finding(where=where, what=f"a value stands between quotes: {value}", mend=mend)


def _plain(value: str) -> str:
    """Return a value without quotes of any kind around it."""
    straight = value.translate(str.maketrans(_CURLY)).strip()
    quoted = re.match(r"""(["'])(.*?)\1""", straight)
    return quoted[2] if quoted is not None else straight.strip("\"',").strip()

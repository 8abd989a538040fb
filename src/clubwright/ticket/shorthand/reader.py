"""The shorthand of a slip of paper, read strictly: ``54, mid bounce, 35 1/4 to the cap, D4, half flat, two wraps``.

Nothing is guessed. Words are read by the rules of the modules beside this one; what fits no rule, or fits two (``1S`` may be
a degree strong or a step soft), is listed with the way to say it plainly. Every word ends up on one of two lists.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import Finding
from clubwright.notation import CANONICAL, Typist, canonical
from clubwright.ticket.shorthand.say import Doubt, Say
from clubwright.ticket.shorthand.split import split

LONGEST = 500
"""Characters of the longest shorthand that is read; a slip of paper holds less."""

_SEPARATOR = re.compile(r"[,;\n\r]+")
_WORD = re.compile(r"\S+")
_COMMA_NUMBER = re.compile(r"(?<![0-9])[0-9]+,[0-9]+(?![0-9])", re.ASCII)


class Said(msgspec.Struct, frozen=True, kw_only=True):
    """One thing understood.

    Attributes:
        field: Where it goes, such as ``target.lie`` or ``tape.0.layers``; empty when it only confirms a convention.
        value: In trade notation, as the ticket will hold it.
        words: The words it came from.
        meaning: What was understood, for the person who said it.
        start: Where the words begin in the text.
        end: Where they end.
        counted: Whether it is counted from a base, which the words do not say.
        implied: Whether it only follows from the words, and gives way to what other words say.
    """

    field: str
    value: str
    words: str
    meaning: str
    start: int
    end: int
    counted: bool = False
    implied: bool = False


class Left(msgspec.Struct, frozen=True, kw_only=True):
    """Words that were not understood, or could mean two things."""

    words: str
    what: str
    mend: str
    start: int
    end: int


class Shorthand(msgspec.Struct, frozen=True, kw_only=True):
    """What a line of shorthand says, and what of it could not be read."""

    text: str
    said: tuple[Said, ...]
    left: tuple[Left, ...]
    notes: tuple[Finding, ...]

    @property
    def fields(self) -> dict[str, str]:
        """Field to value; notes that several words gave are joined."""
        found: dict[str, str] = {}
        for item in self.said:
            if item.field == "ticket.note" and item.field in found:
                found[item.field] += f"; {item.value}"
            elif item.field:
                found[item.field] = item.value
        return found

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything to look at: what was left, then what is still to be said."""
        unread = (Finding(where=f'"{left.words}"', what=left.what, mend=left.mend) for left in self.left)
        return (*unread, *self.notes)


def read_shorthand(text: str, typist: Typist = CANONICAL) -> Shorthand:
    """Read a line of shorthand; never raises.

    Args:
        text: As said, in any order, parts set off by commas or just by spaces.
        typist: How numbers are typed in it; the words are kept as they are typed.

    Returns:
        What was understood beside its words, and everything that was not.
    """
    if len(text) > LONGEST:
        what = f"{len(text)} characters are more than the {LONGEST} that are read at once"
        whole = Left(words=text.strip(), what=what, mend="Say it shorter, or fill in the form.", start=0, end=len(text))
        return Shorthand(text=text, said=(), left=(whole,), notes=())
    asked, text = text, canonical(text, typist)
    said: list[Said] = []
    left: list[Left] = []
    for start, end in _phrases(text):
        _read_phrase(text, start, end, said, left)
    said, clashes = _settled(said)
    left = sorted([*_merged(text, left), *clashes], key=lambda item: item.start)
    said = _numbered(said)
    return Shorthand(text=asked, said=tuple(said), left=tuple(left), notes=_notes(said))


def _phrases(text: str) -> list[tuple[int, int]]:
    """Split at commas, semicolons and line ends, but not inside a number with a comma, which is refused whole."""
    numbers = [match.span() for match in _COMMA_NUMBER.finditer(text)]
    cuts, start = [], 0
    for match in _SEPARATOR.finditer(text):
        if not any(low < match.start() < high for low, high in numbers):
            cuts.append((start, match.start()))
            start = match.end()
    return [*cuts, (start, len(text))]


def _read_phrase(text: str, start: int, end: int, said: list[Said], left: list[Left]) -> None:
    places = [(start + match.start(), start + match.end()) for match in _WORD.finditer(text[start:end])]
    if not places:
        return
    way, rival = split([text[low:high] for low, high in places])
    if rival is not None:
        low, high = places[0][0], places[-1][1]
        several = sorted({f"{_plain(field)} {value}" for field, value in way.content ^ rival.content})
        what = "can be read in two ways: " + " or ".join(several)
        left.append(Left(words=text[low:high], what=what, mend="Set the parts off by commas.", start=low, end=high))
        return
    for piece in way.pieces:
        low, high = places[piece.first][0], places[piece.last - 1][1]
        if piece.found is None:
            left.append(_unknown(text, low, high))
        elif isinstance(piece.found, Doubt):
            doubt = piece.found
            left.append(Left(words=text[low:high], what=doubt.what, mend=doubt.mend, start=low, end=high))
        else:
            said += [_said(say, text[low:high], low, high) for say in piece.found]


def _said(say: Say, words: str, low: int, high: int) -> Said:
    return Said(
        field=say.field,
        value=say.value,
        words=words,
        meaning=say.meaning,
        start=low,
        end=high,
        counted=say.counted,
        implied=say.implied,
    )


def _unknown(text: str, low: int, high: int) -> Left:
    words = text[low:high]
    if _COMMA_NUMBER.search(words):
        what, mend = "a comma is not read as a decimal point", "Write 35.5 in or 35 1/2, or a space behind the comma."
    else:
        what, mend = "not understood", "Say it in other words, write it in its field, or leave it out knowingly."
    return Left(words=words, what=what, mend=mend, start=low, end=high)


def _merged(text: str, left: Iterable[Left]) -> list[Left]:
    """Put words side by side that were not understood for the same reason into one entry."""
    found: list[Left] = []
    for item in left:
        before = found[-1] if found else None
        if before is not None and before.what == item.what == "not understood" and text[before.end : item.start] == " ":
            words = text[before.start : item.end]
            found[-1] = msgspec.structs.replace(before, words=words, end=item.end)
        else:
            found.append(item)
    return found


def _settled(said: list[Said]) -> tuple[list[Said], list[Left]]:
    """Take out what was said twice with different values: neither is taken."""
    plain = {item.field for item in said if not item.implied}
    said = [item for item in said if not (item.implied and item.field in plain)]
    values: dict[str, set[str]] = {}
    for item in said:
        if item.field and item.field != "ticket.note":
            values.setdefault(item.field, set()).add(item.value)
    twice = {field for field, several in values.items() if len(several) > 1}
    # words that set a field in doubt are doubtful as a whole: their other fields are not taken either
    spans = {(item.start, item.end) for item in said if item.field in twice}
    kept = [item for item in said if (item.start, item.end) not in spans]
    clashes = [item for item in said if item.field in twice]
    left = {
        (item.start, item.end): Left(
            words=item.words,
            what=f"{_plain(item.field)} is said twice, with different values",
            mend="Say it once, or write the right one in its field.",
            start=item.start,
            end=item.end,
        )
        for item in clashes
    }
    return kept, list(left.values())


def _numbered(said: list[Said]) -> list[Said]:
    """Number the lines of tape without a gap: tape under the lower hand alone is the first line."""
    used = sorted({item.field.split(".")[1] for item in said if item.field.startswith("tape.")})
    lines = {f"tape.{line}": f"tape.{place}" for place, line in enumerate(used)}
    found = []
    for item in said:
        line, _, key = item.field.rpartition(".")
        found.append(msgspec.structs.replace(item, field=f"{lines[line]}.{key}") if line in lines else item)
    return found


def _plain(field: str) -> str:
    return field.rpartition(".")[2].replace("_", " ")


def _notes(said: Iterable[Said]) -> tuple[Finding, ...]:
    """Say what the words leave open: what a relative target is counted from, how thick the tape is."""
    found = []
    for item in said:
        section, _, key = item.field.partition(".")
        if item.counted:
            name = QUANTITIES[key].name
            what = f"the {name} that this is counted from is not said"
            mend = f"Write it under [base] {key}, or write the whole {name} as the target."
            found.append(Finding(where=f'"{item.words}"', what=what, mend=mend, severity="warning"))
        if section == "tape" and key.endswith("layers"):
            what = "the thickness of one layer is not said"
            mend = "Write it beside the tape, so that the size of the grip can be worked out."
            found.append(Finding(where=f'"{item.words}"', what=what, mend=mend, severity="note"))
    return tuple(found)

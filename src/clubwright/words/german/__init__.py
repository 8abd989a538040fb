"""German: the cards of the steps, what the advice says, and what a reading that does not fit."""

from __future__ import annotations

from clubwright.club.part_paths import is_came, without_came
from clubwright.club.quantities import QUANTITIES
from clubwright.ticket.order_paths import place_of as figure_place
from clubwright.ticket.part_paths import place_of
from clubwright.words.german import (
    actions,
    bends,
    cautions,
    cautions_of,
    common,
    finish,
    gates,
    grip,
    joint,
    misfits,
    page,
    parts,
    record,
    shaft,
    weight,
)
from clubwright.words.german.bench import BENCH
from clubwright.words.german.fields import FIELDS
from clubwright.words.german.keys import KEYS
from clubwright.words.german.sheet import SHEET
from clubwright.words.language import Language, one_table

WORDS = KEYS | FIELDS | BENCH | SHEET


def _number(path: str) -> str:
    """Return what a figure of a part is called in the ticket file, such as ``old_grip.mass`` or ``weight.port 6.mass``."""
    found = figure_place(path)
    assert found is not None, path  # it was understood when it was read
    return " ".join(filter(None, (WORDS["section"][found.table], found.entry, WORDS["key"][found.key])))


def _word(register: str, key: str) -> str:
    match register:
        case "read":
            return WORDS["quantity"][key] if key in QUANTITIES else _number(key)
        case "part" if is_came(key):
            return f"früherer {WORDS['part'][without_came(key)]}"
        case "meaning":
            return WORDS["figure"][place_of(key).field.number or ""]
        case "place" | "choice":
            return WORDS[register].get(key, key)  # a place in a file is its key, and a word may be of the ticket's own
        case "key" if key in QUANTITIES:
            return WORDS["quantity"][key]
    return WORDS[register][key]


_CARDS = (parts, shaft, weight, joint, bends, gates, finish, grip, record, cautions, cautions_of)
"""What the cards of the steps say."""

GERMAN = Language(
    phrases=one_table(common, actions, misfits, page, *_CARDS),
    word=_word,
    words=WORDS,
    joints={"comma": ", ", "and": " und ", "plus": " + ", "semicolon": "; ", "then": ", dann ", "or": "; oder "},
)

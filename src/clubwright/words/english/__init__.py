"""English: the words of the bench. Names of quantities and checks are those of their registers."""

from __future__ import annotations

from typing import cast

from clubwright.club.quantities import QUANTITIES
from clubwright.planning.gates.types import CHECKS, CheckKey
from clubwright.ticket.order_paths import place_of as figure_place
from clubwright.ticket.part_paths import place_of, words_of
from clubwright.words.english import (
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
from clubwright.words.english.keys import KEYS
from clubwright.words.language import Language, one_table


def _number(path: str) -> str:
    """Return what a figure of a part is called, such as ``grip weight`` for ``grip.mass``."""
    found = figure_place(path)
    assert found is not None, path  # it was understood when it was read
    return " ".join(filter(None, (found.table.replace("_", " "), found.entry, _word("key", found.key))))


def _word(register: str, key: str) -> str:
    """Return a word; a key that is English already, such as a stage of the build or a hand, stands for itself."""
    match register:
        case "quantity":
            return QUANTITIES[key].name
        case "read":
            return QUANTITIES[key].name if key in QUANTITIES else _number(key)
        case "key":
            return KEYS["key"].get(key, key.replace("_", " "))
        case "part":
            return words_of(key)
        case "check":
            return CHECKS[cast("CheckKey", key)]
        case "meaning":
            return place_of(key).field.meaning
    return KEYS.get(register, {}).get(key, key)


_CARDS = (parts, shaft, weight, joint, bends, gates, finish, grip, record, cautions, cautions_of)
"""What the cards of the steps say."""

ENGLISH = Language(
    phrases=one_table(common, actions, misfits, page, *_CARDS),
    word=_word,
    words=KEYS,
    joints={"comma": ", ", "and": " and ", "plus": " + ", "semicolon": "; ", "then": ", then ", "or": "; or "},
)

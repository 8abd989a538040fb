"""German: what the advice says, and what a reading that does not fit.

The cards of the steps are English in every language so far, and no setting chooses a language yet.
"""

from __future__ import annotations

from clubwright.club.part_paths import is_came, without_came
from clubwright.club.quantities import QUANTITIES
from clubwright.ticket.order_paths import place_of as figure_place
from clubwright.ticket.part_paths import place_of
from clubwright.words.german import actions, common, misfits
from clubwright.words.german.keys import WORDS
from clubwright.words.language import Language


def _number(path: str) -> str:
    """Return what a figure of a part is called in the ticket file, such as ``old_grip.mass`` or ``weight.port 6.mass``."""
    found = figure_place(path)
    assert found is not None, path  # it was understood when it was read
    return " ".join(filter(None, (WORDS["section"][found.table], found.entry, WORDS["key"].get(found.key, found.key))))


def _word(register: str, key: str) -> str:
    match register:
        case "read":
            return WORDS["quantity"][key] if key in QUANTITIES else _number(key)
        case "part" if is_came(key):
            return f"früherer {WORDS['part'][without_came(key)]}"
        case "meaning":
            return WORDS["figure"][place_of(key).field.number or ""]
    return WORDS[register][key]


GERMAN = Language(
    phrases=common.PHRASES | actions.PHRASES | misfits.PHRASES,
    word=_word,
    joints={"comma": ", ", "and": " und ", "plus": " + ", "semicolon": "; ", "then": ", dann ", "or": "; oder "},
)

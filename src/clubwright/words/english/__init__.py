"""English: the words of the bench. Names of quantities and checks are those of their registers."""

from __future__ import annotations

from clubwright.club.quantities import QUANTITIES
from clubwright.words.english import actions, common
from clubwright.words.language import Language

_WORDS = {
    ("direction", "loft less"): "strong",
    ("direction", "loft more"): "weak",
    ("direction", "lie less"): "flat",
    ("direction", "lie more"): "upright",
}


def _word(register: str, key: str) -> str:
    """Return a word; a key that is English already, such as a stage of the build or a hand, stands for itself."""
    if register == "quantity" and key in QUANTITIES:
        return QUANTITIES[key].name
    return _WORDS.get((register, key), key)


ENGLISH = Language(
    phrases=common.PHRASES | actions.PHRASES,
    word=_word,
    joints={"comma": ", ", "and": " and ", "plus": " + ", "semicolon": "; ", "then": ", then ", "or": "; or "},
)

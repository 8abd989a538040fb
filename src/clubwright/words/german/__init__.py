"""German, for the cards of the steps: the proof that nothing reads our own sentences."""

from __future__ import annotations

from clubwright.words.german import actions, common
from clubwright.words.german.keys import WORDS
from clubwright.words.language import Language


def _word(register: str, key: str) -> str:
    return WORDS[register][key]


GERMAN = Language(
    phrases=common.PHRASES | actions.PHRASES,
    word=_word,
    joints={"comma": ", ", "and": " und ", "plus": " + ", "semicolon": "; ", "then": ", dann ", "or": "; oder "},
)

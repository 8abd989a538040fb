"""English: the words of the bench. Names of quantities and checks are those of their registers."""

from __future__ import annotations

from typing import cast

from clubwright.club.quantities import QUANTITIES
from clubwright.planning.gates.types import CHECKS, CheckKey
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
    parts,
    shaft,
    weight,
)
from clubwright.words.language import Language, one_table

_WORDS = {
    ("direction", "loft less"): "strong",
    ("direction", "loft more"): "weak",
    ("direction", "lie less"): "flat",
    ("direction", "lie more"): "upright",
    ("figure", "loft_rad"): "loft",
    ("figure", "lie_rad"): "lie",
    ("figure", "bounce_rad"): "bounce",
    ("figure", "cg_from_ground_m"): "centre of gravity's height along the axis",
    ("figure", "bore_to_ground_m"): "distance from bore to ground",
    ("figure", "balance_from_tip_m"): "balance point from the tip",
    ("figure", "cg_from_cap_m"): "centre of gravity's distance from the cap",
    ("figure", "butt_diameter_m"): "butt diameter",
}


def _word(register: str, key: str) -> str:
    """Return a word; a key that is English already, such as a stage of the build or a hand, stands for itself."""
    match register:
        case "quantity":
            return QUANTITIES[key].name
        case "read":
            return QUANTITIES[key].name if key in QUANTITIES else key.replace("_", " ").replace(".", " ")
        case "part":
            return words_of(key)
        case "check":
            return CHECKS[cast("CheckKey", key)]
        case "meaning":
            return place_of(key).field.meaning
    return _WORDS.get((register, key), key)


_CARDS = (parts, shaft, weight, joint, bends, gates, finish, grip, cautions, cautions_of)
"""What the cards of the steps say."""

ENGLISH = Language(
    phrases=one_table(common, actions, misfits, *_CARDS),
    word=_word,
    joints={"comma": ", ", "and": " and ", "plus": " + ", "semicolon": "; ", "then": ", then ", "or": "; or "},
)

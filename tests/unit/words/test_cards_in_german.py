"""Every word that the cards take from a register is there in German: gauges, metals, checks, standings."""

from __future__ import annotations

import pytest

from clubwright.club.quantities import QUANTITIES
from clubwright.planning.bending.metals import METALS
from clubwright.planning.cautions import CAUTIONS, DEFER, cautions
from clubwright.planning.gates.types import CHECKS
from clubwright.ticket.fields.defaults import default_for
from clubwright.words import Style, say
from clubwright.words.english import ENGLISH
from clubwright.words.german import GERMAN

GERMAN_STYLE = Style(language="de", decimal="comma", length="mm")


@pytest.mark.parametrize(
    ("register", "keys"),
    [
        ("tool", {entry.read_by for entry in QUANTITIES.values()}),
        ("metal", set(METALS)),
        ("check", set(CHECKS)),
        ("standing", {entry.standing for entry in METALS.values()}),
        ("standing", {default_for(f"adhesive.bond_line_{end}", "iron").standing for end in ("min", "max")}),  # type: ignore[union-attr]
    ],
)
def test_every_word_of_a_register_is_german(register: str, keys: set[str]) -> None:
    assert keys and all(GERMAN.word(register, key) for key in keys)


@pytest.mark.parametrize("step", CAUTIONS)
def test_a_caution_is_as_complete_in_german(step: str) -> None:
    """None is left out, none stays English, and each has at least as many sentences as the English one, or a clause."""
    items = cautions(step)
    german, english = [say(item, GERMAN_STYLE) for item in items], [say(item, None) for item in items]
    assert len(set(german)) == len(set(english)) == len(items)
    assert not set(german) & set(english)
    assert german[-1] == say(DEFER, GERMAN_STYLE)
    assert "Sicherheitsdatenblatt" in german[-1] and "Vorschriften" in german[-1] and "Fachleute" in german[-1]


def test_no_phrase_of_the_cards_is_the_same_in_both_languages_but_figures_and_names() -> None:
    same = {key for key, text in GERMAN.phrases.items() if text == ENGLISH.phrases[key]}
    assert same == SAME


SAME = {
    *("angle ends", "bend amount", "check.figure", "label.tape", "lie.bent", "reading", "reads", "several pieces"),
    *("figure.bend", "figure.choice", "figure.give or take", "figure.in", "figure.limit", "figure.ordered"),
    "figure.to hundred",
}
"""They only put figures beside each other, or with a word that both languages have."""

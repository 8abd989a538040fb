"""Every word that the cards take from a register is there in German: gauges, metals, checks, standings."""

from __future__ import annotations

import re
import tomllib

import pytest

from clubwright.club.quantities import QUANTITIES
from clubwright.importers.shop_file import load_shop
from clubwright.notation import shown_in
from clubwright.planning.bending.metals import METALS
from clubwright.planning.cautions import CAUTIONS, DEFER, cautions
from clubwright.planning.gates.types import CHECKS
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import with_plan
from clubwright.ticket.fields.defaults import default_for
from clubwright.words import Style, say
from clubwright.words.english import ENGLISH
from clubwright.words.german import GERMAN, WORDS
from clubwright.words.language import Counted, Template
from clubwright.words.step import StepWords, say_steps
from repository import ROOT

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
    *("figure.to hundred", "check.reason", "check.by word", "page.alarm"),
}
"""They only put figures beside each other, or with a word that both languages have."""


WORD = re.compile("[A-Za-zÄÖÜäöüß]+")
UNITS = {"mm", "cm", "m", "s", "pt", "g", "n", "kn", "mpa", "c", "h", "min", "deg", "yd", "d", "e"}
TYPED = {
    "kestrel",
    "mid",
    "larch",
    "heather",
    "cord",
    "double",
    "sided",
    "forged",
    "carbon",
    "steel",
    "a",
    "example",
    "wedge",
}
TYPED |= {"two", "part"}
"""Names of the invented ticket and of the invented shop, and what is typed on them."""
KEYS = {"adhesive", "ratio", "per", "joint", "scale", "error", "basis"}
"""Keys of a ticket file, which are written so in every language."""


def words_of(template: Template) -> set[str]:
    texts = template if isinstance(template, Counted) else (template,)
    return {word.casefold() for text in texts for word in WORD.findall(re.sub("{[a-z_]+}", "", text))}


def texts_of(step: StepWords) -> list[str]:
    figures = [text for pair in (*step.act_on, *step.numbers) for text in pair]
    said = [step.title, *step.sentences, step.done_when, *step.cautions, step.instrument or "", *figures]
    return [*said, *(item.text for item in step.expected)]


@pytest.mark.parametrize("with_shop", [True, False])
@pytest.mark.parametrize("change", [{}, {"lie": "62 deg"}, {"hosel": "cracked", "hand": "left"}])
def test_no_english_word_is_left_in_the_cards_of_the_wedge(change: dict[str, str], *, with_shop: bool) -> None:
    document = tomllib.loads((ROOT / "examples" / "wedge-54.toml").read_text(encoding="utf-8"))
    document["head"] |= change
    settings = {"settings": load_shop(ROOT / "examples" / "shop.toml")} if with_shop else {}
    german = set().union(*map(words_of, GERMAN.phrases.values()))
    german |= {word for register in WORDS.values() for text in register.values() for word in words_of(text)}
    with shown_in(GERMAN_STYLE):
        steps = say_steps(with_plan(work_document(document, "w.toml", **settings)).steps, GERMAN_STYLE)
    assert len(steps) > 15
    for step in steps:
        for text in texts_of(step):
            left = words_of(text) - german - UNITS - TYPED - KEYS
            assert not left, (step.key, left, text)
            assert not re.search(r"\d\.\d+ (mm|g|in|deg|pt)\b", text) or any(typed in text for typed in AS_TYPED), text


AS_TYPED = ("4.0 g", "6.0 g", "8.0 g", "1.6 g", "54.3 deg", "0.002 bis 0.005 in")
"""Figures with a point that stand on the cards as they were typed."""

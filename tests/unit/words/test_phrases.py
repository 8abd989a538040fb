"""Words are made in one room: every phrase in every language with the same places, said as the style has it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

from clubwright.club.quantities import QUANTITIES
from clubwright.importers.shop_file import load_shop
from clubwright.notation import UnitsShown
from clubwright.notation.units_shown import LANGUAGES
from clubwright.planning.said.phrases import Amount, Listed, phrase, reads
from clubwright.services.answer.club_answer import ClubAnswer, work_document
from clubwright.words.advice import say_advice, say_offer
from clubwright.words.language import Counted, Template
from clubwright.words.say import SPOKEN, say
from repository import ROOT

PLACE = re.compile(r"\{(\w+)\}")
GERMAN = UnitsShown(length="mm", decimal="comma", language="de")


def places(template: Template) -> set[str]:
    texts = template if isinstance(template, Counted) else (template,)
    return {name for text in texts for name in PLACE.findall(text)}


def test_every_language_is_spoken() -> None:
    assert set(SPOKEN) == set(LANGUAGES)


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_phrase_is_said_in_every_language_of_the_same_things(language: str) -> None:
    ours, english = SPOKEN[language], SPOKEN["en"]
    assert set(ours.phrases) == set(english.phrases)
    assert set(ours.joints) == set(english.joints)
    for key, template in english.phrases.items():
        assert places(ours.phrases[key]) == places(template), key
    assert all(ours.word("quantity", key) for key in QUANTITIES)


def example(name: str) -> ClubAnswer:
    path = Path(ROOT / "examples" / f"{name}.toml")
    return work_document(
        tomllib.loads(path.read_text(encoding="utf-8")), path.name, settings=load_shop(ROOT / "examples" / "shop.toml")
    )


@pytest.mark.parametrize(
    "name", sorted(path.stem for path in (ROOT / "examples").glob("*.toml") if path.stem != "shop")
)
def test_every_action_has_an_id_of_its_own_that_no_words_are_in(name: str) -> None:
    advice = example(name).advice
    ids = [item.id for item in advice]
    assert len(set(ids)) == len(ids) > 0
    kinds = {"fit", "leave", "read", "head", "trim", "bend", "tape"}
    assert all(item.kind in kinds and re.fullmatch(rf"{item.kind}(-\d+)*", item.id) for item in advice)
    for item in advice:
        for style in (None, UnitsShown(), GERMAN):
            assert all(say_advice(item, style)) and all(say_offer(item, style))


def test_the_style_has_units_decimal_mark_and_language() -> None:
    thing = phrase("advice.finished", figures=Listed((reads("length", 0.89535), reads("swing_weight", 34.1, 0.2))))
    assert say(thing, None) == "finished: length 35 1/4 in, swing weight D4.1 ± 0.2"
    assert say(thing, UnitsShown(length="mm")) == "finished: length 895.35 mm, swing weight D4.1 ± 0.2"
    assert say(thing, GERMAN) == "fertig: Länge 895,35 mm, Schwunggewicht D4,1 ± 0,2"
    points = Amount("points", -0.456, 0.08, "change of points")
    assert say(points, GERMAN) == "-0,46 pt ± 0,08 pt"
    assert say(points, None) == "-0.46 pt ± 0.08 pt"

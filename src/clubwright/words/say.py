"""Say a thing in a style: the phrase of its language, filled with figures in its units and with its decimal mark."""

from __future__ import annotations

from clubwright.notation import UnitsShown, shown_in
from clubwright.planning.said.phrases import Amount, Listed, Phrase, Value, Word
from clubwright.words.amounts import amount_text
from clubwright.words.english import ENGLISH
from clubwright.words.german import GERMAN
from clubwright.words.language import Counted, Language

SPOKEN: dict[str, Language] = {"en": ENGLISH, "de": GERMAN}
"""Every language there is."""


def say(thing: Value, style: UnitsShown | None) -> str:
    """Say a thing.

    Args:
        thing: A phrase of the register, an amount, a word of a register or a list of such; a text is said as it is.
        style: Units first shown, decimal mark, language; None for the canonical text, which is English.

    Raises:
        KeyError: The language has no such phrase, or the phrase a place that nothing fills.
    """
    with shown_in(style):
        return said(thing, SPOKEN["en" if style is None else style.language])


def said(thing: Value, language: Language) -> str:
    """Say a thing in a language, while its figures are shown in the style of the moment."""
    match thing:
        case Amount():
            return amount_text(thing)
        case Word(register, key):
            return language.word(register, key)
        case Listed(items, by):
            return _listed([said(item, language) for item in items], by, language)
        case Phrase():
            return _filled(thing, language)
        case _:
            return str(thing)


def _listed(texts: list[str], by: str, language: Language) -> str:
    return language.joints[by].join(texts)


def _filled(phrase: Phrase, language: Language) -> str:
    template = language.phrases[phrase.key]
    data = dict(phrase.data)
    if isinstance(template, Counted):
        template = template.one if data["count"] == 1 else template.other
    return template.format_map({name: said(value, language) for name, value in data.items()})


def sentence(text: str) -> str:
    """Return a clause as a sentence: with a capital and a full stop."""
    return text[:1].upper() + text[1:] + "."

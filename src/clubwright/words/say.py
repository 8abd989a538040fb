"""Say a thing in a style: the phrase of its language, filled with figures in its units and with its decimal mark."""

from __future__ import annotations

from clubwright.notation import UnitsShown, shown_in, units_shown
from clubwright.planning.said.phrases import Amount, Listed, Phrase, Value, Word, phrase
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


def spoken(register: str, key: str) -> str:
    """Return what a key of a register is called where something is laid out for a person just now; empty for none."""
    return say(Word(register, key), units_shown()) if key else ""


def words_here(register: str) -> dict[str, str]:
    """Return all words of a register that read otherwise than their keys just now, for what is filled in elsewhere."""
    units = units_shown()
    return dict(SPOKEN["en" if units is None else units.language].words.get(register, {}))


def on_page(key: str, **data: Value) -> str:
    """Say a phrase of the page where something is laid out for a person just now."""
    return say(phrase(f"page.{key}", **data), units_shown())


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


NEARLY = 0.995
"""Above this a chance is told as over 99 %, below its mirror as under 1 %."""


def percent(chance: float) -> str:
    """Write a chance (0 to 1) for a person: never 100 % for what is not certain, never 0 % for what may happen."""
    if chance > NEARLY:
        return on_page("over", figure="99 %")
    if chance < 1 - NEARLY:
        return on_page("under", figure="1 %")
    return f"{chance * 100:.0f} %"

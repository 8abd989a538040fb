"""Facts in which a person's name was erased: what the record says of them, and how they are shown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, TypeAlias

import msgspec

from clubwright.journal.facts import Fact, NamesErased, Place, Span, What
from clubwright.journal.text_paths import keys_of

COVER = "\N{FULL BLOCK}"
"""Stands for each character that was erased, so that what else was or is erased stays where it was."""
NOBODY = "a forgotten player"
"""What is shown of them, before the mark of which one."""

Left: TypeAlias = Mapping[Place, set[tuple[str, tuple[Span, ...]]]]
"""Of each fact that was erased in: hash over what is left of it, and what was erased, as each erasure says it."""


def what_was_left(facts: Iterable[Fact]) -> Left:
    """Return what the erasures among some facts say of others."""
    found: dict[Place, set[tuple[str, tuple[Span, ...]]]] = {}
    for fact in facts:
        for item in fact.what.facts if isinstance(fact.what, NamesErased) else ():
            found.setdefault((item.site, item.sequence), set()).add((item.left, item.spans))
    return found


def erasing_break(fact: Fact, left: str, told: Left) -> str | None:
    """Say what is wrong with how a fact was erased in, or was not; None where nothing is.

    Args:
        fact: Any fact.
        left: Hash over what is left of it.
        told: From `what_was_left`, of the whole record.
    """
    said = told.get(fact.place, set())
    if fact.erased and (left, fact.erased) not in said:
        return "has texts erased, and what is left of it is not what an erasure in the record says"
    if any(not set(spans).issubset(fact.erased) for _, spans in said):
        return "still holds what was to be erased"
    return None


def shown(fact: Fact) -> Fact:
    """Return a fact with words in the place of what was erased: whoever it was goes by one mark on all jobs."""

    def words(text: str, spans: list[Span]) -> str:
        start = len(text) + 1
        for span in sorted(spans, key=lambda item: (item.start, item.length), reverse=True):
            if span.start + span.length <= start:
                text = f"{text[: span.start]}{NOBODY} {span.person}{text[span.start + span.length :]}"
                start = span.start
        return text

    return changed(fact, fact.erased, words)


def covered(fact: Fact, spans: Iterable[Span]) -> Fact:
    """Return a fact in which some more stretches are erased; it keeps the hash that it was written with."""

    def cover(text: str, of_it: list[Span]) -> str:
        for span in of_it:
            end = min(span.start + span.length, len(text))
            text = text[: span.start] + COVER * max(0, end - span.start) + text[end:]
        return text

    listed = tuple(sorted({*fact.erased, *spans}, key=lambda item: (item.path, item.start, item.length, item.person)))
    return msgspec.structs.replace(changed(fact, listed, cover), erased=listed)


def changed(fact: Fact, spans: Iterable[Span], change: Any) -> Fact:
    """Return a fact with its texts changed where some stretches are; what a path does not lead to is passed over."""
    by_path: dict[str, list[Span]] = {}
    for span in spans:
        by_path.setdefault(span.path, []).append(span)
    content = {"typed": fact.typed, "what": msgspec.to_builtins(fact.what)}
    for path, of_it in by_path.items():
        *way, last = keys_of(path)
        place: Any = content
        for key in way:
            place = _under(place, key)
        text = _under(place, last)
        if isinstance(text, str):
            place[int(last) if isinstance(place, list) else last] = change(text, of_it)
    what: What = msgspec.convert(content["what"], type(fact.what))
    return msgspec.structs.replace(fact, typed=content["typed"], what=what)


def _under(place: Any, key: str) -> Any:
    if isinstance(place, dict):
        return place.get(key)
    return place[int(key)] if isinstance(place, list) and key.isdecimal() and int(key) < len(place) else None


def text_at(fact: Fact, span: Span) -> str:
    """Return what stands in a fact at a stretch; empty where nothing does."""
    found: list[str] = []

    def keep(text: str, _: list[Span]) -> str:
        found.append(text[span.start : span.start + span.length])
        return text

    changed(fact, [span], keep)
    return found[0] if found else ""

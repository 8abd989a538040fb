"""Where a name stands in a fact: what can be erased without changing what was done, and what a person must look at."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

import msgspec

from clubwright.errors import Finding
from clubwright.journal.chain import GENESIS, hash_of
from clubwright.journal.erased import covered
from clubwright.journal.facts import Erased, Fact, NamesErased, Place, RecordsMerged, Span
from clubwright.journal.text_paths import keys_of, text_path
from clubwright.notation.one_line import one_line

FREE_TEXTS = frozenset(
    [
        "accepted_by",
        "asked",
        "label",
        "note",
        "player",
        "promised",
        "reason",
        "said_by",
        "skipped",
        "source",
        "text",
        "title",
        "typed",
    ]
)
"""Last keys of the texts that nothing is computed from, nor looked up by. Only in these anything is erased."""
LONG_ENOUGH = 4
"""Letters of a word of a name that is looked for where it stands by itself, or in another word."""
SHORT_NAME = 3
"""A name of fewer letters is erased only where it is the whole text."""
FACTS_AT_A_TIME = 100
SPANS_AT_A_TIME = 600
"""So much goes into one fact of an erasure: a fact's content has so many entries at most."""


class Remaining(msgspec.Struct, frozen=True, kw_only=True):
    """A text that may still say who it was; a person looks at it.

    Attributes:
        place: The fact.
        job: Number that it stands under.
        path: Where in it.
        text: What it says there.
    """

    place: Place
    job: str
    path: str
    text: str


def texts_of(fact: Fact) -> Iterator[tuple[str, str, str]]:
    """Yield each text of a fact that a person may have typed: its path, its last key, and what it says."""
    yield "typed", "typed", fact.typed
    if not isinstance(fact.what, RecordsMerged | NamesErased):
        yield from _walked("what", "", msgspec.to_builtins(fact.what))


def spans_of(fact: Fact, names: Sequence[str], person: str) -> tuple[Span, ...]:
    """Return where names stand as words in what may be erased."""
    pattern = re.compile("|".join(f"(?:{each})" for name in names for each in _patterns(name)))
    whole = {_folded(name) for name in names}
    found: list[Span] = []
    for path, key, text in texts_of(fact):
        if key not in FREE_TEXTS or pattern.search(path.replace("/", " ")):
            continue
        if _folded(text) in whole:
            found.append(Span(person, path, 0, len(text)))
            continue
        found += [Span(person, path, match.start(), len(match[0])) for match in pattern.finditer(text) if match[0]]
    return tuple(found)


def remaining(fact: Fact, names: Iterable[str]) -> Iterator[Remaining]:
    """Yield what still holds a word of a name: in another spelling, in a key, a number, or the name of who works here."""
    words = {word for name in names for word in re.findall(r"\w+", _folded(name)) if len(word) >= LONG_ENOUGH}
    envelope = [(name, name, getattr(fact, name)) for name in ("site", "by", "key")]
    keys = [(path, "", path) for path, _, _ in texts_of(fact)]
    for path, _, text in (*texts_of(fact), *envelope, *keys):
        if any(word in _folded(text) for word in words):
            yield Remaining(place=fact.place, job=fact.what.job, path=path, text=text)


def erased_in(facts: Iterable[Fact]) -> tuple[Erased, ...]:
    """Return what an erasure says of the facts that it erased in."""
    return tuple(Erased(fact.site, fact.sequence, hash_of(fact), fact.erased) for fact in facts)


def in_parts(facts: Sequence[Fact]) -> list[list[Fact]]:
    """Part facts that are erased in, so that a fact can say it of each part."""
    parts: list[list[Fact]] = [[]]
    spans = 0
    for fact in facts:
        spans += len(fact.erased)
        if len(parts[-1]) == FACTS_AT_A_TIME or (parts[-1] and spans > SPANS_AT_A_TIME):
            parts.append([])
            spans = len(fact.erased)
        parts[-1].append(fact)
    return parts


def spans_told(facts: Iterable[Fact]) -> dict[Place, set[Span]]:
    """Return all that the erasures among some facts erase, fact by fact."""
    found: dict[Place, set[Span]] = {}
    for fact in facts:
        for item in fact.what.facts if isinstance(fact.what, NamesErased) else ():
            found.setdefault((item.site, item.sequence), set()).update(item.spans)
    return found


def alike(fact: Fact, other: Fact) -> bool:
    """True when two copies of a fact are the same but for what was erased in one of them."""
    if fact == other:
        return True
    if not (fact.erased or other.erased):
        return False
    return covered(fact, other.erased) == covered(other, fact.erased)


def same_person(text: str, other: str) -> bool:
    """True when two names differ by capitals, spaces, or the way accents are written at most."""
    return bool(_folded(text)) and _folded(text) == _folded(other)


def erasing_findings(what: NamesErased) -> list[Finding]:
    """Say where an erasure erases more than texts that nothing is worked out from."""
    mend = "Erase at the bench: `clubwright forget`."
    found = []
    for item in what.facts:
        where = f"erased in {item.site[:40]}/{item.sequence}"
        if len(item.left) != len(GENESIS) or item.sequence < 1 or not item.spans:
            found.append(Finding(where=where, what="it does not say what is left", mend=mend))
        for span in item.spans:
            keys = [key for key in keys_of(span.path) if not key.isdecimal()]
            if keys[-1:] == [] or keys[-1] not in FREE_TEXTS or min(span.start, span.length - 1) < 0:
                found.append(Finding(where=where, what=f'"{span.path[:80]}" is not erased', mend=mend))
    return found


def _patterns(name: str) -> Iterator[str]:
    words = name.split()
    if len(re.findall(r"\w", name)) < SHORT_NAME or not words:
        return
    # one word may be a word of the bench too: then only as it is written
    flags = "(?i:%s)" if len(words) > 1 else "(?:%s)"
    for form in ("NFC", "NFD"):
        said = r"\s+".join(re.escape(unicodedata.normalize(form, word)) for word in words)
        yield rf"(?<!\w){flags % said}(?!\w)"


def _folded(text: str) -> str:
    return one_line(unicodedata.normalize("NFC", text).casefold())


def _walked(path: str, key: str, value: Any) -> Iterator[tuple[str, str, str]]:
    if isinstance(value, str):
        yield path, key, value
    elif isinstance(value, dict):
        for name, item in value.items():
            yield from _walked(text_path(path, name), name, item)
    elif isinstance(value, list | tuple):
        for number, item in enumerate(value):
            yield from _walked(text_path(path, number), key, item)

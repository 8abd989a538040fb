"""ClubAnswer once: what follows from facts alone is kept while shops are played, by all that it follows from.

A seed asks hundreds of times what the same few facts fold to, at every bench anew. Each function here is one whose result
its arguments decide; the key is their whole content, never a name or a number of facts. What a law works out "anew" goes
past all of it (`anew`), so that a result that somebody changed afterwards, or that time should have changed, is found.
"""

from __future__ import annotations

import gc
import sys
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

import msgspec
import pytest

from clubwright.journal.chain import hash_of
from clubwright.journal.facts import Fact
from clubwright.journal.reducers.fold import fold_job
from clubwright.journal.subjects import Subject, subjects_of
from clubwright.services.jobs import job_answer
from clubwright.services.recording import merging, possible
from clubwright.store.rows import judged
from clubwright.ticket.read import read_ticket

ASKING = ("shop", "calls")
"""What looks around at the bench in a simulation; laws ask the program."""

MOST = 4000
"""So many results of one function are kept, those that were asked for last."""

Key = Callable[..., Hashable]


class _Facts:
    """A number for the content of each fact, never given to another content."""

    def __init__(self) -> None:
        self._of: dict[int, tuple[Fact, int]] = {}
        self._contents: dict[bytes, int] = {}
        self._given = 0

    def numbers(self, facts: Iterable[Fact]) -> tuple[int, ...]:
        return tuple([self._number(fact) for fact in facts])

    def _number(self, fact: Fact) -> int:
        there = self._of.get(id(fact))  # it is held here, so nothing else can be where it is
        if there is not None:
            return there[1]
        if len(self._of) > 25 * MOST:
            self.forget()
        content = msgspec.json.encode(fact)
        number = self._contents.get(content)
        if number is None:
            self._given += 1
            number = self._contents[content] = self._given
        self._of[id(fact)] = (fact, number)
        return number

    def forget(self) -> None:
        self._of.clear()
        self._contents.clear()


_FACTS = _Facts()


def _of_row(row: Mapping[str, Any]) -> Hashable:
    return tuple(row.values())


def _of_document(document: Mapping[str, Any], source: str = "ticket") -> Hashable:
    return source, msgspec.json.encode(document)


def _of_subject(subject: Subject, name: str) -> Hashable:
    facts, doubted = _FACTS.numbers(subject.facts), _FACTS.numbers(subject.doubted)
    return name, subject.place, subject.job, subject.numbers, subject.gone, facts, doubted


def _of_facts(facts: Iterable[Fact]) -> Hashable:
    return _FACTS.numbers(facts)


def _of_fact(fact: Fact) -> Hashable:
    return _FACTS.numbers((fact,))


def _of_a_try(subject: Subject, fact: Fact, sure: Mapping[str, int]) -> Hashable:
    return _of_subject(subject, ""), _FACTS.numbers((fact,)), tuple(sorted(sure.items()))


def _of_all(*given: Hashable) -> Hashable:
    return given


KEYS: dict[Callable[..., Any], Key] = {
    judged: _of_row,
    hash_of: _of_fact,
    read_ticket: _of_document,
    fold_job: _of_subject,
    subjects_of: _of_facts,
    merging._by_itself: _of_fact,
    possible._refused: _of_a_try,
    job_answer._worked: _of_all,
    job_answer._plan: _of_all,
}
"""Functions whose results are kept, each with what decides them."""


class _Once:
    """One function that is worked once for each key."""

    passed = False
    """Whether everything is worked anew just now."""

    def __init__(self, function: Callable[..., Any], key: Key) -> None:
        # what the program keeps of its own accord, of few jobs, is kept here of more
        self._function, self._key = getattr(function, "__wrapped__", function), key
        self.kept: dict[Hashable, Any] = {}

    def __call__(self, *given: Any) -> Any:
        if _Once.passed:
            return self._function(*given)
        if self._function is subjects_of:
            given = (list(given[0]),)  # a generator is read once
        key = self._key(*given)
        kept = self.kept
        if key in kept:
            found = kept[key] = kept.pop(key)
        else:
            found = kept[key] = self._function(*given)
            if len(kept) > MOST:
                del kept[next(iter(kept))]
        return dict(found) if self._function is subjects_of else found


_ALL = [_Once(function, key) for function, key in KEYS.items()]


def forget() -> None:
    """Forget every result: the program is another one now, with a fault planted or mended."""
    for once in _ALL:
        once.kept.clear()
    _FACTS.forget()


@contextmanager
def anew() -> Iterator[None]:
    """Work everything out as if nothing had been asked before."""
    before, _Once.passed = _Once.passed, True
    try:
        yield
    finally:
        _Once.passed = before


@contextmanager
def worked_once() -> Iterator[None]:
    """Put these functions in the place of the program's own, wherever it has them at hand; collect no garbage meanwhile."""
    collects = gc.isenabled()
    gc.disable()
    try:
        with pytest.MonkeyPatch.context() as patch:
            names = [name for name in sys.modules if name.startswith("clubwright.") or name in ASKING]
            modules = [sys.modules[name] for name in names]
            for function, once in zip(KEYS, _ALL, strict=True):
                for module in modules:
                    if getattr(module, function.__name__, None) is function:
                        patch.setattr(module, function.__name__, once)
            yield
    finally:
        if collects:
            gc.enable()

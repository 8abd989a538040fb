"""Words of jobs, so that a few letters of a rare one are found without looking through the text of every job.

A search finds letters anywhere in a word, so each word is entered with all its tails: what is looked for begins one of them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import islice

from sqlalchemy import Connection, delete, insert, select

from clubwright.journal.facts import Place
from clubwright.store.index.tables import tail_table, word_table

LEAST = 3
"""Fewer letters are in too many words: every text is looked through for them."""
MOST = 40
"""So many letters of a word are looked up; the rest is looked for in the text itself."""
FEW = 500
"""So many jobs are looked at one by one; for more, every text is looked through."""
AT_ONCE = 300
_LAST = "\U0010ffff"
_WORD = word_table.c
_TAIL = tail_table.c


def words_of(text: str) -> set[str]:
    """Return the words of a text as they are entered; one that is very long in parts, each of which overlaps the next."""
    long = (word for word in text.split() if len(word) >= LEAST)
    return {word[start : start + 2 * MOST] for word in long for start in range(0, max(1, len(word) - MOST), MOST)}


def tails_of(words: Collection[str]) -> set[tuple[str, str]]:
    """Return what finds each of some words: its letters from each one on."""
    return {(word[start : start + MOST], word) for word in words for start in range(len(word) - LEAST + 1)}


def few_places(connection: Connection, word: str) -> list[Place] | None:
    """Return the jobs that have a word, and maybe others; None where they are not few, or it is too short.

    Args:
        connection: Of which the index was found to be whole.
        word: In small letters.
    """
    if len(word) < LEAST:
        return None
    sought = word[:MOST]
    whole = select(_TAIL.word).where(_TAIL.tail >= sought, _TAIL.tail <= sought + _LAST).distinct().limit(FEW + 1)
    words = connection.execute(whole).scalars().all()
    if len(words) > FEW:
        return None
    query = select(_WORD.site, _WORD.sequence).where(_WORD.word.in_(words)).distinct().limit(FEW + 1)
    places = [(row.site, row.sequence) for row in connection.execute(query)]
    return None if len(places) > FEW else places


def words_in(connection: Connection, jobs: Collection[str]) -> set[str]:
    """Return the words that are entered of some ticket numbers."""
    return set(connection.execute(select(_WORD.word).where(_WORD.job.in_(sorted(jobs)))).scalars())


def enter_tails(connection: Connection, before: Collection[str], after: Collection[str]) -> None:
    """Bring the tails up to the words of some jobs.

    Args:
        connection: In the transaction that entered them.
        before: Their words as they were.
        after: As they are now.
    """
    for some in _parts(set(after) - set(before)):
        starts = [word[:MOST] for word in some]
        known = select(_TAIL.word).where(_TAIL.tail.in_(starts), _TAIL.word.in_(some))
        new = tails_of(set(some) - set(connection.execute(known).scalars()))
        if new:
            connection.execute(insert(tail_table), [{"tail": tail, "word": word} for tail, word in sorted(new)])
    for some in _parts(set(before) - set(after)):
        elsewhere = select(_WORD.word).where(_WORD.word.in_(some)).distinct()
        for word in sorted(set(some) - set(connection.execute(elsewhere).scalars())):
            tails = [tail for tail, _ in tails_of([word])]
            connection.execute(delete(tail_table).where(_TAIL.tail.in_(tails), _TAIL.word == word))


def _parts(words: Collection[str]) -> Iterator[list[str]]:
    left = iter(sorted(words))
    while some := list(islice(left, AT_ONCE)):
        yield some

"""The job that only bends can be said in words (the words are common practice, no source)."""

from __future__ import annotations

import pytest

from clubwright.ticket.shorthand.reader import read_shorthand


@pytest.mark.parametrize(
    "words",
    [
        "loft-lie",
        "loft and lie",
        "Loft & Lie",
        "loft/lie",
        "lofts and lies",
        "check loft and lie",
        "bend only",
        "only bend",
    ],
)
def test_the_job_that_only_bends_is_said_in_words(words: str) -> None:
    found = read_shorthand(f"7 iron, {words}, 1 flat")
    assert found.fields["ticket.job"] == "loft-lie"
    assert found.left == ()
    assert read_shorthand(f"7 iron {words} 1 flat").fields == found.fields


@pytest.mark.parametrize("words", ["loft lie", "loft 54 lie 64", "bend", "1 flat"])
def test_no_other_words_make_it_that_job(words: str) -> None:
    assert "ticket.job" not in read_shorthand(words).fields

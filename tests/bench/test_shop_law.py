"""The law of the shop's settings: a figure counts the same, whether the ticket says it or the shop."""

from __future__ import annotations

import tomllib
from pathlib import Path

import msgspec
import pytest

from clubwright.services.answer.club_answer import answer_document
from clubwright.services.told.answer import Answer
from clubwright.ticket.shop.settings import read_shop
from shopwork import parted

ROOT = Path(__file__).parents[2]
FILES = sorted([*(ROOT / "examples").glob("*.toml"), *(ROOT / "src" / "clubwright" / "demo").glob("*.toml")])
TICKETS = [path for path in FILES if path.name != "shop.toml" and not path.stem.startswith("short-")]


def unannounced(answer: Answer) -> Answer:
    found = tuple(item for item in answer.findings if "(shop setting)" not in item.what)
    return msgspec.structs.replace(answer, findings=found)


@pytest.mark.parametrize("path", TICKETS, ids=[f"{path.parent.name}-{path.stem}" for path in TICKETS])
def test_a_ticket_that_says_all_and_one_whose_shop_says_it_have_one_answer(path: Path) -> None:
    whole = tomllib.loads(path.read_text(encoding="utf-8"))
    short, said = parted(whole)
    settings = read_shop(said)
    assert settings.errors == ()
    there, here = answer_document(whole), answer_document(short, settings=settings)
    assert here["finished"], "both would agree if neither were taken"
    assert unannounced(here) == there
    if said:
        assert len(here["findings"]) > len(there["findings"]) or set(said) == {"instrument"}

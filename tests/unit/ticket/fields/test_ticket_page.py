"""docs/user/ticket.md is what the field lists make of it; run as a program, this file writes it anew."""

from __future__ import annotations

import tomllib
from pathlib import Path

from clubwright.services.answer.club_answer import answer_document
from clubwright.ticket.fields.fields import SECTIONS
from clubwright.ticket.fields.page import ticket_page
from clubwright.ticket.fields.page_words import EXAMPLE

PAGE = Path(__file__).parents[4] / "docs" / "user" / "ticket.md"


def page() -> str:
    return ticket_page(answer_document(tomllib.loads(EXAMPLE)).plain())


def test_the_page_in_the_docs_is_the_one_the_lists_make() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), (
        "write it anew: python tests/unit/ticket/fields/test_ticket_page.py"
    )


def test_every_table_and_key_is_on_the_page() -> None:
    text = page()
    for section in SECTIONS:
        heading = f"### `[[{section.name}]]`" if section.many else f"### `[{section.name}"
        part = text.split(heading)[1].split("\n###")[0]
        for field in section.fields:
            assert f"| `{field.key}`" in part
            assert field.example in part


def test_the_example_is_taken_and_open_for_its_cut() -> None:
    answer = answer_document(tomllib.loads(EXAMPLE))
    assert [item for item in answer["findings"] if item["severity"] != "note"] == []
    assert answer["gates"][0]["open"]
    assert answer["advice"][0]["chance"] > 0.7


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")

"""docs/user/shop.md is what the field lists make of it; run as a program, this file writes it anew."""

from __future__ import annotations

import tomllib
from pathlib import Path

from clubwright.ticket.fields.fields import RELEASE
from clubwright.ticket.fields.shop import SHOP_SECTIONS
from clubwright.ticket.shop.page import EXAMPLE, shop_page
from clubwright.ticket.shop.settings import read_shop

PAGE = Path(__file__).parents[4] / "docs" / "user" / "shop.md"


def test_the_page_in_the_docs_is_the_one_the_lists_make() -> None:
    assert PAGE.read_text(encoding="utf-8") == shop_page(), (
        "write it anew: python tests/unit/ticket/fields/test_shop_page.py"
    )


def test_every_table_and_key_is_on_the_page() -> None:
    text = shop_page()
    for section in SHOP_SECTIONS:
        heading = "### `[[adhesive.NAME.release]]`" if section is RELEASE else f"### `[{section.name}"
        part = text.split(heading)[1].split("\n###")[0]
        for field in section.fields:
            assert f"| `{field.key}`" in part


def test_the_example_can_be_used() -> None:
    assert read_shop(tomllib.loads(EXAMPLE)).findings == ()


if __name__ == "__main__":
    PAGE.write_text(shop_page(), encoding="utf-8")

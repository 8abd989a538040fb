"""A ticket file from words: what was understood, as figures; what is to be filled in, as a comment and never as a sample."""

from __future__ import annotations

import tomllib

import pytest

import clubwright as library
from cli_runs import clubwright
from clubwright.services.actions.orders.new_ticket import NewTicket, new_ticket
from clubwright.services.answer.club_answer import work_document
from clubwright.ticket.fields.fields import SECTIONS
from clubwright.ticket.shop.settings import NO_SETTINGS, ShopSettings, read_shop
from shopwork import SHOP_TEXT, shop

WORDS = "54 mid bounce, 35 1/4 to the cap, D4"
NUMBER = "T-0042"


def made(words: str = WORDS, number: str = NUMBER, settings: ShopSettings = NO_SETTINGS) -> NewTicket:
    return new_ticket(words, number, settings)


def lines(text: str) -> list[str]:
    return [line for line in text.splitlines() if line]


@pytest.mark.parametrize("settings", [NO_SETTINGS, read_shop(shop())])
@pytest.mark.parametrize("number", ["", NUMBER])
def test_it_has_8_to_12_lines(settings: ShopSettings, number: str) -> None:
    assert 8 <= len(lines(made(WORDS, number, settings).text)) <= 12


def test_the_file_says_what_was_understood_and_nothing_else() -> None:
    found = made()
    assert tomllib.loads(found.text) == found.document
    assert found.document == {
        "ticket": {
            "id": NUMBER,
            "label": "54 wedge",
            "kind": "wedge",
            "asked": WORDS,
            "note": "mid bounce head",
        },
        "target": {"length": "35 1/4", "loft": "54 deg", "swing_weight": "D4"},
    }


def test_what_is_missing_is_named_and_asked_for() -> None:
    found = made(number="")
    comment = lines(found.text)[-1]
    assert comment.startswith("# Fill in, as measured of the parts in hand: [ticket] id, hand; [head] hand, mass, loft")
    assert "[shaft] raw_length, mass; [grip] mass, cap" in comment
    assert {str(item.where): item.severity for item in found.findings} == {
        "[ticket] id": "warning",
        "[ticket] hand": "warning",
    }


def test_no_comment_holds_a_figure_that_looks_like_a_value() -> None:
    examples = {
        field.example for section in SECTIONS for field in section.fields if field.kind not in ("text", "choice")
    }
    for words in (WORDS, "7i, rh", "regrip, 7 iron, M60", "driver"):
        for line in lines(made(words).text):
            if line.startswith("#"):
                assert not any(character.isdigit() for character in line), line
                assert not any(example in line for example in examples if len(example) > 2)


def test_filled_in_it_is_a_ticket_that_can_be_worked() -> None:
    text = made(settings=read_shop(shop())).text.replace('kind = "wedge"', 'kind = "wedge"\nhand = "right"')
    worked = work_document(tomllib.loads(text), settings=read_shop(shop()))
    assert worked.club_state.ticket.row("adhesive").numbers["pot_life"].typed == "30 min"


def test_the_shops_usual_adhesive_is_named_where_there_is_a_joint() -> None:
    settings = read_shop(shop())
    assert made(settings=settings).document["adhesive"] == {"name": "two-part"}
    assert "adhesive" not in made("regrip, 7 iron, rh, M60", settings=settings).document


def test_words_not_understood_are_an_error_and_stand_in_the_file() -> None:
    found = made(f"{WORDS}, rh, blue label")
    assert [(str(item.where), item.severity) for item in found.findings] == [('"blue label"', "error")]
    assert "# Not understood, and left out: blue label" in found.text
    assert "blue" not in str(found.document["target"])


def test_nothing_ordered_is_asked() -> None:
    assert "[target]" in {str(item.where) for item in made("7 iron, rh").findings}


@pytest.mark.parametrize(
    "words", ["", "x" * 600, 'player A. "B" \\ C', "\x00 \x7f ☃ 54", 'note """ # [ticket]', "a\nb"]
)
def test_whatever_the_words_the_file_can_be_read(words: str) -> None:
    found = made(words)
    assert tomllib.loads(found.text) == found.document


def test_the_command_prints_the_file_and_says_the_rest_beside_it(capsys: pytest.CaptureFixture[str]) -> None:
    ran = clubwright(capsys, "new", WORDS, "--id", NUMBER)
    assert (ran.code, ran.out) == (0, made().text)
    assert ran.err.startswith("warning: [ticket] hand: not said.")
    ran = clubwright(capsys, "new", "54 wedge with everything", "--json")
    assert ran.code == 2
    assert set(ran.body()) == {"document", "findings", "text"}
    ran = clubwright(capsys, "new", WORDS, "--shop", "no such folder")
    assert ran.code == 2
    assert "--shop" in ran.err


def test_a_workshop_gives_the_next_number_and_its_settings(tmp_path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "shop.toml").write_text(SHOP_TEXT, encoding="utf-8")
    file = tmp_path / "ticket.toml"
    file.write_text(clubwright(capsys, "new", f"{WORDS}, rh", "--id", "T-0007").out, encoding="utf-8")
    assert clubwright(capsys, "take", str(file), "--shop", str(tmp_path)).code == 0
    ran = clubwright(capsys, "new", f"{WORDS}, rh", "--shop", str(tmp_path))
    assert (ran.code, ran.err) == (0, "")
    assert 'id = "T-0008"' in ran.out
    assert 'adhesive.name = "two-part"' in ran.out


def test_python_gives_the_same_as_the_command(tmp_path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "shop.toml"
    file.write_text(SHOP_TEXT, encoding="utf-8")
    ran = clubwright(capsys, "new", WORDS, "--id", NUMBER, "--shop-file", str(file), "--json")
    assert library.new_ticket(WORDS, number=NUMBER, shop_file=file).plain() == ran.body()
    missing = library.new_ticket(WORDS, shop_file=tmp_path / "none.toml")
    assert missing["findings"][0]["what"] == "no such file"

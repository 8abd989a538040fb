"""Shorthand: what is understood and from which words, what is doubted, and that no word is lost.

The readings are common practice, no source; the values are read by the notation, which has its own outside checks.
"""

from __future__ import annotations

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clubwright.ticket.fields.fields import SECTIONS
from clubwright.ticket.read import read_ticket
from clubwright.ticket.shorthand.promised import promised_moment
from clubwright.ticket.shorthand.reader import LONGEST, read_shorthand

SLIP = "54, mid bounce, 35 1/4 to the cap, D4, half flat, two wraps, logo down"


def test_a_slip_of_paper_is_understood_field_by_field() -> None:
    found = read_shorthand(SLIP)
    assert found.fields == {
        "grip.logo": "down",
        "tape.0.layers": "2",
        "tape.0.name": "build-up",
        "target.length": "35 1/4",
        "target.lie": "1/2 flat",
        "target.loft": "54 deg",
        "target.swing_weight": "D4",
        "ticket.kind": "wedge",
        "ticket.label": "54 wedge",
        "ticket.note": "mid bounce head",
    }
    assert found.left == ()
    assert {item.words for item in found.said} == set(SLIP.split(", "))


def test_the_same_slip_without_commas_says_the_same() -> None:
    assert read_shorthand(SLIP.replace(",", "")).fields == read_shorthand(SLIP).fields


def test_a_relative_lie_asks_for_its_base_and_tape_for_its_thickness() -> None:
    whats = [(item.where, item.severity) for item in read_shorthand(SLIP).findings]
    assert whats == [('"half flat"', "warning"), ('"two wraps"', "note")]


@pytest.mark.parametrize(
    ("words", "fields"),
    [
        ("2U", {"target.lie": "2 up"}),
        ("1 up", {"target.lie": "1 up"}),
        ("1F", {"target.lie": "1 flat"}),
        ("quarter upright", {"target.lie": "1/4 up"}),
        ("1 strong", {"target.loft": "1 strong"}),
        ("half weak", {"target.loft": "1/2 weak"}),
        ("std lie", {"target.lie": "std"}),
        ("std-1/4 in", {"target.length": "-1/4 in"}),
        ("std-1/32 length", {"target.length": "-1/32 in"}),
        ("+1/4 in", {"target.length": "+1/4 in"}),
        ("inch longer", {"target.length": "+1 in"}),
        ("half inch short", {"target.length": "-1/2 in"}),
        ("35.25 in to the cap", {"target.length": "35.25 in"}),
        ("895 mm long", {"target.length": "895 mm"}),
        ("EOG", {}),
        ("D4+", {"target.swing_weight": "D4+"}),
        ("sw D3.5", {"target.swing_weight": "D3.5"}),
        ("tw 472 g", {"target.total_weight": "472 g"}),
        ("head 296.4 g", {"head.mass": "296.4 g"}),
        ("320 cpm", {"target.frequency": "320 cpm"}),
        ("lie 63 1/2", {"target.lie": "63 1/2 deg"}),
        ("10 bounce", {"target.bounce": "10 deg"}),
        ("54.10 deg", {"target.loft": "54.10 deg"}),
        (
            "58/08",
            {
                "target.loft": "58 deg",
                "target.bounce": "8 deg",
                "ticket.kind": "wedge",
                "ticket.label": "58 wedge",
            },
        ),
        ("6i", {"ticket.kind": "iron", "ticket.label": "6 iron"}),
        ("PW", {"ticket.kind": "wedge", "ticket.label": "PW"}),
        ("3 wood", {"ticket.kind": "fairway", "ticket.label": "3 wood"}),
        ("SS1x", {"ticket.note": "shaft soft-stepped 1 x"}),
        ("HS1", {"ticket.note": "shaft hard-stepped 1 x"}),
        ("tip 1/2", {"shaft.tip_trim": "1/2"}),
        (".355T", {"shaft.tip": "taper", "shaft.tip_size": ".355 in"}),
        (".370P", {"shaft.tip": "parallel", "shaft.tip_size": ".370 in"}),
        ("M60 rib", {"grip.core": "M60", "grip.shape": "ribbed"}),
        ("58 round", {"grip.core": "58", "grip.shape": "round"}),
        ("LD", {"grip.logo": "down"}),
        ("RH", {"ticket.hand": "right"}),
        ("HM 4g toe", {"ticket.note": "hot melt 4g toe"}),
        ('LT 2" heel', {"ticket.note": 'lead tape 2" heel'}),
        ("by Wed 15:00", {"ticket.promised": "Wed 15:00"}),
        ("today", {"ticket.priority": "today"}),
        ("player A. Example", {"ticket.player": "A. Example"}),
        (
            "2w +2 lower",
            {
                "tape.0.name": "build-up",
                "tape.0.layers": "2",
                "tape.1.name": "build-up, lower hand",
                "tape.1.layers": "2",
                "tape.1.covers": "lower",
            },
        ),
        ("D4 1/2 flat", {"target.swing_weight": "D4", "target.lie": "1/2 flat"}),
        ("loft 54 1/2 flat", {"target.loft": "54 deg", "target.lie": "1/2 flat"}),
    ],
)
def test_one_saying(words: str, fields: dict[str, str]) -> None:
    found = read_shorthand(words)
    assert found.fields == fields
    assert found.left == ()


@pytest.mark.parametrize(
    ("words", "part"),
    [
        ("1S", "SS1x"),
        ("SS", "once"),
        ("1W", "1 wrap"),
        ("2w", "wrap"),
        ("+1", "+1 in"),
        ("+1 wrap", "in all"),
        ("D35", "D3.5"),
        ("F1", "1 flat"),
        ("54.10", "54-10"),
        ("SW", "sand wedge"),
        ("45", "45 in"),
        ("M58R", "M58 rib"),
        ("472 g", "total 472 g"),
        ("3h", "3 hybrid"),
        ("std", "std length"),
        ("tipped 1", "unit"),
        ("35.5", "35.5 in"),
        ("35,5", "35 1/2"),
        ("63 1/2", "lie"),
        ("1 deg", "lie 1 deg"),
        ("lie 63 1/2 in over", "commas"),
        ("54, 56", "Say it once"),
        ("60 strong grip", "other words"),
        ("NaN", "other words"),
    ],
)
def test_a_doubt_takes_nothing_and_says_how_to_mend_it(words: str, part: str) -> None:
    found = read_shorthand(words)
    assert not {field for field in found.fields if field.startswith("target")} - {"target.loft"}
    assert any(part in item.mend for item in found.left), found.left


def test_a_grip_that_is_strong_is_no_loft() -> None:
    assert "target.loft" not in read_shorthand("strong grip").fields


def test_what_is_said_twice_is_not_taken_either_way() -> None:
    found = read_shorthand("D4, 35 1/4, D2")
    assert found.fields == {"target.length": "35 1/4"}
    assert [item.words for item in found.left] == ["D4", "D2"]


def test_too_long_a_text_is_left_whole() -> None:
    found = read_shorthand("D4 " * LONGEST)
    assert found.said == ()
    assert len(found.left) == 1


def test_every_field_is_one_of_the_ticket_file() -> None:
    known = {f"{section.name}.{field.key}" for section in SECTIONS for field in section.fields}
    for line in [
        SLIP,
        "54-10, M60 rib, .355T, tip 1/2, 2w +2 lower, RH, tw 472 g, head 296 g, today, by Fri noon",
        "1/64 over, grip .810 at 6 in, 1 wrap lower hand",
    ]:
        fields = read_shorthand(line).fields
        assert {".".join(part for part in field.split(".") if not part.isdigit()) for field in fields} <= known


def test_what_is_understood_is_a_ticket_once_number_hand_and_base_are_given() -> None:
    document: dict[str, dict[str, str]] = {"ticket": {"id": "T-1", "hand": "right"}, "base": {"lie": "64 deg"}}
    for field, value in read_shorthand(SLIP).fields.items():
        section, _, key = field.partition(".")
        if section != "tape":
            document.setdefault(section, {})[key] = value
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings


LINE = """54 35 1/4 1/2 D4 flat up half two wraps logo down +1 1S SS 54.10 54-10 M60 rib LH +2 std strong in " , ; NaN ½
60 deg lie loft tip by Wed 15:00 472 g inch longer 3h w − ± é"""
WORDS = st.sampled_from(LINE.split())


@given(st.one_of(st.text(max_size=60), st.lists(WORDS, max_size=12).map(" ".join)))
def test_it_never_raises_and_every_word_is_on_one_list(text: str) -> None:
    found = read_shorthand(text)
    said = {(item.start, item.end) for item in found.said}
    left = {(item.start, item.end) for item in found.left}
    assert not said & left
    covered = {place for low, high in said | left for place in range(low, high)}
    lost = [sign for place, sign in enumerate(text) if place not in covered and not sign.isspace() and sign not in ",;"]
    assert lost == []
    assert all(text[item.start : item.end] == item.words for item in (*found.said, *found.left))


TAKEN = datetime(2026, 11, 23, 8, 0, tzinfo=UTC)  # a Monday


@pytest.mark.parametrize(
    ("words", "moment"),
    [
        ("Wed 15:00", "2026-11-25T15:00"),
        ("Wednesday 15:00", "2026-11-25T15:00"),
        ("Monday", "2026-11-23T23:59"),
        ("tomorrow 9 am", "2026-11-24T09:00"),
        ("today by 12pm", "2026-11-23T12:00"),
        ("12am", "2026-11-23T00:00"),
        ("Thurs noon", "2026-11-26T12:00"),
        ("2026-12-01 7:30", "2026-12-01T07:30"),
        ("15:30", "2026-11-23T15:30"),
        ("tonight", "2026-11-23T23:59"),
    ],
)
def test_a_promise_is_a_moment(words: str, moment: str) -> None:
    assert promised_moment(words, TAKEN) == datetime.fromisoformat(moment).replace(tzinfo=UTC)


@pytest.mark.parametrize("words", ["", "soon", "the 25th", "25:00", "13pm", "2026-02-30", "Wed Thu", "9", "when cured"])
def test_a_promise_that_cannot_be_read_is_none(words: str) -> None:
    assert promised_moment(words, TAKEN) is None


def test_a_day_of_the_week_is_the_next_one() -> None:
    friday = datetime(2026, 11, 27, 8, 0, tzinfo=UTC)
    assert promised_moment("Mon 9:00", friday) == datetime(2026, 11, 30, 9, 0, tzinfo=UTC)

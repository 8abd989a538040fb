"""What stands in records and forms as one text is read as it was written, whatever a person put into it."""

from __future__ import annotations

import pytest

from clubwright.belief.unknowns import (
    BIAS,
    EVERY_MASS,
    ROUNDING,
    OfAGauge,
    bias_name,
    is_rounding,
    read_of_a_gauge,
    rounding_name,
)
from clubwright.club.part_paths import PartPath, came_path, earlier_path, is_of_a_part, path_of, read_path
from clubwright.journal.action_keys import action_of, end_key, fact_key, is_of_action, is_of_an_end, is_of_form
from clubwright.journal.names import line_name, read_line_name
from clubwright.journal.text_paths import keys_of, text_path
from clubwright.journal.times import day_of, sorted_by, to_the_minute
from clubwright.notation import parse
from clubwright.ticket.order_paths import is_of_table, table_of
from clubwright.web.sent import going_on, line_of_trail, lines, marks


@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("head.mass_kg", PartPath(None, "head", None, "mass_kg")),
        (path_of("tapes", 1, "mass_kg"), PartPath(None, "tapes", 1, "mass_kg")),
        (came_path(path_of("tapes", 0, "mass_kg")), PartPath(None, "came.tapes", 0, "mass_kg")),
        (earlier_path(2, "length_m"), PartPath(2, "", None, "length_m")),
        (earlier_path(0, path_of("weights", 3, "mass_kg")), PartPath(0, "weights", 3, "mass_kg")),
    ],
)
def test_a_part_and_its_number_are_read_from_their_path(path: str, said: PartPath) -> None:
    assert read_path(path) == said
    assert is_of_a_part(path)
    assert not is_of_a_part("swing_weight")


@pytest.mark.parametrize("gauge", ["gram scale", "scale: left", "rounding:", "7.5 in. rule"])
def test_a_gauges_name_may_hold_what_parts_the_name_of_its_unknown(gauge: str) -> None:
    assert read_of_a_gauge(bias_name(gauge, "loft")) == OfAGauge(BIAS, gauge, "loft")
    assert read_of_a_gauge(bias_name(gauge, "grip.mass_kg")) == OfAGauge(BIAS, gauge, EVERY_MASS)
    rounding = rounding_name(gauge, "came.tapes.0.mass_kg")
    assert read_of_a_gauge(rounding) == OfAGauge(ROUNDING, gauge, "came.tapes.0.mass_kg")
    assert is_rounding(rounding)
    assert not is_rounding(bias_name(gauge, "loft"))


def test_a_number_of_a_part_is_no_gauges() -> None:
    assert read_of_a_gauge("head.mass_kg") is None


def test_the_facts_of_an_action_know_it_by_their_keys() -> None:
    keys = [fact_key("k-1", number) for number in (1, 2, 11)]
    assert keys == ["k-1", "k-1#2", "k-1#11"]
    assert {action_of(key) for key in keys} == {"k-1"}
    assert all(is_of_action(key, "k-1") for key in keys)
    assert not is_of_action("k-11", "k-1")
    assert is_of_an_end(end_key("k-1", "van", 7), "k-1")
    assert not is_of_an_end("k-1", "k-1")
    assert is_of_form("k-1-step", "k-1")
    assert not is_of_form("k-1", "")


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("van/7", ("van", 7)),
        ("a/b/12", ("a/b", 12)),
        ("/3", ("", 3)),
        ("T-0110", None),
        ("van/x", None),
        ("van/²", None),
        (f"van/{'9' * 30}", ("van", 0)),
    ],
)
def test_a_line_is_called_by_its_bench_and_number(text: str, place: tuple[str, int] | None) -> None:
    assert read_line_name(text) == place
    assert read_line_name(line_name(("a/b@c", 4))) == ("a/b@c", 4)


@pytest.mark.parametrize("key", ["mass", "a/b", "a~b", "~1", "a/~0/b", ""])
def test_a_key_of_a_fact_may_hold_the_signs_of_its_path(key: str) -> None:
    """As RFC 6901 has it: ``/`` is written ``~1`` and ``~`` is written ``~0`` (its section 5 has the pairs below)."""
    assert keys_of(text_path(text_path("what", key), 3)) == ["what", key, "3"]
    assert [text_path("", "a/b"), text_path("", "m~n")] == ["/a~1b", "/m~0n"]


def test_a_whole_second_sorts_before_its_fractions() -> None:
    times = ["2026-05-04T09:30:01.000001Z", "2026-05-04T09:30:00.5Z", "2026-05-04T09:30:00Z"]
    assert sorted(times, key=sorted_by) == times[::-1]
    assert sorted(times) != times[::-1]
    assert (day_of(times[0]), to_the_minute(times[0])) == ("2026-05-04", "2026-05-04 09:30")


def test_a_gauges_table_is_its_own_whatever_it_is_called() -> None:
    assert table_of("instrument.7.5 in. rule") == ("instrument", "7.5 in. rule")
    assert table_of("grip") == ("grip", "")
    assert is_of_table("weight.port 6.mass", "weight")
    assert not is_of_table("weight", "weight")


def test_a_form_carries_lines_marks_and_names() -> None:
    sent = {"also": [" one \n\ntwo\r\n"], "marks": ["loft:ab lie:cd "], "was:a.b": [""], "a.b": ["x"]}
    assert lines(sent, "also") == ["one", "two"]
    assert marks(sent, "marks") == {"loft": "ab", "lie": "cd"}
    assert going_on(sent, "was:") == ["a.b"]
    assert [line_of_trail(text) for text in ("12", "12@van", "12@")] == [("12", None), ("12", "van"), ("12", "")]


@pytest.mark.parametrize(
    ("typed", "stepped"), [("+1/4 in", True), ("std-1/32", True), ("std", False), ("35 in", False)]
)
def test_what_was_typed_as_a_step_from_a_base_says_so(typed: str, stepped: bool) -> None:
    assert parse("length", typed, base=0.889).stepped is stepped

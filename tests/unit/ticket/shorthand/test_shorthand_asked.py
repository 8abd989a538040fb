"""Words that must not silently become another order: what a clubmaker says, what it gives, and what is asked about.

Meanings are common practice, no source. The law tried below holds for any of them: said side by side without commas they
never say anything that none of them says by itself; each word is used, or named as left over.
"""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clubwright.ticket.read import read_ticket
from clubwright.ticket.shorthand.document import document_of
from clubwright.ticket.shorthand.reader import Shorthand, read_shorthand

D2 = "target.grip_diameter_2in"
D6 = "target.grip_diameter_6in"
WHOLE = {"tape.0.name": "build-up"}
LOWER = {"tape.0.name": "build-up, lower hand", "tape.0.covers": "lower"}

LOB = {"ticket.kind": "wedge", "ticket.label": "lob wedge"}

GIVES: dict[str, dict[str, str]] = {
    "1/64 over": {D2: "+1/64 in"},
    "1/32 under": {D2: "-1/32 in"},
    "3/64 over": {D2: "+3/64 in"},
    ".020 over": {D2: "+.020 in"},
    "1/64 oversize": {D2: "+1/64 in"},
    "1/16 undersize": {D2: "-1/16 in"},
    "grip 1/16 over": {D2: "+1/16 in"},
    "1/8 over grip": {D2: "+1/8 in"},
    "grip +1/32": {D2: "+1/32 in"},
    "std grip": {D2: "std"},
    "grip .900": {D2: ".900 in"},
    "grip size .910 in": {D2: ".910 in"},
    "grip .810 at 6 in": {D6: ".810 in"},
    ".910 in at 2 in": {D2: ".910 in"},
    "core 60": {"grip.core": "60"},
    "60 round grip": {"grip.core": "60", "grip.shape": "round"},
    "1/4 over": {"target.length": "+1/4 in"},
    "1/16 longer": {"target.length": "+1/16 in"},
    "1/32 short": {"target.length": "-1/32 in"},
    "half inch over": {"target.length": "+1/2 in"},
    "7 iron 1/2 over": {"ticket.kind": "iron", "ticket.label": "7 iron", "target.length": "+1/2 in"},
    "7-iron": {"ticket.kind": "iron", "ticket.label": "7 iron"},
    "1 wrap": {**WHOLE, "tape.0.layers": "1"},
    "a wrap": {**WHOLE, "tape.0.layers": "1"},
    "1 wrap lower hand": {**LOWER, "tape.0.layers": "1"},
    "two wraps under the lower hand": {**LOWER, "tape.0.layers": "2"},
    "2 lower hand wraps": {**LOWER, "tape.0.layers": "2"},
    "1 wrap bottom hand": {**LOWER, "tape.0.layers": "1"},
    "2 wraps and 1 lower": {
        **WHOLE,
        "tape.0.layers": "2",
        "tape.1.name": "build-up, lower hand",
        "tape.1.layers": "1",
        "tape.1.covers": "lower",
    },
    "1 wrap, left hand": {**WHOLE, "tape.0.layers": "1", "ticket.hand": "left"},
    "left-handed, 1 wrap lower hand": {**LOWER, "tape.0.layers": "1", "ticket.hand": "left"},
    "2 wraps left-handed": {**WHOLE, "tape.0.layers": "2", "ticket.hand": "left"},
    "left hand player": {"ticket.hand": "left"},
    "left": {"ticket.hand": "left"},
    "right now": {"ticket.priority": "now"},
    "D4 and half flat": {"target.swing_weight": "D4", "target.lie": "1/2 flat"},
    "lie 63 1/2": {"target.lie": "63 1/2 deg"},
    "lob wedge 60-06": {**LOB, "target.loft": "60 deg", "target.bounce": "6 deg"},
    "LW 60": {**LOB, "ticket.label": "LW", "target.loft": "60 deg"},
    "60 LW": {**LOB, "ticket.label": "LW", "target.loft": "60 deg"},
    "9.5 driver": {"target.loft": "9.5 deg", "ticket.kind": "driver", "ticket.label": "9.5 driver"},
    "driver 10.5 deg": {"target.loft": "10.5 deg", "ticket.kind": "driver", "ticket.label": "10.5 driver"},
    "19 deg hybrid": {"target.loft": "19 deg", "ticket.kind": "hybrid", "ticket.label": "19 deg hybrid"},
    "4 hybrid 22": {"target.loft": "22 deg", "ticket.kind": "hybrid", "ticket.label": "4 hybrid"},
    "3 wood 15": {"target.loft": "15 deg", "ticket.kind": "fairway", "ticket.label": "3 wood"},
    "half flat from 64": {"target.lie": "1/2 flat", "base.lie": "64 deg"},
    "2 strong off 46": {"target.loft": "2 strong", "base.loft": "46 deg"},
    "1/2 in over from 35": {"target.length": "+1/2 in", "base.length": "35 in"},
    "1 wrap in the lower hand": {**LOWER, "tape.0.layers": "1"},
    "face square": {"ticket.note": "face square"},
    "over-hosel": {"ticket.note": "over-hosel"},
    "A wedge": {"ticket.kind": "wedge", "ticket.label": "AW"},
    "a wedge": {"ticket.kind": "wedge"},
    "player Robin Ashdown D2": {"ticket.player": "Robin Ashdown", "target.swing_weight": "D2"},
    "player Robin sand wedge": {"ticket.player": "Robin", "ticket.kind": "wedge", "ticket.label": "sand wedge"},
    "player Ольга Вымышленная": {"ticket.player": "Ольга Вымышленная"},
}
"""Sayings with one meaning: every field they give, and nothing left over."""

ASKED: dict[str, tuple[str, str]] = {
    "1/8 over": ("1/8 in longer", "grip +1/8 in"),
    "1/16 under": ("1/16 in shorter", "grip -1/16 in"),
    "1/32 in over": ("1/32 in longer", "grip +1/32 in"),
    "1/64 in over": ("longer", "grip"),
    "+1/64 in": ("longer", "grip"),
    "std-1/32": ("shorter", "grip"),
    "1 mm over": ("longer", "grip"),
    "midsize": ("grip 1/16 over", "grip .960 in"),
    "jumbo grip": ("grip 1/16 over", "grip .960 in"),
    "undersize": ("grip 1/16 over", "grip .960 in"),
    "grip +1/4 in": ("1/4 in longer", "1/4 in longer"),
    "1/4 over grip": ("1/4 in longer", "1/4 in longer"),
    "58 grip": ("M60", "grip .900"),
    "grip .600": ("M60", "grip .900"),
    "1 wrap left hand": ("1 wrap lower hand", "1 wrap, left-handed"),
    "one wrap under the left hand": ("1 wrap lower hand", "1 wrap, left-handed"),
    "1 wrap right hand": ("1 wrap lower hand", "comma"),
    "2 wraps rh": ("lower hand", "comma"),
    "left hand 2 wraps": ("lower hand", "comma"),
    "LH 2 wraps": ("lower hand", "comma"),
    "2w +2 LH": ("lower", "comma"),
    "2 wraps + 1 left hand": ("lower", "comma"),
    "wrap left hand": ("lower", "comma"),
    "1 wrap top hand": ("both hands", "note"),
    "6 1/2 over": ("6 iron, 1/2 over", "whole figure"),
    "2 1/64 over": ("2 iron, 1/64 over", "whole figure"),
    "7 1/2 flat": ("7 iron, 1/2 flat", "whole figure"),
    "35 1/4 over": ("35 1/4 in", "35 in, 1/4 in over"),
    "lie 63 1/2 over": ("lie 63, 1/2 in over", "commas"),
    "lie 63 1/2 grip": ("commas", "core"),
    "4-PW": ("4 iron", "one ticket more"),
    "4i to PW": ("4 iron", "one ticket more"),
    "5-9": ("5 iron", "one ticket more"),
    "3-SW": ("3 iron", "one ticket more"),
    "one more wrap in the lower hand": ("1 wrap lower hand", "2 wraps + 1 lower"),
    "another wrap": ("2 wraps", "2 wraps"),
    "half flat from 35 in": ("whole lie", "whole lie"),
    "1/2 in over from 4": ("whole length", "whole length"),
    "63": ("63 wedge", "lie 63"),
    "63.5 deg": ("loft 63.5 deg", "lie 63.5 deg"),
    "A1": ("sw A1", "sw A1"),
    "an over": ("1 in over", "1 in over"),
    "a over": ("1 in over", "1 in over"),
    "in over": ("other words", "other words"),
    "logo right": ("right hand", "commas"),
    "left shoe": ("left hand", "commas"),
    "was 35 now 36": ("urgent", "commas"),
    "balance point 30 in": ("commas", "other words"),
    "not D2": ("commas", "other words"),
    "core blah 60": ("commas", "other words"),
    "D2 or D3": ("commas", "other words"),
    "2 wraps double sided": ("commas", "other words"),
    "head right hand": ("commas", "other words"),
    "45 lie 63 1/2": ("commas", "other words"),
    "std lie 2": ("std lie", "lie 63 1/2"),
    "player left hand": ("commas", "other words"),
    "player Left Hand": ("comma", "its field"),
    "player robin": ("other words", "its field"),
    "player Robin 2": ("commas", "other words"),
}
"""Sayings that could be two things, or that a word beside them may change: nothing is taken, how to write it is named."""


def mends(found: Shorthand) -> str:
    return " ".join(item.mend for item in found.left)


def every_word_is_on_one_list(found: Shorthand) -> None:
    said = {(item.start, item.end) for item in found.said}
    left = {(item.start, item.end) for item in found.left}
    assert not said & left
    covered = {place for low, high in said | left for place in range(low, high)}
    assert [sign for place, sign in enumerate(found.text) if place not in covered and sign not in " ,;"] == []


def test_what_a_wedge_is_called_gives_way_to_what_it_is_said_to_be() -> None:
    for words in ("LW, 60-06", "60-06, LW", "60-06 LW"):
        found = read_shorthand(words)
        assert found.fields == {**LOB, "ticket.label": "LW", "target.loft": "60 deg", "target.bounce": "6 deg"}, words
        assert found.left == ()


def test_there_are_at_least_sixty_sayings() -> None:
    assert len(GIVES) + len(ASKED) >= 60


@pytest.mark.parametrize("words", GIVES)
def test_what_is_clear_is_taken(words: str) -> None:
    found = read_shorthand(words)
    assert found.fields == GIVES[words]
    assert found.left == ()
    every_word_is_on_one_list(found)


@pytest.mark.parametrize("words", ASKED)
def test_what_could_be_two_things_is_asked(words: str) -> None:
    found = read_shorthand(words)
    assert found.fields == {}, found.said
    assert all(way in mends(found) for way in ASKED[words]), mends(found)
    every_word_is_on_one_list(found)


@pytest.mark.parametrize("words", [words for words in ASKED if "over" in words or "wrap" in words or "under" in words])
def test_the_hand_of_a_wrap_and_the_size_of_a_grip_never_reach_hand_or_length(words: str) -> None:
    fields = read_shorthand(f"54, {words}, D4").fields
    assert "ticket.hand" not in fields and "target.length" not in fields
    assert fields["target.swing_weight"] == "D4"


@pytest.mark.parametrize(
    "words",
    [
        "1 wrap lower hand",
        "1/2 in longer",
        "grip -1/16 in",
        "6 iron, 1/2 over",
        "1 wrap, left-handed",
        "63 wedge",
        "lie 63",
    ],
)
def test_what_a_doubt_says_to_write_is_understood(words: str) -> None:
    assert read_shorthand(words).left == ()


def test_a_grip_size_is_counted_from_a_base_that_the_ticket_names() -> None:
    found = read_shorthand("54, right-handed, 1/64 over")
    assert [(str(item.where), item.severity) for item in found.findings] == [('"1/64 over"', "warning")]
    assert "[base] grip_diameter_2in" in found.findings[0].mend
    document = document_of(found)
    document["ticket"]["id"] = "T-1"
    refused, findings = read_ticket(document)
    assert refused is None
    assert any("[target] grip_diameter_2in" in str(item.where) and "base" in item.what for item in findings)
    document["base"] = {"grip_diameter_2in": "0.900 in"}
    ticket, findings = read_ticket(document)
    assert ticket is not None, findings
    # .900 in and 1/64 in, by hand: 0.915625 in of 25.4 mm
    assert ticket.targets["grip_diameter_2in"].value == pytest.approx(0.915625 * 0.0254, abs=1e-15)


SHORT = """
54|54-10|54 wedge|62 lie|loft 33|10 bounce|mid bounce|35 1/4|35 1/4 to the cap|895 mm long|std length|std lie|std loft
1/2 under|half over|+1/4 in|D4 1/2|sw D2|half flat|2U|1F|1 strong|half weak|two wraps|no wraps|2w + 1 lower|M60|M58 rib
logo down|LD|LH|RH|right-handed|lefty|6i|PW|3 wood|4 hybrid|driver|putter|sand wedge|wedge|HS1|SS1x|HM 4g toe|LT 2 in heel
tip 1/2|tipped 1 in|.355T|.335|taper|steel|graphite shaft|by Wed 15:00|Wed 15:00|tomorrow 9am|today|urgent|this week
owner Robin|reshaft|regrip|loft and lie|tw 472 g|head 296 g|320 cpm|2750 kg cm2|60 rule|axis to ground
"""
COMPLETE = (*GIVES, *SHORT.strip().replace("\n", "|").split("|"))
SAYINGS = (
    *COMPLETE,
    *ASKED,
    "1S",
    "2w",
    "+1",
    "54.10",
    "472 g",
    "std",
    "blah",
    "grip",
    "hand",
    "flat",
    "one",
    "not",
    "and",
)


def completes(first: str, second: str) -> bool:
    """True when the second makes plain what the first left open: ``1/16 over grip``, ``58 grip 1/64 over``."""
    amount = first.endswith(("over", "under", "size", "+1/64 in")) and second.startswith("grip")
    grip = first.endswith("grip") and second[0] in "0123456789.+"
    return amount or grip or (first[-1].isdigit() and second == "in over") or first in ("player Robin 2", "std lie 2")


def contents(found: Shorthand) -> set[object]:
    """What is said, lines of tape as wholes, notes one by one."""
    lines: dict[str, list[tuple[str, str]]] = {}
    rest: set[object] = set()
    for item in found.said:
        line, _, key = item.field.rpartition(".")
        if item.field.startswith("tape."):
            lines.setdefault(line, []).append((key, item.value))
        elif item.field:
            rest.add((item.field, item.value))
    return rest | {tuple(sorted(set(line))) for line in lines.values()}


ALONE = {words: contents(read_shorthand(words)) for words in SAYINGS}


def nothing_new(sayings: tuple[str, ...]) -> None:
    found = read_shorthand(" ".join(sayings))
    assert contents(found) <= set().union(*(ALONE[words] for words in sayings)), sayings
    every_word_is_on_one_list(found)


@given(st.lists(st.sampled_from(COMPLETE), min_size=2, max_size=4).map(tuple))
def test_sayings_without_commas_never_say_what_none_of_them_says(sayings: tuple[str, ...]) -> None:
    nothing_new(sayings)


@pytest.mark.parametrize("asked", sorted({*ASKED, "1S", "2w", "54.10", "blah", "not"}))
def test_nor_does_one_that_is_asked_beside_any_that_is_clear(asked: str) -> None:
    for clear in COMPLETE[:: max(1, len(COMPLETE) // 25)]:
        for sayings in ((asked, clear), (clear, asked)):
            if not completes(*sayings):
                nothing_new(sayings)


def test_with_commas_each_says_what_it_says_alone() -> None:
    for one, other in itertools.pairwise(COMPLETE):
        fields = {field for content in (ALONE[one], ALONE[other]) for field, *_ in content if isinstance(field, str)}
        found = read_shorthand(f"{one}, {other}")
        clash = any("said twice" in item.what for item in found.left)
        assert clash or contents(found) == ALONE[one] | ALONE[other], (one, other, fields)

"""What the club would read if something were otherwise: against statics by hand, and against a ticket that says so."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from cli_runs import clubwright
from clubwright.errors import InputError
from clubwright.importers.ticket_file import dump_ticket
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.what_if import finished_if
from clubwright.services.shaft.what_if import WhatIf, Wish, what_if
from clubwright.ticket.read import read_ticket
from clubwright.units import INCH_M
from shaftwork import DRY, dry_hz, iron, shaft_of, without_stiffness

KEYS = ("frequency", "swing_weight", "total_weight", "length", "moi")
HEAD, LENGTH = "head.mass_kg", "shaft.length_m"


def club_state(document: dict[str, Any]) -> ClubState:
    ticket, findings = read_ticket(document, "ticket")
    assert ticket is not None, findings
    return club_state_of(ticket)


def cut() -> dict[str, Any]:
    document = iron()
    document["shaft"]["cut_length"] = "35.755 in"
    return document


def thought(document: dict[str, Any], wish: Wish) -> WhatIf:
    return what_if(read_ticket(document, "iron.toml"), wish)


def test_four_grams_of_head_are_what_statics_by_hand_say() -> None:
    """The moment about 14 in and about the butt of 4 g at the head's centre; 1.75 oz in a point (the scale's definition)."""
    here = club_state(iron())
    before = finished_if(here, {}, KEYS)
    after = finished_if(here, {HEAD: float(here.club.head.mass_kg) + 0.004}, KEYS)
    moved = {key: after[key][0] - before[key][0] for key in KEYS}
    place_in = 37 + 0.003 / INCH_M  # its centre lies 3 mm beyond the ground point, 37 in from the cap
    assert moved["total_weight"] == pytest.approx(0.004, abs=1e-12)
    assert moved["swing_weight"] == pytest.approx(4 * (place_in - 14) / (1.75 * 28.349523125), rel=1e-3)
    off_m = 0.037
    assert moved["moi"] == pytest.approx(0.004 * ((place_in * INCH_M) ** 2 + off_m**2), rel=2e-3)
    assert moved["length"] == 0
    assert -4 / 60 < moved["frequency"] < -1 / 60, "a heavier head swings slower"


@pytest.mark.parametrize(
    ("changes", "numbers"),
    [
        ({"head": {"mass": "262 g"}}, {HEAD: 0.262}),
        ({"shaft": {"cut_length": "35.5 in"}}, {LENGTH: 35.5 * INCH_M}),
        ({"head": {"mass": "262 g"}, "shaft": {"cut_length": "35.5 in"}}, {HEAD: 0.262, LENGTH: 35.5 * INCH_M}),
    ],
)
def test_it_reads_what_a_ticket_with_that_figure_would(
    changes: dict[str, dict[str, str]], numbers: dict[str, float]
) -> None:
    other = cut()
    for table, content in changes.items():
        other[table] |= content
    there = finished_if(club_state(other), {}, KEYS)
    for key, (mean, sd) in finished_if(club_state(cut()), numbers, KEYS).items():
        assert mean == pytest.approx(there[key][0], rel=1e-9), key
        assert sd == pytest.approx(there[key][1], rel=1e-4), key


def test_what_was_read_of_the_rest_still_counts() -> None:
    document = cut()
    document["reading"] = [
        {"quantity": "frequency", "value": f"{60 * 1.01 * dry_hz(cut()):.2f} cpm", "stage": DRY, "weights": []}
    ]
    here, bare = club_state(document), club_state(cut())
    told = finished_if(here, {HEAD: 0.262}, KEYS)["frequency"]
    guessed = finished_if(bare, {HEAD: 0.262}, KEYS)["frequency"]
    assert told[0] == pytest.approx(1.01 * guessed[0], rel=1e-3), "the stiffness that the reading taught"
    assert told[1] < guessed[1] / 3


def test_butt_head_and_shaft_are_told_together() -> None:
    other = iron()["shaft"] | {"name": "Alder 100", "mass": "101.5 g", "cut_length": "36 in"}
    found = thought(cut(), Wish(butt="1/4 in", head="262 g", shaft=shaft_of(other, "Alder 100")))
    assert found.said == "with the shaft Alder 100, 1/4 in (0.250 in, 6.35 mm) off the butt, a head of 262.0 g"
    rows = {move.name: move for move in found.moves}
    assert rows["length"].after.startswith("36 3/4 in")
    assert rows["total weight"].by.startswith("-3")
    assert not found.without_readings
    # another shaft is cut to the order, never taken as the length that its own club has
    whole = thought(cut(), Wish(shaft=shaft_of(other, "Alder 100")))
    assert {move.name: move.by for move in whole.moves}["length"] == "none"


def test_the_gauge_that_measured_the_other_shaft_comes_with_it() -> None:
    """Its doubt is that gauge's: a scale that shows whole tens of grams leaves 10 g / sqrt(12), by a rectangle."""
    scale = {"coarse scale": {"resolution": "10 g"}}
    table = {**iron()["shaft"], "gauges": {"mass": "coarse scale"}}
    spread = {}
    for name, other in (("its own", shaft_of(table, "of T-9", scale)), ("plain", shaft_of(iron()["shaft"], "of T-9"))):
        found = thought(cut(), Wish(shaft=other))
        (text,) = [move.after for move in found.moves if move.name == "total weight"]
        spread[name] = float(text.split("± ")[1].split(" ")[0])
    assert spread["its own"] == pytest.approx(10 / 12**0.5, abs=0.3)
    assert spread["plain"] < 1
    with pytest.raises(InputError, match='no gauge is called "coarse scale"'):
        thought(cut(), Wish(shaft=shaft_of(table, "of T-9")))


def test_all_that_is_wrong_is_told_at_once() -> None:
    broken = cut()
    broken["head"]["mass"] = "heavy"
    with pytest.raises(InputError) as refused:
        thought(broken, Wish(butt="0 in", shaft=shaft_of({"mass": "light"}, "of T-9")))
    places = [str(finding.where) for finding in refused.value.findings]
    assert places == ["off the butt", "iron.toml [head] mass", "other.toml [shaft] mass"]


def test_without_a_stiffness_the_rest_is_told() -> None:
    found = thought(without_stiffness(), Wish(head="262 g"))
    assert [move.name for move in found.moves] == [
        "swing weight",
        "total weight",
        "length",
        "moment of inertia about the butt",
    ]


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        (Wish(butt="35,5", head="2"), ["off the butt: '35,5' has a comma", "head mass: '2' has no unit"]),
        (Wish(butt="nan in"), ["off the butt"]),
        (Wish(butt="0 in"), ["comes off nothing"]),
        (Wish(butt="-1/4 in"), ["off the butt"]),
        (Wish(head="-262 g"), ["head mass"]),
        (Wish(butt="30 in"), ["leaves 5.755 in of shaft"]),
        (Wish(butt="40 in"), ["leaves 0 in of shaft"]),
        (Wish(butt="24 in"), ["the clamp leaves"]),
        (Wish(shaft=shaft_of({}, "of T-9")), ["the shaft of T-9: that ticket has no [shaft]"]),
        (
            Wish(shaft=shaft_of({**iron()["shaft"], "raw_length": "34 in", "tip_trim": "0 in"}, "of T-9")),
            ["it is 34 in long"],
        ),
        (
            Wish(shaft=shaft_of({**iron()["shaft"], "cut_length": "30 in"}, "of T-9")),
            ["it is 30 in long", "needs 35.755 in"],
        ),
        (Wish(shaft=shaft_of({"mass": "heavy"}, "of T-9")), ["other.toml [shaft] mass: "]),
    ],
)
def test_what_cannot_be_is_refused(wish: Wish, said: list[str]) -> None:
    with pytest.raises(InputError) as refused:
        thought(cut(), wish)
    text = str(refused.value)
    assert [part for part in said if part not in text] == [], text


def test_the_command_tells_it(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "iron.toml"
    path.write_text(dump_ticket(cut()), encoding="utf-8")
    ran = clubwright(capsys, "what-if", str(path), "--head", "262 g")
    assert (ran.code, ran.err) == (0, "")
    assert "a head of 262.0 g:" in ran.out
    assert f"{-(268.3 - 262):+.1f} g" in ran.out
    body = clubwright(capsys, "what-if", str(path), "--shaft", str(path), "--json").body()
    assert {move["by"] for move in body["moves"]} <= {"none", "+0.0 pt"}, "its own shaft moves nothing"
    assert clubwright(capsys, "what-if", str(path), "--head", "262").code == 2


def test_what_a_person_has_to_look_at_is_said() -> None:
    other = {**iron()["shaft"], "tip": "taper", "tip_diameter": "0.355 in"}
    del other["stiffness"]
    found = thought(cut(), Wish(shaft=shaft_of(other, "of T-9")))
    assert ["fits the bore" in note for note in found.notes] == [True, False]
    assert "of the frequency nothing can be told" in found.notes[1]
    assert thought(cut(), Wish(shaft=shaft_of(iron()["shaft"], "of T-9"))).notes == ()
    assert thought(cut(), Wish(head="262 g")).notes == ()


def test_what_is_wrong_with_the_club_itself_is_told_once() -> None:
    broken = cut()
    broken["head"]["mass"] = "heavy"
    with pytest.raises(InputError) as refused:
        thought(broken, Wish(shaft=shaft_of(iron()["shaft"], "of T-9")))
    assert str(refused.value).count("[head] mass") == 1

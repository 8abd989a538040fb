"""The curves on the page of the shaft: the stiffness with its cuts, the set's line, and what a trim moves."""

from __future__ import annotations

import re
from math import pi
from typing import Any
from xml.etree import ElementTree as ET

import msgspec
import numpy as np
import pytest

from benchwork import START
from clubwright.club.beam.stiffness import from_table
from clubwright.journal.job import TrailLine
from clubwright.journal.reducers.fold import Job
from clubwright.labels.pictures.set_line import draw_set
from clubwright.labels.pictures.shaft import draw_stiffness
from clubwright.planning.advice.trim_planner import trim_plan_of
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.set_slope import ALIKE_HZ
from clubwright.services.actions import bench
from clubwright.services.record.session import Session, utc_text
from clubwright.services.shaft.curves import curve_points, shaft_curve, tick_step
from clubwright.services.shaft.set_frequencies import SetFrequencies, point_of, same_player, set_frequencies
from clubwright.services.shaft.trim_moves import moves
from clubwright.ticket.read import read_ticket
from clubwright.units import CPM_HZ, INCH_M
from shaftwork import iron, irons, without_stiffness


def club_state(document: dict[str, Any]) -> ClubState:
    ticket, findings = read_ticket(document, "ticket")
    assert ticket is not None, findings
    return club_state_of(ticket)


def job(document: dict[str, Any]) -> Job:
    line = TrailLine(
        sequence=1, site="van", at=utc_text(START), by="Ann", kind="ticket taken", text="ticket", undone=False
    )
    return Job(id=document["ticket"]["id"], source="ticket", document=document, trail=(line,))


def the_set(document: dict[str, Any], *others: dict[str, Any]) -> SetFrequencies:
    return set_frequencies(club_state(document), job(document), [job(other) for other in others])


def numbers(picture: str, name: str, *keys: str) -> list[tuple[float, ...]]:
    """Return the numbers of every element of a class."""
    found = ET.fromstring(picture).iter()
    return [tuple(float(item.attrib[key]) for key in keys) for item in found if item.get("class") == name]


def test_the_curve_is_that_of_the_tube_by_hand() -> None:
    curve = shaft_curve(club_state(iron()))
    outside, inside = 0.370 * INCH_M, (0.370 - 2 * 0.020) * INCH_M
    assert curve.points[0] == (0.0, pytest.approx(205e9 * pi / 64 * (outside**4 - inside**4), rel=1e-9))
    # the wall of the plain butt is that of the butt
    outside, inside = 0.600 * INCH_M, (0.600 - 2 * 0.016) * INCH_M
    assert curve.points[-1] == (pytest.approx(41 * INCH_M), pytest.approx(205e9 * pi / 64 * (outside**4 - inside**4)))
    assert all(low[0] <= high[0] for low, high in zip(curve.points, curve.points[1:], strict=False))


def test_cuts_bore_and_clamp_lie_where_the_ticket_puts_them() -> None:
    here = club_state(iron())
    curve = shaft_curve(here)
    assert curve.tip_cut_m == pytest.approx(2.5 * INCH_M)
    # 37 in of club, 1.12 in of head below the tip, 1/8 in of cap above the butt
    assert curve.butt_cut_m == pytest.approx((2.5 + 37 - 1.12 - 0.125) * INCH_M)
    assert curve.insertion_end_m == pytest.approx((2.5 + 1.30) * INCH_M)
    # the clamp holds 5 in from the face of the cap
    assert curve.clamp_m == pytest.approx((2.5 + 37 - 1.12 - 5) * INCH_M)
    assert not curve.done
    assert curve.was_m is None
    option = trim_plan_of(here).options[-1]
    looked_at = shaft_curve(here, option)
    assert looked_at.tip_cut_m == pytest.approx(3.5 * INCH_M)
    assert looked_at.butt_cut_m - curve.butt_cut_m == pytest.approx(1.0 * INCH_M), "the length stays"
    assert looked_at.was_m == (pytest.approx(curve.tip_cut_m), pytest.approx(curve.butt_cut_m))
    assert looked_at.raw_m - looked_at.butt_cut_m == pytest.approx(option.butt_cut_m)


def test_a_reading_moves_the_curve_by_the_believed_factor() -> None:
    document = iron()
    document["reading"] = [{"quantity": "frequency", "value": "340 cpm", "stage": "dry, no grip", "weights": []}]
    before, after = shaft_curve(club_state(iron())), shaft_curve(club_state(document))
    assert after.factor[0] > 1.005
    assert after.factor[1] < before.factor[1] == pytest.approx(0.02)
    assert after.points[0][1] / before.points[0][1] == pytest.approx(after.factor[0])
    assert after.done, "a club that was read with its head has its length"


def test_points_end_at_the_butt_and_a_step_gives_its_place_twice() -> None:
    profile = from_table([0.0, 0.4, 0.4, 1.2], [20.0, 20.0, 40.0, 80.0])
    points = curve_points(profile, 1.0, 1.1)
    assert points == (
        (0.0, pytest.approx(22.0)),
        (0.4, pytest.approx(22.0)),
        (0.4, pytest.approx(44.0)),
        (1.0, pytest.approx(77.0)),
    )


def test_a_curve_is_read_between_its_corners() -> None:
    curve = msgspec.structs.replace(
        shaft_curve(club_state(iron())), points=((0.0, 20.0), (0.5, 20.0), (0.5, 30.0), (1.0, 50.0))
    )
    assert [curve.ei_n_m2(place) for place in (0.0, 0.25, 0.5, 0.75, 1.0)] == [20, 20, 30, 40, 50]
    assert curve.top_n_m2 == 50.0


@pytest.mark.parametrize(("span", "step"), [(107.0, 50.0), (100.0, 20.0), (8.0, 2.0), (2.0, 0.5), (24.9, 5.0)])
def test_ticks_stand_at_round_values(span: float, step: float) -> None:
    assert tick_step(span) == pytest.approx(step)


@pytest.mark.parametrize("width_mm", [240.0, 144.0])
def test_the_picture_is_to_scale_on_its_rule_and_hatches_the_waste_only(width_mm: float) -> None:
    here = club_state(iron())
    option = next(one for one in trim_plan_of(here).options if abs(one.tip_trim_m / INCH_M - 3) < 1e-6)
    curve = shaft_curve(here, option)
    picture = draw_stiffness(curve, width_mm=width_mm)
    ((zero, width),) = numbers(picture, "rule", "x", "width")
    mm_per_inch = width / 41  # the raw shaft is 41 in, so the rule is
    cuts = sorted(x for (x,) in numbers(picture, "cut-mark", "x1"))
    tip, butt = zero + 3.0 * mm_per_inch, zero + curve.butt_cut_m / INCH_M * mm_per_inch
    assert cuts == [pytest.approx(tip, abs=0.01), pytest.approx(butt, abs=0.01)]
    hatches = [item.attrib["d"] for item in ET.fromstring(picture).iter() if item.get("class") == "hatch waste"]
    assert len(hatches) == 2
    places = [float(x) for d in hatches for x in re.findall(r"M([\d.]+),", d)]
    assert all(zero < x < tip or butt < x < zero + width for x in places)
    assert len(places) > 8
    ((bore, bore_width), (jaw, jaw_width)) = (
        numbers(picture, "bore", "x", "width")[:1] + numbers(picture, "jaw", "x", "width")[:1]
    )
    assert (bore, bore_width / mm_per_inch) == (pytest.approx(tip, abs=0.01), pytest.approx(1.30, abs=0.01))
    assert (jaw + jaw_width, jaw_width / mm_per_inch) == (pytest.approx(butt, abs=0.01), pytest.approx(4.875, abs=0.01))


def test_a_shaft_that_is_cut_has_no_waste_left_to_hatch() -> None:
    document = iron()
    document["shaft"]["cut_length"] = "35.755 in"
    picture = draw_stiffness(shaft_curve(club_state(document)))
    assert "hatch" not in picture
    assert "tip cut off 2.50 in" in picture


def test_the_line_is_that_of_a_general_library_and_leaves_this_club_out() -> None:
    this, *others = irons()
    found = the_set(this, *others)
    assert found.line is not None
    assert not found.through_this
    doubt = [1 / np.hypot(p.sd_hz or 0.0, ALIKE_HZ) for p in found.others]
    slope, start = np.polyfit([p.length_m for p in found.others], [p.frequency_hz for p in found.others], 1, w=doubt)
    assert found.line.slope_hz_m == pytest.approx(slope, rel=1e-9)
    assert found.club is not None
    assert found.off_line_hz(found.club) == pytest.approx(
        found.club.frequency_hz - (start + slope * found.club.length_m), abs=1e-9
    )
    assert [p.job for p in found.others] == ["X-1009", "X-1007", "X-1006"], "shortest first"


def test_clubs_without_a_frequency_are_no_set() -> None:
    broken = iron("X-2002")
    broken["head"]["mass"] = "heavy"
    found = the_set(iron(), broken, without_stiffness())
    assert (found.others, found.line) == ((), None)
    assert found.club is not None


def test_the_set_is_of_one_player_as_the_record_has_them_now(session: Session) -> None:
    for number, player in (("X-1", "Pat Field"), ("X-2", " pat field "), ("X-3", "Somebody Else"), ("X-4", None)):
        document = iron(number)
        document["ticket"].pop("player")
        document["ticket"] |= {} if player is None else {"player": player}
        bench.take_ticket(session, document, "test")
    assert [other.id for other in same_player(session, session.job("X-1"))] == ["X-2"]
    assert same_player(session, session.job("X-4")) == [], "a ticket without a player has no set"
    bench.change_part(session, "X-3", "ticket", {"player": "Pat Field"})
    away = bench.change_part(session, "X-2", "ticket", {"player": "Somebody Else"})
    assert [other.id for other in same_player(session, session.job("X-1"))] == ["X-3"]
    bench.undo(session, "X-2", away.sequence)
    bench.undo(session, "X-3")
    bench.undo(session, "X-3", 3)
    assert [other.id for other in same_player(session, session.job("X-1"))] == ["X-2"], "a ticket taken back is no club"


def test_two_clubs_make_a_slope_that_says_nothing_of_this_one() -> None:
    this, other, *_ = irons()
    found = the_set(this, other)
    assert found.through_this
    assert found.club is not None
    assert found.line is not None
    assert found.line.at_hz(found.club.length_m) == pytest.approx(found.club.frequency_hz)
    assert found.off_line_hz(found.club) is None


def test_a_finished_reading_stands_in_where_no_stiffness_is_known() -> None:
    document = without_stiffness()
    assert point_of(club_state(document), document["ticket"]["id"]) is None
    dry = {"quantity": "frequency", "value": "331 cpm ± 1 cpm", "stage": "dry, no grip", "weights": []}
    document["reading"] = [dry]
    assert point_of(club_state(document), document["ticket"]["id"]) is None, "dry is not finished"
    document["reading"] = [dry, dry | {"value": "326 cpm ± 1 cpm", "stage": "finished"}]
    point = point_of(club_state(document), document["ticket"]["id"])
    assert point is not None
    assert (point.known, point.frequency_hz / CPM_HZ) == ("read", pytest.approx(326))
    assert point.sd_hz == pytest.approx(1 * CPM_HZ)


def test_this_club_is_drawn_with_its_uncertainty_at_the_scale_of_the_figures() -> None:
    this, *others = irons()
    found = the_set(this, *others)
    assert found.club is not None
    assert found.club.sd_hz is not None
    picture = draw_set(found)
    tree = ET.fromstring(picture)
    ticks = [
        (float(item.text or ""), float(item.attrib["y"]))
        for item in tree.iter()
        if item.get("class") == "figure" and item.get("text-anchor") == "end"
    ]
    (low, low_y), (high, high_y) = ticks[0], ticks[-1]
    mm_per_cpm = (low_y - high_y) / (high - low)
    ((y,),) = numbers(picture, "this-club", "cy")
    assert low + (low_y - 0.9 - y) / mm_per_cpm == pytest.approx(found.club.frequency_hz / CPM_HZ, abs=0.01)
    bars = [
        abs(float(item.attrib["y1"]) - float(item.attrib["y2"]))
        for item in tree.iter()
        if item.get("class") == "spread" and item.get("stroke") == "#0b57a4"
    ]
    assert max(bars) / mm_per_cpm == pytest.approx(2 * found.club.sd_hz / CPM_HZ, abs=0.02)
    assert len(numbers(picture, "ring", "cx")) == 3


def test_a_trim_moves_the_frequency_and_not_the_length() -> None:
    plan = trim_plan_of(club_state(iron()))
    rows = {move.name: move for move in moves(plan.as_ticket.finished, plan.options[-1].finished)}
    before, after = (plan.options[place].finished["frequency"][0] / CPM_HZ for place in (0, -1))
    assert after > before + 4
    assert rows["frequency"].by == f"{after - before:+.1f} cpm"
    assert rows["frequency"].after.startswith(f"{after:.1f} cpm ±")
    assert rows["length"].by == "none"

"""A cut, a trim or a bend makes void what it moves, and nothing else: by the slope of each quantity at its stage.

The slopes are differences here, on another club than the one the record asks: the steel club of the outside checks.
"""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from clubwright.club.build import Build
from clubwright.club.head_cg import head_after_lie_bend
from clubwright.club.parts import Shaft, Weight
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.journal.facts import HeadBent, ReadingTaken, ShaftCut, ShaftTrimmed, TicketTaken, What
from clubwright.journal.fold import fold
from clubwright.units import DEGREE_RAD
from journal_facts import DOCUMENT, TICKET, chained
from worked_shafts import steel_club

J = TICKET.job
CASES = [(key, stage) for key in QUANTITIES for stage in STAGES]
CUT, BUTT = ShaftCut(job=J, cut_length="34 in"), ShaftTrimmed(job=J, end="butt", amount="1/2 in")
TIP, BEND = ShaftTrimmed(job=J, end="tip", amount="1/2 in"), HeadBent(job=J, lie="63 deg")


def left(quantity: str, stage: str, work: What, method: str = "axis to ground") -> bool:
    """Whether a reading taken before some work is still in the document after it; it is never lost either way."""
    document = {**DOCUMENT, "target": {**DOCUMENT.get("target", {}), "length_method": method}}
    ticket = TicketTaken(job=J, document=document, source="invented")
    taken = ReadingTaken(job=J, quantity=quantity, value="1", stage=stage, weights=[])
    job = fold(chained([ticket, taken, work])).job(J)
    rows = job.document["reading"]
    assert len(rows) + len(job.superseded) == 1
    return bool(rows)


def build(stage: str, method: str = "axis to ground", **shaft: Any) -> Build:
    base = steel_club()
    club = base.club
    grip = msgspec.structs.replace(club.grip, core_m=15.0e-3, nominal_2in_m=22.9e-3, nominal_6in_m=20.3e-3)
    steel = msgspec.structs.replace(
        club.shaft, butt_diameter_m=15.2e-3, lower_diameter_m=14.6e-3, butt_density_kg_m=0.08, raw_length_m=1.0, **shaft
    )
    head = msgspec.structs.replace(club.head, loft_rad=0.5, lie_rad=1.08, bounce_rad=0.1)
    weight = Weight(name="port", mass_kg=4e-3, seat="port", place_m=0.01)
    club = msgspec.structs.replace(club, head=head, shaft=steel, grip=grip, weights=(weight,))
    conventions = msgspec.structs.replace(base.conventions, length_method=method)
    return Build(club=club, stage=STAGES[stage], fitted=(1.0,), conventions=conventions)


def moves(key: str, low: Build, high: Build) -> bool:
    """Whether a quantity differs between two builds, beyond round-off."""
    one, other = (float(QUANTITIES[key].of(each)) for each in (low, high))
    return abs(one - other) > 1e-9 * max(abs(one), abs(other))


def steel() -> Shaft:
    return steel_club().club.shaft


@pytest.mark.parametrize(("key", "stage"), CASES)
@pytest.mark.parametrize("work", [CUT, BUTT], ids=["cut", "butt"])
def test_a_cut_makes_void_what_depends_on_the_length(key: str, stage: str, work: What) -> None:
    length = steel().length_m
    moved = moves(key, build(stage, length_m=length - 2e-3), build(stage))
    assert left(key, stage, work) is not moved


@pytest.mark.parametrize(("key", "stage"), CASES)
def test_a_tip_trim_makes_void_what_it_moves(key: str, stage: str) -> None:
    shaft = steel()
    trimmed = build(stage, length_m=shaft.length_m - 2e-3, tip_trim_m=shaft.tip_trim_m + 2e-3)
    assert left(key, stage, TIP) is not moves(key, trimmed, build(stage))


@pytest.mark.parametrize("method", ["axis to ground", "60 degree plane"])
@pytest.mark.parametrize("key", list(QUANTITIES))
def test_a_lie_bend_makes_void_what_it_moves_of_the_finished_club(key: str, method: str) -> None:
    before = build("finished", method)
    head = head_after_lie_bend(before.club.head, 0.5 * DEGREE_RAD)
    after = msgspec.structs.replace(before, club=msgspec.structs.replace(before.club, head=head))
    assert left(key, "finished", BEND, method) is not moves(key, before, after)


@pytest.mark.parametrize("key", ["swing_weight_12in", "pendulum_period", "moi_cg"])
def test_three_that_a_list_forgot(key: str) -> None:
    assert not left(key, "finished", CUT)
    assert not left(key, "finished", BEND)
    assert not left(key, "dry, gripped", CUT)


@pytest.mark.parametrize("key", ["grip_diameter_2in", "grip_diameter_6in", "loft", "lie", "bounce"])
def test_what_the_length_does_not_move_stays(key: str) -> None:
    for stage in STAGES:
        assert left(key, stage, CUT)


def test_a_bend_asks_which_angles_were_measured() -> None:
    loft = HeadBent(job=J, loft="53 deg")
    assert left("lie", "finished", loft)
    for stage in ("dry, gripped", "finished"):
        assert not left("loft", stage, loft)
        assert not left("head.loft", stage, loft)
        assert left("head.lie", stage, loft)
        assert not left("head.lie", stage, BEND)


def test_a_length_on_the_plane_hangs_on_the_lie_at_every_stage() -> None:
    assert not left("length", "dry, gripped", BEND, "60 degree plane")
    assert left("length", "dry, gripped", BEND, "axis to ground")
    assert left("length", "bare shaft", BEND, "60 degree plane")


@pytest.mark.parametrize(
    ("number", "work", "stays"),
    [
        ("shaft.cut_length", CUT, False),
        ("shaft.cut_length", TIP, False),
        ("shaft.tip_trim", TIP, False),
        ("shaft.tip_trim", CUT, True),
        ("shaft.mass", CUT, True),
        ("shaft.raw_length", CUT, True),
        ("head.mass", CUT, True),
        ("grip.mass", TIP, True),
        ("head.mass", BEND, True),
        ("no.such", CUT, True),
        ("nothing", BEND, True),
    ],
)
def test_a_part_s_own_number_is_void_where_the_work_changes_it(number: str, work: What, stays: bool) -> None:
    assert left(number, "finished", work) is stays

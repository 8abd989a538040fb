"""Measured again, at every place where a figure is taken: the tray, tape, tip and bore, the cut shaft; both count."""

from __future__ import annotations

import math

import pytest

from benchwork import JOB, Clock, document, run_to, session_on, worked
from clubwright.errors import InputError
from clubwright.journal.facts import ShaftCut, TapeLaid
from clubwright.planning.joint.fit import fit_of
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.services.report.reading_states import reading_states
from clubwright.ticket.exporting import document_of_ticket
from clubwright.ticket.read import read_ticket
from clubwright.units import INCH_M

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]
GRAM = 1e-3


def measured(session: Session) -> list[tuple[str, str, str]]:
    rows = session.job(JOB).document.get("reading", [])
    return [(row["quantity"], row["value"], row["instrument"]) for row in rows if "." in row["quantity"]]


def believed(session: Session, path: str) -> tuple[float, float]:
    belief = worked(session).club_state.belief
    return belief.mean_of(path), belief.sd_of(path)


def by(session: Session, first: int) -> list[tuple[str, str]]:
    return [(line.by, line.text) for line in session.job(JOB).trail[first:]]


@pytest.fixture
def taken(session: Session) -> Session:
    bench.take_ticket(session, document(), "wedge-54.toml")
    return session


def test_a_weight_of_the_tray_weighed_again_adds(taken: Session, clock: Clock) -> None:
    names = [row.name for row in worked(taken).club_state.ticket.weights]
    place, path = 1, "weights.1.mass_kg"
    name = names[place]
    start = len(taken.job(JOB).trail)
    bench.change_part(taken, JOB, "weight", {"name": name, "mass": "6.0 g"})
    _, once = believed(taken, path)
    bench.change_part(session_on(taken.ledger, clock, by="Ben"), JOB, "weight", {"name": name, "mass": "6.2 g"})
    assert measured(taken) == [(f"weight.{name}.mass", "6.2 g", "gram scale")]
    assert by(taken, start) == [
        ("Ann", f"weight: name {name}, mass 6.0 g"),
        ("Ben", f"weight: name {name}, mass 6.2 g"),
    ]
    mean, twice = believed(taken, path)
    assert mean == pytest.approx(6.1 * GRAM, abs=1e-9)
    assert worked(taken).club_state.ticket.gauges["gram scale"].bias < twice < once
    again, findings = read_ticket(document_of_ticket(worked(taken).club_state.ticket), "again")
    assert again is not None, findings
    assert [reading.quantity for reading in again.readings] == [f"weight.{name}.mass"]


def test_two_weighings_of_a_weight_that_clash_are_named_and_one_is_left_out(taken: Session) -> None:
    name = worked(taken).club_state.ticket.weights[0].name
    bench.change_part(taken, JOB, "weight", {"name": name, "mass": "6.0 g"})
    second = bench.change_part(taken, JOB, "weight", {"name": name, "mass": "9.0 g"})
    (state,) = reading_states(worked(taken)).values()
    assert state.state == "aside"
    (found,) = [item.what for item in worked(taken).findings if "kept aside" in item.what]
    assert "mass is 6.0 g by the gram scale" in found
    bench.decide_reading(taken, JOB, second.sequence, keep=False, reason="it was another one")
    (state,) = reading_states(worked(taken)).values()
    assert state.state == "left out"


def test_a_weight_that_the_order_says_is_another_one_is_not_what_was_weighed(taken: Session) -> None:
    name = worked(taken).club_state.ticket.weights[0].name
    for mass in ("6.0 g", "6.1 g"):
        bench.change_part(taken, JOB, "weight", {"name": name, "mass": mass})
    bench.change_order(taken, JOB, {f"weight.{name}.mass": "8.0 g"}, said_by="Ann", reason="out of another box")
    assert measured(taken) == []
    assert believed(taken, "weights.0.mass_kg")[0] == pytest.approx(8.0 * GRAM, abs=1e-9)


def test_tape_weighed_again_adds_and_another_number_of_layers_does_not(taken: Session) -> None:
    row = worked(taken).club_state.ticket.tapes[0]
    name, layers, path = row.name or "", "1" if row.layers is None else row.layers.typed, "tapes.0.mass_kg"
    bench.lay_tape(taken, JOB, name, layers, "1.5 g")
    _, once = believed(taken, path)
    bench.lay_tape(taken, JOB, name, layers, "1.7 g")
    assert measured(taken) == [(f"tape.{name}.mass", "1.7 g", "gram scale")]
    mean, twice = believed(taken, path)
    assert mean == pytest.approx(1.6 * GRAM, abs=1e-9)
    assert twice < once
    bench.lay_tape(taken, JOB, name, "3", "4.5 g")
    assert believed(taken, path)[0] == pytest.approx(4.5 * GRAM, abs=1e-9)
    assert not worked(taken).club_state.learned.set_aside, "what was weighed of the tape before is of that tape"


def test_laid_tape_names_its_scale_and_none_can_be_said(taken: Session) -> None:
    bench.change_part(taken, JOB, "instrument.kitchen scale", {"resolution": "1 g"})
    name = worked(taken).club_state.ticket.tapes[0].name or ""
    fact = bench.lay_tape(taken, JOB, name, "1", "2 g", gauge="kitchen scale")
    assert isinstance(fact.what, TapeLaid)
    assert fact.what.gauges == {"mass": "kitchen scale"}
    assert fact.typed == f"laid 1 of {name}, 2 g (kitchen scale)"
    bench.lay_tape(taken, JOB, name, "1", "1.6 g", gauge="")
    assert measured(taken) == []
    assert believed(taken, "tapes.0.mass_kg")[0] == pytest.approx(1.6 * GRAM, abs=1e-9)
    with pytest.raises(InputError, match='no gauge is called "grain scale"'):
        bench.lay_tape(taken, JOB, name, "1", "1.6 g", gauge="grain scale")


@pytest.fixture
def with_joint_gauges(taken: Session) -> Session:
    """A micrometer and plug gauges on the ticket: each takes what it is for, without being named."""
    for gauge in ("micrometer", "plug gauge"):
        bench.change_part(taken, JOB, f"instrument.{gauge}", {"resolution": "0.0005 in", "repeatability": "0.0003 in"})
    return taken


@pytest.mark.parametrize(
    ("section", "key", "gauge"),
    [("shaft", "tip_diameter", "micrometer"), ("head", "bore_diameter", "plug gauge")],
)
def test_a_diameter_of_the_joint_measured_again_narrows_the_fit(
    with_joint_gauges: Session, section: str, key: str, gauge: str
) -> None:
    session = with_joint_gauges
    first, second = {"tip_diameter": ("0.3545 in", "0.3555 in"), "bore_diameter": ("0.3585 in", "0.3595 in")}[key]
    bench.change_part(session, JOB, section, {key: first})
    one = fit_of(worked(session).club_state)
    bench.change_part(session, JOB, section, {key: second})
    two = fit_of(worked(session).club_state)
    assert one is not None and two is not None
    assert measured(session) == [(f"{section}.{key}", second, gauge)]
    moved = two.clearance_m - one.clearance_m
    assert moved == pytest.approx((-0.0005 if section == "shaft" else 0.0005) * INCH_M, abs=1e-10)
    # the mean of two of one gauge: what is new with each is halved, the rounding that both share is not
    told = worked(session).club_state.ticket.gauges[gauge]
    step, scatter = told.resolution, told.repeatability
    shared = (
        step**2
        / (2 * math.pi**2)
        * sum(math.exp(-((2 * math.pi * k * scatter / step) ** 2)) / k**2 for k in range(1, 9))
    )
    own = scatter**2 + step**2 / 12 - shared
    assert one.u_m**2 - two.u_m**2 == pytest.approx(own / 2, rel=1e-6)


def test_a_reamed_bore_is_not_averaged_with_what_it_was(with_joint_gauges: Session) -> None:
    session = with_joint_gauges
    for bore in ("0.355 in", "0.3555 in"):
        bench.change_part(session, JOB, "head", {"bore_diameter": bore})
    bench.change_part(session, JOB, "head", {"bore_diameter": "0.360 in", "bore_reamed": "yes"})
    assert worked(session).club_state.number("head.bore_diameter_m")[0] == pytest.approx(0.360 * INCH_M, rel=1e-9)
    assert not worked(session).club_state.learned.set_aside
    bench.change_part(session, JOB, "head", {"bore_diameter": "0.361 in"})
    assert worked(session).club_state.number("head.bore_diameter_m")[0] == pytest.approx(0.3605 * INCH_M, rel=1e-6)


def test_a_caliper_for_grips_is_not_taken_for_what_measured_a_tip(taken: Session) -> None:
    assert "caliper" in worked(taken).club_state.ticket.gauges
    for tip in ("0.354 in", "0.356 in"):
        bench.change_part(taken, JOB, "shaft", {"tip_diameter": tip})
    assert measured(taken) == []
    assert "gauges" not in taken.job(JOB).document["shaft"]
    for tip in ("0.354 in", "0.356 in"):
        bench.change_part(taken, JOB, "shaft", {"tip_diameter": tip}, gauge="caliper")
    assert measured(taken) == [("shaft.tip_diameter", "0.356 in", "caliper")]


def test_angles_and_lengths_take_the_gauge_of_the_usual_name(taken: Session) -> None:
    bench.change_part(taken, JOB, "head", {"loft": "54.5 deg", "lie": "64 deg", "bore_depth": "1.25 in"})
    bench.change_part(
        taken, JOB, "shaft", {"raw_length": "37 in", "balance_from_tip": "19 1/4 in"}
    )  # an edge, not a rule
    found = taken.job(JOB).document
    assert found["head"]["gauges"] == {"loft": "angle gauge", "lie": "angle gauge"}
    assert found["shaft"]["gauges"] == {"raw_length": "rule"}
    bench.change_part(taken, JOB, "head", {"loft": "54.0 deg"})
    assert measured(taken) == [("head.loft", "54.0 deg", "angle gauge")]


def test_one_angle_gauge_has_one_error_in_the_head_and_in_the_club(taken: Session) -> None:
    """What the gauge shows too much is one unknown, so the club's loft read on it says nothing against that error."""
    bench.change_part(taken, JOB, "head", {"loft": "54.5 deg"})
    bench.note_reading(taken, JOB, "loft", "54.5 deg", stage="dry, no grip")
    gauge = worked(taken).club_state.ticket.gauges["angle gauge"]
    assert gauge.bias > 0
    assert believed(taken, "head.loft_rad")[1] > gauge.bias
    names = worked(taken).club_state.belief.names
    assert [name for name in names if name.startswith("bias:angle gauge")] == ["bias:angle gauge:loft"]


def test_the_cut_shaft_weighed_with_the_cut_and_again_counts_twice(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign cut")
    gauges = {"length": "rule"}
    cut = bench.cut_shaft(session, JOB, "34.01 in", cut_mass="115.3 g", cut_balance_from_tip="17.8 in", gauge=gauges)
    assert isinstance(cut.what, ShaftCut)
    assert cut.what.gauges == {"cut_mass": "gram scale", "cut_balance_from_tip": "rule"}
    assert cut.typed == "cut to 34.01 in, cut_mass 115.3 g, cut_balance_from_tip 17.8 in (rule)"
    once = worked(session).club_state.predict(["total_weight", "balance_point"]).sd()[0]
    bench.cut_shaft(session, JOB, "34.01 in", cut_mass="115.5 g")
    bench.change_part(session, JOB, "shaft", {"cut_balance_from_tip": "17.82 in"}, gauge="rule")
    assert measured(session) == [
        ("shaft.cut_mass", "115.5 g", "gram scale"),
        ("shaft.cut_balance_from_tip", "17.82 in", "rule"),
    ]
    assert not worked(session).club_state.learned.set_aside
    twice = worked(session).club_state.predict(["total_weight", "balance_point"]).sd()[0]
    assert (twice < once).all()


def test_what_a_shaft_weighed_before_it_was_cut_again_stays_of_the_longer_shaft(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign cut")
    bench.cut_shaft(session, JOB, "34.01 in", cut_mass="115.3 g")
    bench.cut_shaft(session, JOB, "34.01 in", cut_mass="115.4 g")
    before = worked(session).club_state.predict(["total_weight"]).mean[0, 0]
    bench.sign_gate(session, JOB, "cut")
    bench.cut_shaft(session, JOB, "33.51 in", short=True)
    after = worked(session).club_state.predict(["total_weight"]).mean[0, 0]
    off = worked(session).club_state.club.shaft.butt_density_kg_m * 0.5 * INCH_M
    assert before - after == pytest.approx(off, rel=0.02)
    assert not worked(session).club_state.learned.set_aside
    bench.cut_shaft(session, JOB, "33.51 in", cut_mass="113.5 g")
    assert session.job(JOB).document["shaft"]["cut_mass"] == "113.5 g"


def test_figures_of_the_cut_shaft_wait_for_the_cut(taken: Session) -> None:
    bench.note_reading(taken, JOB, "shaft.cut_mass", "115.3 g", stage="bare shaft")
    (state,) = reading_states(worked(taken)).values()
    assert (state.state, state.why) == ("not used", "needs ticket T-0054 [shaft] cut_length")

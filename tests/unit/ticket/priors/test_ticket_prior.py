"""What the parts alone make us believe: figures with their uncertainty, defaults announced, nothing invented in silence."""

from __future__ import annotations

import copy
from typing import Any, get_args

import pytest

from clubwright.belief.gaussian import Gaussian
from clubwright.club.parts import KINDS, Kind
from clubwright.club.quantities import QUANTITIES
from clubwright.notation import parse, parse_difference
from clubwright.services.answer.club_answer import answer_document, work_document
from clubwright.ticket.fields.defaults import PART_GAUGES, default_for
from clubwright.ticket.fields.fields import GRIP, HEAD, SECTIONS, SHAFT
from clubwright.ticket.gauges import usual_gauge
from clubwright.ticket.priors.prior import Prior, prior_from
from clubwright.ticket.read import read_ticket

BARE: dict[str, Any] = {"ticket": {"id": "T-1", "kind": "wedge", "hand": "right"}, "target": {"length": "35 in"}}


def prior(document: dict[str, Any]) -> Prior:
    ticket, found = read_ticket(document)
    assert ticket is not None, found
    return prior_from(ticket)


def figure(belief: Gaussian, name: str) -> tuple[float, float]:
    return belief.mean_of(name), belief.sd_of(name)


def with_tables(**tables: Any) -> dict[str, Any]:
    return {**copy.deepcopy(BARE), **tables}


def test_a_typed_uncertainty_wins_over_the_usual_one_and_both_over_the_default() -> None:
    typed = prior(with_tables(head={"mass": "296.4 g ± 0.3 g"})).belief
    usual = prior(with_tables(head={"mass": "296.4 g"})).belief
    nothing = prior(BARE).belief
    assert figure(typed, "head.mass_kg") == pytest.approx((0.2964, 0.0003), rel=1e-12)
    assert figure(usual, "head.mass_kg") == pytest.approx((0.2964, 0.0001), rel=1e-12)
    assert figure(nothing, "head.mass_kg") == pytest.approx((0.300, 0.006), rel=1e-12)


def test_an_uncertainty_that_is_a_share_follows_the_value() -> None:
    found = prior(with_tables(shaft={"raw_length": "37 in", "mass": "125 g", "butt_density": "100 g/m"})).belief
    assert figure(found, "shaft.butt_density_kg_m") == pytest.approx((0.1, 0.003), rel=1e-9)


def test_every_default_used_is_announced_with_its_standing() -> None:
    found = prior(BARE).findings
    by_place = {str(item.where): item.what for item in found}
    assert "300 g ± 6 g (trade estimate, not measured)" in by_place["ticket [head] mass"]
    assert "common practice" in by_place["ticket [ferrule] mass"]
    assert all(item.severity == "note" and item.mend for item in found)
    quiet = prior(with_tables(head={"mass": "296.4 g"})).findings
    assert "ticket [head] mass" not in {str(item.where) for item in quiet}


def test_a_default_that_matters_only_for_moi_or_for_the_plane_is_announced_only_then() -> None:
    def places(document: dict[str, Any]) -> set[str]:
        return {str(item.where).rpartition(" ")[2] for item in prior(document).findings}

    assert "cg_off_axis" not in places(BARE)
    assert "cg_off_axis" in places(with_tables(target={"length": "35 in", "moi": "2700 kg cm2"}))
    assert "sole_camber" not in places(BARE)
    assert "sole_camber" in places(with_tables(target={"length": "35 in", "length_method": "60 degree plane"}))


def test_the_shaft_is_cut_to_what_the_target_leaves() -> None:
    head = {"bore_to_ground": "1.1 in"}
    found = prior(with_tables(head=head, grip={"cap": "1/8 in"})).club.shaft
    assert found.length_m == pytest.approx((35 - 1.1 - 0.125) * 0.0254, abs=1e-12)


def test_a_measured_cut_length_wins_over_the_plan() -> None:
    found = prior(with_tables(shaft={"cut_length": "33.80 in", "raw_length": "37 in"}))
    assert figure(found.belief, "shaft.length_m") == pytest.approx((33.8 * 0.0254, 0.0002), rel=1e-9)


def test_a_club_that_comes_in_finished_is_known_less_well_in_length() -> None:
    build = prior(BARE).belief.sd_of("shaft.length_m")
    document = with_tables(ticket={**BARE["ticket"], "job": "weight"})
    assert prior(document).belief.sd_of("shaft.length_m") > 10 * build
    document["target"] = {}
    assert "usual length of its kind" in " ".join(item.what for item in prior(document).findings)


def test_of_a_mass_weighed_as_cut_no_offcut_is_taken_off() -> None:
    shaft = {"mass": "118 g", "cut_length": "34 in", "weighed": "cut"}
    document = with_tables(ticket={**BARE["ticket"], "job": "regrip"}, shaft=shaft)
    found = answer_document(document)["stages"]["bare shaft"]["total_weight"]
    assert found["mean"] == pytest.approx(0.118, abs=1e-12)
    assert found["sd"] == pytest.approx(0.0001, rel=1e-6)


def test_tape_that_was_not_weighed_weighs_width_by_length_by_mass_per_area() -> None:
    tape = {"layers": "3", "width": "2 in", "length": "10 in", "area_density": "120 g/m2"}
    found = prior(with_tables(tape=[tape])).belief
    assert found.mean_of("tapes.0.mass_kg") == pytest.approx(3 * 2 * 10 * 0.0254**2 * 0.120, rel=1e-9)
    bare = prior(with_tables(tape=[{"layers": "3"}])).belief
    assert bare.mean_of("tapes.0.mass_kg") == pytest.approx(0.0045, rel=1e-9)


def test_tape_builds_up_where_it_lies() -> None:
    whole = {"layers": "2", "mass": "2 g", "thickness": "0.005 in"}
    found = prior(with_tables(tape=[whole, {**whole, "covers": "lower"}, {"mass": "1.6 g"}])).club.tapes
    inch = 0.0254
    assert [tape.build_up_2in_m for tape in found] == pytest.approx([0.01 * inch, 0, 0], abs=1e-12)
    assert [tape.build_up_6in_m for tape in found] == pytest.approx([0.01 * inch, 0.01 * inch, 0], abs=1e-12)


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_club_is_answered_from_its_number_alone(kind: Kind) -> None:
    answer = answer_document({"ticket": {"id": "T-1", "kind": kind, "hand": "right"}, "target": {"swing_weight": "D2"}})
    finished = answer["finished"]
    assert 0.28 < finished["total_weight"]["mean"] < 0.60
    assert 0 < finished["swing_weight"]["mean"] < 60
    assert finished["swing_weight"]["sd"] > 1
    assert 0.8 < finished["length"]["mean"] < 1.2


def test_every_default_and_every_usual_uncertainty_can_be_read() -> None:
    assert set(KINDS) == set(get_args(Kind))
    for section in SECTIONS:
        for field in section.fields:
            assert field.sd is None or field.sd_share is None, field.key
            if field.number is None:
                continue
            for kind in KINDS:
                default = default_for(f"{section.name}.{field.key}", kind)
                if default is not None:
                    understood = parse(field.kind, default.text)
                    assert understood.sd is not None
                    assert understood.sd > 0
                    assert default.standing
            if field.sd is not None:
                assert parse_difference("diameter" if field.kind == "grip_core" else field.kind, field.sd).value > 0


def test_every_quantity_and_every_number_of_a_part_has_a_usual_gauge_of_its_own_kind() -> None:
    for quantity in QUANTITIES:
        assert usual_gauge(quantity).noise() > 0
    for section in (HEAD, SHAFT, GRIP):
        for field in section.fields:
            if field.number is not None:
                kind = "diameter" if field.kind == "grip_core" else field.kind
                wanted = parse_difference(kind, PART_GAUGES[kind][0]).value
                assert usual_gauge(f"{section.name}.{field.key}").resolution == wanted


def test_a_reading_of_a_part_narrows_that_part() -> None:
    reading = [{"quantity": "head.mass", "value": "295.0 g", "stage": "bare shaft", "weights": []}]
    before = work_document(BARE).club_state.belief
    after = work_document(with_tables(reading=reading)).club_state.belief
    assert after.sd_of("head.mass_kg") < 0.02 * before.sd_of("head.mass_kg")
    assert after.mean_of("head.mass_kg") == pytest.approx(0.295, abs=2e-5)


UNUSED = [
    ("grip.core", "60", "[grip] core"),
    ("shaft.tip_trim", "1/2 in", "[shaft] tip_trim"),
    ("grip_diameter_2in", "0.9 in", "[shaft] butt_diameter"),
]


@pytest.mark.parametrize(("quantity", "value", "lacks"), UNUSED)
def test_a_reading_that_nothing_can_be_held_against_is_said_to_be_unused(quantity: str, value: str, lacks: str) -> None:
    document = with_tables(reading=[{"quantity": quantity, "value": value, "stage": "finished", "weights": []}])
    worked = work_document(document)
    assert worked.club_state.learned.judged == ()
    told = [item for item in worked.findings if str(item.where) == "ticket [[reading]] 1"]
    assert [item.severity for item in told] == ["warning"]
    assert lacks in told[0].what


def test_a_misfit_of_a_part_is_told_in_the_notation_of_that_part() -> None:
    document = with_tables(
        grip={"cap": "1/8 in", "mass": "50 g"},
        reading=[{"quantity": "grip.cap", "value": "1/2 in", "stage": "finished", "weights": []}],
    )
    (told,) = [item for item in answer_document(document)["findings"] if "kept aside" in item["what"]]
    assert "reads 1/2 in, expected 1/8 in" in told["what"]


@pytest.mark.parametrize(("material", "share"), [("steel", 0.52), ("graphite", 0.53)])
def test_the_balance_of_an_unmeasured_shaft_is_a_share_of_its_length_and_is_announced(
    material: str, share: float
) -> None:
    found = prior(with_tables(shaft={"material": material, "raw_length": "1 m", "mass": "120 g"}))
    assert found.belief.mean_of("shaft.balance_from_tip_m") == pytest.approx(share, abs=1e-12)
    assert any(str(item.where) == "ticket [shaft] balance_from_tip" for item in found.findings)


def test_an_uncertainty_typed_behind_a_reading_stands_in_for_its_gauge() -> None:
    typed = {"quantity": "head.mass", "value": "295 g ± 3 g", "stage": "bare shaft", "weights": [], "repeats": "4"}
    before = work_document(BARE).club_state.belief.sd_of("head.mass_kg")
    after = work_document(with_tables(reading=[typed])).club_state.belief.sd_of("head.mass_kg")
    # Two independent figures of the same mass: 1/s^2 = 1/6^2 + 1/3^2; the repeats are in the typed figure already.
    assert before == pytest.approx(0.006, rel=1e-9)
    assert after == pytest.approx((1 / 0.006**2 + 1 / 0.003**2) ** -0.5, rel=1e-6)

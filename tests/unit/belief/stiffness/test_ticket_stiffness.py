"""The stiffness of a shaft on a ticket: its three forms, what is refused, and what a reading of the frequency teaches."""

from __future__ import annotations

import copy
from math import pi, sqrt
from typing import Any

import jsonschema
import numpy as np
import pytest

from clubwright.belief.unknowns import club_with
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.club.build import Build
from clubwright.club.frequency import frequency_hz
from clubwright.errors import Finding
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.services.answer.club_answer import answer_document
from clubwright.ticket.fields.schema import ticket_schema
from clubwright.ticket.read import read_ticket
from clubwright.words.step import say_steps

IN = 0.0254
TUBE: dict[str, Any] = {
    "kind": "tube", "butt": "0.600 in", "tip": "0.370 in", "wall_butt": "0.016 in", "wall_tip": "0.020 in", "steps": "15",
    "butt_parallel": "6 in", "tip_parallel": "10 in", "modulus": "205 GPa", "density": "7850 kg/m3",
}  # fmt: skip
TABLE: dict[str, Any] = {
    "kind": "table",
    "at": ["0 in", "10 in", "20 in", "33 in", "41 in"],
    "ei": ["28.8 N m2", "28.8 N m2", "48.9 N m2", "106.9 N m2", "106.9 N m2"],
}
SLOPE: dict[str, Any] = {"kind": "slope", "alpha": "0.09 N m2/mm", "from": "300 mm"}


def iron(stiffness: Any = None, **shaft: Any) -> dict[str, Any]:
    """An invented 5-iron to be built."""
    document: dict[str, Any] = {
        "ticket": {"id": "T-0005", "kind": "iron", "hand": "right"},
        "target": {"length": "38 in", "swing_weight": "D2", "frequency": "318 cpm"},
        "head": {"mass": "256 g", "bore_to_ground": "1 in", "bore_depth": "1.25 in", "cg_from_ground": "-3 mm"},
        "shaft": {"tip": "parallel", "raw_length": "41 in", "mass": "126 g", "balance_from_tip": "21 in", **shaft},
        "grip": {"mass": "50 g", "cap": "1/8 in"},
    }
    if stiffness is not None:
        document["shaft"]["stiffness"] = stiffness
    return document


def profile_of(document: dict[str, Any]) -> StiffnessProfile:
    ticket, findings = read_ticket(document)
    assert ticket is not None, [finding.sentence() for finding in findings]
    assert ticket.club.stiffness is not None
    return ticket.club.stiffness


def club_state(document: dict[str, Any]) -> ClubState:
    ticket, findings = read_ticket(document)
    assert ticket is not None, [finding.sentence() for finding in findings]
    return club_state_of(ticket)


def cpm(of: ClubState, stage: str = "finished") -> tuple[float, float]:
    from clubwright.club.stages import STAGES

    prediction = of.predict(["frequency"], STAGES[stage])
    return 60 * float(prediction.mean[0, 0]), 60 * float(prediction.sd()[0, 0])


def tube_ei(outside_in: float, wall_in: float) -> float:
    """E pi (d^4 - (d - 2t)^4) / 64, worked apart."""
    return float(205e9 * pi / 64 * ((outside_in * IN) ** 4 - ((outside_in - 2 * wall_in) * IN) ** 4))


def test_a_stepped_tube_has_its_plain_ends_and_its_even_steps() -> None:
    profile = profile_of(iron(TUBE))
    assert profile.end_m == pytest.approx(41 * IN, abs=1e-12)
    assert profile.ei_n_m2(5 * IN) == pytest.approx(tube_ei(0.370, 0.020), rel=1e-9)
    assert profile.ei_n_m2(38 * IN) == pytest.approx(tube_ei(0.600, 0.016), rel=1e-9)
    # 14 stretches between 15 steps over 25 in; the wall is that of the middle of each
    third = 10 + 2.5 * 25 / 14
    wall = 0.020 - 0.004 * 2.5 / 14
    assert profile.ei_n_m2(third * IN) == pytest.approx(tube_ei(0.370 + 3 * 0.230 / 15, wall), rel=1e-9)
    assert len(profile.pieces) == 16
    area = pi / 4 * (0.600**2 - 0.568**2) * IN**2
    assert profile.pieces[-1].end_density_kg_m == pytest.approx(7850 * area, rel=1e-9)
    assert profile.pieces[-1].start_m == pytest.approx(35 * IN, abs=1e-12)


def test_a_wall_in_the_middle_bends_the_line_of_the_wall() -> None:
    middle = profile_of(iron({**TUBE, "wall_middle": "0.014 in"}))
    # the middle stretch of 14 does not lie half-way: an even count has a step there, and walls either side of it
    left = 10 + 6.5 * 25 / 14
    wall = 0.020 - 0.006 * (left - 10) / 12.5
    assert middle.ei_n_m2(left * IN) == pytest.approx(tube_ei(0.370 + 7 * 0.230 / 15, wall), rel=1e-9)


def test_no_steps_make_a_straight_taper() -> None:
    profile = profile_of(iron({**TUBE, "steps": 0}))
    assert profile.ei_n_m2(22.5 * IN) == pytest.approx(tube_ei(0.485, 0.018), rel=1e-3)
    assert profile.ei_n_m2(1 * IN) == pytest.approx(tube_ei(0.370, 0.020), rel=1e-9)


def test_a_table_runs_straight_between_its_stations() -> None:
    profile = profile_of(iron(TABLE))
    assert profile.ei_n_m2(15 * IN) == pytest.approx((28.8 + 48.9) / 2, rel=1e-12)
    stepped = {**TABLE, "at": ["0 in", "20 in", "20 in", "33 in", "41 in"]}
    assert profile_of(iron(stepped)).ei_n_m2(20 * IN - 1e-9) == pytest.approx(28.8, rel=1e-6)
    assert profile_of(iron(stepped)).ei_n_m2(20 * IN) == pytest.approx(48.9, rel=1e-12)


def test_a_table_may_hold_torsion_and_mass_and_inch_units() -> None:
    more = {**TABLE, "gj": ["22 N m2"] * 5, "density": ["2.8 g/in"] * 5, "ei": ["10000 lbf in2"] * 5}
    profile = profile_of(iron(more))
    assert profile.has_gj
    assert profile.has_density
    assert profile.ei_n_m2(0.5) == pytest.approx(28.69815, abs=1e-5)  # 4448.22 N x 6.4516e-4 m2 x 10


def test_a_law_grows_from_where_it_starts() -> None:
    profile = profile_of(iron(SLOPE))
    assert profile.ei_n_m2(0.1) == pytest.approx(27.0, rel=1e-9)
    assert profile.ei_n_m2(0.8) == pytest.approx(72.0, rel=1e-9)
    assert profile_of(iron({"kind": "slope", "alpha": "90 N m2/m"})) == profile


REFUSED = {
    "a list": (["28.8 N m2"], "stiffness", "must be a table", "kind"),
    "no kind": ({"butt": "0.6 in"}, "stiffness kind", "None is none of the forms", "tube, table, slope"),
    "another kind": ({**SLOPE, "kind": "law"}, "stiffness kind", "'law'", "tube, table, slope"),
    "a key of another form": ({**SLOPE, "steps": "3"}, "stiffness steps", "no such key", "alpha"),
    "a key missing": ({"kind": "slope"}, "stiffness alpha", "missing", "0.09 N m2/mm"),
    "a wrong unit": ({**SLOPE, "alpha": "0.09 N m2"}, "stiffness alpha", "0.09 N m2", "0.09 N m2/mm"),
    "a comma": ({**TUBE, "tip": "0,370 in"}, "stiffness tip", "comma", "a point in its place"),
    "no number": ({**TUBE, "modulus": "NaN"}, "stiffness modulus", "NaN", "GPa"),
    "a number without quotes": ({**SLOPE, "alpha": 0.09}, "stiffness alpha", "without quotes", "quotes"),
    "one station wrong": ({**TABLE, "ei": ["28.8"] * 5}, "stiffness ei 3", "no unit", "28.8 N m2"),
    "stations that are no list": ({**TABLE, "at": "0 in"}, "stiffness at", "must be a list", "at = ["),
    "columns of unequal length": ({**TABLE, "ei": TABLE["ei"][:3]}, "stiffness", "at 5, ei 3", "full"),
    "stations that fall": ({**TABLE, "at": ["0 in", "20 in", "10 in", "33 in", "41 in"]}, "stiffness", "rise", "Sort"),
    "a table that begins late": ({**TABLE, "at": ["5 in", *TABLE["at"][1:]]}, "stiffness", "begins", "raw tip"),
    "a table that ends early": ({**TABLE, "at": [*TABLE["at"][:4], "38 in"]}, "stiffness", "ends at", "whole"),
    "too many stations": ({**TABLE, "at": ["0 in"] * 201}, "stiffness at", "up to 200", "at = ["),
    "a wall too thick": ({**TUBE, "wall_tip": "0.3 in"}, "stiffness", "is no tube", "half the diameter"),
    "plain ends too long": ({**TUBE, "butt_parallel": "35 in"}, "stiffness", "leave nothing", "raw_length"),
    "one step": ({**TUBE, "steps": "1"}, "stiffness", "single step", "at least two"),
    "a law from nowhere": ({**SLOPE, "from": "2 m"}, "stiffness", "not on this shaft", "300 mm"),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_what_is_no_stiffness_is_refused_with_where_what_and_mend(case: str) -> None:
    stiffness, where, what, mend = REFUSED[case]
    ticket, findings = read_ticket(iron(stiffness), "t.toml")
    assert ticket is None
    assert any(
        str(item.where) == f"t.toml [shaft] {where}" and what in item.what and mend in item.mend for item in findings
    ), [item.sentence() for item in findings]


def test_all_findings_come_at_once() -> None:
    _, findings = read_ticket(iron({**TUBE, "tip": "0,37 in", "steps": "x", "kind": "tube", "alpha": "1"}))
    assert len([item for item in findings if item.severity == "error"]) == 3


def test_a_tube_needs_the_raw_length() -> None:
    document = iron(TUBE)
    del document["shaft"]["raw_length"]
    ticket, findings = read_ticket(document)
    assert ticket is None
    assert any("raw length" in item.what for item in findings)
    document["shaft"]["stiffness"] = TABLE
    assert profile_of(document).end_m == pytest.approx(41 * IN)


def warnings(document: dict[str, Any]) -> list[Finding]:
    ticket, findings = read_ticket(document)
    assert ticket is not None
    return [item for item in findings if item.severity == "warning"]


def test_words_are_taken_with_a_warning_and_nothing_is_computed_from_them() -> None:
    (finding,) = warnings(iron("stiff flex"))
    assert "words" in finding.what
    assert not club_state(iron("stiff flex")).can_predict("frequency")


def test_an_uncertainty_inside_is_told_to_be_unused() -> None:
    (finding,) = warnings(iron({**SLOPE, "alpha": "0.09 N m2/mm ± 0.01"}))
    assert str(finding.where).endswith("stiffness alpha")
    assert "stiffness_factor" in finding.mend


@pytest.mark.parametrize("stiffness", [TUBE, TABLE, SLOPE, {**TUBE, "wall_middle": "0.014 in"}, "words"])
def test_every_form_keeps_to_the_schema_and_answers(stiffness: Any) -> None:
    document = iron(stiffness)
    jsonschema.validate(document, ticket_schema(), cls=jsonschema.Draft202012Validator)
    answer = answer_document(document)
    assert ("frequency" in answer["finished"]) == (stiffness != "words")
    assert all(("frequency" in stage) == (stiffness != "words") for stage in answer["stages"].values())


@pytest.mark.parametrize("stiffness", [{**TUBE, "kind": "rod"}, {**TABLE, "at": "0 in"}, ["1 N m2"], {"kind": "slope"}])
def test_what_is_refused_is_refused_by_the_schema(stiffness: Any) -> None:
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(iron(stiffness), ticket_schema(), cls=jsonschema.Draft202012Validator)


def test_without_a_stiffness_the_frequency_says_what_it_needs() -> None:
    of = club_state(iron())
    assert of.prior.unknowable["frequency"] == "needs ticket [shaft] stiffness"
    assert "shaft.stiffness_factor" not in of.belief.names
    document = iron()
    document["reading"] = [{"quantity": "frequency", "value": "318 cpm"}]
    assert any("is not used" in item.what for item in club_state(document).prior.findings)


def test_the_factor_is_one_give_or_take_unless_the_ticket_says() -> None:
    of = club_state(iron(TUBE))
    assert (of.belief.mean_of("shaft.stiffness_factor"), of.belief.sd_of("shaft.stiffness_factor")) == (1.0, 0.03)
    assert any(str(item.where).endswith("stiffness_factor") for item in of.prior.findings)
    said = club_state(iron(TUBE, stiffness_factor="1.04 ± 0.01"))
    assert said.belief.mean_of("shaft.stiffness_factor") == 1.04
    # f goes with the root of the stiffness: EI enters the Rayleigh quotient as a factor
    assert cpm(said)[0] == pytest.approx(cpm(of)[0] * sqrt(1.04), rel=1e-9)


def test_the_prior_spread_is_half_that_of_the_factor() -> None:
    """d ln f = (1/2) d ln factor; the rest of the club adds a little in quadrature."""
    mean, sd = cpm(club_state(iron(TUBE)))
    alone = mean * 0.03 / 2
    assert alone < sd < 1.2 * alone


def test_the_clamp_of_the_shop_is_the_one_computed_for() -> None:
    held = iron(TUBE)
    held["shop"] = {"clamp": "2 1/2 in"}
    of = club_state(held)
    assert of.prior.conventions.meter.clamp_length_m == pytest.approx(2.5 * IN)
    assert cpm(of)[0] < cpm(club_state(iron(TUBE)))[0] - 15
    ticket, _ = read_ticket({**held, "shop": {"clamp": "12 in"}})
    assert ticket is None


def test_a_reading_moves_the_factor_to_it_and_narrows_it() -> None:
    before = club_state(iron(TUBE))
    expected, sd_before = cpm(before, "dry, gripped")
    document = iron(TUBE)
    document["reading"] = [
        {"quantity": "frequency", "value": f"{expected + 5:.2f} cpm", "stage": "dry, gripped", "instrument": "meter"}
    ]
    document["instrument"] = {"meter": {"resolution": "0.1 cpm", "repeatability": "0.1 cpm"}}
    after = club_state(document)
    mean, sd = cpm(after, "dry, gripped")
    assert mean == pytest.approx(expected + 5, abs=0.05)
    assert sd < 0.2 < 4 < sd_before
    # With nothing else uncertain the factor would be the square of the ratio; the rest takes a small share of it.
    factor = after.belief.mean_of("shaft.stiffness_factor")
    assert 1.0 < factor < ((expected + 5) / expected) ** 2
    assert after.belief.sd_of("shaft.stiffness_factor") < 0.6 * 0.03
    # what is learned at one stage holds at the next
    assert cpm(after)[1] < 0.5


def test_with_nothing_else_in_doubt_the_factor_is_the_square_of_the_ratio() -> None:
    from clubwright.belief.gaussian import Gaussian
    from clubwright.belief.instruments import Instrument
    from clubwright.belief.readings import Reading
    from clubwright.belief.update import learn
    from clubwright.club.stages import FINISHED

    of = club_state(iron(TUBE))
    plain = Gaussian.independent({"shaft.stiffness_factor": (1.0, 0.03)})
    club, conventions = of.club, of.prior.conventions
    now = float(frequency_hz(Build(club=club, conventions=conventions)))
    gauge = Instrument(name="m", resolution=0.0, repeatability=1e-6, bias=0.0)
    reading = Reading(
        where="r", quantity="frequency", value=now * 1.01, stage=FINISHED, fitted=(), instrument=gauge, repeats=1
    )
    learned = learn(plain, club, conventions, [reading])
    assert learned.belief.mean_of("shaft.stiffness_factor") == pytest.approx(1.01**2, rel=1e-6)
    stiffer = club_with(club, learned.belief.names, [float(value) for value in learned.belief.mean])
    assert float(frequency_hz(Build(club=stiffer, conventions=conventions))) == pytest.approx(now * 1.01, rel=1e-6)


def test_a_shaft_too_short_for_its_club_is_answered_with_a_warning_not_an_error() -> None:
    document = copy.deepcopy(iron(TUBE))
    document["target"]["length"] = "44 in"
    answer = answer_document(document)
    assert any("too short" in item["what"] for item in answer["findings"])
    assert np.isfinite(answer["finished"]["frequency"]["mean"])


def test_the_plan_says_what_a_meter_should_show_before_anything_is_glued() -> None:
    from clubwright.services.answer.club_answer import work_document
    from clubwright.services.jobs.job_answer import with_plan

    document = iron(TUBE, tip_trim="1/2 in")
    steps = {step.key: step for step in say_steps(with_plan(work_document(document)).steps, None)}
    expected = {item.stage: item for item in steps["dry reading"].expected if item.quantity == "frequency"}
    assert set(expected) == {"dry, gripped", "dry, no grip"}
    mean, sd = cpm(club_state(document), "dry, gripped")
    assert 60 * expected["dry, gripped"].mean == pytest.approx(mean, rel=1e-9)
    # belief, and the usual meter: resolution 0.1 cpm as a rectangle, repeatability 0.5 cpm, bias 0.5 cpm
    assert 60 * expected["dry, gripped"].sd == pytest.approx(sqrt(sd**2 + 0.1**2 / 12 + 0.5**2 + 0.5**2), rel=1e-3)
    assert any("clamp 5 in" in line for line in steps["dry reading"].what)
    assert "frequency meter" in steps["dry reading"].instrument
    (told,) = [text for name, text in steps["tip trim"].numbers if name.startswith("frequency")]
    assert told.startswith(f"{cpm(club_state(document))[0]:.1f} cpm")
    plain = {step.key: step for step in say_steps(with_plan(work_document(iron(tip_trim="1/2 in"))).steps, None)}
    assert not [item for item in plain["dry reading"].expected if item.quantity == "frequency"]
    assert "frequency" not in plain["dry reading"].instrument
    assert not [name for name, _ in plain["tip trim"].numbers if name.startswith("frequency")]


@pytest.mark.parametrize("stiffness", [TUBE, TABLE, SLOPE])
def test_a_stiffness_comes_through_a_file(stiffness: dict[str, Any]) -> None:
    from clubwright.importers.ticket_file import dump_ticket, parse_ticket

    assert parse_ticket(dump_ticket(iron(stiffness))) == iron(stiffness)


def test_the_form_carries_a_stiffness_along() -> None:
    from clubwright.web.ticket_form import of_document, of_sent, rest_of

    document = iron(TABLE, stiffness_factor="1.01")
    filled = of_document(document)
    sent = {name: [text] for name, text in filled.values.items()} | {"rest": [rest_of(document)]}
    assert of_sent(sent).document == document


def test_a_clamp_that_leaves_next_to_nothing_free_is_refused_where_a_frequency_is_computed() -> None:
    document = iron(TUBE, cut_length="12 in")
    answer = answer_document(document)
    assert answer["finished"] == {}
    (finding,) = [item for item in answer["findings"] if item["severity"] == "error"]
    assert finding["where"] == "ticket [shaft] stiffness"
    assert "12 in in a clamp of 5 in" in finding["what"]
    assert answer_document(iron(cut_length="12 in"))["finished"]

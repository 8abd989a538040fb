"""The plan: which steps, in which order, with which figures, and what keeps a step waiting."""

from __future__ import annotations

import copy
import math
from typing import Any

import pytest

from clubwright.conformity.rules import RULES
from clubwright.planning.advice.weights import choices
from clubwright.planning.cautions import DEFER
from clubwright.planning.gates.gates import Progress
from clubwright.planning.goals import GUARD_FACTORS
from clubwright.planning.steps.plan import MAKERS, plan_of, rule_lines
from clubwright.services.answer.club_answer import work_document
from clubwright.state.steps import STEPS
from clubwright.ticket.fields.fields import JOBS
from clubwright.words.say import say
from clubwright.words.step import StepWords, say_steps

Document = dict[str, Any]

# Invented demo data.
WEDGE: Document = {
    "ticket": {"id": "T-0042", "player": "A. Example", "label": "54 wedge", "kind": "wedge", "hand": "right"},
    "target": {
        "length": "35 1/4 in",
        "loft": "54 deg",
        "lie": "63 1/2 deg",
        "swing_weight": "D4",
        "total_weight": "468 g",
    },
    "head": {
        "name": "Kestrel 54 mid",
        "mass": "296.4 g",
        "loft": "54.3 deg",
        "lie": "64 deg",
        "bounce": "10 deg",
        "metal": "forged carbon steel",
        "bore_to_ground": "1.10 in",
        "bore_depth": "1.25 in",
        "bore_diameter": "0.359 in",
        "cg_from_ground": "-6 mm ± 2 mm",
        "hand": "right",
    },
    "shaft": {
        "material": "steel",
        "tip": "taper",
        "tip_diameter": "0.355 in",
        "raw_length": "37 in",
        "mass": "125.2 g",
        "balance_from_tip": "19 1/4 in",
        "butt_density": "3.6 g/in",
        "butt_diameter": "0.600 in",
    },
    "grip": {"mass": "49.6 g", "cap": "0.14 in", "cg_from_cap": "4.1 in", "core": "60", "diameter_2in": "0.900 in"},
    "tape": [{"name": "double-sided", "layers": "2", "mass": "3.0 g"}],
    "ferrule": {"mass": "0.7 g", "length": "1 in"},
    "adhesive": {
        "in_joint": "0.8 g",
        "ratio": "100:44",
        "basis": "weight",
        "per_joint": "1.2 g",
        "joints": "8",
        "scale_error": "0.1 g",
        "pot_life": "30 min",
        "temperature": "25 C",
    },
    "weight": [
        {"name": "port 2", "mass": "2.02 g", "seat": "port"},
        {"name": "port 4", "mass": "4.05 g", "seat": "port"},
    ],
    "reading": [{"quantity": "swing_weight", "value": "D1.9", "stage": "dry, gripped", "weights": []}],
}
RELEASE = [{"temperature": "20 C", "time": "15 h"}, {"temperature": "40 C", "time": "3 h"}]


def changed(document: Document, **sections: Any) -> Document:
    """A copy with keys of sections set, or taken out where the value is None."""
    found = copy.deepcopy(document)
    for name, values in sections.items():
        if not isinstance(values, dict):
            found[name] = values
            continue
        table = found.setdefault(name, {})
        for key, value in values.items():
            if value is None:
                table.pop(key, None)
            else:
                table[key] = value
    return found


def wood(**sections: Any) -> Document:
    document = changed(
        WEDGE,
        ticket={"kind": "driver", "label": "driver"},
        target={"length": "45 in", "loft": None, "lie": None, "swing_weight": "D3", "total_weight": None},
        head={"mass": "200 g", "bore_to_ground": "1.5 in", "cg_from_ground": "10 mm", "metal": "titanium"},
        shaft={
            "material": "graphite",
            "tip": "parallel",
            "raw_length": "46 in",
            "mass": "62 g",
            "balance_from_tip": None,
        },
    )
    document["reading"] = []
    document["shaft"].pop("butt_density")
    return changed(document, **sections)


def putter(**sections: Any) -> Document:
    document = changed(
        WEDGE,
        ticket={"kind": "putter", "label": "putter"},
        target={"length": "34 in", "loft": "3 deg", "lie": "70 deg", "swing_weight": "E0", "total_weight": None},
        head={"mass": "350 g", "loft": "3 deg", "lie": "71 deg", "bounce": None, "cg_from_ground": "7 mm"},
        shaft={"tip": "parallel"},
    )
    document["reading"] = []
    del document["ferrule"]
    return changed(document, **sections)


def plan(
    document: Document, done: frozenset[str] = frozenset(), progress: Progress | None = None
) -> tuple[StepWords, ...]:
    worked = work_document(document, progress=progress or Progress())
    best = choices(worked.club_state)[0]
    return say_steps(plan_of(worked.club_state, worked.cut, best, worked.gates, done), None)


def keys(document: Document) -> list[str]:
    return [step.key for step in plan(document)]


def step(document: Document, key: str) -> StepWords:
    return next(step for step in plan(document) if step.key == key)


def number(found: StepWords, label: str) -> str:
    return next(text for name, text in found.numbers if name.startswith(label))


PARTS = ["pull", "weigh", "head check", "bore to ground"]
SETTLE = ["tape", "dry reading", "choose weight", "mix", "glue", "cure"]


def test_a_steel_wedge_is_bent_after_the_cure() -> None:
    assert keys(WEDGE) == [
        *PARTS,
        *["tip prep", "ferrule", "dry fit", "mark and cut"],
        *SETTLE,
        *["ferrule finish", "grip", "loft and lie", "inspect", "tag"],
    ]


def test_graphite_is_bent_before_anything_is_cut() -> None:
    document = changed(WEDGE, shaft={"material": "graphite"})
    assert keys(document) == [
        *[*PARTS, "loft and lie"],
        *["tip prep", "ferrule", "dry fit", "mark and cut"],
        *SETTLE,
        *["ferrule finish", "grip", "inspect", "tag"],
    ]
    assert any("graphite" in sentence for sentence in step(document, "loft and lie").what)


@pytest.mark.parametrize(("ordered", "first"), [("61.5 deg", True), ("62.5 deg", False), ("66.5 deg", True)])
def test_a_large_lie_bend_comes_first(ordered: str, first: bool) -> None:
    # A wide length tolerance, so that the two-degree rule decides and not the gate's own.
    document = changed(WEDGE, target={"lie": ordered}, tolerance={"length": "1/4 in"})
    order = keys(document)
    assert (order.index("loft and lie") < order.index("mark and cut")) is first


def test_a_bend_that_costs_length_comes_first() -> None:
    # 1.5 deg is less than the two-degree rule, but moves the measured length by more than half of a tight tolerance.
    order = keys(changed(WEDGE, target={"lie": "62.5 deg"}, tolerance={"length": "1/64 in"}))
    assert order.index("loft and lie") < order.index("mark and cut")


def test_a_bend_made_first_stays_first_once_nothing_is_left_to_bend() -> None:
    bent = plan(changed(WEDGE, head={"lie": "63.5 deg"}), done=frozenset({"loft and lie"}))
    order = [item.key for item in bent]
    assert order.index("loft and lie") < order.index("mark and cut")
    cured = [item.key for item in plan(WEDGE, done=frozenset({"cure", "loft and lie"}))]
    assert cured.index("loft and lie") > cured.index("cure")


def test_no_angle_ordered_no_bend() -> None:
    document = changed(WEDGE, target={"loft": None, "lie": None})
    assert "loft and lie" not in keys(document)


def test_a_sleeve_needs_no_ferrule_unless_the_ticket_lists_one() -> None:
    sleeved = wood(adapter={"mass": "6.2 g"})
    del sleeved["ferrule"]
    assert keys(sleeved) == [*PARTS, "tip prep", "dry fit", "mark and cut", *SETTLE, "grip", "inspect", "tag"]
    listed = keys(wood(adapter={"mass": "6.2 g"}))
    assert "ferrule" in listed
    assert "ferrule finish" not in listed, "the ferrule of a sleeve is not turned"


def test_a_wood_with_an_ordered_loft_is_set_before_its_graphite_shaft_is_in() -> None:
    order = keys(wood(target={"loft": "54 deg"}))
    assert order.index("loft and lie") == len(PARTS)


def test_a_ferrule_of_nothing_is_none() -> None:
    document = putter(ferrule={"mass": "0 g"})
    assert "ferrule" not in keys(document)
    assert "ferrule.mass" not in [item.quantity for item in step(document, "weigh").expected]


def test_a_club_that_came_in_is_foretold_as_it_came() -> None:
    for job in ("regrip", "weight"):
        document = changed(WEDGE, ticket={"job": job}, reading=[])
        expected = step(document, "weigh").expected
        assert [item.quantity for item in expected] == ["total_weight", "swing_weight", "length"]
        assert {item.stage for item in expected} == {"as it came"}
    regrip = changed(WEDGE, ticket={"job": "regrip"}, reading=[])
    assert [item.quantity for item in step(regrip, "strip grip").expected] == [
        "old_grip.mass_with_tape",
        "grip.mass",
    ]
    reshaft = changed(WEDGE, ticket={"job": "reshaft"}, reading=[])
    assert {item.stage for item in step(reshaft, "as it came").expected} == {"as it came"}


def test_a_head_of_glued_wood_is_not_bent() -> None:
    found = step(wood(target={"loft": "54 deg"}), "loft and lie")
    assert number(found, "routine limit").startswith("no bend is advised")


def test_a_glued_wood_gets_its_ferrule_turned() -> None:
    assert keys(wood()) == [
        *[*PARTS, "tip prep", "ferrule", "dry fit", "mark and cut"],
        *[*SETTLE, "ferrule finish", "grip", "inspect", "tag"],
    ]


def test_a_putter_is_set_square() -> None:
    assert keys(putter()) == [
        *[*PARTS, "tip prep", "dry fit", "mark and cut"],
        *[*SETTLE, "grip", "loft and lie", "inspect", "tag"],
    ]
    assert any("face square" in sentence for sentence in step(putter(), "dry fit").what)


@pytest.mark.parametrize(
    ("job", "expected"),
    [
        ("regrip", ["pull", "weigh", "strip grip", "tape", "grip", "inspect", "tag"]),
        ("loft-lie", ["pull", "head check", "loft and lie", "inspect", "tag"]),
        ("weight", ["pull", "weigh", "choose weight", "inspect", "tag"]),
    ],
)
def test_other_jobs_have_their_own_steps(job: str, expected: list[str]) -> None:
    document = changed(WEDGE, ticket={"job": job}, reading=[])
    assert keys(document) == expected
    assert all(item.gate is None for item in plan(document)), "only a joint has gates"


def test_a_reshaft_starts_with_the_old_joint() -> None:
    order = keys(changed(WEDGE, ticket={"job": "reshaft"}))
    assert order[:5] == ["pull", "as it came", "pull head", "clean bore", "weigh"]
    assert [key for key in order if key not in ("as it came", "pull head", "clean bore")] == keys(WEDGE)


def test_every_key_has_its_maker_and_every_job_a_plan() -> None:
    assert set(MAKERS) == set(STEPS)
    for job in JOBS:
        assert plan(changed(WEDGE, ticket={"job": job}, reading=[]))


def test_a_parallel_tip_is_trimmed_by_the_ticket_and_by_nothing_else() -> None:
    parallel = changed(WEDGE, shaft={"tip": "parallel"})
    assert "tip trim" not in keys(parallel)
    assert any("no tip trim" in sentence for sentence in step(parallel, "tip prep").what)
    trimmed = changed(WEDGE, shaft={"tip": "parallel", "tip_trim": "1/2 in"})
    order = keys(trimmed)
    assert order.index("bore to ground") < order.index("tip trim") < order.index("tip prep")
    assert number(step(trimmed, "tip trim"), "off the tip") == "1/2 in (0.500 in, 12.70 mm)"
    assert number(step(trimmed, "tip trim"), "left") == "36 1/2 in (36.500 in, 927.10 mm)"


def test_a_taper_tip_is_never_trimmed_even_when_asked() -> None:
    asked = changed(WEDGE, shaft={"tip_trim": "1/2 in"})
    worked = work_document(asked)
    assert "tip trim" not in keys(asked)
    assert any("not planned" in sentence for sentence in step(asked, "tip prep").what)
    assert any("taper" in item.what for item in worked.findings if "tip_trim" in str(item.where))
    assert worked.cut is not None
    assert worked.cut.tip_trim_m == 0.0
    assert "TIP" not in worked.cut.text
    gate = next(gate for gate in worked.gates if gate.step == "cut")
    assert not gate.open
    assert "taper" in say(gate.why, None)
    assert "tip_trim" not in " ".join(str(item.where) for item in work_document(WEDGE).findings)


def test_the_cut_is_marked_from_both_ends() -> None:
    found = step(WEDGE, "mark and cut")
    assert number(found, "mark, from the tip").startswith("34 1/64 in")
    assert "34.010 in" in number(found, "mark, from the tip")
    assert "35.110 in" in number(found, "mark, from the ground")
    assert "2.990 in" in number(found, "offcut")
    assert number(found, "kerf").startswith("1/16 in")
    assert any("waste side" in sentence for sentence in found.what)
    assert found.expected[0].quantity == "shaft.cut_length"


def test_a_shaft_that_is_too_short_stops_the_cut() -> None:
    found = step(changed(WEDGE, shaft={"raw_length": "34 in"}), "mark and cut")
    stop = next(place for place, sentence in enumerate(found.what) if sentence.startswith("STOP"))
    assert stop < next(place for place, sentence in enumerate(found.what) if sentence.startswith("Mark"))
    assert "0.010 in" in number(found, "too short by")
    assert not [label for label, _ in found.numbers if label == "offcut"]


def test_bore_to_ground_is_what_the_test_shaft_reads_less_its_length() -> None:
    found = step(WEDGE, "bore to ground")
    assert "38.100 in" in number(found, "R, ")
    assert "37.000 in" in number(found, "T, ")
    assert number(found, "bottom of bore to ground (BBG) on the ticket").endswith("(1.100 in, 27.94 mm)")
    unknown = step(changed(WEDGE, head={"bore_to_ground": None}), "bore to ground")
    assert unknown.numbers[0][0].startswith("bottom of bore to ground (BBG), assumed")


def test_a_weight_under_the_tip_shortens_the_glued_length() -> None:
    tip = [{"name": "pin 4", "mass": "4 g", "seat": "tip", "lifts_shaft": "1/4 in", "fitted": "1"}]
    assert number(step(changed(WEDGE, weight=tip), "ferrule"), "lower edge").startswith("1 in (1.000 in")
    assert number(step(WEDGE, "ferrule"), "lower edge").startswith("1 1/4 in")


def test_the_dry_reading_is_expected_with_and_without_the_grip() -> None:
    found = step(WEDGE, "dry reading")
    at = {(item.quantity, item.stage): item for item in found.expected}
    assert set(at) == {(q, s) for q in ("swing_weight", "total_weight") for s in ("dry, gripped", "dry, no grip")}
    apart = at["swing_weight", "dry, no grip"].mean - at["swing_weight", "dry, gripped"].mean
    assert float(number(found, "so a reading without").split()[0]) == pytest.approx(apart, abs=0.006)
    grip = float(number(found, "grip and tape by themselves").split()[0])
    cap = float(number(found, "cap:").split()[0])
    assert -grip - cap == pytest.approx(apart, abs=0.011)
    # 411.6 g of club without grip, a cap of 0.14 in, 49.61 g in a point.
    mass_g = at["total_weight", "dry, no grip"].mean * 1e3
    assert cap == pytest.approx(mass_g * 0.14 / 49.61, abs=0.006)
    assert number(found, "read: swing weight") == "D1.9"


def test_what_is_expected_holds_the_gauge_s_own_uncertainty() -> None:
    exact = changed(WEDGE, head={"mass": "296.4 g ± 0.001 g"})
    found = next(item for item in step(exact, "weigh").expected if item.quantity == "head.mass")
    # The usual gram scale: step 0.1 g, repeatability 0.05 g, bias 0.05 g.
    assert found.sd * 1e3 == pytest.approx(math.sqrt(0.1**2 / 12 + 0.05**2 + 0.05**2), abs=1e-4)
    assert (found.high - found.low) / found.sd == pytest.approx(2 * 1.96, abs=1e-3)
    assert "296.4 g" in found.text


def test_the_best_weight_and_its_rivals_come_with_their_chances() -> None:
    found = step(WEDGE, "choose weight")
    worked = work_document(WEDGE)
    best = choices(worked.club_state)[0]
    assert number(found, "best").startswith(f"port 4: {best.chance:.0%}; swing weight")
    rivals = [text for label, text in found.numbers if label.startswith("alternative")]
    assert len(rivals) == 3
    assert not [text for text in rivals if text.startswith("port 4:")]


def test_the_mix_is_weighed_by_the_sheet_and_on_its_basis() -> None:
    found = step(WEDGE, "mix")
    # 8 joints of 1.2 g and a quarter more: 12.0 g at 100:44 is 8.33 g and 3.67 g.
    assert number(found, "both") == "12.00 g"
    assert number(found, "part A") == "8.33 g"
    assert number(found, "part B") == "3.67 g"
    assert number(found, "ratio on the sheet") == "100:44 by weight"
    assert number(found, "pot life") == "30 min"
    silent = step(changed(WEDGE, adhesive={"basis": None}), "mix")
    assert not [label for label, _ in silent.numbers if label.startswith("part")]
    assert any("basis" in sentence for sentence in silent.what)


def test_a_batch_too_small_for_the_scale_is_said() -> None:
    found = step(changed(WEDGE, adhesive={"joints": "1"}), "mix")
    assert any("Mix at least" in sentence for sentence in found.what)


def test_the_cure_follows_the_table_and_refuses_below_it() -> None:
    adhesive = {"temperature": "30 C", "release": RELEASE}
    found = step(changed(WEDGE, adhesive=adhesive), "cure")
    # Log-linear half way between 15 h and 3 h: sqrt(45) h = 6 h 42 min 29 s; a wait is rounded up.
    assert number(found, "cured, may be hit after, at 30.0 C") == "6 h 43 min"
    cold = step(changed(WEDGE, adhesive={"temperature": "15 C", "release": RELEASE}), "cure")
    assert not [label for label, _ in cold.numbers if label.startswith("cured, may be hit after")]
    assert any("No release at 15.0" in sentence for sentence in cold.what)
    assert any("Warm the part" in sentence for sentence in cold.what)
    assert any("no cure times" in sentence for sentence in step(WEDGE, "cure").what)


def test_the_grip_step_shows_core_layers_and_diameter() -> None:
    document = changed(WEDGE, target={"grip_diameter_2in": "0.920 in"}, grip={"logo": "down", "core": "60"})
    found = step(document, "grip")
    assert number(found, "core") == "0.600 in"
    assert "full length" in number(found, "wraps of build-up tape")
    assert number(found, "one wrap") == "0.005 in (0.13 mm)"
    assert number(found, "logo") == "down"
    assert [item.quantity for item in found.expected] == ["grip_diameter_2in"]


def test_bends_are_said_in_words_with_a_side() -> None:
    found = step(changed(WEDGE, target={"loft": "53.3 deg", "lie": "65 deg"}), "loft and lie")
    assert number(found, "bend the loft") == "1 deg strong (-1.00 deg), 1 pull"
    assert number(found, "bend the lie") == "1 deg upright (+1.00 deg), 1 pull"
    assert number(found, "routine limit").startswith("loft 2.0 deg, lie 2.0 deg (forged carbon steel")
    order = [sentence for sentence in found.what if sentence.startswith("Bend the")]
    assert [sentence.split()[2] for sentence in order] == ["loft", "lie"]
    assert any("Measure the bounce: 9.00 deg" in sentence for sentence in found.what)
    still = step(changed(WEDGE, target={"loft": "54.3 deg", "lie": "64 deg"}), "loft and lie")
    assert "Nothing is bent." in still.what
    assert not [label for label, _ in still.numbers if label.startswith("bend the")]


def test_a_relative_order_is_shown_as_what_it_comes_to() -> None:
    document = changed(WEDGE, target={"lie": "1/2 flat"}, base={"lie": "64 deg"})
    assert number(step(document, "inspect"), "lie ordered") == "1/2 flat = 63.5 deg (-0.5 deg from the base) ± 1/2 deg"
    assert number(step(document, "inspect"), "loft ordered") == "54 deg ± 1/2 deg"
    assert number(step(document, "inspect"), "length ordered") == "35 1/4 in (35.250 in, 895.35 mm) ± 1/32 in"
    assert number(step(document, "inspect"), "swing weight ordered") == "D4 ± 1/2 pt"


def test_weights_of_one_name_are_counted() -> None:
    tray = [{"name": "melt", "mass": "1 g", "seat": "head", "count": "3", "fitted": "2"}]
    assert number(step(changed(WEDGE, weight=tray, reading=[]), "tag"), "weights on it") == "2 x melt"


def test_angles_nobody_ordered_or_measured_are_not_expected() -> None:
    found = step(changed(WEDGE, head={"bounce": None}), "head check")
    assert [item.quantity for item in found.expected] == ["head.loft", "head.lie"]


def test_a_bend_beyond_the_metal_is_refused_with_its_reason() -> None:
    found = step(changed(WEDGE, target={"loft": "48 deg"}), "loft and lie")
    assert not [label for label, _ in found.numbers if label.startswith("bend the")]
    assert any("loft" in sentence and "2.00 deg" in sentence for sentence in found.what), found.what


def test_an_unmeasured_head_is_measured_before_a_bend() -> None:
    found = step(changed(WEDGE, head={"loft": None, "lie": None}), "loft and lie")
    assert any("measure loft, lie and bounce" in sentence for sentence in found.what)
    assert found.cautions[-1] == say(DEFER, None)


def test_the_inspection_expects_every_target_with_the_chosen_weights_on() -> None:
    found = step(WEDGE, "inspect")
    at = {item.quantity: item for item in found.expected}
    assert list(at) == ["length", "swing_weight", "total_weight", "loft", "lie"]
    worked = work_document(WEDGE)
    best = choices(worked.club_state)[0]
    # What the scale will show is what the club is, and the scale's own bias as far as readings have told it.
    bias = worked.club_state.belief.mean_of("bias:usual gauge:swing_weight")
    assert at["swing_weight"].mean == pytest.approx(float(best.mean[0]) + bias, abs=1e-9)
    assert at["swing_weight"].stage == "finished"


def test_an_angle_is_expected_as_the_plan_bends_it() -> None:
    document = changed(WEDGE, target={"lie": "65 deg"})
    for key in ("loft and lie", "inspect"):
        lie = next(item for item in step(document, key).expected if item.quantity == "lie")
        assert math.degrees(lie.mean) == pytest.approx(65.0, abs=1e-6)
        # 0.25 deg of the first measurement, 0.1 deg of the bend, and the usual gauge: 0.25 / sqrt(12), 0.15 and 0.2 deg.
        spread = math.sqrt(0.25**2 + 0.1**2 + 0.25**2 / 12 + 0.15**2 + 0.2**2)
        assert math.degrees(lie.sd) == pytest.approx(spread, abs=1e-6)


def test_a_gauge_that_cannot_prove_a_tolerance_is_named() -> None:
    tight = changed(WEDGE, tolerance={"swing_weight": "0.43 pt", "lie": "1/4 deg", "loft": "1 deg"})
    said = [sentence for sentence in step(tight, "inspect").what if "cannot prove" in sentence]
    assert [sentence.split("cannot prove ")[1].split(" ±")[0] for sentence in said] == ["lie", "swing weight"]
    # The usual lie gauge's bias alone, twice 0.2 deg, is more than 1/4 deg; the scale's, twice 0.2 pt, is less than 0.43 pt.
    assert "No number of repeats" in said[0]
    assert "The mean of 2 can" in said[1]
    simple = changed(tight, shop={"decision_rule": "simple"})
    assert not [sentence for sentence in step(simple, "inspect").what if "cannot prove" in sentence]


def test_guard_factors_are_those_of_the_decision_rules() -> None:
    assert set(GUARD_FACTORS) == set(RULES)
    for name, factor in GUARD_FACTORS.items():
        assert factor == pytest.approx(RULES[name].guard_factor, rel=1e-12)


def test_a_closed_gate_says_why_before_anything_else() -> None:
    unknown = changed(WEDGE, head={"bore_to_ground": None}, grip={"cap": None})
    found = step(unknown, "mark and cut")
    assert found.gate == "cut"
    assert found.sentences[0].startswith("Not open yet: ")
    assert "bore is not measured" in found.sentences[0]
    assert "cap of this grip" in found.sentences[0]
    assert not step(WEDGE, "mark and cut").waits
    glue = step(changed(WEDGE, reading=[]), "glue")
    assert "no dry swing-weight reading" in glue.sentences[0]
    assert not step(WEDGE, "glue").waits
    assert "not glued yet" in step(WEDGE, "loft and lie").sentences[0]


def test_the_release_gate_opens_with_the_cure() -> None:
    document = changed(WEDGE, adhesive={"release": RELEASE})
    cured = plan(document, progress=Progress(glued=True, cure=((15 * 3600.0, 293.15),)))
    last = cured[-1]
    assert last.key == "tag"
    assert last.gate == "release"
    assert not last.waits


def test_steps_are_numbered_from_one_and_marked_done() -> None:
    steps = plan(WEDGE, done=frozenset({"pull", "weigh", "no such step"}))
    assert [item.number for item in steps] == list(range(1, len(steps) + 1))
    assert [item.key for item in steps if item.done] == ["pull", "weigh"]


@pytest.mark.parametrize(
    "key",
    ["tip prep", "mark and cut", "choose weight", "mix", "glue", "cure", "ferrule finish", "grip", "loft and lie"],
)
def test_a_step_that_can_hurt_has_its_cautions(key: str) -> None:
    assert step(WEDGE, key).cautions[-1] == say(DEFER, None)


@pytest.mark.parametrize("key", ["pull head", "clean bore"])
def test_rework_has_its_cautions(key: str) -> None:
    assert step(changed(WEDGE, ticket={"job": "reshaft"}), key).cautions[-1] == say(DEFER, None)


def test_every_step_says_what_and_when_it_is_done() -> None:
    for document in (WEDGE, wood(), putter(), changed(WEDGE, ticket={"job": "regrip"}, reading=[])):
        for item in plan(document):
            assert item.title
            assert item.what
            assert item.done_when.endswith(".")
            assert all(label and text for label, text in item.numbers)


def test_rules_of_thumb_stand_beside_the_exact_figure() -> None:
    lines = [say(rule, None) for rule in rule_lines(work_document(WEDGE).club_state)]
    assert lines[0].startswith("head weight for one point: the rule says 2.0 g, this club 2.3")
    assert len(lines) == 4

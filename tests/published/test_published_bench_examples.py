"""ClubAnswer examples of the bench, each through a whole ticket: cut sums, predicted readings, port weights, balance point.

The examples were worked by hand from the definitions (moments about a fulcrum 14 in from the cap; one point 1.75 oz in,
D0 213.5 oz in), on paper and apart from this program: standing "derived". Parts are invented. Their figures are given to
a few digits, and the tolerances are what those digits allow. Every part is given with an uncertainty of next to nothing,
so that what is compared is the mechanics.
"""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

import pytest

from clubwright.services.answer.club_answer import answer_document

Document = dict[str, Any]
Published = Callable[..., None]

SOURCE = "worked example by hand from the definitions, bench examples"
INCH_M = 0.0254
GRAM_KG = 1e-3


def inches(value: float) -> str:
    return f"{value:.6f} in ± 0.00001 in"


def grams(value: float) -> str:
    return f"{value:.6f} g ± 0.00001 g"


def seven_iron(length: float = 37.0) -> Document:
    """The 37 in club of the examples: a 105 g shaft of 35.525 in balanced 17.55 in from its butt, cut from a longer one.

    The offcut weighs 2.94 g/in (1.47 g for half an inch), so the uncut shaft is put together backwards from the cut one.
    """
    cut, spare, density = 35.525, 2.475, 2.94
    raw_mass = 105.0 + spare * density
    raw_balance = (105.0 * (cut - 17.55) + spare * density * (cut + spare / 2)) / raw_mass
    return {
        "ticket": {"id": "EX-4", "kind": "iron", "hand": "right"},
        "target": {"length": f"{length} in"},
        "head": {
            "mass": grams(270.0),
            "bore_to_ground": inches(1.35),
            "bore_depth": inches(1.30),
            "cg_from_ground": inches(0.10),
            "cg_off_axis": "0 mm ± 0.001 mm",
            "own_inertia": "0.0001 kg cm2 ± 0.00001 kg cm2",
        },
        "shaft": {
            "tip": "parallel",
            "raw_length": inches(cut + spare),
            "mass": grams(raw_mass),
            "balance_from_tip": inches(raw_balance),
            "butt_density": f"{density} g/in ± 0.000001 g/in",
            "cut_length": inches(length - 1.35 - 0.125),
        },
        "ferrule": {"mass": grams(0.7), "length": inches(0.5)},
        "adhesive": {"in_joint": grams(0.8)},
        "tape": [{"layers": "1", "mass": grams(1.6), "cg_from_cap": inches(5.2), "length": inches(10.0)}],
        "grip": {
            "mass": grams(49.5),
            "cap": inches(0.125),
            "cg_from_cap": inches(4.05),
            "length": inches(10.5),
        },
    }


def finished(document: Document, key: str) -> float:
    return float(answer_document(document)["finished"][key]["mean"])


def test_butt_cut_of_a_taper_wedge(published: Published) -> None:
    cut = answer_document(
        {
            "ticket": {"id": "EX-1", "kind": "wedge", "hand": "right"},
            "target": {"length": "35.25 in"},
            "head": {"bore_to_ground": "1.10 in"},
            "shaft": {"tip": "taper", "raw_length": "37 in"},
            "grip": {"cap": "0.14 in"},
        }
    )["cut"]
    published(
        quantity="shaft of a 35.25 in wedge",
        source=SOURCE,
        theirs=34.01,
        ours=cut["mark_from_tip_m"] / INCH_M,
        tolerance=1e-6,
        unit="in",
        standing="derived",
    )
    published(
        quantity="offcut of a 37 in shaft for it",
        source=SOURCE,
        theirs=2.99,
        ours=cut["butt_cut_m"] / INCH_M,
        tolerance=1e-6,
        unit="in",
        standing="derived",
    )
    published(
        quantity="mark in millimetres",
        source=SOURCE,
        theirs=863.9,
        ours=cut["mark_from_tip_m"] * 1e3,
        tolerance=0.05,
        unit="mm",
        standing="derived",
    )
    assert "34.010 in, 863.85 mm" in cut["text"]
    assert "waste side, towards the butt" in cut["text"]


def test_tip_and_butt_cut_of_a_parallel_seven_iron(published: Published) -> None:
    # The sheet's 3.00 in is for a bore of 1.00 in; this head's is 1.35 in, so 3.35 in is what the ticket says.
    cut = answer_document(
        {
            "ticket": {"id": "EX-2", "kind": "iron", "hand": "right"},
            "target": {"length": "37 in"},
            "head": {"bore_to_ground": "1.35 in"},
            "shaft": {"tip": "parallel", "raw_length": "41 in", "tip_trim": "3.35 in"},
            "grip": {"cap": "0.125 in"},
        }
    )["cut"]
    for what, theirs, key in (
        ("shaft of a 37 in iron", 35.525, "shaft_length_m"),
        ("its butt cut", 2.125, "butt_cut_m"),
        ("its tip trim", 3.35, "tip_trim_m"),
    ):
        published(
            quantity=what,
            source=SOURCE,
            theirs=theirs,
            ours=cut[key] / INCH_M,
            tolerance=1e-6,
            unit="in",
            standing="derived",
        )
    total = cut["tip_trim_m"] + cut["shaft_length_m"] + cut["butt_cut_m"]
    assert total == pytest.approx(41 * INCH_M, abs=1e-12)
    assert cut["text"].startswith("Cut 3 11/32 in + 0.006 in (3.350 in, 85.09 mm) off the TIP first.")


def test_gripped_swing_weight_of_a_seven_iron(published: Published) -> None:
    document = seven_iron()
    for what, theirs, key, scale, tolerance, unit in (
        ("total weight of the 37 in iron", 427.6, "total_weight", GRAM_KG, 0.01, "g"),
        ("its swing weight above A0", 30.82, "swing_weight", 1.0, 0.01, "pt"),
        ("its moment of inertia about the cap", 2675.0, "moi", 1e-4, 1.0, "kg cm2"),
        ("its balance point", 28.25, "balance_point", INCH_M, 0.005, "in"),
    ):
        published(
            quantity=what,
            source=SOURCE,
            theirs=theirs,
            ours=finished(document, key) / scale,
            tolerance=tolerance,
            unit=unit,
            standing="derived",
        )
    assert answer_document(document)["finished"]["swing_weight"]["text"].startswith("D0.8")


def test_the_same_club_without_its_grip(published: Published) -> None:
    stages = answer_document(seven_iron())["stages"]
    bare = stages["glued, no grip"]["swing_weight"]["mean"]
    published(
        quantity="swing weight above A0 without grip and tape, stop on the butt",
        source=SOURCE,
        theirs=40.08,
        ours=bare,
        tolerance=0.01,
        unit="pt",
        standing="derived",
    )
    published(
        quantity="what grip and tape take off, cap shift counted",
        source=SOURCE,
        theirs=9.26,
        ours=bare - stages["finished"]["swing_weight"]["mean"],
        tolerance=0.01,
        unit="pt",
        standing="derived",
    )


def port_weight_ticket() -> Document:
    """A wedge read dry at D0.5 before ferrule and adhesive were on; three port weights were weighed.

    A reading "dry, gripped" has the ferrule on, so the example's own 12.8 g in of ferrule are added to the D0.5 it read. The
    head's mass is left open (10 g either way): the reading settles it.
    """
    ferrule_points = 12.8 / 49.61
    return {
        "ticket": {"id": "EX-6", "kind": "wedge", "hand": "right"},
        "target": {"length": "35.25 in", "swing_weight": "D4"},
        "tolerance": {"swing_weight": "1/4 pt"},
        "head": {
            "mass": "296 g ± 10 g",
            "bore_to_ground": inches(1.10),
            "bore_depth": inches(1.90),
            "cg_from_ground": inches(0.1),
        },
        "shaft": {
            "tip": "taper",
            "raw_length": inches(34.025),
            "mass": grams(115.0),
            "balance_from_tip": inches(17.7),
            "butt_density": "3 g/in ± 0.000001 g/in",
            "cut_length": inches(34.025),
        },
        # In the ferrule's place 2.95 in and the adhesive's 2.05 in from the ground: 32.3 in and 33.2 in from the cap.
        "ferrule": {"mass": grams(0.7), "length": "0.001 in ± 0.00001 in"},
        "adhesive": {"in_joint": grams(0.8)},
        "tape": [{"layers": "1", "mass": grams(1.6), "cg_from_cap": inches(5.2)}],
        "grip": {"mass": grams(49.5), "cap": inches(0.125), "cg_from_cap": inches(4.05)},
        "weight": [
            {"name": f"port {mass}", "mass": grams(mass), "seat": "port", "from_ground": inches(0.40)}
            for mass in (6.05, 6.95, 8.10)
        ],
        "reading": [
            {
                "quantity": "swing_weight",
                "value": f"D{0.5 + ferrule_points:.4f} ± 0.0001",
                "stage": "dry, gripped",
                "weights": [],
            }
        ],
        "shop": {"most_pieces": "1"},
    }


def test_port_weight_after_a_dry_reading(published: Published) -> None:
    answer = answer_document(port_weight_ticket())
    by_name = {tuple(item["weights"]): item["finished"]["swing_weight"]["mean"] for item in answer["advice"]}
    for name, theirs in (("6.05", 33.61), ("6.95", 33.99), ("8.1", 34.47)):
        published(
            quantity=f"swing weight above A0 with the {name} g port weight",
            source=SOURCE,
            theirs=theirs,
            ours=by_name[f"port {name}",],
            tolerance=0.01,
            unit="pt",
            standing="derived",
        )
    assert answer["advice"][0]["do"] == "fit port 6.95"


def test_half_an_inch_more(published: Published) -> None:
    short, long = seven_iron(), seven_iron(37.5)
    for what, theirs, key, scale, tolerance, unit in (
        ("half an inch more: swing weight", 3.39, "swing_weight", 1.0, 0.01, "pt"),
        ("half an inch more: total weight", 1.47, "total_weight", GRAM_KG, 0.01, "g"),
        ("half an inch more: moment of inertia", 77.0, "moi", 1e-4, 1.0, "kg cm2"),
    ):
        published(
            quantity=what,
            source=SOURCE,
            theirs=theirs,
            ours=(finished(long, key) - finished(short, key)) / scale,
            tolerance=tolerance,
            unit=unit,
            standing="derived",
        )
    cuts = [answer_document(document)["cut"] for document in (short, long)]
    assert cuts[1]["mark_from_tip_m"] - cuts[0]["mark_from_tip_m"] == pytest.approx(0.5 * INCH_M, abs=1e-9)
    assert cuts[0]["butt_cut_m"] - cuts[1]["butt_cut_m"] == pytest.approx(0.5 * INCH_M, abs=1e-9)


def test_swing_weight_from_balance_point_and_weight(published: Published) -> None:
    # Head and grip are left open, so that nothing but the two readings says what the club is.
    document = copy.deepcopy(seven_iron())
    document["head"]["mass"] = "270 g ± 30 g"
    document["grip"]["mass"] = "50 g ± 30 g"
    document["reading"] = [
        {"quantity": "total_weight", "value": "427.6 g ± 0.3 g"},
        {"quantity": "balance_point", "value": "28.25 in ± 0.03125 in"},
    ]
    found = answer_document(document)["finished"]["swing_weight"]
    published(
        quantity="swing weight above A0 from 427.6 g balanced at 28.25 in",
        source=SOURCE,
        theirs=(14.25 * 427.6 - 4564.3) / 49.61,
        ours=found["mean"],
        tolerance=0.02,
        unit="pt",
        standing="derived",
    )
    published(
        quantity="its standard uncertainty, from 0.3 g and 1/32 in",
        source=SOURCE,
        theirs=0.28,
        ours=found["sd"],
        tolerance=0.006,
        unit="pt",
        standing="derived",
    )

"""Every bad input of a ticket gives findings with where, what and mend, all at once; a good one is read exactly."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from clubwright.errors import Finding
from clubwright.services.answer.club_answer import answer_document
from clubwright.ticket.read import read_ticket

GOOD: dict[str, Any] = {
    "ticket": {"id": "T-1", "kind": "wedge", "hand": "right"},
    "target": {"length": "35 1/4 in", "loft": "54 deg", "swing_weight": "D4"},
    "tolerance": {"swing_weight": "1/4 pt"},
    "base": {"length": "35 in", "loft": "54 deg", "lie": "64 deg"},
    "head": {
        "mass": "296.4 g",
        "loft": "54.3 deg",
        "lie": "64 deg",
        "bore_to_ground": "1.1 in",
        "bore_depth": "1.25 in",
    },
    "shaft": {"tip": "taper", "raw_length": "37 in", "mass": "125.2 g", "butt_density": "3.6 g/in"},
    "grip": {"mass": "49.6 g", "length": "10 1/2 in", "cap": "1/8 in", "cg_from_cap": "4.1 in", "core": "60"},
    "adhesive": {"in_joint": "0.8 g", "release": [{"temperature": "25 C", "time": "24 h"}]},
    "weight": [
        {"name": "port 2", "mass": "2.02 g", "seat": "port", "from_ground": "10 mm", "count": "2"},
        {"name": "butt 6", "mass": "6 g", "seat": "butt", "from_cap": "20 mm"},
    ],
    "tape": [{"layers": "1", "mass": "1.6 g"}],
    "reading": [
        {
            "quantity": "swing_weight",
            "value": "D1.9",
            "stage": "dry, gripped",
            "weights": [],
            "instrument": "scale",
            "repeats": "2",
        }
    ],
    "instrument": {"scale": {"resolution": "0.1 pt", "repeatability": "0.1 pt"}},
}


def changed(path: str, value: Any) -> dict[str, Any]:
    """The good document with one place set to a value; ``weight.0.mass`` names a place; None takes it away."""
    document = copy.deepcopy(GOOD)
    *way, last = path.split("/")
    inner: Any = document
    for step in way:
        inner = inner[int(step)] if isinstance(inner, list) else inner[step]
    if value is None:
        del inner[last]
    elif isinstance(inner, list):
        inner[int(last)] = value
    else:
        inner[last] = value
    return document


def findings(document: dict[str, Any], severity: str = "error") -> list[Finding]:
    return [finding for finding in read_ticket(document, "t.toml")[1] if finding.severity == severity]


def test_the_good_document_is_read_without_any_finding() -> None:
    ticket, found = read_ticket(GOOD, "t.toml")
    assert found == ()
    assert ticket is not None
    assert ticket.row("head").numbers["mass"].value == pytest.approx(0.2964, abs=1e-15)
    assert ticket.row("head").numbers["mass"].typed == "296.4 g"
    assert ticket.targets["length"].value == pytest.approx(0.89535, abs=1e-15)
    assert ticket.fitted_now == (0.0, 0.0)


# what is wrong: place in the document, value written there, where the finding points, what it says, how to mend it
BAD = {
    "unknown table": ("heads", {}, "[heads]", "no such table", "Did you mean head?"),
    "unknown table, nothing near": ("zzzz", {}, "[zzzz]", "no such table", "Known here: ticket"),
    "unknown key": ("head/mas", "300 g", "[head] mas", "no such key", "Did you mean mass?"),
    "unknown key in a list": ("weight/0/seet", "port", "[[weight]] 1 seet", "no such key", "Did you mean seat?"),
    "number without quotes": ("head/mass", 296.4, "[head] mass", "not in quotes", '"296.4 g"'),
    "truth value": ("ticket/id", True, "[ticket] id", "not in quotes", '"T-0042"'),
    "comma": ("shaft/raw_length", "35,5", "[shaft] raw_length", "has a comma", "Write a point"),
    "wrong unit": ("head/mass", "296.4 mm", "[head] mass", "296.4 mm", "such as 299.4 g"),
    "no unit": ("head/mass", "296.4", "[head] mass", "296.4", "with its unit"),
    "not a number": ("head/mass", "NaN", "[head] mass", "NaN", "with its unit"),
    "infinite": ("grip/mass", "inf g", "[grip] mass", "inf", "with its unit"),
    "needed table": ("ticket", None, "[ticket] kind", "missing", 'kind = "wedge"'),
    "needed key": ("ticket/kind", None, "[ticket] kind", "missing", 'kind = "wedge"'),
    "needed key, empty": ("ticket/id", " ", "[ticket] id", "empty", '"T-0042"'),
    "needed key in a list": ("weight/0/mass", None, "[[weight]] 1 mass", "missing", 'mass = "6.05 g"'),
    "word of a choice": ("ticket/kind", "Wedge", "[ticket] kind", "none of the words", "driver, fairway"),
    "table that is no table": ("head", "296 g", "[head]", "must be a table", "Write [head]"),
    "list that is no list": ("weight", {"name": "x"}, "[[weight]]", "list of tables", "[[weight]] before each"),
    "release that is no list": ("adhesive/release", "24 h", "[[adhesive.release]]", "list of tables", "before each"),
    "weight of another name": (
        "reading/0/weights",
        ["port 3"],
        "[[reading]] 1 weights",
        "port 3",
        "Did you mean port 2?",
    ),
    "weights not a list": ("reading/0/weights", "port 2", "[[reading]] 1 weights", "not a list", '["port 6"]'),
    "weights of numbers": ("reading/0/weights", [2], "[[reading]] 1 weights", "not a list", '["port 6"]'),
    "gauge of another name": ("reading/0/instrument", "scales", "[[reading]] 1 instrument", "scales", "mean scale?"),
    "stage of another name": ("reading/0/stage", "gripped", "[[reading]] 1 stage", "gripped", "dry, gripped"),
    "quantity of another name": ("reading/0/quantity", "swingweight", "quantity", "swingweight", "mean swing_weight?"),
    "reading of frequency": (
        "reading/0/quantity",
        "frequency",
        "[[reading]] 1 value",
        "start with a number",
        "255 cpm",
    ),
    "reading of no number": ("reading/0/quantity", "head.name", "[[reading]] 1 quantity", "cannot be read", "head"),
    "value of another kind": ("reading/0/value", "300 g", "[[reading]] 1 value", "300 g", "D"),
    "repeats 0": ("reading/0/repeats", "0", "[[reading]] 1 repeats", "at least one", "how often"),
    "repeats a half": ("reading/0/repeats", "1.5", "[[reading]] 1 repeats", "whole number", "whole number"),
    "negative tolerance": ("tolerance/swing_weight", "-1/4 pt", "[tolerance] swing_weight", "-1/4 pt", "1/4 pt"),
    "zero tolerance": ("tolerance/swing_weight", "0 pt", "[tolerance] swing_weight", "no half-width", "1/4 pt"),
    "tolerance in D": ("tolerance/swing_weight", "D4", "[tolerance] swing_weight", "D4", "1/4 pt"),
    "two weights of a name": ("weight/1/name", "port 2", "[[weight]] 2 name", "two weights", "use count"),
    "name with a line break": ("weight/1/name", "a\nb", "[[weight]] 2 name", "cannot be seen", "Type it anew"),
    "butt weight from the ground": (
        "weight/1/from_ground",
        "1 in",
        "[[weight]] 2 from_ground",
        "from the cap",
        "from_cap",
    ),
    "port weight from the cap": ("weight/0/from_cap", "1 in", "[[weight]] 1 from_cap", "only a butt", "from_ground"),
    "gauge without figures": ("instrument/scale", {}, "[instrument.scale]", "name and its figures", "smallest step"),
    "gauge that is no table": ("instrument/scale", "0.1 pt", "[instrument.scale]", "a table", "its keys"),
    "gauges that are no table": ("instrument", "scale", "[instrument]", "tables by name", "[instrument.NAME]"),
    "gauge of perfect readings": (
        "instrument/scale",
        {"bias": "0.1 pt"},
        "[instrument.scale]",
        "perfect",
        "step it shows",
    ),
    "gauge of a negative figure": ("instrument/scale/resolution", "-1 pt", "scale] resolution", "negative", "the size"),
    "gauge of another notation": ("instrument/scale/resolution", "1 g", "scale] resolution", "1 g", "pt"),
    "key of a gauge": ("instrument/scale/step", "1 pt", "[instrument.scale] step", "cannot be used", "resolution"),
    "relative without a base": ("base", None, "[target] length", "+1/4", "base"),
    # What is well written and cannot be:
    "more fitted than there are": ("weight/0/fitted", "3", "[[weight]] 1 fitted", "3 are fitted", "count"),
    "more read than there are": ("reading/0/weights", ["port 2"] * 3, "[[reading]] 1 weights", "3 times", "count"),
    "tip trim longer than the shaft": ("shaft/tip_trim", "38 in", "[shaft] tip_trim", "nothing is left", "measure"),
    "cap thicker than the grip is long": ("grip/length", "1/8 in", "[grip] cap", "thicker than the grip", "measure"),
    "centre outside the grip": ("grip/cg_from_cap", "11 in", "[grip] cg_from_cap", "outside the grip", "measure"),
    "offcut heavier than the shaft": ("shaft/butt_density", "50 g/in", "[shaft] butt_density", "offcuts", "Weigh"),
    "bore deeper than a hosel": ("head/bore_depth", "5 in", "[head] bore_depth", "within its hosel", "measure"),
    "hosel up the shaft": ("head/bore_to_ground", "4.7 in", "[head] bore_depth", "above the ground", "measure"),
    "bore below the ground": ("head/bore_to_ground", "-1 in", "[head] bore_to_ground", "cannot be", "measure"),
    "lie of 10 degrees": ("head/lie", "10 deg", "[head] lie", "cannot be", "unit"),
    "head of 3 kg": ("head/mass", "3 kg", "[head] mass", "cannot be", "unit"),
    "shaft of nothing": ("shaft/mass", "0 g", "[shaft] mass", "cannot be", "unit"),
    "no length": ("target/length", "0 in", "[target] length", "cannot be", "unit"),
    "balance outside the shaft": ("shaft/balance_from_tip", "38 in", "[shaft] balance_from_tip", "outside", "measure"),
    "cut longer than raw": ("shaft/cut_length", "38 in", "[shaft] cut_length", "cannot be cut", "measure"),
    "balance beyond the club": ("target/balance_point", "36 in", "[target] balance_point", "beyond", "measure"),
    "grip thinner than its core": (
        "grip/diameter_2in",
        "0.6 in",
        "[grip] diameter_2in",
        "thicker than that",
        "measure",
    ),
    "loft of a bare shaft": (
        "reading/0",
        {"quantity": "loft", "value": "54 deg", "stage": "bare shaft"},
        "[[reading]] 1 stage",
        "no head",
        "stage",
    ),
    "grip size without a grip": (
        "reading/0",
        {"quantity": "grip_diameter_2in", "value": "0.9 in", "stage": "dry, taped"},
        "[[reading]] 1 stage",
        "no grip on",
        "stage",
    ),
    "reading of no weight": (
        "reading/0",
        {"quantity": "total_weight", "value": "0 g", "stage": "finished"},
        "[[reading]] 1 value",
        "total_weight",
        "unit",
    ),
}


@pytest.mark.parametrize("case", BAD)
def test_bad_input_is_refused_with_where_what_and_mend(case: str) -> None:
    path, value, where, what, mend = BAD[case]
    document = changed(path, value)
    if case == "relative without a base":
        document["target"]["length"] = "+1/4"
    ticket, _ = read_ticket(document, "t.toml")
    found = findings(document)
    assert ticket is None
    assert any(
        str(item.where).startswith("t.toml") and where in str(item.where) and what in item.what and mend in item.mend
        for item in found
    ), [item.sentence() for item in found]
    answer = answer_document(document, "t.toml")
    assert answer["finished"] == {}
    assert len(answer["findings"]) >= len(found)


ODD = {
    "tip trim of a taper tip": ("shaft/tip_trim", "1/2 in", "[shaft] tip_trim", "taper tip", "parallel"),
    "ratio without its basis": ("adhesive/ratio", "2:1", "[adhesive] basis", "without its basis", "data sheet"),
    "lie of a driver on a wedge": ("head/lie", "50 deg", "[head] lie", "unusual", "unit"),
    "loft of a driver on a wedge": ("target/loft", "10 deg", "[target] loft", "unusual", "unit"),
    "head of 500 g": ("head/mass", "500 g", "[head] mass", "unusual", "unit"),
    "number that fits no code": ("ticket/id", "tést 4", "[ticket] id", "code of a label", "letters"),
    "balance far from the middle": ("shaft/balance_from_tip", "30 in", "balance_from_tip", "81%", "before any trim"),
    "density unlike the shaft's": ("shaft/butt_density", "12 g/in", "[shaft] butt_density", "12", "Weigh"),
    "lighter than its parts": ("target/total_weight", "340 g", "[target] total_weight", "alone weigh", "lighter"),
    "club of 6 ft": ("target/length", "6 ft", "[target] length", "unusual", "unit"),
    "warm and slow": (
        "adhesive/release",
        [{"temperature": "20 C", "time": "10 h"}, {"temperature": "30 C", "time": "12 h"}],
        "[[adhesive.release]] 2 time",
        "no sooner",
        "sheet",
    ),
}


@pytest.mark.parametrize("case", ODD)
def test_what_is_odd_is_said_and_taken(case: str) -> None:
    path, value, where, what, mend = ODD[case]
    document = changed(path, value)
    assert read_ticket(document)[0] is not None
    found = findings(document, "warning")
    assert any(where in str(item.where) and what in item.what and mend in item.mend for item in found), found


def test_a_ratio_by_volume_asks_for_both_densities() -> None:
    document = changed("adhesive/ratio", "2:1")
    document["adhesive"]["basis"] = "volume"
    document["adhesive"]["density_a"] = "1.16 g/cm3"
    assert [str(item.where) for item in findings(document, "warning")] == ["t.toml [adhesive] density_b"]


def test_only_a_tip_weight_lifts_the_shaft_and_not_out_of_its_bore() -> None:
    assert "only a tip weight" in findings(changed("weight/0/lifts_shaft", "2 mm"))[0].what
    document = changed("weight/0", {"name": "tip 9", "mass": "9 g", "seat": "tip", "lifts_shaft": "1 1/4 in"})
    assert "no shaft is left in a bore" in findings(document)[0].what


def test_a_seat_holds_only_so_many() -> None:
    document = changed("weight/0/fitted", "2")
    assert findings(document) == []
    document["head"]["ports"] = "1"
    assert [item.what == "2 weights at the port, where 1 can sit" for item in findings(document)] == [True]
    assert str(findings(document)[0].where) == "t.toml [[weight]] fitted"


def test_a_gauge_reads_one_kind_of_quantity() -> None:
    document = changed("reading/0/instrument", "scale")
    document["reading"].append({"quantity": "total_weight", "value": "460 g", "instrument": "scale"})
    (found,) = findings(document)
    assert "mass, points" in found.what
    assert "own gauge" in found.mend


def test_all_findings_of_a_file_come_at_once_in_one_answer() -> None:
    document = changed("head/mass", "296.4")
    document["head"]["lie"] = "10 deg"
    document["shaft"]["raw_length"] = "35,5"
    document["target"]["lofft"] = "54 deg"
    document["weight"][0]["fitted"] = "5"
    document["reading"][0]["stage"] = "raw"
    del document["ticket"]["hand"]
    places = {item["where"] for item in answer_document(document, "t.toml")["findings"]}
    assert places == {
        "t.toml [ticket] hand",
        "t.toml [target] lofft",
        "t.toml [head] mass",
        "t.toml [head] lie",
        "t.toml [shaft] raw_length",
        "t.toml [[weight]] 1 fitted",
        "t.toml [[reading]] 1 stage",
    }


def test_relative_targets_are_counted_from_the_base() -> None:
    document = changed("target/length", "+1/4")
    document["target"]["lie"] = "1/2 flat"
    ticket, _ = read_ticket(document)
    assert ticket is not None
    assert ticket.targets["length"].value == pytest.approx(35.25 * 0.0254, abs=1e-12)
    assert ticket.targets["lie"].value == pytest.approx(1.10828407, abs=1e-8)  # 63.5 degrees


def test_a_frequency_without_a_stiffness_is_kept_and_said_to_be_not_computed() -> None:
    ticket, found = read_ticket(changed("target/frequency", "320 cpm"))
    assert ticket is not None
    assert [(item.severity, "not computed" in item.what) for item in found] == [("note", True)]


@pytest.mark.parametrize(("typed", "number"), [("12", 12), ("²", None), ("9" * 40, None), ("", None)])
def test_the_number_of_a_fact_is_a_plain_number_or_nothing(typed: str, number: int | None) -> None:
    ticket, _ = read_ticket(changed("reading/0/fact", typed))
    assert ticket is not None
    assert ticket.readings[0].fact == number


def test_weights_fitted_now_are_those_of_the_tray_else_of_the_last_reading() -> None:
    read_with, _ = read_ticket(changed("reading/0/weights", [" port 2 ", "port 2"]))
    assert read_with is not None
    assert read_with.fitted_now == (2.0, 0.0)
    document = changed("reading/0/weights", ["port 2"])
    document["weight"][1]["fitted"] = "1"
    fitted, _ = read_ticket(document)
    assert fitted is not None
    assert fitted.fitted_now == (0.0, 1.0)

"""The shop's settings: read with every finding at once, laid in where a ticket is silent, and said so."""

from __future__ import annotations

import copy
from typing import Any

import jsonschema
import pytest

from clubwright.services.answer.club_answer import answer_document, work_document
from clubwright.services.answer.shop_settings import read_completed
from clubwright.ticket.fields.fields import SECTIONS
from clubwright.ticket.fields.schema import shop_schema, ticket_schema
from clubwright.ticket.fields.shop import FROM_SHOP, OF_THE_BENCH, SHOP_SECTIONS, USUAL
from clubwright.ticket.shop.laying import lay_settings, own_of
from clubwright.ticket.shop.settings import NO_SETTINGS, read_shop
from shopwork import shop, ticket


def laid(document: dict[str, Any], settings: dict[str, Any] | None = None) -> dict[str, Any]:
    return lay_settings(document, read_shop(settings or shop()))


def notes(document: dict[str, Any]) -> list[str]:
    answer = answer_document(document, "T.toml", settings=read_shop(shop()))
    return [f"{item['where']}: {item['what']}" for item in answer["findings"] if "shop setting" in item["what"]]


def test_the_fields_are_those_of_the_ticket_and_no_second_list() -> None:
    ticket_fields = {(s.name, f.key): f for s in SECTIONS for f in s.fields}
    for section in SHOP_SECTIONS:
        for field in section.fields:
            if section is not USUAL and section not in OF_THE_BENCH:
                assert ticket_fields[section.name, field.key] is field
    gathered = {(s.name, f.key) for s in SHOP_SECTIONS for f in s.fields}
    assert {place for place, field in ticket_fields.items() if field.shop} <= gathered


def test_a_sound_file_has_no_finding_and_keeps_to_its_schema() -> None:
    settings = read_shop(shop())
    assert settings.findings == ()
    jsonschema.validate(shop(), shop_schema(), cls=jsonschema.Draft202012Validator)
    jsonschema.validate(laid(ticket()), ticket_schema(), cls=jsonschema.Draft202012Validator)


def test_every_finding_comes_at_once_with_its_place_and_its_mend() -> None:
    bad = shop()
    bad["toolerance"] = {}
    bad["usual"]["tape"] = "doubel-sided"
    bad["adhesive"]["two-part"] |= {"ratio": "2 to", "pot_live": "30 min"}
    bad["adhesive"]["slow"] = "epoxy"
    bad["tape"]["double-sided"]["width"] = "9 m"
    bad["tolerance"]["length"] = "-1/16 in"
    bad["instrument"]["swing scale"] = {"bias": "0.05 pt"}
    bad["shop"]["kerf"] = 1
    found = {str(finding.where): finding for finding in read_shop(bad).errors}
    assert set(found) == {
        "shop.toml [toolerance]",
        "shop.toml [usual] tape",
        "shop.toml [adhesive.two-part] ratio",
        "shop.toml [adhesive.two-part] pot_live",
        "shop.toml [adhesive.slow]",
        "shop.toml [tape.double-sided] width",
        "shop.toml [tolerance] length",
        "shop.toml [instrument.swing scale]",
        "shop.toml [shop] kerf",
    }
    assert found["shop.toml [toolerance]"].mend == "Did you mean tolerance?"
    assert found["shop.toml [usual] tape"].mend == "Did you mean double-sided?"
    assert found["shop.toml [adhesive.two-part] pot_live"].mend == "Did you mean pot_life?"
    assert all(finding.mend for finding in found.values())


def test_a_bad_shop_and_a_bad_ticket_are_refused_together() -> None:
    bad = shop()
    bad["tolerance"]["length"] = "long"
    document = ticket(target={"length": "35 1/4 in", "swing_weight": "D99x"})
    read, findings = read_completed(document, "T.toml", read_shop(bad))
    assert read is None
    errors = [str(finding.where) for finding in findings if finding.severity == "error"]
    assert errors == ["shop.toml [tolerance] length", "T.toml [target] swing_weight"]
    alone = answer_document(ticket(), settings=read_shop(bad))
    assert (alone["cut"], alone["stages"]) == (None, {}), "a sound ticket is not worked with a shop that cannot be read"


def test_a_release_row_that_cannot_be_read_leaves_no_half_table() -> None:
    bad = shop()
    bad["adhesive"]["two-part"]["release_times"] = [["20 C", "15 h"], ["25 C", "soon"]]
    settings = read_shop(bad)
    assert "release" not in settings.table("adhesive")["two-part"]
    assert [str(finding.where) for finding in settings.errors] == ["shop.toml [adhesive.two-part.release] 2 time"]


def test_what_the_ticket_says_stands_before_what_the_shop_says() -> None:
    document = ticket(
        tolerance={"length": "1/8 in"}, adhesive={"name": "two-part", "pot_life": "20 min"}, shop={"kerf": "1/16 in"}
    )
    found = laid(document)
    assert found["tolerance"] == {"length": "1/8 in", "swing_weight": "1/2 pt"}
    assert (found["adhesive"]["pot_life"], found["adhesive"]["ratio"]) == ("20 min", "2:1")
    assert found["shop"] == {"kerf": "1/16 in"}
    worked = work_document(document, settings=read_shop(shop()))
    assert {goal.key: goal.tolerance_typed for goal in worked.club_state.goals} == {
        "length": "1/8 in",
        "swing_weight": "1/2 pt",
    }


def test_and_the_shop_before_the_documented_default() -> None:
    tolerances = {
        goal.key: goal.tolerance_typed for goal in work_document(ticket(), settings=read_shop(shop())).club_state.goals
    }
    usual = {goal.key: goal.tolerance_typed for goal in work_document(ticket()).club_state.goals}
    assert (tolerances["length"], tolerances["swing_weight"]) == ("1/16 in", "1/2 pt")
    assert usual["length"] != "1/16 in"


def test_a_ratio_is_never_joined_with_another_sheets_basis() -> None:
    found = laid(ticket(adhesive={"name": "two-part", "ratio": "100:44"}))["adhesive"]
    assert "basis" not in found
    found = laid(ticket(adhesive={"name": "two-part", "basis": "weight"}))["adhesive"]
    assert "ratio" not in found


def test_a_ticket_with_a_sheet_of_its_own_gets_nothing_of_the_usual_adhesive() -> None:
    own = {"ratio": "1:1", "basis": "weight"}
    assert laid(ticket(adhesive=own))["adhesive"] == own
    habit = laid(ticket(adhesive={"in_joint": "0.6 g"}))["adhesive"]
    assert (habit["name"], habit["in_joint"], habit["ratio"]) == ("two-part", "0.6 g", "2:1")
    assert laid(ticket(adhesive={"name": "slow"}))["adhesive"]["pot_life"] == "90 min"


def test_the_masses_of_a_tape_stand_for_one_another() -> None:
    weighed = laid(ticket(tape=[{"name": "double-sided", "layers": "2", "mass": "3.5 g"}]))["tape"][0]
    assert "layer_mass" not in weighed
    assert weighed["cg_from_cap"] == "5.1 in"
    club = work_document(ticket(tape=[{"name": "double-sided", "layers": "2"}]), settings=read_shop(shop()))
    assert club.club_state.club.tapes[0].mass_kg == pytest.approx(3.2e-3)


def test_a_job_without_a_joint_or_a_grip_gets_neither() -> None:
    for job, tables in (("build", {"adhesive", "tape"}), ("regrip", {"tape"}), ("loft-lie", set()), ("weight", set())):
        found = laid(ticket(ticket={"id": "T-1", "kind": "wedge", "hand": "right", "job": job}))
        assert {name for name in ("adhesive", "tape") if name in found} == tables, job
    assert laid(ticket(tape=[]))["tape"] == []


def test_a_gauge_that_the_ticket_describes_is_its_own_whole() -> None:
    own = {"swing scale": {"resolution": "1/4 pt"}}
    assert laid(ticket(instrument=own))["instrument"] == own


def test_a_reading_names_a_gauge_of_the_shop() -> None:
    reading = {
        "quantity": "swing_weight",
        "value": "D3.9",
        "stage": "dry, gripped",
        "weights": [],
        "instrument": "swing scale",
    }
    alone = answer_document(ticket(reading=[reading]))
    assert [item["where"] for item in alone["findings"] if item["severity"] == "error"] == [
        "ticket [[reading]] 1 instrument"
    ]
    worked = work_document(ticket(reading=[reading]), settings=read_shop(shop()))
    assert worked.club_state.gauge("swing_weight").name == "swing scale"


def test_every_figure_of_the_shop_is_announced_with_its_standing() -> None:
    found = notes(ticket())
    assert found[0] == "T.toml [tolerance]: not given: taken as length 1/16 in, swing weight 1/2 pt (shop setting)"
    text = " ".join(found)
    for words in (
        "[adhesive]: not given: taken as name two-part, in joint 0.8 g, ratio 2:1, basis volume",
        "pot life 30 min",
        "release 15 h at 20 C and 12 h at 25 C",
        "[[tape]] 1: not given: taken as name double-sided, layer mass 1.6 g, cg from cap 5.1 in",
        "kerf 1/32 in",
    ):
        assert words in text
    assert "swing scale" not in text, "no reading used that gauge"


def test_a_figure_of_the_ticket_is_not_announced_and_one_changed_since_is_the_tickets_own() -> None:
    document = ticket(tolerance={"length": "1/8 in", "swing_weight": "1/2 pt"}, shop={"kerf": "1/16 in"})
    assert not [line for line in notes(document) if "[tolerance]" in line or "[shop]" in line]
    taken = laid(ticket())
    taken["adhesive"] = {**taken["adhesive"], "pot_life": "20 min"}
    said = [item["what"] for item in answer_document(taken)["findings"] if "[adhesive]" in item["where"]]
    assert not any("pot life" in what for what in said)
    assert any("ratio 2:1" in what for what in said)


def test_a_name_that_nobody_knows_is_said() -> None:
    document = ticket(adhesive={"name": "two-prat"}, tape=[{"name": "hocus"}])
    found = {item["where"]: item for item in answer_document(document, settings=read_shop(shop()))["findings"]}
    assert found["ticket [adhesive] name"]["severity"] == "warning"
    assert found["ticket [adhesive] name"]["mend"].startswith("Did you mean two-part?")
    assert "Known there: double-sided, build-up." in found["ticket [[tape]] 1 name"]["mend"]
    own = ticket(adhesive={"name": "two-prat", "ratio": "1:1", "basis": "weight"})
    answer = answer_document(own, settings=read_shop(shop()))
    assert "ticket [adhesive] name" not in {item["where"] for item in answer["findings"]}


@pytest.mark.parametrize(
    "document",
    [
        ticket(),
        ticket(adhesive={"name": "two-part", "pot_life": "20 min"}, tape=[{"name": "build-up", "layers": "2"}]),
        ticket(adhesive={"in_joint": "0.6 g"}, tolerance={"length": "1/8 in"}),
        ticket(tape=[], grip={"mass": "50 g"}, instrument={"rule": {"resolution": "1/64 in"}}),
        ticket(tape=[{"name": "double-sided"}, {"layers": "1", "mass": "1.5 g"}]),
    ],
)
def test_laid_in_and_taken_out_again_it_is_the_ticket_as_typed(document: dict[str, Any]) -> None:
    before = copy.deepcopy(document)
    found = laid(document)
    assert document == before, "what a person typed is never touched"
    assert found != document
    assert own_of(found) == document
    assert lay_settings(found, read_shop(shop())) == found, "laid in twice is laid in once"


def test_without_settings_nothing_changes() -> None:
    assert lay_settings(ticket(), NO_SETTINGS) == ticket()
    assert answer_document(ticket(), settings=NO_SETTINGS) == answer_document(ticket())


@pytest.mark.parametrize(
    "wrong", ["text", [], {"adhesive": "two-part"}, {"tape": [3]}, {"instrument": {"x": 3}}, {"a": {}}]
)
def test_a_table_that_the_program_did_not_write_breaks_nothing(wrong: Any) -> None:
    for settings in (NO_SETTINGS, read_shop(shop())):
        answer = answer_document(ticket(**{FROM_SHOP: wrong}), settings=settings)
        assert answer.findings
    own_of(ticket(**{FROM_SHOP: wrong}))


@pytest.mark.parametrize(
    "table", [3, "x", [], [3], {"name": []}, {"name": 3}, [{"name": []}], {"x": {}}, [{"name": {"a": 1}}], {"": ""}]
)
def test_no_shape_of_a_table_breaks_the_reading_of_a_shop_or_the_laying(table: Any) -> None:
    for section in ("usual", "adhesive", "tape", "tolerance", "grip", "instrument", "shop"):
        settings = read_shop({**shop(), section: table})
        answer_document(ticket(**{section: table}) if section != "usual" else ticket(), settings=settings)
        answer_document(ticket(**{section: table}), settings=read_shop(shop()))
        assert all(finding.mend for finding in settings.findings)

"""A ticket is written as a ticket file that reads to the same ticket: every example, demo ticket, order in words and job."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from benchwork import JOB, Clock, run
from clubwright.importers.shop_file import load_shop
from clubwright.importers.ticket_file import dump_ticket, load_ticket, parse_ticket
from clubwright.journal.job_ticket import ticket_file_of
from clubwright.services.actions.orders.new_ticket import new_ticket
from clubwright.services.answer.club_answer import work_document, work_ticket
from clubwright.services.answer.shop_settings import completed
from clubwright.services.checks.job_ticket import read_job
from clubwright.services.record.session import Session
from clubwright.ticket.exporting import document_of_ticket
from clubwright.ticket.read import read_ticket
from clubwright.ticket.shop.settings import NO_SETTINGS
from repository import ROOT

EXAMPLES = [path for path in sorted((ROOT / "examples").glob("*.toml")) if path.name != "shop.toml"]
ALONE = [path for path in EXAMPLES if not path.stem.startswith("short-")]
"""Those that do not count on the shop's settings."""
DEMO = ["wedge-54.toml", "iron-7.toml", "putter.toml"]
ORDERS = [
    "54 mid bounce, 35 1/4 to the cap, D4, right hand",
    "7 iron, D2, midsize, left hand",
    "regrip a putter, right hand",
]


def comes_back(document: dict[str, Any]) -> dict[str, Any]:
    """Read, write, read: the ticket and every finding are the same, and what is written does not change any more."""
    ticket, findings = read_ticket(document, "file")
    assert ticket is not None, [finding.sentence() for finding in findings]
    written = tomllib.loads(dump_ticket(document_of_ticket(ticket)))
    again, found = read_ticket(written, "file")
    assert again == ticket
    assert sorted(map(repr, found)) == sorted(map(repr, findings))
    assert document_of_ticket(again) == written
    return written


@pytest.mark.parametrize("path", ALONE, ids=lambda path: path.stem)
def test_an_example_comes_back_as_it_was(path: Path) -> None:
    comes_back(load_ticket(path))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_what_the_shop_said_comes_back_as_the_shops(path: Path) -> None:
    document = completed(load_ticket(path), load_shop(ROOT / "examples" / "shop.toml"))
    assert comes_back(document).get("from_shop") == document.get("from_shop")


@pytest.mark.parametrize("name", DEMO)
def test_a_ticket_of_the_demo_comes_back_as_it_was(name: str) -> None:
    comes_back(parse_ticket((files("clubwright.demo") / name).read_text(encoding="utf-8")))


@pytest.mark.parametrize("order", ORDERS)
def test_an_order_in_words_comes_back_as_it_was(order: str) -> None:
    comes_back(new_ticket(order, "T-1", NO_SETTINGS).document)


FULL: dict[str, Any] = {
    "ticket": {
        "id": "T-9",
        "player": "A. Example",
        "kind": "iron",
        "hand": "right",
        "job": "reshaft",
        "club": "T-2",
        "note": "two\nlines",
        "invented": "yes",
    },
    "base": {"lie": "62 deg", "length": "37 in"},
    "target": {"lie": "2 up", "length": "+1/4", "swing_weight": "D2"},
    "tolerance": {"lie": "1/2 deg"},
    "ferrule": {"mass": "0.8 g", "family": "collar-1", "lot": "lot-7", "piece": "0042"},
    "head": {"hand": "right", "mass": "258.3 g ± 0.2 g", "loft": "33 deg", "lie": "63 deg", "bore_depth": "1 1/4 in"},
    "shaft": {
        "name": "invented",
        "raw_length": "41 in",
        "mass": "112 g",
        "cut_length": "35.5 in",
        "stiffness": {"kind": "table", "at": ["0 in", "20 in", "41 in"], "ei": ["25 N m2", "35 N m2", "60 N m2"]},
    },
    "tape": [],
    "adhesive": {"ratio": "2:1", "basis": "weight", "release": [{"temperature": "20 C", "time": "15 h"}]},
    "weight": [{"name": "tip 4", "mass": "4 g", "seat": "tip", "count": "2", "fitted": "1", "lifts_shaft": "1/8 in"}],
    "old_grip": {"mass_with_tape": "54 g"},
    "old_tape": [{"layers": "2"}],
    "old_shaft": {},
    "change": [
        {"name": "0", "came": "yes", "grip": {"mass": "51 g"}},
        {"name": "1", "head": {"lie": "62 deg", "loft": ""}, "tape": [{"name": "double-sided", "layers": "1"}]},
        {
            "name": "2",
            "shaft": {"another": "yes", "raw_length": "40 in", "stiffness": {"kind": "slope", "alpha": "0.09 N m2/mm"}},
        },
    ],
    "reading": [
        {"quantity": "frequency", "value": "310 cpm", "second_plane": "312 cpm", "instrument": "meter", "fact": "7"},
        {
            "quantity": "total_weight",
            "value": "401.2 g",
            "stage": "dry, gripped",
            "weights": ["tip 4"],
            "keep": "no",
            "before": "2",
        },
        {"quantity": "grip.mass", "value": "50.1 g", "repeats": "3", "job": "T-2", "before": "1"},
    ],
    "instrument": {"meter": {"resolution": "0.1 cpm", "repeatability": "0.4 cpm"}},
    "shop": {"kerf": "1.6 mm", "decision_rule": "simple"},
}


def test_every_kind_of_table_comes_back_as_it_was() -> None:
    written = comes_back(FULL)
    assert written["target"]["lie"] == "2 up"
    assert written["change"][1]["head"]["loft"] == ""
    assert written["change"][2]["shaft"]["stiffness"] == FULL["change"][2]["shaft"]["stiffness"]
    assert written["tape"] == []
    assert written["old_shaft"] == {}


def test_a_job_comes_back_as_it_stands_after_every_action(session: Session, clock: Clock) -> None:
    for _ in run(session, clock):
        state = session.job(JOB)
        written = tomllib.loads(dump_ticket(ticket_file_of(state)))
        again, found = read_ticket(written, f"ticket {JOB}")
        assert (again, found) == read_job(state)
    assert again is not None
    assert work_ticket(again, found).answer() == work_document(state.document, f"ticket {JOB}").answer()
    assert len(written["reading"]) > 5

"""Family, lot and piece of a part: keys of the ticket, kept by family, shown on sheet and club; and who glued the joint."""

from __future__ import annotations

import itertools
from typing import Any

import pytest

from benchwork import JOB, Clock, run
from clubwright.errors import InputError
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.services.actions import bench
from clubwright.services.actions.orders.clubs import jobs_of_club, next_ticket
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.build_again import make_again
from clubwright.services.report.club_part import club_part
from clubwright.ticket.fields.schema import ticket_schema
from clubwright.web.ticket_form_fields import SHOWN

ON_SQLITE = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
WHICH = {"family": "redstart-9", "lot": "lot-7", "piece": "0042"}
CLUB: dict[str, Any] = {
    "ticket": {"id": "T-1", "kind": "iron", "hand": "right", "job": "weight"},
    "head": {"mass": "262 g", **WHICH},
    "shaft": {"cut_length": "910 mm", "cut_mass": "110 g", "family": "larch-120"},
    "grip": {"mass": "50 g", **WHICH, "family": "heather"},
    "ferrule": {"mass": "0.7 g", "lot": "3"},
}
PARTS = ("head", "shaft", "grip", "ferrule")


@ON_SQLITE
def test_the_club_says_which_parts_are_on_it(session: Session) -> None:
    bench.take_ticket(session, CLUB, "ticket")
    assert club_part(jobs_of_club(session, "T-1")).plain()["parts"] == [
        {"part": "head", "name": "", **WHICH},
        {"part": "shaft", "name": "", "family": "larch-120", "lot": "", "piece": ""},
        {"part": "grip", "name": "", **WHICH, "family": "heather"},
        {"part": "ferrule", "name": "", "family": "", "lot": "3", "piece": ""},
    ]
    bench.change_part(session, "T-1", "head", {"piece": "0043"})
    assert club_part(jobs_of_club(session, "T-1")).parts[0].piece == "0043"
    with pytest.raises(InputError, match="is no key"):
        bench.change_part(session, "T-1", "head", {"piece": "the one with a scratch"})


@ON_SQLITE
def test_the_sheet_says_it_too(session: Session) -> None:
    bench.take_ticket(session, CLUB, "ticket")
    job = session.job("T-1")
    lines = {line.part: line.text for line in sheet_data(answer_job(job, session.now()), job, "2026-03-03").parts}
    assert "model redstart-9, lot lot-7, piece 0042" in lines["head"]
    assert "model larch-120" in lines["shaft"]


@ON_SQLITE
def test_another_piece_is_of_the_same_family(session: Session) -> None:
    bench.take_ticket(session, CLUB, "ticket")
    job = session.job("T-1")
    made = make_again(job, answer_job(job, session.now()), "T-2")
    for part in PARTS:
        assert "lot" not in made[part]
        assert "piece" not in made[part]
    assert made["head"]["family"] == "redstart-9"
    bench.take_ticket(session, next_ticket(job, "T-3", "regrip"), "again")
    document = session.job("T-3").document
    assert document["grip"] == {"family": "heather"}
    assert document["head"] == CLUB["head"], "it is the same piece"
    assert document["change"][-1]["grip"]["piece"] == "0042", "the one that comes off"


def test_schema_and_form_have_the_keys() -> None:
    schema = ticket_schema()
    for part in PARTS:
        for key in WHICH:
            assert schema["properties"][part]["properties"][key]["pattern"].startswith("^[A-Za-z0-9]")
            assert key in SHOWN[part]


@ON_SQLITE
def test_who_glued_stands_with_the_club(session: Session, clock: Clock) -> None:
    assert "glue" in itertools.takewhile(lambda name: name != "cure", run(session, clock))
    row = club_part(jobs_of_club(session, JOB)).jobs[0]
    job = session.job(JOB)
    assert row.glued is not None and row.glued.plain() == {"at": job.glued_at, "by": "Ann"}
    signed = sheet_data(answer_job(job, session.now()), job, "2026-03-03").signed_by
    assert [line for line in signed if line.startswith("joint glued: Ann")]

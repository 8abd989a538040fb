"""Clubs of the record: what a later job takes over, and that two jobs are said to be on one club."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from benchwork import Clock
from clubwright.errors import InputError, NotInRecord
from clubwright.journal.facts import ClubSaid, TicketTaken, kind_of
from clubwright.journal.reducers.club_document import taken_over
from clubwright.journal.reducers.fold import fold
from clubwright.services.actions import bench
from clubwright.services.actions.orders.clubs import jobs_of_club
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from journal_facts import chained

ON_SQLITE = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
WORDS = {"kind": "iron", "hand": "right"}
LEFT: dict[str, Any] = {
    "ticket": {**WORDS, "id": "T-1", "job": "regrip", "player": "I. Nvented"},
    "head": {"mass": "262 g", "lie": "62 deg"},
    "shaft": {"cut_length": "910 mm", "cut_mass": "110 g"},
    "grip": {"mass": "49 g", "core": "0.600 in"},
    "tape": [{"name": "base", "layers": "2", "mass": "3.1 g"}],
    "old_grip": {"mass": "61 g"},
    "weight": [{"name": "lead 2", "mass": "2 g", "seat": "head", "fitted": "1"}],
    "change": [{"name": "1", "head": {"lie": "63 deg"}}],
    "reading": [
        {
            "quantity": "total_weight",
            "value": "436 g",
            "stage": "as it came",
            "weights": [],
            "before": "1",
            "fact": "2",
        },
        {
            "quantity": "old_grip.mass",
            "value": "61.4 g",
            "stage": "finished",
            "weights": [],
            "before": "1",
            "fact": "3",
        },
        {"quantity": "total_weight", "value": "425 g", "stage": "finished", "weights": ["lead 2"], "fact": "5"},
    ],
}


def over(job: str, **tables: Any) -> dict[str, Any]:
    return taken_over(copy.deepcopy(LEFT), {"ticket": {"id": "T-2", "job": job}, **tables})


def test_what_comes_off_becomes_a_change_and_what_stays_goes_on() -> None:
    document = over("regrip", grip={"mass": "52 g"}, head={"lie": "61.5 deg"}, target={"swing_weight": "D2"})
    assert document["ticket"] == {**WORDS, "player": "I. Nvented", "id": "T-2", "job": "regrip"}
    assert document["head"] == {"mass": "262 g", "lie": "61.5 deg"}
    assert document["grip"] == {"mass": "52 g"}
    assert "tape" not in document, "the tape comes off with the grip"
    assert document["target"] == {"swing_weight": "D2"}
    assert [row["name"] for row in document["change"]] == ["T-1 as it came", "T-1 1", "T-1"]
    first, bend, last = document["change"]
    assert first["grip"]["mass"] == "61.4 g", "the last figure of the old grip"
    assert bend["head"] == {"lie": "63 deg"}
    assert last == {"name": "T-1", "came": "yes", "grip": LEFT["grip"], "tape": LEFT["tape"]}
    rows = [(row["value"], row["stage"], row["before"], row["job"]) for row in document["reading"]]
    assert rows == [
        ("436 g", "finished", "T-1 as it came", "T-1"),
        ("425 g", "finished", "T-1", "T-1"),
    ]
    assert all("fact" not in row for row in document["reading"]), "numbers of facts are another job's"
    assert work_document(document).club_state.learned.judged


@pytest.mark.parametrize("job", ["loft-lie", "weight"])
def test_where_nothing_comes_off_all_goes_on(job: str) -> None:
    document = over(job)
    assert {name: document[name] for name in ("head", "shaft", "grip", "tape", "weight")} == {
        name: LEFT[name] for name in ("head", "shaft", "grip", "tape", "weight")
    }
    assert document["change"][-1] == {"name": "T-1"}
    assert work_document(document).club_state.prior.club.came is None


def test_in_a_reshaft_the_head_goes_on_and_all_else_is_what_came() -> None:
    document = over("reshaft", shaft={"raw_length": "1000 mm", "mass": "112 g"}, target={"length": "940 mm"})
    assert document["shaft"] == {"raw_length": "1000 mm", "mass": "112 g"}
    assert document["change"][-1]["shaft"] == {**LEFT["shaft"], "another": "yes"}
    club_state = work_document(document).club_state
    came = club_state.prior.club.came
    assert came is not None
    assert came.shaft is not None
    assert came.grip is not None
    assert float(came.shaft.length_m) == pytest.approx(0.910)
    assert float(came.grip.core_m) == pytest.approx(0.600 * 0.0254), "it is known as it was when it went on"
    assert not club_state.ticket.is_cut


def test_what_is_measured_of_the_old_grip_comes_on_top() -> None:
    weighed = work_document(over("regrip", grip={"mass": "52 g"}, old_grip={"mass": "50.3 g"})).club_state.prior
    assert weighed.belief.mean_of("came.grip.mass_kg") == pytest.approx(0.0503)
    both = work_document(over("regrip", grip={"mass": "52 g"}, old_grip={"mass_with_tape": "53 g"})).club_state.prior
    assert both.belief.mean_of("came.grip.mass_kg") == pytest.approx(0.0499)


def test_another_definition_of_length_is_not_taken_for_this_one() -> None:
    left = copy.deepcopy(LEFT)
    left["reading"] = [{"quantity": "length", "value": "940 mm", "stage": "finished", "weights": []}]
    plane = {"target": {"length": "940 mm", "length_method": "60 degree plane"}}
    document = taken_over(left, {"ticket": {"id": "T-2", "job": "weight"}, **plane})
    assert [row["keep"] for row in document["reading"]] == ["no"]
    same = taken_over(left, {"ticket": {"id": "T-2", "job": "weight"}, "target": {"length": "940 mm"}})
    assert "keep" not in same["reading"][0]


def test_a_second_fact_about_the_club_takes_the_place_of_the_first() -> None:
    ticket = TicketTaken(job="T-2", document={"ticket": {**WORDS, "id": "T-2", "job": "weight"}}, source="invented")
    said = ClubSaid(job="T-2", earlier=("van", 9), earlier_job="T-1", as_left=LEFT, reason="its serial")
    assert fold(chained([ticket])).job("T-2").document == ticket.document
    document = fold(chained([ticket, said])).job("T-2").document
    assert document["ticket"]["club"] == "T-1"
    assert document["head"] == LEFT["head"]
    heavier = {**LEFT, "head": {"mass": "270 g"}}
    other = ClubSaid(job="T-2", earlier=("van", 8), earlier_job="T-0", as_left=heavier, reason="no, that one")
    assert fold(chained([ticket, said, other])).job("T-2").document["head"] == {"mass": "270 g"}


def ticket(job: str, work: str = "weight", **tables: Any) -> dict[str, Any]:
    return {"ticket": {**WORDS, "id": job, "job": work}, "head": {"mass": "262 g ± 3 g"}, **tables}


@ON_SQLITE
def test_two_old_jobs_are_said_to_be_one_club(session: Session, clock: Clock) -> None:
    bench.take_ticket(session, ticket("T-1", shaft={"cut_length": "910 mm", "cut_mass": "110 g"}), "first")
    bench.note_reading(session, "T-1", "total_weight", "425 g")
    bench.finish(session, "T-1")
    clock.wait(hours=1)
    bench.take_ticket(session, ticket("T-2", shaft={"cut_length": "910 mm"}), "second")
    bench.finish(session, "T-2")
    assert [job.id for job in jobs_of_club(session, "T-2")] == ["T-2"], "each job of an old record is a club of its own"
    before = answer_job(session.job("T-2"), session.now()).club_state
    fact = bench.say_club(session, "T-2", "T-1", "its serial is filed off alike")
    assert kind_of(fact.what) == "club said"
    after = answer_job(session.job("T-2"), session.now()).club_state
    assert [job.id for job in jobs_of_club(session, "T-1")] == ["T-1", "T-2"]
    assert after.belief.sd_of("head.mass_kg") < before.belief.sd_of("head.mass_kg")
    assert after.ticket.row("shaft").numbers["cut_mass"].typed == "110 g"
    bench.reopen(session, "T-2", "wrong")
    bench.undo(session, "T-2", fact.sequence, "another one")
    undone = answer_job(session.job("T-2"), session.now()).club_state
    assert [job.id for job in jobs_of_club(session, "T-2")] == ["T-2"]
    assert undone.belief.sd_of("head.mass_kg") == before.belief.sd_of("head.mass_kg")


@ON_SQLITE
def test_what_cannot_be_one_club_is_refused(session: Session, clock: Clock) -> None:
    for number, work in (("T-1", "weight"), ("T-2", "weight"), ("T-3", "build")):
        bench.take_ticket(session, ticket(number, work), "ticket")
        clock.wait(hours=1)
    with pytest.raises(NotInRecord, match='no ticket "T-8"'):
        bench.say_club(session, "T-2", "T-8", "its serial")
    bench.finish(session, "T-1")
    bench.finish(session, "T-2")
    with pytest.raises(InputError, match="nobody says how it is known"):
        bench.say_club(session, "T-2", "T-1", " ")
    with pytest.raises(InputError, match="T-2 came in later than T-1"):
        bench.say_club(session, "T-1", "T-2", "its serial")
    with pytest.raises(InputError, match='"build" is no work on a club that is there'):
        bench.say_club(session, "T-3", "T-1", "its serial")
    with pytest.raises(InputError, match="is on that club already"):
        bench.say_club(session, "T-1", "T-1", "its serial")
    bench.say_club(session, "T-2", "T-1", "its serial")
    with pytest.raises(InputError, match="is on that club already"):
        bench.say_club(session, "T-2", "T-1", "its serial again")

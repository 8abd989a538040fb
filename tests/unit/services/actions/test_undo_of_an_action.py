"""The undo of an action at the bench: all its facts, on every job that it touched, by whoever may sign what it signed."""

from __future__ import annotations

import msgspec
import pytest

from benchwork import Clock, document, session_on
from clubwright.errors import NotAllowed, RecordError
from clubwright.journal.facts import Fact, GateSigned, PartChanged, StepDone, Undone, What
from clubwright.services.actions import bench
from clubwright.services.actions.replacing import instead_of
from clubwright.services.record.session import Session
from clubwright.store.ledger import Ledger
from clubwright.web.views.trail_rows import just_undone, trail_rows

pytestmark = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
EXTRA = {"name": "extra", "mass": "2 g", "seat": "port"}
AT = "2026-03-02T08:30:00.000Z"


@pytest.fixture
def two_jobs(ledger: Ledger) -> Session:
    session = session_on(ledger, Clock())
    for number in ("T-1", "T-2"):
        made = document()
        made["ticket"]["id"] = number
        bench.take_ticket(session, made, "t")
    return session


def mass(job: str, place: int, text: str) -> What:
    return PartChanged(job=job, subject=("van", place), section="head", values={"mass": text})


def wrote(session: Session, *whats: What) -> list[Fact]:
    return session.ledger.append("van", list(whats), by="Ann", at=AT, typed="both", key="both")


def test_an_action_on_two_jobs_is_undone_on_both_and_comes_back_on_both(two_jobs: Session) -> None:
    before = [two_jobs.job(number).document for number in ("T-1", "T-2")]
    wrote(
        two_jobs,
        mass("T-1", 1, "296.1 g"),
        mass("T-2", 2, "297.2 g"),
        StepDone(job="T-2", subject=("van", 2), step="weigh"),
    )
    undo = bench.undo(two_jobs, "T-2", key="undo")
    assert [two_jobs.job(number).document for number in ("T-1", "T-2")] == before
    assert two_jobs.job("T-2").steps_done == ()
    assert [line.undone for line in two_jobs.job("T-1").trail] == [False, True, False]
    assert bench.undo(two_jobs, "T-2", key="undo") == undo, "sent twice is done once"
    assert two_jobs.ledger.count() == 7
    with pytest.raises(RecordError, match="undone already"):
        bench.undo(two_jobs, "T-1", 3)
    bench.undo(two_jobs, "T-1", two_jobs.job("T-1").trail[-1].sequence)
    assert two_jobs.job("T-1").document["head"]["mass"] == "296.1 g"
    assert two_jobs.job("T-2").document["head"]["mass"] == "297.2 g"
    assert two_jobs.job("T-2").steps_done == ("weigh",)


def test_an_undo_that_is_impossible_on_one_job_is_kept_on_none(two_jobs: Session) -> None:
    added = PartChanged(job="T-2", subject=("van", 2), section="weight", values=EXTRA)
    wrote(two_jobs, mass("T-1", 1, "296.1 g"), added)
    bench.fit_weights(two_jobs, "T-2", ["extra"])
    count = two_jobs.ledger.count()
    with pytest.raises(RecordError, match='no weight in the tray of job T-2 is called "extra"'):
        bench.undo(two_jobs, "T-1", 3)
    assert two_jobs.ledger.count() == count
    assert two_jobs.job("T-1").document["head"]["mass"] == "296.1 g"


def test_who_may_not_sign_undoes_no_action_that_signed(two_jobs: Session) -> None:
    signed = GateSigned(job="T-1", subject=("van", 1), step="cut", shown={})
    wrote(two_jobs, mass("T-1", 1, "296.1 g"), signed)
    wil = msgspec.structs.replace(two_jobs, role="work")
    with pytest.raises(NotAllowed):
        bench.undo(wil, "T-1", 3)
    assert two_jobs.ledger.count() == 4


def test_what_an_older_undo_left_of_an_action_is_undone_whole(two_jobs: Session) -> None:
    """One fact of it was undone alone, as older records do: the rest still can be, and comes back without that one."""
    wrote(two_jobs, mass("T-1", 1, "296.1 g"), StepDone(job="T-1", subject=("van", 1), step="weigh"))
    old: What = Undone(job="T-1", subject=("van", 1), fact=3, reason="")
    two_jobs.ledger.append("van", [old], by="Ann", at=AT, typed="undo 3", key="old")
    assert two_jobs.job("T-1").steps_done == ("weigh",)
    with pytest.raises(RecordError, match="fact 3 is undone already, by fact 5"):
        bench.undo(two_jobs, "T-1", 3)
    undo = bench.undo(two_jobs, "T-1", 4)
    assert two_jobs.job("T-1").steps_done == ()
    bench.undo(two_jobs, "T-1", undo.sequence)
    assert two_jobs.job("T-1").steps_done == ("weigh",)
    assert [line.undone for line in two_jobs.job("T-1").trail] == [False, True, False, False, True, False]


def test_each_of_two_benches_undoes_the_same_action_and_both_undos_are_undone_alone(two_jobs: Session) -> None:
    card = bench.change_parts(two_jobs, "T-1", {"head": {"mass": "296.1 g"}, "grip": {"mass": "51 g"}})
    shed = msgspec.structs.replace(two_jobs, site="shed", by="Bea")
    first = bench.undo(two_jobs, "T-1", card[0].sequence)
    # what the other bench did before it knew
    theirs: What = Undone(job="T-1", subject=("van", 1), fact=card[1].sequence, reason="", site="van", whole=True)
    second = two_jobs.ledger.append("shed", [theirs], by="Bea", at=AT, typed="undo", key="shed")[0]
    bench.undo(shed, "T-1", first.sequence, site="van")
    assert two_jobs.job("T-1").document["head"]["mass"] != "296.1 g", "the other undo still stands"
    bench.undo(shed, "T-1", second.sequence, site="shed")
    assert two_jobs.job("T-1").document["head"]["mass"] == "296.1 g"
    assert two_jobs.job("T-1").document["grip"]["mass"] == "51 g"


def test_a_card_of_three_parts_is_one_line_to_undo(two_jobs: Session) -> None:
    before = two_jobs.job("T-1").document
    changes = {"head": {"mass": "296.1 g"}, "grip": {"mass": "51 g"}, "shaft": {"mass": "128.4 g"}}
    bench.change_parts(two_jobs, "T-1", changes)
    bench.undo(two_jobs, "T-1")
    assert two_jobs.job("T-1").document == before
    line = two_jobs.job("T-1").trail[-1]
    assert line.undid == (("van", 3), ("van", 4), ("van", 5))
    assert just_undone(two_jobs.job("T-1")) == "head: mass 296.1 g, grip: mass 51 g, shaft: mass 128.4 g"
    bench.undo(two_jobs, "T-1", line.sequence)
    assert trail_rows(two_jobs.job("T-1"))[0].text.startswith("brought back: head: mass 296.1 g, grip")


def test_mine_in_place_of_theirs_undoes_all_of_theirs_on_every_job_and_gives_it_back(two_jobs: Session) -> None:
    theirs = wrote(two_jobs, mass("T-1", 1, "296.1 g"), mass("T-2", 2, "297.2 g"))
    before = [two_jobs.job(number).document["head"]["mass"] for number in ("T-1", "T-2")]
    mine = bench.change_part(instead_of(two_jobs, theirs[0], "mine"), "T-1", "head", {"mass": "295.5 g"})
    assert two_jobs.ledger.count() == 7, "mine, and the undo of theirs on each job"
    assert two_jobs.job("T-1").document["head"]["mass"] == "295.5 g"
    assert two_jobs.job("T-2").document["head"]["mass"] not in before
    bench.undo(two_jobs, "T-1", mine.sequence)
    assert [two_jobs.job(number).document["head"]["mass"] for number in ("T-1", "T-2")] == before

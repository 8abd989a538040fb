"""One invented club, three jobs over two years: built, gripped anew, bent. Each begins where the last one left it."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from benchwork import Clock, answer_bytes
from clubwright.errors import InputError
from clubwright.importers.ticket_file import dump_ticket
from clubwright.services.actions import bench
from clubwright.services.actions.orders.clubs import jobs_of_club, next_ticket
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.closing import closing_points
from clubwright.services.jobs.job_answer import JobAnswer, answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.club_part import club_part

pytestmark = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
YEAR = 365 * 24

BUILT: dict[str, Any] = {
    "ticket": {
        "id": "T-0110",
        "kind": "iron",
        "hand": "right",
        "label": "6 iron",
        "player": "I. Nvented",
        "job": "weight",
    },
    "target": {"swing_weight": "D2", "total_weight": "424 g"},
    "tolerance": {"swing_weight": "1 pt", "total_weight": "2 g"},
    "head": {
        "mass": "262 g ± 2.5 g",
        "lie": "62 deg",
        "loft": "30 deg",
        "bore_to_ground": "28 mm",
        "bore_depth": "32 mm",
    },
    "shaft": {
        "raw_length": "1000 mm",
        "mass": "121 g ± 1.5 g",
        "balance_from_tip": "515 mm",
        "butt_density": "115 g/m",
        "cut_length": "910 mm",
    },
    "grip": {"mass": "49 g ± 1.5 g", "cap": "3.2 mm", "cg_from_cap": "104 mm"},
    "tape": [{"name": "base", "layers": "1", "mass": "1.6 g"}],
    "weight": [{"name": "lead 2", "mass": "2 g", "seat": "head", "from_ground": "0 mm"}],
}
"""The first job, said to be weight work so that no cut and no joint has to be gone through here."""

REGRIP: dict[str, Any] = {
    "ticket": {"id": "T-0150", "job": "regrip"},
    "target": {"swing_weight": "D0", "total_weight": "431 g"},
    "tolerance": {"swing_weight": "1 pt", "total_weight": "2 g"},
    "grip": {"mass": "56 g ± 0.1 g", "cap": "3.2 mm", "cg_from_cap": "104 mm"},
    "tape": [{"name": "base", "layers": "1", "mass": "1.6 g"}],
}


def worked(session: Session, job: str) -> JobAnswer:
    return answer_job(session.job(job), session.now())


def close(session: Session, job: str) -> None:
    for point in closing_points(session.job(job), worked(session, job)):
        if point.open:
            bench.accept(session, job, point.key, name="I. Nvented", reason="as it plays")
    bench.finish(session, job)


def built(session: Session) -> None:
    bench.take_ticket(session, BUILT, "built")
    bench.fit_weights(session, "T-0110", ["lead 2"])
    for quantity, value in (("swing_weight", "D1.4"), ("total_weight", "424.9 g"), ("lie", "62 deg")):
        bench.note_reading(session, "T-0110", quantity, value)
    close(session, "T-0110")


def regripped(session: Session) -> None:
    bench.take_ticket(session, REGRIP, "regrip", club="T-0110")
    bench.do_step(session, "T-0150", "strip grip")
    bench.slide_grip(session, "T-0150")
    bench.note_reading(session, "T-0150", "total_weight", "431.8 g")
    close(session, "T-0150")


def three(session: Session, clock: Clock) -> None:
    built(session)
    clock.wait(hours=YEAR)
    regripped(session)
    clock.wait(hours=YEAR)
    bend = {"ticket": {"id": "T-0190", "job": "loft-lie", "club": "T-0110"}, "target": {"lie": "60 deg"}}
    bench.take_ticket(session, bend, "bend")
    bench.bend_head(session, "T-0190", lie="60 deg")


def test_each_job_begins_where_the_last_one_left_the_club(session: Session, clock: Clock) -> None:
    three(session, clock)
    jobs = jobs_of_club(session, "T-0150")
    assert [(row["job"], row["work"], row["state"]) for row in club_part(jobs)["jobs"]] == [
        ("T-0110", "weight", "closed"),
        ("T-0150", "regrip", "closed"),
        ("T-0190", "loft-lie", "open"),
    ]
    assert {job.trail[0].at[:4] for job in jobs} == {"2026", "2027", "2028"}
    first, second, third = (worked(session, job.id).club_state for job in jobs)
    assert third.ticket.order.player.name == "I. Nvented", "a ticket need not say again whose club it is"
    assert third.ticket.row("grip").numbers["mass"].typed == "56 g ± 0.1 g"
    assert third.ticket.row("shaft").numbers["cut_length"].typed == "910 mm"
    assert list(third.fitted_now[0]) == [1.0]
    for part in ("head", "shaft"):
        sds = [found.belief.sd_of(f"{part}.mass_kg") for found in (first, second, third)]
        assert sds[0] < first.prior.belief.sd_of(f"{part}.mass_kg")
        assert sds[1] < sds[0], "the second job's scale teaches more"
        assert sds[2] == pytest.approx(sds[1], rel=1e-3)
    assert second.belief.sd_of("came.grip.mass_kg") <= first.belief.sd_of("grip.mass_kg"), (
        "the old grip is known as it was"
    )
    assert [item.taken for item in third.learned.judged] == [True] * 4
    assert third.present == ()


def test_what_was_read_for_one_order_proves_nothing_of_the_next(session: Session) -> None:
    built(session)
    bench.take_ticket(session, next_ticket(session.job("T-0110"), "T-0111", "weight"), "again")
    found = worked(session, "T-0111")
    assert found.club_state.goals
    assert found.inspected == {}
    assert {point.verdict for point in closing_points(session.job("T-0111"), found)} == {"not read"}
    before = worked(session, "T-0110").club_state
    assert found.club_state.predict(["swing_weight"]).mean == pytest.approx(before.predict(["swing_weight"]).mean)
    assert found.club_state.predict(["swing_weight"]).sd() == pytest.approx(before.predict(["swing_weight"]).sd())


def test_the_ticket_file_of_a_later_job_says_it_all(session: Session, clock: Clock) -> None:
    three(session, clock)
    for job in ("T-0150", "T-0190"):
        document = session.job(job).document
        again = tomllib.loads(dump_ticket(document))
        assert answer_bytes(work_document(again).answer()) == answer_bytes(work_document(document).answer())


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ({"club": "T-9999", "job": "regrip", "kind": "iron", "hand": "right"}, 'has no ticket "T-9999"'),
        ({"club": "T-0110", "job": "build"}, '"build" is no work on a club that is there'),
        ({"club": "T-0110"}, '"build" is no work on a club that is there'),
    ],
)
def test_a_club_that_cannot_be_worked_on_is_refused(session: Session, words: dict[str, str], says: str) -> None:
    built(session)
    count = session.ledger.count()
    with pytest.raises(InputError, match=says):
        bench.take_ticket(session, {"ticket": {"id": "T-0120", **words}}, "ticket")
    assert session.ledger.count() == count


def test_a_reading_nobody_decided_about_is_left_out_of_the_next_job(session: Session) -> None:
    bench.take_ticket(session, BUILT, "built")
    bench.note_reading(session, "T-0110", "total_weight", "424 g")
    bench.note_reading(session, "T-0110", "total_weight", "454 g")
    close(session, "T-0110")
    bench.take_ticket(session, next_ticket(session.job("T-0110"), "T-0111", "weight"), "again")
    assert [item.taken for item in worked(session, "T-0111").club_state.learned.judged] == [True, False]
    assert [row.get("keep") for row in session.job("T-0111").document["reading"]] == [None, "no"]


def test_the_same_ticket_sent_again_is_kept_once(session: Session) -> None:
    built(session)
    one = bench.take_ticket(session, REGRIP, "regrip", "k-1", club="T-0110")
    assert bench.take_ticket(session, REGRIP, "regrip", "k-1", club="T-0110") == one

"""A changed order: a fact with who said so and why; it voids what was signed for another order, and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import pytest

from benchwork import JOB, Clock, gates, run_to, worked
from clubwright.errors import ClubwrightError, GateClosed, InputError, NotAllowed, RecordError
from clubwright.journal.facts import Fact, OrderChanged, PartChanged
from clubwright.services.actions import bench
from clubwright.services.actions.forgetting import forget, look_before
from clubwright.services.jobs.signatures import void_signatures
from clubwright.services.record.session import Session

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]

Order = Mapping[str, str]
SHEET = {
    "adhesive.name": "other two-part",
    "adhesive.ratio": "1:1",
    "adhesive.basis": "weight",
    "adhesive.pot_life": "20 min",
    "adhesive.release": "20 C: 30 h; 25 C: 24 h",
}


def order(session: Session, values: Order, **more: str) -> Fact:
    return bench.change_order(session, JOB, values, said_by="A. Example", reason="tried it, and likes it so", **more)


def void(session: Session) -> dict[str, str]:
    return {item.gate: item.why for item in void_signatures(session.job(JOB), worked(session))}


def test_it_is_a_fact_with_a_name_and_a_reason(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done weigh")
    fact = order(session, {"target.swing_weight": "D1.5"})
    assert isinstance(fact.what, OrderChanged)
    assert (fact.what.said_by, fact.what.reason) == ("A. Example", "tried it, and likes it so")
    assert fact.what.was == {"target.swing_weight": "D4"}
    assert session.job(JOB).document["target"]["swing_weight"] == "D1.5"
    line = session.job(JOB).trail[-1]
    assert line.kind == "order changed"
    assert all(word in line.text for word in ("D1.5", "was D4", "A. Example", "tried it"))


def test_undone_it_is_as_if_it_had_never_been(session: Session, clock: Clock) -> None:
    run_to(session, clock, "cut")
    before = session.job(JOB)
    order(session, {"target.length": "35 in", **SHEET})
    bench.undo(session, JOB)
    after = session.job(JOB)
    assert after.document == before.document
    assert (after.steps_done, after.gates_signed, after.signed_for) == (before.steps_done, before.gates_signed, {})


def test_the_same_key_again_keeps_it_once(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done weigh")
    first = order(session, {"target.lie": "63 deg", "target.swing_weight": "D4"}, key="k-once")
    assert order(session, {"target.lie": "63 deg", "target.swing_weight": "D4"}, key="k-once") == first
    assert isinstance(first.what, OrderChanged)
    assert first.what.values == {"target.lie": "63 deg"}  # the other one is ordered so already


@pytest.mark.parametrize(
    ("values", "voided"),
    [
        ({"target.length": "35 in"}, True),
        ({"target.length": "35.25 in"}, False),  # the same length, written otherwise
        ({"target.lie": "62 deg"}, False),
        ({"target.swing_weight": "D1.5"}, False),
        ({"tolerance.length": "1/32 in"}, False),
        (SHEET, False),
    ],
)
def test_a_signed_cut_is_void_only_where_the_cut_is_another_one(
    session: Session, clock: Clock, values: Order, voided: bool
) -> None:
    run_to(session, clock, "sign cut")
    order(session, values)
    assert set(void(session)) == ({"cut"} if voided else set())
    told = [item for item in worked(session).findings if item.where == "gate cut"]
    assert bool(told) == voided
    if voided:
        assert "Ann" in told[0].what
        with pytest.raises(GateClosed, match="sign again"):
            bench.cut_shaft(session, JOB, "33.76 in")
        bench.sign_gate(session, JOB, "cut")
        assert not void(session)
    else:
        bench.cut_shaft(session, JOB, "34.01 in")


@pytest.mark.parametrize(
    ("values", "voided"),
    [
        ({"target.swing_weight": "D2"}, True),
        ({"target.loft": "62 deg"}, True),
        ({"adhesive.pot_life": "25 min"}, False),
        ({"ticket.kind": "iron"}, False),
        ({"target.grip_diameter_2in": "0.910 in"}, False),
    ],
)
def test_a_signed_glue_gate_is_void_only_where_what_it_checks_is_not_the_same(
    session: Session, clock: Clock, values: Order, voided: bool
) -> None:
    run_to(session, clock, "sign glue")
    order(session, values)
    assert ("glue" in void(session)) == voided, void(session)


def test_a_cut_is_to_do_again_for_another_length_and_not_for_another_lie(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done mark and cut")
    order(session, {"target.lie": "62 deg"})
    assert "mark and cut" in session.job(JOB).steps_done
    order(session, {"target.length": "35 in"})
    assert "mark and cut" not in session.job(JOB).steps_done
    assert set(void(session)) == {"cut"}


def test_of_another_adhesive_nothing_of_the_old_sheet_stays(session: Session, clock: Clock) -> None:
    run_to(session, clock, "mix")
    old = session.job(JOB).document["adhesive"]
    assert {"ratio", "pot_life", "release"} <= set(old)
    order(session, {"adhesive.name": "other two-part"})
    job = session.job(JOB)
    assert set(job.document["adhesive"]) <= {"name", "joints", "waste", "scale_error", "temperature"}
    assert not job.mixes  # the cup is of the old product
    assert "mix" not in job.steps_done
    bench.mix_adhesive(session, JOB, "3.0 g", "3.0 g", "22 C", "lot 1")
    bench.sign_gate(session, JOB, "glue")
    bench.glue(session, JOB, "22 C")
    clock.wait(hours=1000)
    assert not gates(session)["release"]  # nobody has said how the new one cures
    order(session, {"adhesive.release": "20 C: 30 h; 25 C: 24 h"})
    assert gates(session)["release"]


def test_a_new_sheet_is_given_with_the_name_also_where_a_figure_is_the_same(session: Session, clock: Clock) -> None:
    run_to(session, clock, "mix")
    same = session.job(JOB).document["adhesive"]["basis"]
    order(session, {**SHEET, "adhesive.basis": same})
    adhesive = session.job(JOB).document["adhesive"]
    assert adhesive["basis"] == same
    assert adhesive["release"] == [{"temperature": "20 C", "time": "30 h"}, {"temperature": "25 C", "time": "24 h"}]


def test_the_adhesive_of_a_closed_joint_gets_no_other_name(session: Session, clock: Clock) -> None:
    run_to(session, clock, "glue")
    before = session.job(JOB)
    with pytest.raises(RecordError, match="joint of job T-0054 is closed"):
        order(session, SHEET)
    assert session.job(JOB) == before


def test_a_longer_cure_by_the_sheet_shuts_the_release_again_and_voids_its_signature(
    session: Session, clock: Clock
) -> None:
    run_to(session, clock, "sign release")
    assert gates(session)["release"]
    order(session, {"target.swing_weight": "D4+"})
    assert not void(session)
    order(session, {"adhesive.release": "20 C: 300 h; 25 C: 240 h"})
    assert not gates(session)["release"]
    assert set(void(session)) == {"release"}
    with pytest.raises(GateClosed):
        bench.finish(session, JOB)


def test_the_player_accepts_d1_5(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign release")
    order(session, {"target.swing_weight": "D1.5"})
    with pytest.raises(GateClosed, match="swing weight"):
        bench.finish(session, JOB)  # it read D4
    bench.undo(session, JOB)
    bench.finish(session, JOB)


WRONG: dict[str, tuple[Callable[[Session], object], str]] = {
    "all that is wrong": (
        lambda d: bench.change_order(
            d, JOB, {"target.swng_weight": "D2", "target.lie": "much", "lie": "62"}, said_by=" ", reason=""
        ),
        r"(?s)no figure of a ticket.*nobody is named.*nothing was typed",
    ),
    "by the reader too": (
        lambda d: bench.change_order(
            d, JOB, {"target.swng_weight": "D2", "target.lie": "much"}, said_by="A. Example", reason=""
        ),
        r"(?s)nothing was typed.*(much.*Did you mean swing_weight|Did you mean swing_weight.*much)",
    ),
    "nothing": (lambda d: order(d, {}), "nothing to change"),
    "what is ordered so already": (lambda d: order(d, {"target.swing_weight": "D4"}), "says so already"),
    "a number": (lambda d: order(d, {"ticket.id": "T-9"}), "renumber"),
    "other work": (lambda d: order(d, {"ticket.job": "weight"}), "ticket of its own"),
    "a cut": (lambda d: order(d, {"shaft.cut_length": "30 in"}), "clubwright cut"),
    "a weight fitted": (lambda d: order(d, {"weight.port 6.fitted": "1"}), "clubwright fit"),
    "a reading": (lambda d: order(d, {"reading.value": "D4"}), "not ordered"),
    "no such table": (lambda d: order(d, {"hed.mass": "300 g"}), "hed"),
}


@pytest.mark.parametrize("case", WRONG)
def test_what_cannot_be_ordered_is_refused_with_its_mend(session: Session, clock: Clock, case: str) -> None:
    run_to(session, clock, "done weigh")
    do, words = WRONG[case]
    before = session.ledger.count()
    with pytest.raises(ClubwrightError, match=words):
        do(session)
    assert session.ledger.count() == before


@pytest.mark.parametrize(
    ("section", "values"),
    [
        ("target", {"swing_weight": "D1.5"}),
        ("tolerance", {"length": "1 in"}),
        ("base", {"length": "35 in"}),
        ("shop", {"decision_rule": "simple"}),
        ("adhesive", {"ratio": "1:1"}),
        ("adhesive", {"name": "another one"}),
        ("ticket", {"hand": "left"}),
        ("ticket", {"job": "weight"}),
    ],
)
def test_an_order_is_not_measured(session: Session, clock: Clock, section: str, values: dict[str, str]) -> None:
    run_to(session, clock, "done weigh")
    with pytest.raises(InputError, match=r"clubwright order|ticket of its own"):
        bench.change_part(session, JOB, section, values)


def test_parts_are_measured_as_before_and_a_sheets_missing_figure_is_filled_in(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done weigh")
    bench.change_part(session, JOB, "grip", {"mass": "50.1 g"})
    bench.change_part(session, JOB, "ticket", {"promised": "Tue 8:00"})
    order(session, {"adhesive.basis": ""})
    assert "basis" not in session.job(JOB).document["adhesive"]
    bench.change_part(session, JOB, "adhesive", {"basis": "weight"})
    assert session.job(JOB).document["adhesive"]["basis"] == "weight"


def test_a_tray_weight_and_the_raw_length_are_changed_by_name(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done weigh")
    fact = order(session, {"weight.port 6.mass": "6.5 g", "shaft.raw_length": "37.5 in"})
    document = session.job(JOB).document
    assert next(row for row in document["weight"] if row["name"] == "port 6")["mass"] == "6.5 g"
    assert document["shaft"]["raw_length"] == "37.5 in"
    assert isinstance(fact.what, OrderChanged)
    assert fact.what.was["weight.port 6.mass"]


def test_who_may_only_work_changes_no_order(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done weigh")
    wil = Session(
        ledger=session.ledger, site=session.site, by="Wil", now=session.now, new_key=session.new_key, role="work"
    )
    with pytest.raises(NotAllowed):
        order(wil, {"target.swing_weight": "D1.5"})


def test_a_closed_job_keeps_its_order(session: Session, clock: Clock) -> None:
    run_to(session, clock, "finish")
    with pytest.raises(RecordError, match="is finished"):
        order(session, {"target.swing_weight": "D1.5"})


def test_a_record_in_which_a_target_was_measured_still_opens(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign cut")
    what = PartChanged(job=JOB, section="target", values={"lie": "62 deg"})
    session.keep_all([what], ["target: lie 62 deg"], "k-old", session.ledger.last(session.site), ())
    assert session.job(JOB).document["target"]["lie"] == "62 deg"
    assert worked(session).gates


def test_who_said_so_is_forgotten_with_the_player(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done weigh")
    bench.change_order(
        session, JOB, {"target.lie": "63 deg"}, said_by="Robin Ashdown (invented)", reason="stands flatter"
    )
    seen = look_before(session, "Robin Ashdown (invented)")
    forget(session, "Robin Ashdown (invented)", asked_by="the player asked for it", facts=seen.facts)
    what = next(fact.what for fact in session.facts_of(JOB) if isinstance(fact.what, OrderChanged))
    assert "Ashdown" not in what.said_by
    assert session.job(JOB).document["target"]["lie"] == "63 deg"

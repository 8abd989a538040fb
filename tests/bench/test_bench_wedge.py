"""A whole wedge from its ticket to its tag through the bench actions, on each engine."""

from __future__ import annotations

import copy
import itertools

import pytest

from benchwork import JOB, Clock, answer_bytes, document, gates, run, run_to, state_bytes, worked
from closingwork import accept_all
from clubwright.errors import GateClosed
from clubwright.importers.ticket_file import dump_ticket, parse_ticket
from clubwright.journal.facts import Undone, kind_of
from clubwright.journal.reducers.fold import fold
from clubwright.notation import parse
from clubwright.services.actions import bench
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import answer_job, with_plan
from clubwright.services.record.session import Session
from clubwright.services.report.as_built import as_built_record
from clubwright.services.report.build_again import make_again
from clubwright.words.say import say

pytestmark = pytest.mark.usefixtures("played")
ON_SQLITE = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
"""For what is the same on any engine: the facts are read back, and all else is computed from them."""


def sd_of(session: Session, key: str) -> float:
    return float(worked(session).answer()["finished"][key]["sd"])


def test_from_ticket_to_tag(session: Session, clock: Clock):
    opened: dict[str, str] = {}
    spread: dict[str, list[float]] = {"length": [], "swing_weight": [], "total_weight": []}
    stateless: dict[str, bool] = {}
    names: list[str] = []
    for name in run(session, clock):
        names.append(name)
        now = worked(session)
        answer = now.answer().plain()
        for gate in now.gates:
            if gate.open:
                opened.setdefault(gate.step, name)
        for key, found in spread.items():
            found.append(answer["finished"][key]["sd"])
        # the record and a ticket file that says the same are worked alike; what was done is known to the record alone
        alone = work_document(session.job(JOB).document, f"ticket {JOB}").answer().plain()
        if session.job(JOB).glued_at is not None:
            del answer["gates"], alone["gates"]
        for gate in (*answer.get("gates", []), *alone.get("gates", [])):
            del gate["open"], gate["why"]
            gate["checks"] = [check for check in gate["checks"] if check["key"] not in ("pull", "mix")]
        stateless[name] = answer == alone
    assert all(stateless.values()), [name for name, same in stateless.items() if not same]
    assert opened == {
        "cut": "take",
        "glue": "read swing_weight D1.3 dry, gripped",
        "release": "done cure",
    }
    for key, found in spread.items():
        assert found[-1] < found[0] / 2, key
        grown = [name for name, (a, b) in zip(names[1:], itertools.pairwise(found), strict=True) if b > a * 1.1]
        assert grown in ([], ["bend"]), (
            f"{key} became less certain by {grown}; by a bend it may: nobody knows it exactly"
        )
    assert session.ledger.verify() == ()
    assert [fact.sequence for fact in session.ledger.facts()] == list(range(1, 30))


@ON_SQLITE
def test_a_misfit_is_set_aside_until_it_is_decided(session: Session, clock: Clock):
    run_to(session, clock, "read swing_weight D4 finished")
    before = worked(session).answer()
    clock.wait(hours=0.1)
    fact = bench.note_reading(session, JOB, "total_weight", "477.2 g", instrument="gram scale")
    answer = worked(session).answer()
    assert answer["finished"] == before["finished"], "a reading kept aside changes nothing"
    aside = [item for item in answer["findings"] if "kept aside" in item["what"]]
    assert len(aside) == 1
    assert "misread" in aside[0]["what"]
    assert answer["verdicts"]["total_weight"]["verdict"] == "cannot tell"
    assert not gates(session)["glue"]
    bench.decide_reading(session, JOB, fact.sequence, keep=False, reason="misread")
    assert "kept aside" not in str(worked(session).answer()["findings"])
    assert gates(session)["glue"]
    bench.undo(session, JOB)
    assert answer_bytes(worked(session).answer()) == answer_bytes(answer)
    bench.decide_reading(session, JOB, fact.sequence, keep=True, reason="five grams out of nowhere")
    moved = worked(session).answer()["finished"]["total_weight"]["mean"] - before["finished"]["total_weight"]["mean"]
    assert 0.0005 < moved < 0.005, "a reading that a person insists on is taken in, against what the parts say"
    bench.undo(session, JOB)
    bench.decide_reading(session, JOB, fact.sequence, keep=False, reason="misread")
    one_gram = bench.note_reading(session, JOB, "total_weight", "473.2 g", instrument="gram scale")
    assert "kept aside" in str(worked(session).answer()["findings"])
    bench.decide_reading(session, JOB, one_gram.sequence, keep=True, reason="weighed on two scales")
    kept = worked(session).answer()
    assert kept["finished"]["total_weight"]["mean"] > before["finished"]["total_weight"]["mean"] + 0.0002


@ON_SQLITE
def test_every_kind_of_fact_can_be_undone_and_brought_back(session: Session, clock: Clock):
    tried = {"ticket taken", "finished"}
    for name in run(session, clock):
        facts = session.ledger.facts()
        kind = kind_of(facts[-1].what)
        if kind in tried:
            continue
        tried.add(kind)
        # the state before this action is that of the facts before it: the ledger that ends there is worked anew
        before = _without_last(session)
        after = state_bytes(session)
        undo = bench.undo(session, JOB, facts[-1].sequence, "try")
        assert answer_bytes(worked(session).answer()) == before, f"undo of {name} does not restore the answer"
        bench.undo(session, JOB, undo.sequence, "and back")
        assert state_bytes(session) == after, f"undoing the undo of {name} does not bring it back"


def _without_last(session: Session) -> bytes:
    facts = session.ledger.facts()
    return answer_bytes(answer_job(fold(facts[:-1]).job(JOB), session.now()).answer())


@ON_SQLITE
def test_no_cut_before_it_is_signed(session: Session, clock: Clock):
    run_to(session, clock, "done weigh")
    assert gates(session)["cut"]
    with pytest.raises(GateClosed, match='nobody has signed the gate "cut"'):
        bench.cut_shaft(session, JOB, "34.01 in")
    assert "cut_length" not in session.job(JOB).document["shaft"]


@ON_SQLITE
def test_a_signature_does_not_cover_another_cut(session: Session, clock: Clock):
    """Signed for one length, then the bore is measured anew: the cut that was looked at is not this one."""
    run_to(session, clock, "sign cut")
    bench.change_part(session, JOB, "head", {"bore_to_ground": "1.20 in"})
    with pytest.raises(GateClosed, match="the cut has changed since it was signed") as refused:
        bench.cut_shaft(session, JOB, "33.91 in")
    assert "34.01" in str(refused.value)
    assert "33.91" in str(refused.value)
    bench.sign_gate(session, JOB, "cut")
    bench.cut_shaft(session, JOB, "33.91 in")


@ON_SQLITE
def test_no_glue_before_pull_reading_and_signature(session: Session, clock: Clock):
    run_to(session, clock, "done mark and cut")
    pull = next(line.sequence for line in session.job(JOB).trail if line.text == "done: pull")
    bench.undo(session, JOB, pull, "not looked at yet")
    with pytest.raises(GateClosed) as refused:
        bench.glue(session, JOB, "22 C")
    said = " | ".join(refused.value.reasons)
    assert "no dry swing-weight reading yet" in said
    assert "nobody has laid out and checked the parts" in said
    assert 'nobody has signed the gate "glue"' in said
    with pytest.raises(GateClosed):
        bench.sign_gate(session, JOB, "glue")
    assert session.job(JOB).glued_at is None


@ON_SQLITE
def test_no_release_before_the_adhesive_has_cured(session: Session, clock: Clock):
    """The ticket's table says 15 h at 20 C and 12 h at 25 C: at 22 C the joint is not released before 13 h."""
    run_to(session, clock, "glue")
    clock.wait(hours=11.9)
    assert not gates(session)["release"], "not even the row of 25 C is over"
    with pytest.raises(GateClosed, match="not cured yet"):
        bench.sign_gate(session, JOB, "release")
    clock.wait(hours=3.1)
    assert gates(session)["release"], "15 h: over for the colder row too"
    with pytest.raises(GateClosed, match='nobody has signed the gate "release"'):
        bench.finish(session, JOB)
    accept_all(session)
    bench.sign_gate(session, JOB, "release")
    bench.finish(session, JOB)
    assert session.job(JOB).finished is not None


@ON_SQLITE
def test_a_joint_glued_again_is_released_again(session: Session, clock: Clock):
    run_to(session, clock, "sign release")
    clock.wait(hours=0.1)
    with pytest.raises(GateClosed, match="the last mix was used up by the head that was glued before"):
        bench.glue(session, JOB, "22 C")
    bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 7")
    clock.wait(minutes=5)
    assert "cure" in session.job(JOB).steps_done
    bench.glue(session, JOB, "22 C")
    assert "cure" not in session.job(JOB).steps_done, "a joint that is closed again has not cured"
    assert not gates(session)["release"]
    clock.wait(hours=15)
    with pytest.raises(GateClosed, match="glued again after the release was signed"):
        bench.finish(session, JOB)
    bench.sign_gate(session, JOB, "release")
    bench.finish(session, JOB)


def test_the_as_built_record(session: Session, clock: Clock):
    run_to(session, clock, "done tag")
    job = session.job(JOB)
    record = as_built_record(job, worked(session))
    rows = {row["key"]: row for row in record["rows"]}
    assert list(rows) == ["length", "loft", "lie", "swing_weight", "total_weight", "grip_diameter_2in"]
    assert {row["verdict"] for row in rows.values()} == {"within"}
    assert rows["total_weight"]["read"] == "472.2 g", "the reading left out is not in the record"
    assert rows["swing_weight"]["read"] == "D4.1, D4"
    assert (rows["lie"]["ordered"], rows["lie"]["read"]) == ("1/2 flat", "63.5 deg")
    assert record["finished"] is True
    assert record["cut_length_m"] == pytest.approx(34.01 * 0.0254, abs=1e-9)
    assert "port 6" in record["recipe"]
    assert "cut to 34.01 in" in record["recipe"]
    assert len(record["trail"]) == 29
    signed = job.gates_signed["release"]
    assert signed.shown["answer"]["verdicts"]["swing_weight"]["verdict"] == "within"
    assert job.finished is not None
    assert job.finished.shown["answer"]["verdicts"] == signed.shown["answer"]["verdicts"]


@ON_SQLITE
def test_the_same_club_again(session: Session, clock: Clock):
    """A new ticket from the record: nothing can be cut before the new parts are measured, and then it is the same club."""
    run_to(session, clock, "done tag")
    first = worked(session).answer()["finished"]
    ticket = parse_ticket(dump_ticket(make_again(session.job(JOB), worked(session), "T-0154")))
    new = work_document(ticket, "again.toml")
    assert not [item for item in new.findings if item.severity == "error"]
    shut = {gate.step: say(gate.why, None) for gate in new.gates if not gate.open}
    assert set(shut) == {"cut", "glue", "release"}
    for part in ("bore_to_ground", "bore_depth", "cap", "lie"):
        assert part in shut["cut"], f"the cut opens before {part} is measured"
    assert "bent_loft" not in ticket["head"], "the new head was never bent"
    assert "bent_lie" not in ticket["head"]
    measured = copy.deepcopy(ticket)
    old = document()
    for section, keys in {"head": ("loft", "lie", "bounce", "bore_to_ground", "bore_depth"), "grip": ("cap",)}.items():
        measured[section] |= {key: old[section][key] for key in keys}
    measured["shaft"] |= {"raw_length": "37 in", "balance_from_tip": "19 1/4 in"}
    plan = with_plan(work_document(measured, "again.toml"))
    assert next(gate for gate in plan.gates if gate.step == "cut").open
    assert plan.cut is not None
    assert plan.cut.shaft_length_m == pytest.approx(34.01 * 0.0254, abs=0.0003)
    best = next(item for item in plan.advice if item.weights)
    assert best.weights == ("port 6",)
    tolerance = {"length": 1 / 64 * 0.0254, "swing_weight": 0.75, "total_weight": 0.0015}
    for key, close in tolerance.items():
        assert best.finished[key][0] == pytest.approx(first[key]["mean"], abs=close), key
    wanted = parse("length", ticket["target"]["length"], where="length").value
    assert wanted == pytest.approx(first["length"]["mean"], abs=0.0001)


@ON_SQLITE
def test_the_tag_may_be_ticked_after_the_end_and_nothing_else_changes(session: Session, clock: Clock):
    run_to(session, clock, "done tag")
    trail = session.job(JOB).trail
    bench.undo(session, JOB)
    assert session.job(JOB).trail[-2].undone, "the last step is unticked"
    finished = next(line.sequence for line in trail if line.kind == "finished")
    bench.undo(session, JOB, finished, "read again")
    assert session.job(JOB).finished is None
    bench.note_reading(session, JOB, "swing_weight", "D4", instrument="swing scale")
    assert isinstance(session.ledger.facts()[-2].what, Undone)

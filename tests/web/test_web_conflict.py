""" "Use mine": theirs is undone together with mine being kept, or not at all, and only the one that was shown."""

from __future__ import annotations

import pytest

from benchwork import JOB, Clock, run_to
from clubwright.journal.facts import ReadingTaken, ShaftCut, Undone
from clubwright.services.actions import bench
from clubwright.services.actions.replacing import instead_of
from clubwright.services.record.session import Session
from webclient import TestClient, post

BENCH = f"/bench/{JOB}"


def signed_for_the_cut(session: Session) -> None:
    bench.change_part(session, JOB, "head", {"hand": "right"})
    for step in ("pull", "weigh"):
        bench.do_step(session, JOB, step)
    bench.sign_gate(session, JOB, "cut")


def standing(session: Session) -> list[str]:
    return [
        line.text for line in session.job(JOB).trail if not line.undone and line.kind not in ("undone", "step done")
    ]


def test_mine_and_the_undo_of_theirs_are_one_action(web_client: TestClient, web_session: Session):
    signed_for_the_cut(web_session)
    seen = web_session.ledger.last("bench")
    theirs = bench.cut_shaft(web_session, JOB, "33.95 in")
    mine = {
        "action": "cut",
        "step": "mark and cut",
        "cut_length": "34.01 in",
        "looked": "yes",
        "seen": seen,
        "key": "c-1",
    }
    asked = post(web_client, BENCH, **mine)
    assert asked.status_code == 409
    assert f'name="theirs" value="{theirs.sequence}"' in asked.text
    assert '<input type="hidden" name="looked" value="yes">' in asked.text, "who held the button need not hold it again"
    kept = post(web_client, BENCH, **mine, choose="mine", theirs=theirs.sequence)
    assert kept.status_code == 303, kept.text
    new = [fact for fact in web_session.ledger.facts(JOB) if fact.sequence > theirs.sequence]
    assert [type(fact.what) for fact in new[:2]] == [Undone, ShaftCut]
    assert [fact.key for fact in new[:2]] == ["c-1", "c-1#2"], "one transaction: the parts of one action"
    assert [fact.typed for fact in new[:2]] == [f"undo {theirs.sequence}", "cut to 34.01 in"]
    assert web_session.job(JOB).document["shaft"]["cut_length"] == "34.01 in"
    count = web_session.ledger.count()
    assert post(web_client, BENCH, **mine, choose="mine", theirs=theirs.sequence).status_code == 303
    assert web_session.ledger.count() == count, "sent again, it is kept once"
    assert web_session.ledger.verify() == ()


@pytest.mark.parametrize("mine", ["34 furlongs", "600 in"])
def test_theirs_stands_where_mine_is_refused(web_client: TestClient, web_session: Session, mine: str):
    signed_for_the_cut(web_session)
    seen = web_session.ledger.last("bench")
    theirs = bench.cut_shaft(web_session, JOB, "33.95 in")
    count = web_session.ledger.count()
    fields = {"action": "cut", "step": "mark and cut", "cut_length": mine, "looked": "yes", "seen": seen, "key": "c-1"}
    refused = post(web_client, BENCH, **fields, choose="mine", theirs=theirs.sequence)
    assert refused.status_code == 422
    assert "nobody said so" not in refused.text, "it is the length that is refused"
    assert web_session.ledger.count() == count, "nothing was kept, so nothing was undone"
    assert "cut to 33.95 in" in standing(web_session)


def test_only_what_was_shown_is_undone(web_client: TestClient, web_session: Session):
    signed_for_the_cut(web_session)
    seen = web_session.ledger.last("bench")
    shown = bench.cut_shaft(web_session, JOB, "33.98 in")
    unseen = bench.cut_shaft(web_session, JOB, "33.95 in")
    fields = {
        "action": "cut",
        "step": "mark and cut",
        "cut_length": "33.94 in",
        "looked": "yes",
        "seen": seen,
        "key": "c-1",
    }
    for choice in ("mine", "both"):
        again = post(web_client, BENCH, **fields, choose=choice, theirs=shown.sequence)
        assert again.status_code == 409
        assert "33.95 in" in again.text, "a third value came in: it is shown before anything is done about it"
        assert f'name="theirs" value="{unseen.sequence}"' in again.text
    assert not [line for line in web_session.job(JOB).trail if line.undone]


def test_mine_that_equals_what_was_there_before_theirs(web_client: TestClient, web_session: Session):
    """Theirs changed a figure; mine is the figure as it was: taking mine takes theirs back, with the step in one action."""
    seen = web_session.ledger.last("bench")
    theirs = bench.change_part(web_session, JOB, "grip", {"mass": "51 g"})
    before = web_session.job(JOB)
    fields = {"action": "measure", "step": "weigh", "grip.mass": "49.6 g", "seen": seen, "key": "m-1"}
    assert before.document["grip"]["mass"] == "51 g"
    kept = post(web_client, BENCH, **fields, choose="mine", theirs=theirs.sequence)
    assert kept.status_code == 303
    job = web_session.job(JOB)
    assert job.document["grip"]["mass"] == "49.6 g"
    assert "weigh" in job.steps_done


def test_a_reading_in_place_of_theirs_while_others_write(session: Session, clock: Clock, played: None):
    run_to(session, clock, "done mark and cut")
    theirs = bench.note_reading(session, JOB, "swing_weight", "D1.4", stage="dry, gripped")
    mine = instead_of(session, theirs, "replaced")
    assert mine.job(JOB).trail[-1].kind == "undone", "it is seen as undone already"
    assert not session.job(JOB).trail[-1].undone
    bench.do_step(session, JOB, "tape")
    bench.note_reading(mine, JOB, "swing_weight", "D1.3", stage="dry, gripped")
    bench.do_step(mine, JOB, "dry reading")
    kinds = [type(fact.what) for fact in session.ledger.facts(JOB)[-3:]]
    assert kinds[:2] == [Undone, ReadingTaken]
    assert [row["value"] for row in session.job(JOB).document["reading"]] == ["D1.3"]
    assert session.ledger.verify() == ()


def test_nothing_is_undone_twice(session: Session, clock: Clock, played: None):
    run_to(session, clock, "done mark and cut")
    theirs = bench.note_reading(session, JOB, "swing_weight", "D1.4", stage="dry, gripped")
    mine = instead_of(session, theirs, "replaced")
    bench.undo(session, JOB, theirs.sequence)
    bench.note_reading(mine, JOB, "swing_weight", "D1.3", stage="dry, gripped")
    assert [row["value"] for row in session.job(JOB).document["reading"]] == ["D1.3"]
    assert sum(isinstance(fact.what, Undone) for fact in session.ledger.facts(JOB)) == 1

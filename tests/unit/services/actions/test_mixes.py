"""One mix of adhesive for joints of several jobs: one clock from when it was mixed, and a bad mix names all its joints."""

from __future__ import annotations

from datetime import timedelta

import msgspec
import pytest

from benchwork import JOB, Clock, document, gates, run_to, session_on, worked
from clubwright.errors import GateClosed, InputError, NotAllowed
from clubwright.journal.facts import MixTaken
from clubwright.services.actions import bench
from clubwright.services.actions.making.mix_list import mixes, mixes_at_hand
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.jobs.clocks import pot_clock
from clubwright.services.jobs.closing import closing_points
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session, utc_text
from clubwright.services.recording.merging import take_in
from clubwright.services.told.club import MixJoint
from clubwright.words.say import say
from forging import forged, record_at

pytestmark = [
    pytest.mark.usefixtures("played"),
    pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True),
]
OTHER = "T-0900"
"""Job of another player, on which the mix is made."""
FORGOTTEN = "hardener forgotten"


@pytest.fixture
def shop(session: Session, clock: Clock) -> Session:
    """The wedge is read dry and waits for its mix; another player's club has one, made three minutes ago."""
    run_to(session, clock, "read swing_weight D3.8 dry, gripped")
    made = document()
    made["ticket"] |= {"id": OTHER, "player": "Ada Quill"}
    bench.take_ticket(session, made, "t")
    bench.mix_adhesive(session, OTHER, "4.0 g", "2.0 g", "22 C", "lot 7")
    clock.wait(minutes=3)
    return session


def said(session: Session, job: str) -> list[str]:
    found = answer_job(session.job(job), session.now()).findings
    return [item.what for item in found if item.severity == "error" and item.where == "mix of adhesive"]


def glued(session: Session) -> None:
    bench.take_from_mix(session, JOB, OTHER)
    bench.sign_gate(session, JOB, "glue")
    bench.glue(session, JOB, "22 C")


def test_a_joint_is_glued_from_the_mix_of_another_players_job(shop: Session) -> None:
    (offer,) = mixes_at_hand(shop, shop.job(JOB))
    assert (offer.made_on, offer.weighed) == (OTHER, "4.0 g + 2.0 g")
    fact = bench.take_from_mix(shop, JOB, offer.mix, "once")
    assert bench.take_from_mix(shop, JOB, offer.mix, "once") == fact, "sent twice, it is kept once"
    assert "mix" in shop.job(JOB).steps_done
    bench.sign_gate(shop, JOB, "glue")
    bench.glue(shop, JOB, "22 C")
    (row,) = mixes(shop)
    both = {MixJoint(job=JOB, glued=True, finished=False), MixJoint(job=OTHER, glued=False, finished=False)}
    assert set(row.joints) == both


def test_the_pot_life_runs_from_the_mixing_for_every_joint(shop: Session, clock: Clock) -> None:
    mixed = utc_text(clock.time - timedelta(minutes=3))
    bench.take_from_mix(shop, JOB, OTHER)
    clocks = [pot_clock(shop.job(name), ticket_of(shop.job(name))) for name in (JOB, OTHER)]
    assert clocks[0] == clocks[1]
    assert clocks[0] is not None and clocks[0].since == mixed
    bench.sign_gate(shop, JOB, "glue")
    clock.wait(minutes=60)
    assert gates(shop)["glue"] is False
    with pytest.raises(GateClosed, match="pot life is over"):
        bench.glue(shop, JOB, "22 C")
    assert mixes_at_hand(shop, shop.job(JOB)) == ()
    bench.take_from_mix(shop, JOB, OTHER)
    with pytest.raises(GateClosed, match="pot life is over"):
        bench.glue(shop, JOB, "22 C")


def test_a_bad_mix_names_its_joints_on_every_job_and_shuts_their_release(shop: Session, clock: Clock) -> None:
    glued(shop)
    clock.wait(hours=30)
    assert gates(shop)["release"] is True
    bench.call_mix_bad(shop, JOB, FORGOTTEN)
    for job in (JOB, OTHER):
        (what,) = said(shop, job)
        assert f"Ann says that this mix is bad: {FORGOTTEN}" in what
        assert OTHER in what
    assert gates(shop)["release"] is False
    with pytest.raises(GateClosed, match=FORGOTTEN):
        bench.sign_gate(shop, JOB, "release")
    glue = next(gate for gate in answer_job(shop.job(OTHER), shop.now()).gates if gate.step == "glue")
    assert any(FORGOTTEN in say(reason, None) for reason in glue.reasons), "nothing else is glued from it"
    (row,) = mixes(shop)
    assert row.bad is not None and (row.bad.by, row.bad.reason) == ("Ann", FORGOTTEN)
    assert {joint.job for joint in row.joints} == {JOB, OTHER}
    assert {name: bool(job.bad_mixes) for name, job in shop.shop().jobs.items()} == {JOB: True, OTHER: True}


def test_a_closed_job_shows_it_too(shop: Session, clock: Clock) -> None:
    glued(shop)
    clock.wait(hours=30)
    for point in closing_points(shop.job(JOB), worked(shop)):
        bench.accept(shop, JOB, point.key, name="Ann", reason="only its joint is looked at here")
    bench.sign_gate(shop, JOB, "release")
    bench.finish(shop, JOB)
    before = shop.job(JOB)
    bench.call_mix_bad(shop, OTHER, FORGOTTEN)
    assert said(shop, JOB) == said(shop, OTHER) != []
    after = shop.job(JOB)
    assert (after.finished, after.gates_signed) == (before.finished, before.gates_signed), (
        "what was signed stays as it was"
    )


def test_a_release_that_was_signed_before_does_not_close_a_job(shop: Session, clock: Clock) -> None:
    glued(shop)
    clock.wait(hours=30)
    for point in closing_points(shop.job(JOB), worked(shop)):
        bench.accept(shop, JOB, point.key, name="Ann", reason="only its joint is looked at here")
    bench.sign_gate(shop, JOB, "release")
    bench.call_mix_bad(shop, OTHER, FORGOTTEN)
    with pytest.raises(GateClosed, match=FORGOTTEN):
        bench.finish(shop, JOB)


def test_glued_again_from_a_good_mix_it_is_sound(shop: Session, clock: Clock) -> None:
    glued(shop)
    bench.call_mix_bad(shop, JOB, FORGOTTEN)
    clock.wait(minutes=5)
    bench.mix_adhesive(shop, JOB, "4.0 g", "2.0 g", "22 C", "lot 8")
    bench.glue(shop, JOB, "22 C")
    assert said(shop, JOB) == []
    assert said(shop, OTHER) != []


def test_who_works_may_call_it_bad_and_who_signs_takes_that_back(shop: Session) -> None:
    glued(shop)
    wil = msgspec.structs.replace(shop, role="work", by="Wil")
    fact = bench.call_mix_bad(wil, JOB, FORGOTTEN)
    with pytest.raises(InputError, match="Wil called it bad already"):
        bench.call_mix_bad(shop, OTHER, "old")
    with pytest.raises(NotAllowed):
        bench.undo(wil, OTHER, fact.sequence)
    bench.undo(shop, OTHER, fact.sequence)
    assert (said(shop, JOB), said(shop, OTHER)) == ([], [])


def test_a_mix_that_is_undone_is_told_where_it_was_taken_from(shop: Session) -> None:
    glued(shop)
    undo = bench.undo(shop, OTHER)
    (what,) = said(shop, JOB)
    assert f"on job {OTHER}, where it was made, it was undone" in what
    bench.undo(shop, OTHER, undo.sequence)
    assert said(shop, JOB) == []


@pytest.mark.parametrize(
    ("reason", "mix", "says"),
    [(" ", None, "nothing was typed"), ("old", "van/999", "names no mix"), ("old", "T-1", "names no mix")],
)
def test_a_bad_mix_needs_a_reason_and_a_mix(shop: Session, reason: str, mix: str | None, says: str) -> None:
    count = shop.ledger.count()
    with pytest.raises(InputError, match=says) as refused:
        bench.call_mix_bad(shop, OTHER, reason, mix)
    assert all(finding.mend for finding in refused.value.findings)
    with pytest.raises(InputError, match="names no mix"):
        bench.call_mix_bad(shop, JOB, "it has none yet")
    assert shop.ledger.count() == count


def test_no_joint_takes_from_what_is_bad_or_of_another_adhesive_or_not_mixed_yet(shop: Session, clock: Clock) -> None:
    with pytest.raises(InputError, match="mixed only at"):
        bench.take_from_mix(shop, JOB, OTHER, done_at=utc_text(clock.time - timedelta(minutes=4)))
    with pytest.raises(InputError, match="names no mix"):
        bench.take_from_mix(shop, OTHER, JOB)
    bench.change_order(shop, JOB, {"adhesive.name": "another one"}, said_by="Ann", reason="the tin is empty")
    with pytest.raises(InputError, match='this ticket is for "another one"'):
        bench.take_from_mix(shop, JOB, OTHER)
    assert mixes_at_hand(shop, shop.job(JOB)) == ()
    bench.undo(shop, JOB)
    bench.call_mix_bad(shop, OTHER, FORGOTTEN)
    with pytest.raises(InputError, match="says that it is bad"):
        bench.take_from_mix(shop, JOB, OTHER)


def test_two_benches_learn_of_it_when_their_records_come_together(
    shop: Session, clock: Clock, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """One bench calls a mix bad while the other, which does not know of it, glues from it."""
    with record_at(tmp_path_factory.mktemp("shed")) as ledger:
        shed = session_on(ledger, clock, site="shed", by="Bea")
        take_in(shed, shop.ledger.facts())
        bench.call_mix_bad(shed, OTHER, FORGOTTEN)
        glued(shop)
        assert said(shop, JOB) == []
        take_in(shop, shed.ledger.facts())
        take_in(shed, shop.ledger.facts())
        for session in (shop, shed):
            assert FORGOTTEN in said(session, JOB)[0]


def test_what_was_weighed_cannot_be_forged_apart_from_the_mix(
    shop: Session, clock: Clock, tmp_path_factory: pytest.TempPathFactory
) -> None:
    facts = shop.ledger.facts()
    mix = next(iter(shop.job(OTHER).made_mixes.values()))
    wrong = {"part_a": "1 g", "part_b": "2 g", "temperature": "22 C", "batch": "", "mixed_at": mix.mixed_at}
    taken = MixTaken(job=JOB, mix=mix.place, of=OTHER, **wrong)
    with record_at(tmp_path_factory.mktemp("shed")) as ledger:
        shed = session_on(ledger, clock, site="shed")
        take_in(shed, [*facts, forged(facts, taken)])
        assert "says otherwise what was weighed" in said(shed, JOB)[0]

"""An action that ticks a step: kept together with it, once however often it is sent; a step of no plan refuses it whole."""

from __future__ import annotations

import pytest

from benchwork import JOB, Clock, document, session_on
from clubwright.errors import InputError
from clubwright.journal.facts import PartChanged, StepDone, Undone
from clubwright.services.actions import bench
from clubwright.services.actions.door import act
from clubwright.services.actions.register.payloads import Figures, Measured
from clubwright.services.actions.replacing import instead_of
from clubwright.services.record.session import Session
from clubwright.store.engine import open_in_memory
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

WEIGHED = Figures(job=JOB, values={"head.mass": "296.2 g", "grip.mass": "50.1 g"}, step="weigh")


@pytest.fixture
def shop() -> Session:
    engine = open_in_memory()
    migrate(engine)
    session = session_on(Ledger(engine), Clock())
    bench.take_ticket(session, document(), "w.toml")
    return session


def test_the_step_is_a_fact_of_the_action_itself(shop: Session) -> None:
    kept = act(shop, "figures", WEIGHED, "k-1")
    assert [type(fact.what) for fact in kept.facts] == [PartChanged, PartChanged, StepDone]
    assert [fact.key for fact in kept.facts] == ["k-1", "k-1#2", "k-1#3"]
    assert shop.ledger.action("k-1") == list(kept.facts)
    assert kept.step == "weigh"
    assert act(shop, "figures", WEIGHED, "k-1") == kept, "sent again, it is the same action"


def test_a_step_that_lacks_something_is_not_ticked_and_the_figures_are_kept(shop: Session) -> None:
    bench.change_part(shop, JOB, "grip", {"mass": ""})
    before = shop.ledger.count()
    kept = act(shop, "measure", Measured(job=JOB, section="head", values={"mass": "296.2 g"}, step="weigh"), "k-1")
    assert (kept.step, [item.what for item in kept.lacks]) == (None, ["the grip is not weighed"])
    assert shop.ledger.count() == before + 1
    assert "weigh" not in shop.job(JOB).steps_done
    last = act(shop, "measure", Measured(job=JOB, section="grip", values={"mass": "50.1 g"}, step="weigh"), "k-2")
    assert (last.step, last.lacks) == ("weigh", ())


def test_another_step_and_a_wrong_figure_are_told_together_and_nothing_is_kept(shop: Session) -> None:
    before = shop.ledger.facts()
    wrong = Figures(job=JOB, values={"head.mass": "much"}, step="wiegh")
    with pytest.raises(InputError) as refused:
        act(shop, "figures", wrong)
    assert [str(item.where) for item in refused.value.findings] == ["step", f"ticket {JOB} [head] mass"]
    with pytest.raises(InputError, match='no step is called "wiegh"') as refused:
        act(shop, "figures", Figures(job=JOB, values={"head.mass": "296.2 g"}, step="wiegh"))
    assert len(refused.value.findings) == 1
    assert shop.ledger.facts() == before


def test_one_in_place_of_another_is_kept_with_its_step_and_is_the_same_when_it_is_sent_again(shop: Session) -> None:
    theirs = bench.change_part(shop, JOB, "head", {"mass": "290 g"})
    kept = act(instead_of(shop, theirs, "mine"), "figures", WEIGHED, "k-1")
    written = shop.ledger.action("k-1")
    assert [type(fact.what) for fact in written] == [Undone, PartChanged, PartChanged, StepDone]
    assert kept.facts == tuple(written[1:])
    assert act(shop, "figures", WEIGHED, "k-1") == kept
    assert (
        bench.change_parts(shop, JOB, {"head": {"mass": "296.2 g"}, "grip": {"mass": "50.1 g"}}, "k-1") == written[1:3]
    )

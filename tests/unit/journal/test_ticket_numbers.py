"""Two benches that gave one number away: both jobs go on, nobody guesses which is meant, and one can be renumbered."""

from __future__ import annotations

import msgspec
import pytest

from benchwork import JOB, START, Clock, document, run_to, session_on
from clubwright.errors import InputError, NotInRecord, RecordError
from clubwright.journal.chain import GENESIS, seal
from clubwright.journal.facts import Fact, Gripped, StepDone, TicketTaken, Undone, What
from clubwright.journal.order import merge
from clubwright.journal.reducers.fold import fold, fold_each
from clubwright.services.actions import bench
from clubwright.services.actions.orders.renumbering import next_number
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import take_in
from clubwright.store.ledger import Ledger
from journal_facts import TICKET, chained

ON_SQLITE = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
NUMBER = "T-0110"


def ticket(number: str, player: str) -> dict[str, object]:
    made = document()
    made["ticket"] = {**made["ticket"], "id": number, "player": player}
    return made


def of_van(session: Session, *numbers: str) -> list[Fact]:
    """What a van wrote that never heard of the shop."""
    made: list[Fact] = []
    payloads: list[What] = []
    for number in numbers:
        payloads.append(TicketTaken(job=number, document=ticket(number, "Hazel Brook"), source="van.toml"))
        payloads.append(StepDone(job=number, step="pull", subject=("van", len(payloads))))
    for at, what in enumerate(payloads, start=1):
        previous = made[-1].hash if made else GENESIS
        said = {"at": f"2026-03-02T08:{at:02d}:00.000Z", "by": "Bo", "typed": "van", "key": f"van-{at}"}
        made.append(seal(what, site="van", sequence=at, previous_hash=previous, **said))
    return made


@pytest.fixture
def shop(ledger: Ledger) -> Session:
    """A shop whose T-0110 clashes with that of the van."""
    clock = Clock()
    clock.time = START.replace(hour=9)
    session = session_on(ledger, clock, site="shop")
    bench.take_ticket(session, ticket(NUMBER, "Alder Fenwick"), "shop.toml")
    take_in(session, of_van(session, NUMBER))
    return session


@ON_SQLITE
def test_both_go_on_and_neither_is_guessed(shop: Session) -> None:
    assert set(shop.shop().jobs) == {f"{NUMBER}@shop", f"{NUMBER}@van"}
    with pytest.raises(RecordError, match=f"write {NUMBER}@van .*Hazel Brook.* or {NUMBER}@shop .*Alder Fenwick"):
        shop.job(NUMBER)
    for write in (
        lambda: bench.do_step(shop, NUMBER, "weigh"),
        lambda: bench.note_reading(shop, NUMBER, "head.mass", "296 g"),
        lambda: bench.take_ticket(shop, ticket(NUMBER, "Rowan Pike"), "third.toml"),
    ):
        count = shop.ledger.count()
        with pytest.raises(RecordError):
            write()
        assert shop.ledger.count() == count
    bench.change_part(shop, f"{NUMBER}@van", "head", {"hand": "right"})
    bench.do_step(shop, f"{NUMBER}@van:1", "weigh")
    assert shop.job(f"{NUMBER}@van").steps_done == ("pull", "weigh")
    assert shop.job(f"{NUMBER}@shop").steps_done == ()
    with pytest.raises(NotInRecord):
        shop.job(f"{NUMBER}@barn")


@ON_SQLITE
def test_an_undo_that_names_a_bench_says_which_job_it_means(shop: Session) -> None:
    bench.undo(shop, NUMBER, 2, "not pulled", site="van")
    assert shop.job(f"{NUMBER}@van").steps_done == ()


@ON_SQLITE
def test_another_number_ends_the_clash_but_for_who_reads_an_older_tag(shop: Session) -> None:
    before = shop.job(f"{NUMBER}@van")
    bench.renumber(shop, f"{NUMBER}@van", "T-0111", "k-1")
    assert bench.renumber(shop, f"{NUMBER}@van", "T-0111", "k-1").sequence == shop.ledger.last("shop")
    after = shop.job("T-0111")
    assert (after.id, after.numbers, after.place) == ("T-0111", (NUMBER, "T-0111"), before.place)
    assert after.document["ticket"]["id"] == "T-0111"
    assert after.steps_done == before.steps_done
    bench.change_part(shop, "T-0111", "head", {"hand": "right"})
    assert shop.job(f"{NUMBER}@van").id == "T-0111"
    with pytest.raises(RecordError, match=f"write T-0111 .* or {NUMBER}@shop"):
        shop.job(NUMBER)
    bench.renumber(shop, f"{NUMBER}@shop", "T-0112")
    assert set(shop.shop().jobs) == {"T-0111", "T-0112"}
    assert [shop.job(number).id for number in ("T-0111", "T-0112")] == ["T-0111", "T-0112"]
    bench.undo(shop, "T-0111", shop.job("T-0111").last_standing_line().sequence)
    assert "hand" not in shop.job("T-0111").document["head"]
    bench.undo(shop, "T-0111")
    assert shop.job(f"{NUMBER}@van").numbers == (NUMBER,)


@ON_SQLITE
def test_a_number_is_given_once(shop: Session) -> None:
    bench.renumber(shop, f"{NUMBER}@van", "T-0111")
    for number, says in (
        ("T-0111", "already in the record"),
        (NUMBER, "it is T-0110 already"),
        ("T@1", "holds @"),
        ("a/b", "holds @ or /"),
        (" ", "is empty"),
    ):
        with pytest.raises(InputError, match=says):
            bench.renumber(shop, f"{NUMBER}@shop", number)
    for number in (NUMBER, "T-0111"):
        with pytest.raises(RecordError, match="already in the record"):
            bench.take_ticket(shop, ticket(number, "Rowan Pike"), "third.toml")
    with pytest.raises(InputError, match="holds @"):
        bench.take_ticket(shop, ticket("T-1@van", "Rowan Pike"), "third.toml")


@ON_SQLITE
def test_a_clash_that_a_new_number_makes_is_told_too(shop: Session) -> None:
    """The van takes T-0300 while the shop gives that number to another ticket."""
    bench.renumber(shop, f"{NUMBER}@shop", "T-0300")
    (finding,) = take_in(shop, of_van(shop, NUMBER, "T-0300")).findings
    assert (finding.where, finding.severity) == ("ticket T-0300", "note")
    assert set(shop.shop().jobs) == {f"{NUMBER}@van", "T-0300@shop", "T-0300@van"}
    assert shop.job("T-0300@shop").place == ("shop", 1)
    assert shop.job(f"{NUMBER}@shop").id == "T-0300@shop"


@ON_SQLITE
@pytest.mark.usefixtures("played")
def test_a_finished_job_can_still_be_renumbered(session: Session, clock: Clock) -> None:
    run_to(session, clock, "finish")
    signed = session.job(JOB).finished
    bench.renumber(session, JOB, "T-0055")
    assert session.job("T-0055").finished == signed
    assert session.job(JOB).id == "T-0055", "nobody else has the old number"
    with pytest.raises(RecordError, match="is finished"):
        bench.change_part(session, JOB, "head", {"mass": "1 g"})


@ON_SQLITE
def test_the_next_number_carries_the_name_of_a_bench_that_has_one(shop: Session) -> None:
    found = shop.shop()
    assert next_number(found) == "T-0111"
    assert next_number(found, "shop") == "T-shop-0001"
    bench.take_ticket(shop, ticket("T-shop-0009", "Rowan Pike"), "t")
    assert next_number(shop.shop(), "shop") == "T-shop-0010"
    assert next_number(shop.shop(), "van") == "T-van-0001"
    assert next_number(shop.shop(), "the van/2") == "T-the-van-2-0001"


# facts from before a fact named its job


def test_an_old_fact_means_its_own_bench_first_and_else_the_only_ticket() -> None:
    van = chained([TICKET, Gripped(job="T-1")])
    barn = chained([TICKET, StepDone(job="T-1", step="weigh")], site="barn")
    found = fold(merge(van, barn))
    assert found.job("T-1@van").gripped is True
    assert found.job("T-1@barn").steps_done == ("weigh",)
    third = chained([Gripped(job="T-1")], site="truck", minutes=[30])
    assert fold(merge(van, third)).job("T-1").trail[-1].site == "truck"


def test_an_old_fact_of_nobody_knows_which_ticket_is_told_and_can_be_undone() -> None:
    van = chained([TICKET, Gripped(job="T-1")])
    barn = chained([TICKET], site="barn")
    truck = chained([StepDone(job="T-1", step="weigh")], site="truck", minutes=[30])
    other = chained([TicketTaken(job="T-2", document={"ticket": {"id": "T-2"}}, source="")], site="tent")
    union = merge(merge(van, barn), merge(truck, other))
    found = fold_each(union)
    assert set(found.jobs) == {"T-2"}, "every other list entry is up"
    assert set(found.broken) == {"T-1@van", "T-1@barn"}
    assert "undo it as a fact of the job" in found.broken["T-1@van"].findings[0].what
    undo = Undone(job="T-1", subject=("van", 1), fact=1, reason="", site="truck")
    mended = fold_each(merge(union, chained([undo], site="office", minutes=[50])))
    assert set(mended.jobs) == {"T-1@van", "T-1@barn", "T-2"}
    assert [line.undone for line in mended.job("T-1@van").trail] == [False, False, True, False]


def test_a_forged_fact_that_names_another_job_hides_nothing() -> None:
    van = chained([TICKET, Gripped(job="T-1")])
    forged = chained([Gripped(job="T-9", subject=("van", 1))], site="barn", minutes=[9])
    found = fold_each(merge(van, forged))
    assert found.job("T-1").gripped is True
    assert set(found.broken) == {"T-9"}


def test_a_fact_keeps_its_hash_where_it_names_no_job() -> None:
    assert "subject" not in msgspec.to_builtins(Gripped(job="T-1"))
    assert msgspec.to_builtins(Gripped(job="T-1", subject=("van", 1)))["subject"] == ("van", 1)

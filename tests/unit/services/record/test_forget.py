"""A player is forgotten: no byte of the name is left, every number stays, and nobody can pass a change off as an erasure."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import msgspec
import pytest

from benchwork import JOB, Clock, document, play, session_on, state_bytes
from clubwright.bootstrap import RECORD, open_copy
from clubwright.errors import InputError, NotAllowed, RecordError
from clubwright.journal.chain import hash_of
from clubwright.journal.erased import NOBODY, covered
from clubwright.journal.erasing import alike
from clubwright.journal.facts import Erased, NamesErased, PartChanged, Span
from clubwright.services.actions import bench
from clubwright.services.actions.forgetting import UNREACHED, Forgotten, forget, look_before
from clubwright.services.record.search import Search, found
from clubwright.services.record.session import Session
from clubwright.services.recording.erasing_merge import apply_erasures
from clubwright.services.recording.merging import take_in
from clubwright.store import erasing_ledger
from forging import forged, record_at

NAME = "Zebulon Quagmire"
OTHER = "Ottilie Brandysnap"
REST = "the player, by letter"


def ticket(number: str, player: str = NAME, **more: str) -> dict[str, Any]:
    return {**document(), "ticket": {**document()["ticket"], "id": number, "player": player, **more}}


def gone(folder: Path) -> bool:
    """True when no file of a workshop holds a word of the name, in any spelling."""
    content = b"".join(path.read_bytes() for path in folder.iterdir()).lower()
    return b"zebulon" not in content and b"quagmire" not in content


def erase(session: Session, player: str = NAME, *also: str) -> Forgotten:
    seen = look_before(session, player, also)
    return forget(session, player, asked_by=REST, facts=seen.facts, also=also)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Session]:
    with record_at(tmp_path / "shop") as ledger:
        yield session_on(ledger, Clock(), site="shop")


@pytest.fixture
def benches(tmp_path: Path) -> Iterator[tuple[Session, Session]]:
    """A shop and its van, which have the same ticket of the player."""
    with ExitStack() as both:
        sessions = [
            session_on(both.enter_context(record_at(tmp_path / site)), Clock(), site=site, by=by)
            for site, by in (("shop", "Ann"), ("van", "Bob"))
        ]
        bench.take_ticket(sessions[0], ticket("T-1", note=f"for {NAME} and {OTHER}"), "t.toml")
        take_in(sessions[1], sessions[0].ledger.facts())
        yield sessions[0], sessions[1]


def test_a_finished_job_stays_whole_and_no_byte_of_the_name_is_left(
    shop: Session, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    play(shop.ledger)
    player = document()["ticket"]["player"]
    numbered = {fact.place: fact.hash for fact in shop.ledger.facts()}
    before, built = state_bytes(shop), shop.job(JOB)
    bench.take_ticket(shop, ticket("T-9", player=f" {player.upper()}", note=f"{player}'s other one"), f"of {player}")
    # what is left without the last tidying up is what a power cut leaves
    monkeypatch.setattr(erasing_ledger, "sweep", lambda _: None)
    done = erase(shop, player)
    assert set(done.looked.jobs) == {JOB, "T-9"}
    content = (tmp_path / "shop" / RECORD).read_bytes().lower()
    assert player.lower().encode() not in content
    assert not any(player.encode() in path.read_bytes() for path in (tmp_path / "shop").iterdir())
    assert shop.ledger.verify() == ()
    assert state_bytes(shop) == before.replace(player.encode(), f"{NOBODY} {done.person}".encode())
    after = shop.job(JOB)
    assert (after.steps_done, set(after.gates_signed), after.finished is not None) == (
        built.steps_done,
        set(built.gates_signed),
        built.finished is not None,
    )
    assert numbered.items() <= {fact.place: fact.hash for fact in shop.ledger.facts()}.items()
    assert [job.document["ticket"]["player"] for job in found(shop.shop(), Search(words="forgotten"))] == [
        f"{NOBODY} {done.person}"
    ] * 2
    assert found(shop.shop(), Search(words=player)) == []
    # and the bench goes on
    bench.note_reading(shop, "T-9", "swing_weight", "D1", stage="dry, gripped")
    assert shop.ledger.verify() == ()


def test_what_may_still_say_who_it_was_is_listed_and_not_touched(shop: Session, tmp_path: Path) -> None:
    head = {**document()["head"], "name": f"{NAME}'s own"}
    bench.take_ticket(shop, {**ticket("T-1", note="Quagmire rang: 0151 496 0000"), "head": head}, "quagmire.toml")
    seen = look_before(shop, "zebulon  quagmire")
    assert {item.path for item in seen.remaining} >= {
        "what/document/ticket/note",
        "what/document/head/name",
        "what/source",
    }
    done = erase(shop, NAME, "Quagmire", "0151 496 0000", "quagmire.toml")
    left = [item.path for item in done.looked.remaining]
    assert left == ["what/document/head/name"]
    assert shop.job("T-1").document["head"]["name"] == f"{NAME}'s own"
    assert shop.job("T-1").document["ticket"]["note"] == f"{NOBODY} {done.person} rang: {NOBODY} {done.person}"
    assert b"0151" not in (tmp_path / "shop" / RECORD).read_bytes()


def test_it_is_refused_without_a_look_or_with_the_name_in_what_stays(shop: Session) -> None:
    bench.take_ticket(shop, ticket("T-1"), "t.toml")
    before = shop.ledger.facts()
    with pytest.raises(InputError) as refused:
        forget(shop, NAME, asked_by=f"{NAME} herself", facts=7)
    assert [item.where for item in refused.value.findings] == ["asked by", "facts"]
    with pytest.raises(InputError, match="Did you mean Zebulon Quagmire"):
        look_before(shop, "Zebulon Quagmyre")
    with pytest.raises(NotAllowed):
        forget(msgspec.structs.replace(shop, role="work"), NAME, asked_by=REST, facts=1)
    assert shop.ledger.facts() == before


def test_sent_twice_it_is_done_once(shop: Session) -> None:
    bench.take_ticket(shop, ticket("T-1"), "t.toml")
    first = forget(shop, NAME, asked_by=REST, facts=1, key="once")
    again = forget(shop, NAME, asked_by=REST, facts=1, key="once")
    assert (again.person, again.written) == (first.person, first.written)
    assert shop.ledger.count() == 2


def test_many_facts_are_told_in_several(shop: Session, tmp_path: Path) -> None:
    bench.take_ticket(shop, ticket("T-1"), "t.toml")
    note = PartChanged(job="T-1", section="ticket", values={"note": f"for {NAME}"})
    said = {"by": "Ann", "at": "2026-03-02T09:00:00.000Z"}
    for number in range(25):
        shop.ledger.append("shop", [note] * 10, typed=f"{NAME} said so", key=f"many {number}", **said)
    done = erase(shop)
    assert len(done.written) == 3
    assert shop.ledger.verify() == ()
    assert gone(tmp_path / "shop")


def test_a_copy_that_still_holds_the_name_does_not_bring_it_back(
    benches: tuple[Session, Session], tmp_path: Path
) -> None:
    shop, van = benches
    bench.take_ticket(van, ticket("T-2"), "van.toml")
    bench.change_part(van, "T-1", "ticket", {"note": f"{NAME} looked on"})
    done = erase(shop)
    taken = take_in(shop, van.ledger.facts())
    assert "the same name was erased where only one of the records had it: T-2, T-1" in taken.findings[0].what
    assert gone(tmp_path / "shop")
    assert shop.ledger.verify() == ()
    assert shop.job("T-2").document["ticket"]["player"] == f"{NOBODY} {done.person}"
    # back again: the van erases its own
    assert not gone(tmp_path / "van")
    taken = take_in(van, shop.ledger.facts())
    assert "texts were erased in 3 facts of this record" in taken.findings[0].what
    assert gone(tmp_path / "van")
    assert van.ledger.verify() == ()
    assert van.job("T-1").document == shop.job("T-1").document
    # and nothing moves any more
    assert (take_in(shop, van.ledger.facts()).findings, take_in(van, shop.ledger.facts()).findings) == ((), ())
    assert (gone(tmp_path / "shop"), shop.ledger.verify(), van.ledger.verify()) == (True, (), ())


def test_a_record_that_takes_an_erasure_in_erases_its_own_further_jobs(
    benches: tuple[Session, Session], tmp_path: Path
) -> None:
    shop, van = benches
    bench.take_ticket(van, ticket("T-2", note="mine alone"), "van.toml")
    erase(shop)
    take_in(van, shop.ledger.facts())
    assert gone(tmp_path / "van")
    assert van.ledger.verify() == ()
    assert van.job("T-2").document["ticket"]["note"] == "mine alone"


def test_two_benches_that_forget_two_people_of_one_text_come_to_the_same(
    benches: tuple[Session, Session], tmp_path: Path
) -> None:
    shop, van = benches
    bench.take_ticket(van, ticket("T-2", player=OTHER), "van.toml")
    one, two = erase(shop), erase(van, OTHER)
    take_in(shop, van.ledger.facts())
    take_in(van, shop.ledger.facts())
    take_in(shop, van.ledger.facts())
    note = f"for {NOBODY} {one.person} and {NOBODY} {two.person}"
    for session in benches:
        assert session.job("T-1").document["ticket"]["note"] == note
        assert session.ledger.verify() == ()
    assert gone(tmp_path / "shop")
    assert gone(tmp_path / "van")
    assert b"Brandysnap" not in (tmp_path / "shop" / RECORD).read_bytes()


def test_an_earlier_backup_is_brought_up_to_what_was_erased(shop: Session, tmp_path: Path) -> None:
    bench.take_ticket(shop, ticket("T-1"), "t.toml")
    copies = tmp_path / "copies"
    copies.mkdir()
    shop.ledger.backup(copies / "monday.sqlite")
    bench.change_part(shop, "T-1", "grip", {"mass": "49 g"})
    erase(shop)
    assert not gone(copies)
    with open_copy(copies / "monday.sqlite") as copy:
        done = apply_erasures(shop, copy)
        assert (done.erased, done.new, done.facts) == (1, 2, 3)
        assert copy.verify() == ()
        assert copy.facts() == shop.ledger.facts()
        assert apply_erasures(shop, copy).erased == 0
    assert gone(copies)
    # a backup made afterwards holds nothing of it either
    shop.ledger.backup(copies / "tuesday.sqlite")
    assert gone(copies)


def test_a_file_that_holds_more_than_the_record_is_left_as_it_is(
    benches: tuple[Session, Session], tmp_path: Path
) -> None:
    shop, van = benches
    bench.take_ticket(van, ticket("T-2"), "van.toml")
    erase(shop)
    before = (tmp_path / "van" / RECORD).read_bytes()
    with pytest.raises(InputError, match="it holds 2 facts that this record has not"):
        apply_erasures(shop, van.ledger)
    assert (tmp_path / "van" / RECORD).read_bytes() == before


def tampered(file: Path, old: str, new: str) -> None:
    """Change the content of facts behind the program's back, with what guards them put back after it."""
    connection = sqlite3.connect(file)
    guards = connection.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
    for name, _ in guards:
        connection.execute(f"DROP TRIGGER {name}")
    connection.execute("UPDATE fact SET what = replace(what, ?, ?) WHERE kind = 'ticket taken'", (old, new))
    for _, sql in guards:
        connection.execute(sql)
    connection.commit()
    connection.close()


def test_what_is_left_of_a_fact_cannot_be_changed_nor_passed_off_as_erased(shop: Session, tmp_path: Path) -> None:
    bench.take_ticket(shop, ticket("T-1"), "t.toml")
    bench.take_ticket(shop, ticket("T-2", player=OTHER), "t.toml")
    erase(shop)
    file = tmp_path / "shop" / RECORD
    whole = file.read_bytes()
    tampered(file, document()["head"]["mass"], "299 g")
    assert [item.where for item in shop.ledger.verify()] == ["record shop/1", "record shop/2"]
    file.write_bytes(whole)
    assert shop.ledger.verify() == ()
    # the mark of something erased in a fact that nobody erased in
    tampered(file, '"document":', '"erased":[["P-1","what/document/ticket/player",0,18]],"document":')
    said = shop.ledger.verify()
    assert "record shop/2" in [item.where for item in said]
    with pytest.raises(RecordError, match="not what an erasure in the record says"):
        shop.ledger.facts("T-2")


def test_an_erasure_that_changes_more_than_it_says_is_refused_where_the_fact_is_still_held(
    benches: tuple[Session, Session],
) -> None:
    shop, van = benches
    facts = shop.ledger.facts()
    changed = {**ticket("T-1"), "head": {**document()["head"], "loft": "50 deg"}}
    other = msgspec.structs.replace(facts[0], what=msgspec.structs.replace(facts[0].what, document=changed))
    span = Span("P-1", "what/document/ticket/player", 0, len(NAME))
    left = msgspec.structs.replace(other, erased=(span,))
    what = NamesErased(person="P-1", asked_by=REST, facts=(Erased("shop", 1, hash_of(left), (span,)),))
    with pytest.raises(InputError, match="changed more of this fact than it says"):
        take_in(van, [left, forged(facts, what, site="shop")])
    # nor may it erase what the job is worked out from
    span = Span("P-1", "what/document/head/loft", 0, 3)
    what = NamesErased(person="P-1", asked_by=REST, facts=(Erased("shop", 1, "0" * 64, (span,)),))
    with pytest.raises(InputError, match="is not erased"):
        take_in(van, [*facts, forged(facts, what, site="shop")])
    assert van.ledger.verify() == ()


def test_what_is_not_reached_is_said() -> None:
    assert any("--apply-to FILE" in line for line in UNREACHED)
    assert any("merge" in line for line in UNREACHED)


def test_who_is_back_as_a_player_is_not_forgotten_again_by_an_old_copy(
    benches: tuple[Session, Session], tmp_path: Path
) -> None:
    shop, van = benches
    shop.ledger.backup(tmp_path / "old.sqlite")
    erase(shop)
    bench.take_ticket(shop, ticket("T-3"), "t.toml")
    take_in(shop, van.ledger.facts())
    assert shop.job("T-3").document["ticket"]["player"] == NAME
    take_in(van, shop.ledger.facts())
    assert van.job("T-3").document["ticket"]["player"] == NAME
    with open_copy(tmp_path / "old.sqlite") as copy:
        assert apply_erasures(shop, copy).erased == 1
        assert copy.facts() == shop.ledger.facts()
    assert (shop.ledger.verify(), van.ledger.verify()) == ((), ())


def test_the_index_of_jobs_is_worked_out_anew_without_the_name(
    shop: Session, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(erasing_ledger, "sweep", lambda _: None)
    for number in range(1, 9):
        bench.take_ticket(shop, ticket(f"T-{number}"), "t.toml")
    shop.ledger.rebuild()
    with shop.ledger.index() as index:
        assert index is not None
    file = tmp_path / "shop" / RECORD
    assert file.read_bytes().count(NAME.encode()) > 1
    erase(shop)
    assert gone(tmp_path / "shop")
    with shop.ledger.index() as index:
        assert index is not None
    assert gone(tmp_path / "shop")
    assert shop.ledger.verify() == ()


def test_two_copies_of_a_fact_are_alike_only_in_all_that_was_not_erased(benches: tuple[Session, Session]) -> None:
    fact = benches[0].ledger.facts()[0]
    span = Span("P-1", "what/document/ticket/player", 0, len(NAME))
    erased = covered(fact, [span])
    assert alike(fact, erased)
    assert alike(erased, fact)
    assert alike(erased, covered(fact, [Span("P-2", "what/source", 0, 1)]))
    assert not alike(fact, msgspec.structs.replace(erased, typed="another"))
    with pytest.raises(RecordError, match="the records differ"):
        benches[0].ledger.receive([msgspec.structs.replace(erased, typed="another")])

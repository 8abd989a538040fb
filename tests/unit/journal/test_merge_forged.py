"""What could not have happened is not taken in: forged facts with valid hashes, each refused whole; every list stays up."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import msgspec
import pytest

from benchwork import JOB, Clock, document, run_to, session_on
from clubwright.bootstrap import read_facts
from clubwright.errors import ClubwrightError, InputError
from clubwright.journal.facts import (
    AdhesiveMixed,
    Fact,
    Finished,
    GateSigned,
    Glued,
    Gripped,
    HeadBent,
    PartChanged,
    ReadingDecided,
    ReadingTaken,
    RecordsMerged,
    ShaftCut,
    ShaftTrimmed,
    StepDone,
    TicketTaken,
    Undone,
    WeightsFitted,
)
from clubwright.services.actions import bench
from clubwright.services.jobs.job_list import JobStatuses, waiting
from clubwright.services.record.search import Search, found
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import take_in
from forging import forged, record_at

OTHER = "T-0099"
OURS = "T-0001"


def other_ticket(**tables: Any) -> dict[str, Any]:
    return {**document(), "ticket": {**document()["ticket"], "id": OTHER}, **tables}


def deep(levels: int) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for _ in range(levels):
        found = {"x": found}
    return found


def reading(**said: Any) -> ReadingTaken:
    usual = {"quantity": "swing_weight", "value": "D2", "stage": "dry, gripped", "weights": []}
    return ReadingTaken(job=JOB, **{**usual, **said})


def envelope(**said: Any) -> Callable[[list[Fact]], list[Fact]]:
    return lambda facts: [forged(facts, StepDone(job=JOB, step="tape"), **said)]


def whats(*many: Any) -> Callable[[list[Fact]], list[Fact]]:
    def forge(facts: list[Fact]) -> list[Fact]:
        new: list[Fact] = []
        for what in many:
            new.append(forged([*facts, *new], what))
        return new

    return forge


def undo_of_itself(facts: list[Fact]) -> list[Fact]:
    return whats(Undone(job=JOB, fact=len(facts) + 1, reason=""))(facts)


FORGERIES: dict[str, tuple[Callable[[list[Fact]], list[Fact]], str]] = {
    # times
    "the last year there is": (envelope(at="9999-12-31T23:59:59.999Z"), "is no time"),
    "a day that there is not": (envelope(at="2026-02-30T08:00:00.000Z"), "is no time"),
    "an hour that there is not": (envelope(at="2026-02-03T29:00:00.000Z"), "is no time"),
    "a word for a time": (envelope(at="yesterday"), "is no time"),
    "before there were clocks": (envelope(at="0001-01-01T00:00:00.000Z"), "is no time"),
    "a time zone": (envelope(at="2026-03-02T08:00:00.000+14:00"), "is no time"),
    # persons, benches, texts
    "nobody": (envelope(by=""), "person: '' is empty"),
    "a person that rings": (envelope(by="Ann\x07"), "cannot be seen"),
    "a person on two lines": (envelope(by="Ann\nBo"), "cannot be seen"),
    "a person without end": (envelope(by="A" * 5000), "has 5000 characters"),
    "a bench without a name": (envelope(site=""), "bench: '' is empty"),
    "a bench that cannot be seen": (envelope(site="\u200b"), "cannot be seen"),
    "this bench's own name": (envelope(site="shop", sequence=2, previous_hash="?"), "under this bench's own name"),
    "a trail that clears the screen": (envelope(typed="\x1b[2J"), "control characters"),
    "a trail without end": (envelope(typed="x" * 100_000), "has 100000 characters"),
    "a key without end": (envelope(key="k" * 300), "has 300 characters"),
    "a key of this bench": (envelope(key="ours 1"), "holds each key once"),
    "control characters deep inside": (
        whats(GateSigned(job=JOB, step="cut", shown={"answer": {"a": [{"b": "\x00"}]}})),
        "control characters",
    ),
    # numbers and content
    "a number with a line in it": (whats(StepDone(job="T-1\nT-2", step="pull")), "cannot be seen"),
    "no ticket number": (whats(StepDone(job="", step="pull")), "ticket number: '' is empty"),
    "a ticket that is a word": (whats(TicketTaken(job=OTHER, document={"ticket": "x"}, source="")), "[ticket] id"),
    "a ticket without a table": (whats(TicketTaken(job=OTHER, document={}, source="")), "[ticket] id"),
    "a ticket of another number": (whats(TicketTaken(job="T-0098", document=other_ticket(), source="")), "[ticket] id"),
    "a table that is a list": (whats(TicketTaken(job=OTHER, document=other_ticket(head=[1]), source="")), "[head]"),
    "a table that there is not": (whats(TicketTaken(job=OTHER, document=other_ticket(mood={}), source="")), "[mood]"),
    "a mass that is none": (
        whats(TicketTaken(job=OTHER, document=other_ticket(head={"mass": "heavy"}), source="")),
        "heavy",
    ),
    "a number that is no text": (
        whats(TicketTaken(job=OTHER, document=other_ticket(head={"mass": 0.3}), source="")),
        "not kept as text",
    ),
    "a document without a bottom": (
        whats(TicketTaken(job=OTHER, document=other_ticket(head=deep(60)), source="")),
        "levels",
    ),
    "a count beyond all counts": (whats(Undone(job=JOB, fact=10**12, reason="")), "is no count"),
    # what fits no job
    "a ticket twice": (whats(TicketTaken(job=JOB, document=document(), source="")), "two tickets"),
    "a fact of a job without a ticket": (whats(StepDone(job=OTHER, step="pull")), "no ticket that stands"),
    "an undo of nothing": (whats(Undone(job=JOB, fact=900, reason="")), "no earlier fact 900"),
    "an undo of a fact at no bench": (whats(Undone(job=JOB, fact=1, reason="", site="barn")), "no earlier fact 1"),
    "an undo of itself": (undo_of_itself, "no earlier fact"),
    "an undo of number nought": (whats(Undone(job=JOB, fact=0, reason="")), "no number of a fact"),
    "a ticket undone from under its facts": (whats(Undone(job=JOB, fact=1, reason="")), "no ticket that stands"),
    "the same undone twice": (whats(*[Undone(job=JOB, fact=8, reason="")] * 2), "undone already"),
    "a decision about a step": (whats(ReadingDecided(job=JOB, reading=3, keep=False, reason="")), "is no reading"),
    "a decision about nothing": (whats(ReadingDecided(job=JOB, reading=700, keep=True, reason="")), "fact 700"),
    "a reading of a mood": (whats(reading(quantity="mood")), "mood"),
    "a reading that is no number": (whats(reading(value="nice")), "nice"),
    "a reading at a stage that there is not": (whats(reading(stage="soon")), "soon"),
    "a reading with a weight that there is not": (whats(reading(weights=["anvil"])), "anvil"),
    "a reading by a gauge that there is not": (whats(reading(instrument="crystal ball")), "crystal ball"),
    "a reading repeated less than once": (whats(reading(repeats="0")), "repeats"),
    "a weight that is not in the tray": (whats(WeightsFitted(job=JOB, weights=["anvil"])), "anvil"),
    "a trim that lengthens": (whats(ShaftTrimmed(job=JOB, end="butt", amount="-1/2 in")), "-1/2 in"),
    "a trim of a bit": (whats(ShaftTrimmed(job=JOB, end="tip", amount="a bit")), "a bit"),
    "a cut to nothing": (whats(ShaftCut(job=JOB, cut_length="0 in")), "0 in"),
    "a mix by feel": (
        whats(AdhesiveMixed(job=JOB, part_a="some", part_b="2 g", temperature="22 C", batch="")),
        "some",
    ),
    "a joint closed unsigned": (whats(Glued(job=JOB, temperature="22 C")), 'nobody has signed the gate "glue"'),
    "a joint closed warm": (whats(Glued(job=JOB, temperature="warm")), "warm"),
    "a bend of no angle": (whats(HeadBent(job=JOB)), "no angle given"),
    "a bend to a word": (whats(HeadBent(job=JOB, loft="strong")), "strong"),
    "a step that there is not": (whats(StepDone(job=JOB, step="polish the crown")), "polish the crown"),
    "a gate that there is not": (whats(GateSigned(job=JOB, step="garden", shown={})), "garden"),
    "a signature for a list": (whats(GateSigned(job=JOB, step="cut", shown={"answer": []})), "no answer"),
    "a signature for a cut of words": (
        whats(GateSigned(job=JOB, step="cut", shown={"answer": {"cut": {"shaft_length_m": "short"}}})),
        "no answer",
    ),
    "an end that shows verdicts that are none": (
        whats(Finished(job=JOB, shown={"answer": {"verdicts": {"length": "fine"}}})),
        "no answer",
    ),
    "an end without a release": (whats(Finished(job=JOB, shown={})), 'nobody has signed the gate "release"'),
    "a part that was not changed": (whats(PartChanged(job=JOB, section="grip", values={})), "nothing to change"),
    "a part that there is not": (whats(PartChanged(job=JOB, section="spoiler", values={"mass": "1 g"})), "spoiler"),
    "a part's figure that is none": (whats(PartChanged(job=JOB, section="grip", values={"mass": "much"})), "much"),
    "a cut by the back door": (
        whats(PartChanged(job=JOB, section="shaft", values={"cut_length": "30 in"})),
        "is not set by hand",
    ),
    "another number for the ticket": (
        whats(PartChanged(job=JOB, section="ticket", values={"id": "T-7"})),
        "its number",
    ),
    "a reading changed": (whats(PartChanged(job=JOB, section="reading", values={"value": "D9"})), "read again"),
}


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Session]:
    """This bench: a ticket of its own, and all that the van honestly wrote."""
    with record_at(tmp_path / "shop") as ledger:
        clock = Clock()
        clock.wait(days=30)
        session = session_on(ledger, clock, site="shop")
        own = {"ticket": {"id": OURS, "kind": "iron", "hand": "left", "player": "Mara Quill"}}
        bench.take_ticket(session, own, "t", key="ours 1")
        yield session


@pytest.fixture
def van(tmp_path: Path, played: None) -> list[Fact]:
    """What the van honestly wrote: the wedge up to its first dry reading, with the weight on."""
    with record_at(tmp_path / "honest van") as ledger:
        run_to(session_on(ledger, Clock()), Clock(), "fit")
        return ledger.facts()


def lists_are_up(session: Session) -> None:
    """Everything that a list asks of a job."""
    jobs = session.shop()
    now = session.now()
    items = waiting(found(jobs, Search(state="open")), now)
    standings = JobStatuses()
    assert all(standings.of(item.job, now) for item in items)
    assert jobs.findings == ()


def test_there_are_enough_of_them() -> None:
    assert len(FORGERIES) >= 23


@pytest.mark.parametrize("name", FORGERIES)
def test_a_forgery_is_refused_whole(shop: Session, van: list[Fact], tmp_path: Path, name: str) -> None:
    forge, says = FORGERIES[name]
    before = shop.ledger.facts()
    assert forge(van)[-1].hash != ""
    with pytest.raises(InputError) as refused:
        take_in(shop, [*van, *forge(van)])
    assert says in str(refused.value), str(refused.value)
    assert all(item.where and item.what and item.mend for item in refused.value.findings)
    assert shop.ledger.facts() == before
    lists_are_up(shop)


@pytest.mark.parametrize("name", list(FORGERIES)[::6])
def test_a_forged_file_is_refused_too(shop: Session, van: list[Fact], tmp_path: Path, name: str) -> None:
    """As the command does: the other record is opened and read."""
    forge, _ = FORGERIES[name]

    def merge() -> None:
        with record_at(tmp_path / "forged", [*van, *forge(van)]):
            pass
        take_in(shop, read_facts(str(tmp_path / "forged")))

    with pytest.raises(ClubwrightError):  # some cannot even be written into a table, or are told when they are read
        merge()
    lists_are_up(shop)


def test_what_the_forger_left_alone_is_taken_in(shop: Session, van: list[Fact]) -> None:
    taken = take_in(shop, van)
    assert (taken.new, taken.findings) == (len(van), ())
    assert shop.job(JOB).trail[-1].text == "fitted port 6"
    assert set(shop.shop().jobs) == {OURS, JOB}


def test_every_finding_is_said_at_once(shop: Session, van: list[Fact]) -> None:
    new = envelope(by="", at="tomorrow")(van)
    new += [forged([*van, *new], TicketTaken(job=OTHER, document={}, source="\x07"))]
    with pytest.raises(InputError) as refused:
        take_in(shop, [*van, *new])
    said = str(refused.value)
    assert all(part in said for part in ("person", "is no time", "control characters"))


def test_a_changed_fact_and_a_gap_are_refused(shop: Session, van: list[Fact]) -> None:
    take_in(shop, van[:3])
    other = msgspec.structs.replace(van[2], typed="something else")
    with pytest.raises(InputError, match="the records differ in this fact"):
        take_in(shop, [*van[:2], other])
    with pytest.raises(InputError, match="is missing"):
        take_in(shop, [*van[:3], *van[4:]])
    assert len(shop.ledger.facts()) == 5


def test_a_clock_that_is_ahead_is_told_and_refuses_nothing(shop: Session, van: list[Fact]) -> None:
    ahead = envelope(at="2099-01-01T00:00:00.000Z")(van)
    taken = take_in(shop, [*van, *ahead])
    (finding,) = taken.findings
    assert (taken.new, finding.severity) == (len(van) + 1, "warning")
    assert "still to come" in finding.what
    assert "tape" in shop.job(JOB).steps_done
    lists_are_up(shop)


def test_a_merge_that_saw_what_is_not_there_is_refused(shop: Session, van: list[Fact]) -> None:
    for heads, says in (
        ({"shop": (900, "0" * 64)}, "as it is not in that record"),
        ({"shop": (1, "f" * 64)}, "as it is not in that record"),
        ({"shop": (1, "x")}, "is no hash"),
        ({"shop": (0, "0" * 64)}, "no number of a fact"),
    ):
        with pytest.raises(InputError, match=says):
            take_in(shop, [*shop.ledger.facts(), *van, *whats(RecordsMerged(heads=heads))(van)])
    lists_are_up(shop)


def test_a_change_after_the_end_is_refused(shop: Session, tmp_path: Path, played: None) -> None:
    with record_at(tmp_path / "van") as ledger:
        run_to(session_on(ledger, Clock()), Clock(), "done tag")
        van = ledger.facts()
    with pytest.raises(InputError, match="is finished"):
        take_in(shop, [*van, *whats(Gripped(job=JOB), HeadBent(job=JOB, loft="50 deg"))(van)])
    assert take_in(shop, van).new == len(van)


def test_what_was_undone_there_changes_nothing_here(shop: Session, van: list[Fact]) -> None:
    """So whoever wrote what is refused can mend it: facts are never taken out of a record."""
    bad = whats(Glued(job=JOB, temperature="22 C"), Undone(job=JOB, fact=len(van) + 1, reason="never signed"))(van)
    with pytest.raises(InputError):
        take_in(shop, [*van, bad[0]])
    assert take_in(shop, [*van, *bad]).new == len(van) + 2
    assert shop.job(JOB).glued_at is None


def test_our_own_facts_come_back_from_a_bench_that_has_them(shop: Session, van: list[Fact]) -> None:
    take_in(shop, [*shop.ledger.facts(), *van])
    assert take_in(shop, shop.ledger.facts()).new == 0


def test_a_number_that_both_gave_away_is_taken_told_and_mended(shop: Session, van: list[Fact]) -> None:
    twin = {"ticket": {"id": OURS, "kind": "wedge", "hand": "right", "player": "Alder Fenwick"}}
    facts = [*van, forged(van, TicketTaken(job=OURS, document=twin, source="t"))]
    taken = take_in(shop, facts)
    assert taken.new == len(facts)
    (finding,) = taken.findings
    assert (finding.where, finding.severity) == (f"ticket {OURS}", "note")
    assert f"{OURS}@shop" in finding.what
    assert f"{OURS}@van" in finding.what
    lists_are_up(shop)
    assert set(shop.shop().jobs) == {JOB, f"{OURS}@shop", f"{OURS}@van"}
    assert shop.shop().broken == {}
    assert take_in(shop, facts).findings == ()
    bench.undo(shop, OURS, len(facts), "taken twice", site="van")
    assert set(shop.shop().jobs) == {JOB, OURS}


def test_two_ends_that_only_meet_here_are_no_forgery(shop: Session, van: list[Fact], tmp_path: Path) -> None:
    """The van fits a weight that the shop meanwhile took out of the tray: nobody did anything impossible."""
    take_in(shop, van)
    with record_at(tmp_path / "van", shop.ledger.facts()) as ledger:
        on_the_van = msgspec.structs.replace(shop, ledger=ledger, site="van")
        bench.fit_weights(shop, JOB, [])
        bench.change_part(shop, JOB, "weight", {"name": "port 6", "count": "1"})
        bench.fit_weights(on_the_van, JOB, [])
        bench.undo(on_the_van, JOB)
        assert take_in(shop, ledger.facts()).new == 2
        assert take_in(on_the_van, shop.ledger.facts()).new == 3
        assert take_in(shop, ledger.facts()).new == 1, "what the van had seen"
        assert shop.ledger.facts() == ledger.facts()

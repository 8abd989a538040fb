"""What holds for joints, orders and numbers whatever happens to them, worked out from the facts by rules of its own."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from breaking import places, require, text
from laws_of_jobs import standing_in
from shop import Bench, Decided

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import (
    AdhesiveMixed,
    Fact,
    Finished,
    GateSigned,
    Glued,
    MixCalledBad,
    MixTaken,
    OrderChanged,
    PartChanged,
    Place,
    Renumbered,
    TicketTaken,
)

TABLES = ("target", "tolerance")
"""Tables of a ticket that have one text for each key."""


def the_mix_was_sound(decided: Decided) -> None:
    """No joint was closed, released or ended with a mix that was called bad or undone, wherever that was said."""
    fact = decided.fact
    gate = getattr(fact.what, "step", "") if isinstance(fact.what, GateSigned) else ""
    if not (isinstance(fact.what, Glued | Finished) or gate in ("glue", "release")):
        return
    facts = [each for each in decided.held if each.what.job]
    stands = standing_in(facts)
    there = [each for each in facts if each.place in stands]
    mine = [each for each in there if each.what.subject == fact.what.subject or each.place == fact.what.subject]
    law = "the mix was sound"
    hand, joint = _mixes(mine)
    if isinstance(fact.what, Glued):  # a gate may be signed before anything is mixed
        require(law, hand is not None, "nothing is mixed for it of the adhesive that is ordered")
    mix = hand if isinstance(fact.what, Glued) or gate == "glue" else joint
    if mix is None:
        return
    said = f"{places([fact])} rests on the mix {text([mix])}"
    require(law, mix in stands, f"{said}, which was undone")
    bad = [each for each in there if isinstance(each.what, MixCalledBad) and each.what.mix == mix]
    require(law, not bad, f"{said}, which {places(bad)} calls bad")


def _mixes(facts: Sequence[Fact]) -> tuple[Place | None, Place | None]:
    """Return the mix in hand, none where another adhesive is ordered since, and the one in the joint closed last."""
    hand: Place | None = None
    joint: Place | None = None
    name = ""
    for fact in facts:
        if isinstance(fact.what, AdhesiveMixed):
            hand = fact.place
        elif isinstance(fact.what, MixTaken):
            hand = fact.what.mix
        elif isinstance(fact.what, Glued):
            hand, joint = None, hand
        else:
            told = _adhesive(fact, name)
            hand, name = (None if told != name and isinstance(fact.what, OrderChanged) else hand), told
    return hand, joint


def _adhesive(fact: Fact, before: str) -> str:
    what: Any = fact.what
    if isinstance(what, TicketTaken):
        found = what.document.get("adhesive", {}).get("name", before)
    elif isinstance(what, OrderChanged):
        found = what.values.get("adhesive.name", before)
    elif isinstance(what, PartChanged) and what.section == "adhesive":
        found = what.values.get("name", before)
    else:
        found = before
    return str(found)


def an_order_is_what_was_said(bench: Bench, fact: Fact) -> None:
    """What was said of an open order is on its ticket; and a closed one is as it was."""
    if not isinstance(fact.what, OrderChanged):
        return
    job = next((job for job in bench.session(0).shop().jobs.values() if job.place == fact.what.subject), None)
    if job is None or (job.trail[-1].site, job.trail[-1].sequence) != fact.place:
        return  # something came after it
    law = "an order is what was said"
    require(law, job.finished is None, f"{places([fact])} changed one that is closed")
    for path, said in fact.what.values.items():
        table, _, key = path.partition(".")
        if table in TABLES:
            there = job.document.get(table, {}).get(key, "")
            require(law, there == said, f"{places([fact])}: {path} is {there!r}, said was {said!r}")


def found_by_its_numbers(bench: Bench, fact: Fact) -> None:
    """A job that got another number is found by it, and by each that it had; where others had it too, it is said which."""
    if not isinstance(fact.what, Renumbered):
        return
    subject = next((each for each in bench.jobs().values() if each.place == fact.what.subject), None)
    if subject is None or subject.gone:
        return
    law = "a job is found by its numbers"
    holders = [each for each in bench.jobs().values() if not each.gone]
    for number in subject.numbers:
        alone = [each.place for each in holders if number in each.numbers] == [subject.place]
        try:
            found = bench.session(0).job(number).place
        except ClubwrightError as refused:
            require(law, not alone or subject.doubted != (), f"{number}: {refused}")
            continue
        require(
            law, found == subject.place or not alone, f"{number} means {text([found])}, not {text([subject.place])}"
        )

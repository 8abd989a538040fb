"""What holds in a shop whatever happens: each law is a function of what a bench acknowledged and what its record says.

The cheap ones are asked after every action, the others after a crash, a merge, now and then, and at the end.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence

from breaking import LawBroken, places, require, text
from laws_of_jobs import a_job_is_not_stale, shop_of, undone_is_never_had
from once import anew
from shop import Bench, Kept

from clubwright.journal.facts import Fact
from clubwright.journal.order import in_order
from clubwright.journal.reducers.fold import Shop
from clubwright.services.actions.orders.renumbering import next_number
from clubwright.services.jobs.job_list import JobStatuses, waiting
from clubwright.services.record.search import Search, found
from clubwright.store.ledger import Ledger


def nothing_lost_or_doubled(bench: Bench, kept: Sequence[Fact], numbers: Iterable[str]) -> None:
    """The record holds what was acknowledged, each fact once and as it was, and nothing else.

    Args:
        bench: The bench.
        kept: What it acknowledged, in order.
        numbers: Ticket numbers whose facts are looked at.
    """
    count = bench.rows()
    require("nothing lost or doubled", count == len(bench.kept), f"{count} facts, acknowledged {len(bench.kept)}")
    for job in numbers:
        wanted = [fact for fact in kept if fact.what.job == job]
        there = bench.ledger.facts(job)
        require("nothing lost or doubled", there == wanted, f"{job} is {places(there)}, acknowledged {places(wanted)}")


def all_is_there(bench: Bench, kept: Sequence[Fact]) -> None:
    """The whole record is what was acknowledged, in its order."""
    require("nothing lost or doubled", bench.ledger.facts() == kept, "the record is another one than was acknowledged")
    count = bench.ledger.count()
    require("nothing lost or doubled", count == len(kept), f"{count} facts are said, acknowledged {len(kept)}")


def what_was_seen_comes_first(bench: Bench, kept: Sequence[Fact], written: Iterable[Fact]) -> None:
    """Facts stand behind all facts of jobs that their bench held when it wrote them, whatever the clocks said.

    Args:
        bench: The bench.
        kept: What it holds, in order.
        written: Facts that are looked at.
    """
    at = {fact.place: number for number, fact in enumerate(kept)}
    for fact in written:
        for head in bench.saw.get(fact.place, {}).items():
            said = f"{places([fact])} is laid before {text([head])}"
            require("what was seen comes first", at[head] < at[fact.place], said)


def lists_open(bench: Bench) -> Shop:
    """The list of jobs and the search open, and leave no job out."""
    now, shop = bench.clock(), bench.session(0).shop()
    require("every list opens", not shop.findings, str(shop.findings))
    require("every list opens", next_number(shop, bench.site) not in shop.numbers, "the next free number is taken")
    for broken in shop.broken.values():
        sites = {fact.site for fact in bench.kept.values() if fact.what.job in broken.numbers}
        said = "; ".join(finding.sentence() for finding in broken.findings)
        require("no bench breaks its own job", len(sites) > 1, said)
    for item in waiting(shop.jobs.values(), now):
        bench.standings.of(item.job, now)
    states = [{job.id for job in found(shop, Search(state=state))} for state in ("open", "closed", "all")]
    require("every list opens", states[0] | states[1] == states[2] == set(shop.jobs), "the search leaves jobs out")
    return shop


def the_list_is_not_stale(bench: Bench, shop: Shop) -> None:
    """What the list remembers of a job is what it would say if it had just been opened."""
    now = bench.clock()
    for job in shop.jobs.values():
        if job.finished is None:
            said, anew = bench.standings.of(job, now), JobStatuses().of(job, now)
            require("the list is not stale", said == anew, f"{job.id}: {said} shown, {anew} is so")


def whole(bench: Bench, chance: random.Random, follows: Shop) -> None:
    """Everything at once: the record verifies, opened anew it says the same, and what is shown follows from the facts.

    Args:
        bench: The bench.
        chance: Which job is worked anew.
        follows: The shop that follows from what it acknowledged, folded anew (`folded_anew`).
    """
    findings = bench.ledger.verify()
    require("the record verifies", not findings, "; ".join(finding.sentence() for finding in findings))
    kept = bench.in_order()
    all_is_there(bench, kept)
    opened = Ledger(bench.ledger.engine).facts()
    require("nothing lost or doubled", opened == kept, "opened anew, the record is another one than was acknowledged")
    shop = lists_open(bench)
    require("the state follows from the facts", shop == follows, "another fold gives another shop")
    what_was_seen_comes_first(bench, kept, kept)
    for job in bench.numbers():
        undone_is_never_had([fact for fact in kept if fact.what.job == job])
    the_list_is_not_stale(bench, shop)
    a_job_is_not_stale(bench, shop, chance)


def folded_anew(facts: Iterable[Fact], chance: random.Random) -> Shop:
    """Return the shop that follows from facts that came in any order."""
    mixed = list(facts)
    chance.shuffle(mixed)
    with anew():
        return shop_of(in_order(mixed))


def same_shop_everywhere(benches: Sequence[Bench]) -> int:
    """Benches that hold the same facts show the same shop; returns how many such pairs there are."""
    pairs = 0
    first: list[tuple[Bench, Shop, list[Fact]]] = []
    for bench in benches:
        shop, facts = bench.session(0).shop(), bench.ledger.facts()
        alike = [(one, there, read) for one, there, read in first if one.kept == bench.kept]
        for one, there, read in alike:
            same = (there, read) == (shop, facts)
            require("the same facts give the same shop", same, f"{one.site} and {bench.site} differ")
        pairs += len(alike)
        first.append((bench, shop, facts))
    return pairs


def survived(found: Kept, acknowledged: Kept, in_flight: Sequence[Fact], where: str) -> None:
    """After a crash the record holds all that was acknowledged, and the action in flight whole or not at all."""
    if found in (acknowledged, acknowledged | {fact.place: fact for fact in in_flight}):
        return
    lost = sorted(set(acknowledged) - set(found))
    kind = "nothing lost or doubled" if lost else "an action is whole or not there"
    raise LawBroken(kind, f"power cut {where}: {text(lost)} lost, {text(sorted(set(found) - set(acknowledged)))} more")

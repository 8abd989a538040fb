"""Plays a history: each action on the program's own services, and after each of them the laws."""

from __future__ import annotations

import hashlib
import random
from collections import Counter
from collections.abc import Sequence

import laws_of_jobs
import laws_of_joints
import laws_of_measures
import msgspec
from breaking import broken_by, require
from calls import Call, scene_of, taking_in
from clock import JUMPS
from doing import call_of
from forgeries import FORGER, IMPOSSIBLE
from hands import Action, History
from laws_of_jobs import standing_in
from once import worked_once
from power import cut_the_power
from shop import Bench, Shop

import laws
from clubwright.errors import ClubwrightError
from clubwright.journal.facts import Fact, Place
from clubwright.journal.reducers.fold import Shop as State

FULL = "the simulated disk is full"
KEPT = "kept"
"""What is said of an action that was."""

EVERY = 12
"""After so many actions of the shop, every list of a bench is opened, whatever it did."""


class Report(msgspec.Struct, frozen=True, kw_only=True):
    """What came of a history.

    Attributes:
        broken: The law that does not hold, with how; empty when all of them do.
        law: Its name.
        seen: How often each thing worth trying came about.
        said: What happened, line by line.
        digest: Of everything that was said and kept: the same history, the same digest.
    """

    broken: str
    law: str
    seen: Counter[str]
    said: tuple[str, ...]
    digest: str


def play(history: History) -> Report:
    """Play a history to its end, or to the first law that does not hold."""
    with worked_once():
        return _played(history)


def _played(history: History) -> Report:
    shop = Shop(history.benches)
    law = broken = ""
    try:
        for number, action in enumerate(history.actions, start=1):
            _act(shop, action, number)
        _close_of_day(shop, random.Random(history.seed))
    except Exception as fault:
        found = broken_by(fault)
        law, broken = found.law, str(found)
        shop.said.append(f"BROKEN {broken}")
    finally:
        shop.close()
    hashes = [fact.hash for bench in shop.benches for fact in bench.in_order()]
    digest = hashlib.sha256("\n".join([*shop.said, *hashes]).encode()).hexdigest()
    return Report(broken=broken, law=law, seen=shop.seen, said=tuple(shop.said), digest=digest)


def _act(shop: Shop, action: Action, number: int) -> None:
    bench = shop.benches[action.bench % len(shop.benches)]
    shop.true.wait(action.wait_min)
    start, before, call = len(bench.disk.log), len(bench.kept), None
    if action.do == "clock":
        bench.clock.jump(JUMPS[action.pick % len(JUMPS)])
        _say(shop, bench, action, f"the clock shows {bench.clock():%Y-%m-%d %H:%M}")
    elif action.do != "look":
        bench.disk.room = action.room
        try:
            call = _do(shop, bench, action)
        finally:
            bench.disk.room = None
    if action.cut is not None:
        cut_the_power(shop, bench, action.cut, start, number)
        if call is not None and action.cut.resend:
            _say(shop, bench, action, f"sent again: {_try(shop, bench, action.hand, call, action.key)}")
    came = bool(call and call.merges) and len(bench.kept) > before
    _ask_the_laws(shop, bench, action, number, came)


def _ask_the_laws(shop: Shop, bench: Bench, action: Action, number: int, came: bool) -> None:
    """Hold what was done against the laws; and everything else at its bench after a crash, and every so often."""
    kept = bench.in_order()
    laws.what_was_seen_comes_first(bench, kept, [decided.fact for decided in bench.decided])
    for decided in bench.decided:
        for law in (laws_of_jobs.its_job_stays_whole, laws_of_jobs.gates_were_open, laws_of_joints.the_mix_was_sound):
            law(decided)
        laws_of_joints.an_order_is_what_was_said(bench, decided.fact)
        laws_of_joints.found_by_its_numbers(bench, decided.fact)
        laws_of_measures.measuring_again_adds(decided, shop.seen)
        shop.seen[type(decided.fact.what).__name__] += 1
    numbers = bench.numbers() & {decided.fact.what.job for decided in bench.decided}
    bench.decided.clear()
    laws.nothing_lost_or_doubled(bench, kept, sorted(numbers))
    for ticket in sorted(numbers):
        laws_of_jobs.undone_is_never_had([fact for fact in kept if fact.what.job == ticket])
    if action.cut is not None:
        laws.whole(bench, random.Random(number), laws.folded_anew(kept, random.Random(number)))
    elif came or action.do == "look" or number % EVERY == 0:
        laws.all_is_there(bench, kept)
        laws.the_list_is_not_stale(bench, laws.lists_open(bench))


def _do(shop: Shop, bench: Bench, action: Action) -> Call | None:
    """Do one action with all that befalls it, and return its call."""
    if action.do == "again":
        call, key, hand = _earlier(bench, action)
    else:
        call = call_of(action.do, scene_of(shop, bench, action.hand, action.job, action.pick))
        key, hand = action.key, action.hand
    if call is None:
        _say(shop, bench, action, f"{action.do}: nothing there")
        return None
    if action.meanwhile is not None:
        other = action.meanwhile
        bench.ledger.interrupt(action.when, lambda: _meanwhile(shop, bench, other, call))
    said = _try(shop, bench, hand, call, key)
    if bench.ledger.calm():
        shop.seen["nobody in between"] += 1
    _say(shop, bench, action, f"{call.label}: {said}")
    if action.do != "again":
        bench.sent.append((call, key, hand))
    if action.second_tap == "same key":
        again = _try(shop, bench, hand, call, key)
        _say(shop, bench, action, f"a second tap: {again}")
        same = call.merges or said != KEPT or again == KEPT
        require("one tap, one fact", same, f"{call.label}: {said}, then {again}")
    elif action.second_tap == "other key":
        _say(shop, bench, action, f"once more: {_try(shop, bench, hand, call, key + '-more')}")
    return call


def _earlier(bench: Bench, action: Action) -> tuple[Call | None, str, int]:
    if not bench.sent:
        return None, "", 0
    call, key, hand = bench.sent[-1 - action.pick % min(len(bench.sent), 12)]
    if call.merges:  # what was missing in it may be there by now
        call = msgspec.structs.replace(call, label=call.label.replace(" (a gap)", " (a gap, before)"))
    return call, key, hand


def _meanwhile(shop: Shop, bench: Bench, action: Action, call: Call) -> None:
    shop.seen["somebody in between"] += 1
    room, bench.disk.room = bench.disk.room, None
    job = call.job if call.job in bench.jobs() else action.job
    other = call if action.do == "take" else call_of(action.do, scene_of(shop, bench, action.hand, job, action.pick))
    if other is not None:
        _say(shop, bench, action, f"meanwhile {other.label}: {_try(shop, bench, action.hand, other, action.key)}")
    bench.disk.room = room


def _try(shop: Shop, bench: Bench, hand: int, call: Call, key: str) -> str:
    """Make a call; whatever comes of it, the record holds just what it says it holds."""
    before = set(bench.kept)
    sent_before = next((fact for fact in bench.kept.values() if _belongs(fact.key, key)), None)
    number = len(bench.groups)
    result: tuple[object, ...] = ()
    refused = ""
    try:
        given = call.run(bench.session(hand), key)
        result = tuple(given) if isinstance(given, list) else (given,)
    except ClubwrightError as error:
        refused = str(error).splitlines()[0]
    except Exception as fault:
        raise broken_by(fault, f"{call.label}: ") from fault
    own = [group for group in bench.groups[number:] if call.merges or _belongs(group.key, key)]
    if call.merges:
        _merged(shop, bench, call, refused, own)
    elif sent_before is not None:
        require("one tap, one fact", not own, f"{call.label} was kept again under {key}")
        same = all(isinstance(fact, Fact) and fact.key.partition("#")[0].startswith(key) for fact in result)
        require("one tap, one fact", bool(refused) or same, f"{call.label} under {key} gave {result}")
        shop.seen["the same tap again"] += not refused
    elif refused:
        require("what is refused is not kept", not own, f"{call.label}: {refused}, and {own} was kept")
        shop.seen["full disk"] += FULL in refused
    else:
        there = [fact for fact in result if isinstance(fact, Fact) and bench.kept.get(fact.place) == fact]
        new = len(there) == len(result) and not any(fact.place in before for fact in there)
        require("what is said to be kept is kept", new and bool(own), f"{call.label} gave {result}")
        together = any({fact.place for fact in there} <= {fact.place for fact in group.facts} for group in own)
        require("an action is whole or not there", together, f"{call.label} wrote its facts in {len(own)} transactions")
        shop.seen["several facts at once"] += len(result) > 1
        if call.replaces is not None:
            gone = call.replaces not in standing_in([fact for fact in bench.in_order() if fact.what.job])
            require("an action is whole or not there", gone, f"{call.label} was kept, and that stands")
            shop.seen["one in place of another"] += 1
    return f"refused: {refused}" if refused else KEPT


def _belongs(key: str, tap: str) -> bool:
    """A job that several benches closed is opened again by one fact for each end."""
    return key == tap or key.startswith(f"{tap}-end-")


def _merged(shop: Shop, bench: Bench, call: Call, refused: str, own: Sequence[object]) -> None:
    honest = call.honest and not any(fact.by == FORGER for fact in bench.kept.values())
    require("an honest record is taken in", not refused or not honest or FULL in refused, f"{call.label}: {refused}")
    forged = next((kind for kind in IMPOSSIBLE if f"({kind})" in call.label), "")
    require("what no bench wrote is refused", not forged or bool(refused), call.label)
    require("what is refused is not kept", not (refused and own), f"{call.label}: {refused}")
    shop.seen["forgery refused"] += bool(forged)
    shop.seen["merge"] += bool(own)
    shop.seen["copy merged"] += not refused and not own
    shop.seen["honest merge"] += honest and bool(own)


def _close_of_day(shop: Shop, chance: random.Random) -> None:
    """One bench takes in every other one's record, and they take in its own, twice; then all of it must hold everywhere."""
    for bench in shop.benches:
        bench.clock.jump("right")
    hub, *others = chance.sample(shop.benches, len(shop.benches))
    gather, hand_out = [(hub, other) for other in others], [(other, hub) for other in others]
    for one, other in [*gather, *hand_out] * 2:
        if one.kept != other.kept:
            call = taking_in(f"merge {other.site} at the end", list(other.kept.values()))
            said = _try(shop, one, 0, call, "")
            shop.said.append(f"{one.site} {call.label}: {said}")
    found: dict[frozenset[Place], State] = {}
    for bench in shop.benches:
        bench.decided.clear()
        mine = frozenset(bench.kept)
        if mine not in found:
            found[mine] = laws.folded_anew(bench.in_order(), chance)
        laws.whole(bench, chance, found[mine])
    shop.seen["the same shop at two benches"] += laws.same_shop_everywhere(shop.benches)


def _say(shop: Shop, bench: Bench, action: Action, what: str) -> None:
    shop.said.append(f"{bench.site} {'AB'[action.hand % 2]} {bench.clock():%m-%d %H:%M} {what}")

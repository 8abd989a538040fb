"""What hands do at a bench: each verb of an action, turned into one call of the program's own services.

What a verb means is settled from what stands at the bench just then: "the third job", "any fact of its trail". So an action
still means something when others are taken out of the history, which is what shortens it.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

import msgspec
from elsewhere import record_from_elsewhere
from following import following
from forgeries import FORGED, FORGER
from shop import Bench, Shop
from tickets import FIGURES, KINDS, ORDERS, OTHERS, PLAYERS, READINGS, back_again, ticket

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import Fact
from clubwright.journal.job import Job
from clubwright.services import bench as actions
from clubwright.services.again import make_again
from clubwright.services.desk import Desk
from clubwright.services.job_work import work_job
from clubwright.services.merging import take_in
from clubwright.services.replacing import instead_of

SPARE_NUMBER = "T-900"
"""The one number that two benches may both give away."""


class Call(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that is about to be done.

    Attributes:
        label: In words.
        job: Job that it is about; empty for all of them.
        run: Does it, at a desk, with a key.
        merges: Whether it takes in another record.
        honest: Whether every fact in that is one that its bench wrote.
    """

    label: str
    job: str = ""
    run: Callable[[Desk, str], object]
    merges: bool = False
    honest: bool = True


class Scene(msgspec.Struct, frozen=True, kw_only=True):
    """What is at hand when an action begins: the job is the one chosen, None where there is none that folds."""

    shop: Shop
    bench: Bench
    desk: Desk
    chance: random.Random
    name: str
    job: Job | None
    facts: tuple[Fact, ...]


def scene_of(shop: Shop, bench: Bench, hand: int, job: int | str, pick: int) -> Scene:
    """Look around before an action: at the job of a number, or at the so-and-so-many-th of those that are there."""
    jobs, desk = bench.jobs(), bench.desk(hand)
    names = list(jobs)
    name = job if isinstance(job, str) else names[job % len(names)] if names else ""
    try:
        state = desk.job(name) if name else None
    except ClubwrightError:
        state = None
    facts = jobs[name].facts if name in jobs else ()
    chance = random.Random(pick)
    return Scene(shop=shop, bench=bench, desk=desk, chance=chance, name=name, job=state, facts=facts)


def call_of(verb: str, at: Scene) -> Call | None:
    """Turn a verb into a call; None when there is nothing to do it to."""
    if verb == "take":
        return _take(at)
    if verb == "merge":
        return _merge(at)
    if verb == "visit":
        facts = record_from_elsewhere()
        return taking_in("a club comes in with its record", list(facts[: at.chance.randint(1, len(facts))]))
    if not at.name:
        return None
    if verb in ("next", "come back"):
        return None if at.job is None else _next(at) if verb == "next" else _come_back(at)
    return _ON_A_JOB[verb](at)


def _call(at: Scene, label: str, act: Callable[..., object], *values: Any, **more: Any) -> Call:
    """Return a call of one of the bench actions on the job."""
    name = at.name
    return Call(label=f"{label} on {name}", job=name, run=lambda desk, key: act(desk, name, *values, key=key, **more))


def _taking(at: Scene, label: str, document: dict[str, Any]) -> Call:
    return Call(
        label=f"{label} as {document['ticket']['id']}",
        job=document["ticket"]["id"],
        run=lambda desk, key: actions.take_ticket(desk, document, "t.toml", key),
    )


def _take(at: Scene) -> Call:
    kind = at.chance.randrange(len(KINDS))
    number = SPARE_NUMBER if at.chance.random() < 0.1 else _free(at.bench)
    return _taking(at, f"take a {KINDS[kind]['ticket']['job']}", ticket(kind, number, at.chance.choice(PLAYERS)))


def _free(bench: Bench) -> str:
    own = bench.site.removeprefix("bench")
    return next(number for n in range(1, 99) if (number := f"T-{own}{n:02d}") not in bench.numbers())


def _come_back(at: Scene) -> Call | None:
    assert at.job is not None
    if at.chance.random() < 0.5:
        return _taking(at, f"{at.name} comes back", back_again(at.job.document, _free(at.bench)))
    try:
        document = make_again(at.job, work_job(at.job, at.bench.clock()), _free(at.bench))
    except ClubwrightError:
        return None
    return _taking(at, f"make {at.name} again", document)


def _next(at: Scene) -> Call | None:
    assert at.job is not None
    try:
        worked = work_job(at.job, at.bench.clock())
    except ClubwrightError:
        return None
    label, act, values, more = following(at.job, worked, at.chance, at.shop.true)
    return _call(at, label, act, *values, **more)


def _merge(at: Scene) -> Call | None:
    others = [bench for bench in at.shop.benches if bench is not at.bench]
    how = at.chance.choice(("now", "now", "now", "an old copy", "its own copy", *FORGED))
    if how in FORGED:
        facts = FORGED[how](at.bench, at.chance.choice(at.shop.benches), at.chance)
        return None if not facts else taking_in(f"merge a forgery ({how})", facts, forged=True)
    if how == "its own copy" or not others:
        return taking_in("merge its own copy", list(at.bench.kept.values()))
    other = at.chance.choice(others)
    facts = list(other.kept.values())
    if how == "an old copy" and other.copies:
        facts = list(at.chance.choice(other.copies))
    other.copies.append(tuple(other.kept.values()))
    at.chance.shuffle(facts)
    return taking_in(f"merge {other.site} ({how})", facts)


def taking_in(label: str, facts: list[Fact], *, forged: bool = False) -> Call:
    """Return the call that takes in another record."""
    honest = not forged and not any(fact.by == FORGER for fact in facts)
    return Call(label=label, run=lambda desk, _: take_in(desk, facts), merges=True, honest=honest)


def _read(at: Scene) -> Call:
    quantity, value, stage = at.chance.choice(READINGS)
    return _call(at, f"read {quantity} {value} {stage}", actions.note_reading, quantity, value, stage=stage)


def _change(figures: Any, *, another: bool = False) -> Callable[[Scene], Call]:
    def change(at: Scene) -> Call:
        section, values = at.chance.choice(figures)
        label = f"{'another' if another else 'set'} {section} {values}"
        return _call(at, label, actions.change_part, section, values, another=another)

    return change


def _decide(at: Scene) -> Call | None:
    lines = [] if at.job is None else [line for line in at.job.trail if line.kind == "reading taken"]
    if not lines:
        return None
    line, keep = at.chance.choice(lines), at.chance.random() < 0.5
    label = f"{'use' if keep else 'leave out'} {line.site}/{line.sequence}"
    return _call(at, label, actions.decide_reading, line.sequence, keep=keep, reason="looked again", site=line.site)


def _undo(at: Scene) -> Call | None:
    facts = at.facts
    if not facts:
        return None
    fact = at.chance.choice(sorted(facts, key=lambda fact: fact.place))
    return _call(at, f"undo {fact.site}/{fact.sequence}", actions.undo, fact.sequence, "a slip", site=fact.site)


def _instead(at: Scene) -> Call | None:
    facts = [fact for fact in at.facts if fact.typed and not fact.typed.startswith("ticket")]
    if not facts:
        return None
    theirs, name = at.chance.choice(sorted(facts, key=lambda fact: fact.place)), at.name

    def run(desk: Desk, key: str) -> object:
        return actions.note_reading(instead_of(desk, theirs, "mine"), name, "head.mass", "262.5 g", key=key)

    return Call(label=f"read head.mass in place of {theirs.site}/{theirs.sequence} on {name}", job=name, run=run)


def _renumber(at: Scene) -> Call:
    number = at.chance.choice((_free(at.bench), SPARE_NUMBER, f"T-9{at.chance.randrange(10, 99)}"))
    return _call(at, f"call it {number}", actions.renumber, number)


def _accept(at: Scene) -> Call:
    quantity = at.chance.choice(("length", "swing_weight", "loft", "lie", "grip_diameter_2in"))
    return _call(at, f"accept {quantity}", actions.accept, quantity, name="R. Ashdown", reason="plays it as it is")


def _choice(verb: str, act: Callable[..., object], *choices: tuple[Any, ...]) -> Callable[[Scene], Call]:
    def choose(at: Scene) -> Call:
        values = at.chance.choice(choices)
        return _call(at, " ".join([verb, *map(str, values)]), act, *values)

    return choose


STEPS = ("pull", "weigh", "mark and cut", "dry fit", "cure", "inspect", "tag", "loft and lie", "strip grip")
_ON_A_JOB: dict[str, Callable[[Scene], Call | None]] = {
    "read": _read,
    "decide": _decide,
    "weigh": _change(FIGURES),
    "order": _change(ORDERS),
    "another": _change(OTHERS, another=True),
    "renumber": _renumber,
    "accept": _accept,
    "undo": _undo,
    "undo last": _choice("undo the last", actions.undo, ()),
    "instead": _instead,
    "fit": _choice("fit", actions.fit_weights, ([],), (["port 4"],), (["lead 8"],), (["lead 3"],)),
    "trim": _choice("trim", actions.trim_shaft, ("butt", "1/4 in"), ("tip", "1/2 in")),
    "cut": _choice("cut", actions.cut_shaft, ("35.775 in",), ("35.2 in",), ("36 in",)),
    "tape": _choice("lay", actions.lay_tape, ("base", "1", "1.6 g"), ("build-up", "2", "2.8 g")),
    "mix": _choice("mix", actions.mix_adhesive, ("4.0 g", "2.0 g", "22 C", "lot 7"), ("4.0 g", "4.0 g", "22 C", "")),
    "glue": _choice("glue", actions.glue, ("22 C",)),
    "grip": _choice("grip", actions.slide_grip, ()),
    "step": _choice("do", actions.do_step, *((step,) for step in STEPS)),
    "sign": _choice("sign", actions.sign_gate, ("cut",), ("glue",), ("release",)),
    "finish": _choice("finish", actions.finish, ()),
    "reopen": _choice("open again", actions.reopen, ("came back",)),
}
ON_A_JOB = tuple(_ON_A_JOB)

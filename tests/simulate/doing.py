"""What hands do at a bench: each verb of an action, turned into one call of the program's own services.

What a verb means is settled from what stands at the bench just then: "the third job", "any fact of its trail". So an action
still means something when others are taken out of the history, which is what shortens it. A new bench action is one more
entry in `VERBS`.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import measuring
import mixing
import msgspec
import slips
from calls import Call, Scene, on_the_job, one_of, taking, taking_in
from elsewhere import record_from_elsewhere
from following import following
from forgeries import FORGED
from shop import Bench
from tickets import CARDS, FIGURES, KINDS, ORDERS, OTHERS, PLAYERS, READINGS, SAID, back_again, ticket

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import AdhesiveMixed, Glued
from clubwright.services.actions import bench as actions
from clubwright.services.actions.orders.clubs import next_ticket
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import utc_text
from clubwright.services.report.build_again import make_again

SPARE_NUMBER = "T-900"
"""The one number that two benches may both give away."""

STEPS = ("pull", "weigh", "mark and cut", "dry fit", "cure", "inspect", "tag", "loft and lie", "strip grip")
SKIPPED = ("tape", "dry reading", "tip prep", "ferrule", "cure")


LATE: tuple[tuple[str, Callable[..., object], tuple[str, ...]], ...] = (
    ("glue", actions.glue, ("22 C",)),
    ("grip", actions.slide_grip, ()),
    ("mix", actions.mix_adhesive, ("4.0 g", "2.0 g", "22 C", "lot 7")),
    ("read total_weight 430 g", actions.note_reading, ("total_weight", "430 g")),
)
SHARES = 0.4
"""How often a good hand who needs a mix takes from one that is on the bench."""
WORK_ON_A_CLUB = ("regrip", "reshaft", "weight", "loft-lie")


class Verb(msgspec.Struct, frozen=True, kw_only=True):
    """One kind of action.

    Attributes:
        call: Turns it into a call; None when there is nothing to do it to.
        likely: How likely it is, beside the others.
        job: Whether it needs a job that is there, folded or not.
        races: Whether the other tablet may do something at the same moment.
        cut: Whether the power may go in it: those that mostly write.
    """

    call: Callable[[Scene], Call | None]
    likely: int = 1
    job: bool = True
    races: bool = True
    cut: bool = False


def call_of(verb: str, at: Scene) -> Call | None:
    """Turn a verb into a call; None when there is nothing to do it to."""
    found = VERBS[verb]
    return None if found.job and not at.name else found.call(at)


def _take(at: Scene) -> Call:
    kind = at.chance.randrange(len(KINDS))
    number = SPARE_NUMBER if at.chance.random() < 0.1 else _free(at.bench)
    return taking(f"take a {KINDS[kind]['ticket']['job']}", ticket(kind, number, at.chance.choice(PLAYERS)))


def _free(bench: Bench) -> str:
    own = bench.site.removeprefix("bench")
    return next(number for n in range(1, 99) if (number := f"T-{own}{n:02d}") not in bench.numbers())


def _come_back(at: Scene) -> Call | None:
    if at.job is None:
        return None
    how = at.chance.choice(("as a new ticket", "by the record", "by the record", "made again"))
    if how == "as a new ticket":
        return taking(f"{at.name} comes back", back_again(at.job.document, _free(at.bench)))
    if how == "by the record":
        document = next_ticket(at.job, _free(at.bench), at.chance.choice(WORK_ON_A_CLUB))
        return taking(f"the club of {at.name} comes back for a {document['ticket']['job']}", document)
    try:
        document = make_again(at.job, answer_job(at.job, at.bench.clock()), _free(at.bench))
    except ClubwrightError:
        return None
    return taking(f"make {at.name} again", document)


def _next(at: Scene) -> Call | None:
    if at.job is None:
        return None
    try:
        worked = answer_job(at.job, at.bench.clock())
    except ClubwrightError:
        return None
    label, act, values, more = following(at.job, worked, at.chance, at.shop.true)
    if act is actions.mix_adhesive and at.chance.random() < SHARES:
        shared = mixing.take_from(at)
        if shared is not None:
            return shared
    return on_the_job(at, label, act, *values, **more)


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


def _read(at: Scene) -> Call:
    quantity, value, stage = at.chance.choice(READINGS)
    return on_the_job(at, f"read {quantity} {value} {stage}", actions.note_reading, quantity, value, stage=stage)


def _change(figures: Any, **how: Any) -> Callable[[Scene], Call]:
    def change(at: Scene) -> Call:
        section, values = at.chance.choice(figures)
        label = f"{'another' if 'another' in how else 'set'} {section} {values}"
        return on_the_job(at, label, actions.change_part, section, values, **how)

    return change


def _order(at: Scene) -> Call:
    values = at.chance.choice(ORDERS)
    return on_the_job(
        at, f"order {values}", actions.change_order, values, said_by="R. Ashdown", reason="likes it better so"
    )


def _pull_again(at: Scene) -> Call:
    heat = at.chance.random() < 0.5
    return on_the_job(at, "pull the head", actions.pull_head, said_by="R. Ashdown", reason="it rattles", heat=heat)


def _renumber(at: Scene) -> Call:
    number = at.chance.choice((_free(at.bench), SPARE_NUMBER, f"T-9{at.chance.randrange(10, 99)}"))
    return on_the_job(at, f"call it {number}", actions.renumber, number)


def _accept(at: Scene) -> Call:
    quantity = at.chance.choice(("length", "swing_weight", "loft", "lie", "grip_diameter_2in"))
    return on_the_job(at, f"accept {quantity}", actions.accept, quantity, name="R. Ashdown", reason="plays it as it is")


def _same_club(at: Scene) -> Call:
    other = at.chance.choice(list(at.bench.jobs()))
    return on_the_job(
        at, f"say that the club of {other} is the same", actions.say_club, other, "the same serial number"
    )


def _late(at: Scene) -> Call:
    """Write down later what was done, or say that it was, some time ago."""
    label, act, values = at.chance.choice(LATE)
    done_at = utc_text(at.bench.clock() - timedelta(minutes=at.chance.choice((5, 90, 900))))
    return on_the_job(at, f"{label}, done at {done_at}", act, *values, done_at=done_at)


def _card(at: Scene) -> Call:
    changes = at.chance.choice(CARDS)
    return on_the_job(at, f"fill in {', '.join(changes)}", actions.change_parts, changes)


def _skip(at: Scene) -> Call:
    step = at.chance.choice(SKIPPED)
    return on_the_job(at, f"skip {step}", actions.do_step, step, skipped="no time")


def _bend(at: Scene) -> Call:
    angles = at.chance.choice(({"loft": "33 deg"}, {"lie": "61 deg"}, {"loft": "34 deg", "lie": "62 deg"}))
    return on_the_job(at, f"bend to {angles}", actions.bend_head, **angles)


def _visit(at: Scene) -> Call:
    facts = record_from_elsewhere()
    joints = [at for at, fact in enumerate(facts, start=1) if isinstance(fact.what, AdhesiveMixed | Glued)]
    age = at.chance.randint(1, len(facts))
    if at.chance.random() < 0.6:  # hands that act by chance would seldom get to a joint
        age = at.chance.randint(joints[0] - 1, joints[-1])
    return taking_in("a club comes in with its record", list(facts[:age]))


VERBS: dict[str, Verb] = {
    "next": Verb(call=_next, likely=60, cut=True),
    "take": Verb(call=_take, likely=5, job=False, cut=True),
    "visit": Verb(call=_visit, likely=3, job=False, races=False, cut=True),
    "merge": Verb(call=_merge, likely=0, job=False, races=False, cut=True),  # drawn by number
    "come back": Verb(call=_come_back, likely=3),
    "same club": Verb(call=_same_club),
    "late": Verb(call=_late, likely=2),
    "read": Verb(call=_read, likely=6),
    "undo": Verb(call=slips.undo, likely=7, cut=True),
    "undo last": Verb(call=one_of("undo the last", actions.undo, ()), likely=3, cut=True),
    "instead": Verb(call=slips.instead, likely=2),
    "decide": Verb(call=slips.decide),
    "weigh": Verb(call=_change(FIGURES)),
    "measure": Verb(call=measuring.measure, likely=4, cut=True),
    "card": Verb(call=_card, likely=3, cut=True),
    "say": Verb(call=_change(SAID)),
    "order": Verb(call=_order, likely=2),
    "another": Verb(call=_change(OTHERS, another=True, said_by="R. Ashdown", reason="the first one is worn")),
    "pull again": Verb(call=_pull_again),
    "renumber": Verb(call=_renumber, likely=2),
    "accept": Verb(call=_accept),
    "fit": Verb(call=one_of("fit", actions.fit_weights, ([],), (["port 4"],), (["lead 8"],), (["lead 3"],))),
    "trim": Verb(call=one_of("trim", actions.trim_shaft, ("butt", "1/4 in"), ("tip", "1/2 in"))),
    "cut": Verb(call=one_of("cut", actions.cut_shaft, ("35.775 in",), ("35.2 in",), ("36 in",))),
    "bend": Verb(call=_bend),
    "tape": Verb(call=one_of("lay", actions.lay_tape, ("base", "1", "1.6 g"), ("build-up", "2", "2.8 g"))),
    "mix": Verb(
        call=one_of("mix", actions.mix_adhesive, ("4.0 g", "2.0 g", "22 C", "lot 7"), ("4.0 g", "4.0 g", "22 C", ""))
    ),
    "from mix": Verb(call=mixing.take_from, likely=2),
    "bad mix": Verb(call=mixing.call_bad),
    "glue": Verb(call=one_of("glue", actions.glue, ("22 C",), ("5 C",))),
    "grip": Verb(call=one_of("grip", actions.slide_grip, ())),
    "step": Verb(call=one_of("do", actions.do_step, *((step,) for step in STEPS))),
    "skip": Verb(call=_skip),
    "sign": Verb(call=one_of("sign", actions.sign_gate, ("cut",), ("glue",), ("release",))),
    "finish": Verb(call=one_of("finish", actions.finish, ())),
    "reopen": Verb(call=one_of("open again", actions.reopen, ("came back",))),
}
"""Everything that hands do with a record."""

"""What holds for one job whatever happens to it: undo, what cannot be undone, and what is shown of it."""

from __future__ import annotations

import random
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Any

import msgspec
from breaking import LawBroken, places, require
from once import anew
from shop import Bench, Decided

from clubwright.errors import ClubwrightError
from clubwright.journal.facts import Fact, Finished, GateSigned, Glued, Place, ReadingDecided, ShaftCut, Undone
from clubwright.journal.mixes import joined_over
from clubwright.journal.reducers.fold import Job, Shop, fold, fold_each
from clubwright.planning.advice.weights import choices
from clubwright.planning.cut import CUT_JOBS
from clubwright.planning.gates.gates import Gate, gates_of
from clubwright.services.answer.club_answer import ClubAnswer, work_ticket
from clubwright.services.checks.job_ticket import read_job
from clubwright.services.jobs.closing import open_points
from clubwright.services.jobs.gates import gates_with_record
from clubwright.services.jobs.job_answer import _with_trim, answer_job, progress_of
from clubwright.services.record.club_jobs import shop_with_clubs
from clubwright.services.record.session import moment_of
from clubwright.words.say import say


def undone_is_never_had(facts: Sequence[Fact]) -> None:
    """A job with its undos is the job in which what was undone was never written.

    Args:
        facts: All of some ticket number, in order.
    """
    try:
        whole = fold(facts).jobs
    except ClubwrightError:
        return  # broken, which is told elsewhere
    standing = standing_in(facts)
    plain = [fact for fact in facts if fact.place in standing]
    try:
        never = fold(plain).jobs
    except ClubwrightError as refused:
        raise LawBroken("undone is never had", f"without what was undone it does not fold: {refused}") from refused
    require("undone is never had", _bare(whole) == _bare(never), _difference(_bare(whole), _bare(never)))


def standing_in(facts: Sequence[Fact]) -> set[Place]:
    """Say which facts stand, by the sentence in docs/theory/record.md and nothing of the program; undos left out."""
    there = {fact.place: fact for fact in facts}

    def target(fact: Fact) -> Place | None:
        what = fact.what
        number = what.fact if isinstance(what, Undone) else what.reading if isinstance(what, ReadingDecided) else None
        if number is None:
            return None
        own = (getattr(what, "site", None) or fact.site, number)
        return own if own in there else next(place for place in there if place[1] == number)

    targets = {fact.place: target(fact) for fact in facts}
    undos: dict[Place, list[Place]] = {}
    for fact in facts:
        named = targets[fact.place]
        if not isinstance(fact.what, Undone) or named is None:
            continue
        whole = getattr(fact.what, "whole", None) is True  # an undo of all that one action wrote on the job
        for place in [other for other in there if _one_action(there[other], there[named])] if whole else [named]:
            undos.setdefault(place, []).append(fact.place)

    def stands(place: Place) -> bool:
        hangs_on = targets[place] if isinstance(there[place].what, ReadingDecided) else None
        return not any(map(stands, undos.get(place, ()))) and (hangs_on is None or stands(hangs_on))

    return {fact.place for fact in facts if not isinstance(fact.what, Undone) and stands(fact.place)}


def _one_action(fact: Fact, other: Fact) -> bool:
    """Say whether one action wrote two facts on one job."""
    keys = [(each.site, each.key.partition("#")[0], each.what.job, each.what.subject) for each in (fact, other)]
    return fact is other or keys[0] == keys[1]


def gates_were_open(decided: Decided) -> None:
    """What cannot be undone was done with its gate open, and signed, on the job as it stood; all worked anew."""
    fact = decided.fact
    if not isinstance(fact.what, ShaftCut | Glued | GateSigned | Finished):
        return
    law, now = f"the gate was open: {type(fact.what).__name__}", moment_of(fact.done_at)
    job = _job_of(fact, decided.held)
    require(law, job is not None, "the job did not fold")
    assert job is not None
    worked = worked_anew(job)
    gates = {gate.step: gate for gate in gates_anew(job, worked, now)}
    step = {ShaftCut: "cut", Glued: "glue", Finished: "release"}.get(type(fact.what), getattr(fact.what, "step", ""))
    if not isinstance(fact.what, Finished) or worked.club_state.ticket.job in CUT_JOBS:
        require(
            law,
            step in gates and gates[step].open,
            say(gates[step].why, None) if step in gates else "there is no such gate",
        )
        require(law, isinstance(fact.what, GateSigned) or step in job.gates_signed, "nobody has signed it")
    last = {line.kind: number for number, line in enumerate(job.trail) if not line.undone}
    if isinstance(fact.what, Glued):
        mixed = max(last.get("adhesive mixed", -1), last.get("mix taken", -1))
        require(law, mixed > last.get("glued", -1), "nothing was mixed since the joint was glued before")
    if isinstance(fact.what, Finished) and "glued" in last:
        signed = max(n for n, line in enumerate(job.trail) if line.text == "signed: release" and not line.undone)
        require(law, signed > last["glued"], "the release was signed for the joint before this one")
    if isinstance(fact.what, Finished) or step == "release":
        left = [point.key for point in open_points(job, worked)]
        require(law, not left, f"{left} outside, open or unread")


def its_job_stays_whole(decided: Decided) -> None:
    """A job that folded before an action folds after it, or is gone by it."""
    fact = decided.fact
    before, after = fold_each(decided.before), fold_each(decided.after)
    was_broken = {job.place for job in before.broken.values()}
    for job in after.broken.values():
        said = "; ".join(finding.sentence() for finding in job.findings)
        require("an action leaves its job whole", job.place in was_broken, f"{places([fact])}: {said}")


def _job_of(fact: Fact, facts: Sequence[Fact]) -> Job | None:
    """Return the job that a fact names, as it follows from some facts, with what it knows of others on its club."""
    return next((job for job in shop_of(facts).jobs.values() if job.place == fact.what.subject), None)


def shop_of(facts: Sequence[Fact]) -> Shop:
    """Return the shop that follows from facts, in order: each job with what is said of it, and of its mixes, on others."""
    shop = shop_with_clubs(fold_each(facts), list(facts))
    return msgspec.structs.replace(shop, jobs=joined_over(shop.jobs))


def a_job_is_not_stale(bench: Bench, shop: Shop, chance: random.Random) -> None:
    """What the bench page would show of a job is what follows from its facts."""
    if not shop.jobs:
        return
    job, now = chance.choice(sorted(shop.jobs.values(), key=lambda job: job.id)), bench.clock()
    try:
        shown = answer_job(job, now)
    except ClubwrightError:
        return
    worked = worked_anew(job)
    gates = gates_anew(job, worked, now)
    require("a job is not stale", shown.gates == gates, f"{job.id}: {_open(shown.gates)} shown, {_open(gates)} is so")
    same = worked.club_state.belief.mean.tolist() == shown.club_state.belief.mean.tolist()
    require("a job is not stale", same, f"{job.id}: another belief is shown")


def worked_anew(job: Job) -> ClubAnswer:
    """Work a job by its document alone, with nothing that was kept from before."""
    with anew():
        ticket, findings = read_job(job)
        return work_ticket(_with_trim(job, ticket), findings)


def gates_anew(job: Job, worked: ClubAnswer, now: datetime) -> tuple[Gate, ...]:
    """Return its gates, likewise."""
    best = choices(worked.club_state)[0]
    by_ticket = gates_of(worked.club_state, worked.cut, best, progress_of(job, now))
    return gates_with_record(by_ticket, job, worked.club_state.ticket, worked.cut, now)


OUTSIDE = ("trail", "id", "later_jobs")
"""What is no state of a job: its history; its name, which other jobs may change; where to look for others on its club."""


def _bare(jobs: dict[str, Job]) -> dict[Place, dict[str, Any]]:
    """Return the states of jobs by their place."""
    fields = [field for field in Job.__struct_fields__ if field not in OUTSIDE]
    return {job.place: {field: getattr(job, field) for field in fields} for job in jobs.values()}


def _difference(one: dict[Place, dict[str, Any]], other: dict[Place, dict[str, Any]]) -> str:
    fields = [
        (name, field) for name in one for field in one[name] if other.get(name, {}).get(field) != one[name][field]
    ]
    return f"{fields or [*one, *other]} are others"


def _open(gates: Iterable[Gate]) -> str:
    return ", ".join(f"{gate.step} {say(gate.why, None)}" for gate in gates)

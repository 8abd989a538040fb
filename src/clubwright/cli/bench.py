"""Commands at the bench: each keeps one fact in the workshop's record and says what follows from it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from cyclopts import Parameter

from clubwright.cli.options import SHOP, By, Json, Key, Shop, person

if TYPE_CHECKING:
    from collections.abc import Callable

    from clubwright.journal.facts import Fact
    from clubwright.services.desk import Desk

JobId = Annotated[str, Parameter(help="Ticket number.")]


def take(ticket: Path, /, *, shop: Shop = SHOP, by: By = None, key: Key = None, json: Json = False) -> None:
    """Take a ticket file into the record."""
    from clubwright.importers.ticket_file import load_ticket
    from clubwright.services import bench

    document = load_ticket(ticket)
    job = str(document.get("ticket", {}).get("id", ""))
    _act(shop, by, job, lambda desk: bench.take_ticket(desk, document, ticket.name, key), as_json=json)


def jobs(*, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """List the jobs in the record."""
    from clubwright.bootstrap import open_desk
    from clubwright.cli.output import print_json, print_lines, table

    with open_desk(shop, by=person(by)) as desk:
        rows = [_job_row(job) for job in desk.shop().jobs.values()]
    if json:
        print_json([dict(zip(("id", "label", "player", "state"), row, strict=True)) for row in rows])
    else:
        print_lines(table(rows) or ["No jobs yet: take a ticket."])


def show(job: JobId, /, *, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """Show a job: what is believed of the finished club, the advice, the gates, the next step."""
    from clubwright.bootstrap import open_desk

    with open_desk(shop, by=person(by)) as desk:
        _show(desk, job, as_json=json)


def read(
    job: JobId,
    quantity: Annotated[str, Parameter(help="What was read: swing_weight, total_weight, length, grip.mass ...")],
    value: Annotated[str, Parameter(help="What the gauge showed.", allow_leading_hyphen=True)],
    /,
    *,
    stage: Annotated[str, Parameter(help="Stage of the build.")] = "finished",
    weights: Annotated[list[str] | None, Parameter(help="Weights fitted at the time.", consume_multiple=True)] = None,
    gauge: Annotated[str | None, Parameter(help="Which gauge, as named on the ticket.")] = None,
    repeats: Annotated[str, Parameter(help="How many readings it is the mean of.")] = "1",
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Take a reading. One that does not fit is kept aside, with its likeliest causes."""
    from clubwright.services import bench

    def act(desk: Desk) -> Fact:
        return bench.take_reading(
            desk, job, quantity, value, stage=stage, weights=weights, instrument=gauge, repeats=repeats, key=key
        )[0]

    _act(shop, by, job, act, as_json=json)


def decide(
    job: JobId,
    reading: Annotated[int, Parameter(help="Number of the reading in the trail.")],
    choice: Annotated[str, Parameter(help="keep or leave")],
    /,
    *,
    reason: str = "",
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Decide about a reading that does not fit: keep it, or leave it out."""
    from clubwright.errors import Finding, InputError
    from clubwright.services import bench

    if choice not in ("keep", "leave"):
        raise InputError([Finding(where="decide", what=f'"{choice}" decides nothing', mend="Say keep or leave.")])
    use = choice == "keep"
    _act(
        shop,
        by,
        job,
        lambda desk: bench.decide_reading(desk, job, reading, keep=use, reason=reason, key=key),
        as_json=json,
    )


def fit(
    job: JobId,
    weights: Annotated[list[str] | None, Parameter(help="Names of all weights that are on now; none: all off.")] = None,
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record the weights that are on now."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.fit_weights(desk, job, weights or [], key), as_json=json)


def measure(
    job: JobId,
    section: Annotated[str, Parameter(help="head, shaft, grip, ferrule, adhesive ...")],
    values: Annotated[list[str], Parameter(help='name=value pairs, such as "mass=49.6 g"', allow_leading_hyphen=True)],
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record what was measured of a part, or another part in its place."""
    from clubwright.errors import Finding, InputError
    from clubwright.services import bench

    pairs = [item.partition("=") for item in values]
    bad = [item for item, (_, sign, _) in zip(values, pairs, strict=True) if not sign]
    if bad:
        mend = 'Write name=value, such as "mass=49.6 g".'
        raise InputError([Finding(where="measure", what=f'"{item}" has no =', mend=mend) for item in bad])
    named = {name.strip(): value.strip() for name, _, value in pairs}
    _act(shop, by, job, lambda desk: bench.change_part(desk, job, section, named, key), as_json=json)


def trim(
    job: JobId, end: str, amount: str, /, *, shop: Shop = SHOP, by: By = None, key: Key = None, json: Json = False
) -> None:
    """Record a trim of the tip (or the butt) before the cut to length."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.trim_shaft(desk, job, end, amount, key), as_json=json)


def cut(
    job: JobId, cut_length: str, /, *, shop: Shop = SHOP, by: By = None, key: Key = None, json: Json = False
) -> None:
    """Record the cut: length of the shaft, tip end to butt end, as measured after it."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.cut_shaft(desk, job, cut_length, key), as_json=json)


def bend(
    job: JobId,
    /,
    *,
    loft: str | None = None,
    lie: str | None = None,
    bounce: str | None = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record the angles as measured after a bend."""
    from clubwright.services import bench

    _act(
        shop,
        by,
        job,
        lambda desk: bench.bend_head(desk, job, loft=loft, lie=lie, bounce=bounce, key=key),
        as_json=json,
    )


def tape(
    job: JobId,
    name: str,
    layers: str,
    mass: str,
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record the tape laid: its name, layers, and their mass together."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.lay_tape(desk, job, name, layers, mass, key), as_json=json)


def mix(
    job: JobId,
    part_a: str,
    part_b: str,
    /,
    *,
    temperature: str,
    batch: str = "",
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record the adhesive mixed, as weighed."""
    from clubwright.services import bench

    _act(
        shop, by, job, lambda desk: bench.mix_adhesive(desk, job, part_a, part_b, temperature, batch, key), as_json=json
    )


def glue(
    job: JobId, /, *, temperature: str, shop: Shop = SHOP, by: By = None, key: Key = None, json: Json = False
) -> None:
    """Record that the joint is closed; its cure runs from now at that temperature."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.glue(desk, job, temperature, key), as_json=json)


def grip(job: JobId, /, *, shop: Shop = SHOP, by: By = None, key: Key = None, json: Json = False) -> None:
    """Record that the grip is on for good."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.slide_grip(desk, job, key), as_json=json)


def done(
    job: JobId, step: str, /, *, note: str = "", shop: Shop = SHOP, by: By = None, key: Key = None, json: Json = False
) -> None:
    """Record that a step of the plan is done."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.do_step(desk, job, step, note, key), as_json=json)


def sign(job: JobId, gate: str, /, *, shop: Shop = SHOP, by: By = None, key: Key = None, json: Json = False) -> None:
    """Sign a gate: cut, glue or release. What you were shown is stored with it."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.sign_gate(desk, job, gate, key), as_json=json)


def finish(job: JobId, /, *, shop: Shop = SHOP, by: By = None, key: Key = None, json: Json = False) -> None:
    """Close the job; its verdicts are stored as shown."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.finish(desk, job, key), as_json=json)


def undo(
    job: JobId,
    fact: Annotated[int | None, Parameter(help="Number in the trail; the last when left out.")] = None,
    /,
    *,
    reason: str = "",
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Undo: a new fact reverses an earlier one."""
    from clubwright.services import bench

    _act(shop, by, job, lambda desk: bench.undo(desk, job, fact, reason, key), as_json=json)


def _act(shop: str, by: str | None, job: str, action: Callable[[Desk], Fact], *, as_json: bool) -> None:
    """Run one action and show where the job stands after it."""
    from clubwright.bootstrap import open_desk

    with open_desk(shop, by=person(by)) as desk:
        fact = action(desk)
        _show(desk, job, as_json=as_json, fact=fact)


def _show(desk: Desk, job: str, *, as_json: bool, fact: Fact | None = None) -> None:
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.words import answer_lines, step_lines
    from clubwright.services.job_work import work_job

    worked = work_job(desk.job(job), desk.now())
    answer = worked.answer()
    upcoming = next((step for step in worked.steps if not step.done), None)
    if as_json:
        body: dict[str, Any] = {**answer, "job": job, "next_step": None if upcoming is None else upcoming.key}
        body["fact"] = None if fact is None else fact.sequence
        print_json(body)
        return
    if fact is not None:
        print_lines([f"Kept as {fact.sequence}: {fact.typed}.", ""])
    print_lines(answer_lines(answer))
    if upcoming is not None:
        print_lines(["", "NEXT STEP", *step_lines(upcoming)])


def _job_row(job: Any) -> tuple[str, ...]:
    said = job.document["ticket"]
    state = "finished" if job.finished else f"{len(job.steps_done)} steps done"
    return job.id, said.get("label", ""), said.get("player", ""), state

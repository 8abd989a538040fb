"""Commands at the bench: each keeps one fact in the workshop's record and says what follows from it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.acting import act, job_row, session_at, show_job
from clubwright.cli.options import SHOP, By, DoneAt, JobId, Json, Key, Shop, ShopFile, Why, WhyKey, WrittenAt

if TYPE_CHECKING:
    from clubwright.journal.facts import Fact
    from clubwright.services.record.session import Session

STAGE_HELP = (
    '"as it came" (nothing off yet), "bare shaft", "dry, no grip" (no tape either), "dry, taped", "dry, gripped", '
    '"glued, no grip", or "finished".'
)


def take(
    ticket: Annotated[Path, Parameter(help="Ticket file (TOML); `clubwright check` shows how it is understood.")],
    /,
    *,
    shop_file: ShopFile = None,
    club: Annotated[str | None, Parameter(help="Ticket of an earlier job on the same club.")] = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Take a ticket file into the record, with what the shop says where it is silent; with --club, as work on that club."""
    from clubwright.importers.ticket_file import load_ticket
    from clubwright.services.actions import bench

    document = load_ticket(ticket)
    act(
        shop,
        by,
        lambda session: bench.take_ticket(session, document, ticket.name, key, club=club),
        as_json=json,
        make=True,
        shop_file=shop_file,
    )


def jobs(*, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """List the jobs in the record; of one that is broken, what is wrong with it."""
    from clubwright.cli.output import print_json, print_lines, table

    with session_at(shop, by) as session:
        lines, broken, unknown = session.ask(lambda index: (index.every(), index.broken(), index.findings()))
    rows = [job_row(line) for line in lines]
    rows += [(job.id, job.label, job.player, "broken") for job in broken]
    wrong = [*(item for job in broken for item in job.findings), *unknown]
    if json:
        print_json([dict(zip(("id", "label", "player", "state"), row, strict=True)) for row in rows])
    else:
        print_lines(table(rows) or ["No jobs yet: take a ticket."])
    for finding in wrong:
        print(finding.sentence(), file=sys.stderr)


def show(
    job: JobId,
    /,
    *,
    belief: Annotated[
        bool, Parameter(help="Also list what is believed of every part, with its uncertainty.", negative=())
    ] = False,
    why: WhyKey = None,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Show a job: what is believed of the finished club, the advice, the gates, the next step."""
    if why is not None:
        from clubwright.cli.why import of_job

        of_job(job, why, shop, by, as_json=json)
        return
    with session_at(shop, by) as session:
        show_job(session, job, as_json=json, belief=belief)


def read(
    job: JobId,
    quantity: Annotated[str, Parameter(help="What was read: swing_weight, total_weight, length, grip.mass ...")],
    value: Annotated[str, Parameter(help="What the gauge showed.", allow_leading_hyphen=True)],
    /,
    *,
    stage: Annotated[str, Parameter(help=STAGE_HELP)] = "finished",
    weights: Annotated[
        list[str] | None,
        Parameter(
            help="Weights that were on; those fitted by the record when left out.",
            consume_multiple=True,
            negative="--no-weights",
        ),
    ] = None,
    gauge: Annotated[str | None, Parameter(help="Gauge as named on the ticket; its usual one when left out.")] = None,
    repeats: Annotated[str, Parameter(help="How many readings it is the mean of.")] = "1",
    done_at: DoneAt = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Take a reading. One that does not fit is kept aside, with its likeliest causes."""
    from clubwright.services.actions import bench

    def taken(session: Session) -> Fact:
        return bench.note_reading(
            session,
            job,
            quantity,
            value,
            stage=stage,
            weights=weights,
            instrument=gauge,
            repeats=repeats,
            key=key,
            done_at=done_at,
        )

    act(shop, by, taken, as_json=json)


def decide(
    job: JobId,
    reading: Annotated[int, Parameter(help="Number of the reading, as `clubwright trail` lists it.")],
    choice: Annotated[str, Parameter(help="keep: use it. leave: leave it out.")],
    /,
    *,
    reason: Why = "",
    site: WrittenAt = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Decide about a reading that does not fit: keep it, or leave it out."""
    from clubwright.errors import Finding, InputError
    from clubwright.services.actions import bench

    if choice not in ("keep", "leave"):
        raise InputError([Finding(where="decide", what=f'"{choice}" decides nothing', mend="Say keep or leave.")])
    use = choice == "keep"
    act(
        shop,
        by,
        lambda session: bench.decide_reading(session, job, reading, keep=use, reason=reason, site=site, key=key),
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
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.fit_weights(session, job, weights or [], key), as_json=json)


def measure(
    job: JobId,
    section: Annotated[str, Parameter(help="Table of the ticket: head, shaft, grip, ferrule, adhesive ...")],
    values: Annotated[
        list[str] | None, Parameter(help='One or more name=value, such as "mass=49.6 g".', allow_leading_hyphen=True)
    ] = None,
    /,
    *,
    another: Annotated[
        bool, Parameter(help="Another head, shaft or grip is in its place: forget the old one's figures.", negative=())
    ] = False,
    gauge: Annotated[
        str | None,
        Parameter(
            help="What measured it, by its name on the ticket; the usual one when left out. Measuring again then adds; with "
            'an empty name ("") the value takes the place of what stood there.'
        ),
    ] = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record what was measured of a part, or another part in its place."""
    from clubwright.errors import Finding, InputError
    from clubwright.services.actions import bench

    given = values or []
    pairs = [item.partition("=") for item in given]
    bad = [item for item, (_, sign, _) in zip(given, pairs, strict=True) if not sign]
    if bad:
        mend = 'Write name=value, such as "mass=49.6 g".'
        raise InputError([Finding(where="measure", what=f'"{item}" has no =', mend=mend) for item in bad])
    named = {name.strip(): value.strip() for name, _, value in pairs}
    act(
        shop,
        by,
        lambda session: bench.change_part(session, job, section, named, key, another=another, gauge=gauge),
        as_json=json,
    )


def renumber(
    job: JobId,
    number: Annotated[str, Parameter(help="Its new number, which no other ticket has or had.")],
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Give a ticket another number, where two benches gave one number away; print its tag anew."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.renumber(session, job, number, key), as_json=json)


def undo(
    job: JobId,
    fact: Annotated[int | None, Parameter(help="Number in the trail; the last when left out.")] = None,
    /,
    *,
    reason: Why = "",
    site: WrittenAt = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Undo: a new fact reverses an earlier one."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.undo(session, job, fact, reason, site=site, key=key), as_json=json)

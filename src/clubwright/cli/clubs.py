"""Commands on clubs that outlive their jobs: which jobs were on one, the next one on it, and that two are one club."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.acting import act, session_at
from clubwright.cli.options import SHOP, By, JobId, Json, Key, Shop

if TYPE_CHECKING:
    from clubwright.services.told.club import PartAnswer


def club(job: JobId, /, *, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """Say which club a job is on, and list the jobs on it, the first one first."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.services.actions.orders.clubs import jobs_of_club
    from clubwright.services.report.club_part import club_part

    with session_at(shop, by) as session:
        found = club_part(jobs_of_club(session, job))
    if json:
        print_json(found)
        return
    print_lines([f"club {found.club.site}/{found.club.sequence}"])
    print_lines(f"{part.part}: {_which(part)}" for part in found.parts)
    print_lines(table([(row.job, row.work, row.came[:10], row.state) for row in found.jobs]))
    print_lines(f"{row.job}: glued by {row.glued.by}" for row in found.jobs if row.glued is not None)
    print_lines(f"{row.job}: {item.what}. {item.mend}" for row in found.jobs for item in row.findings)


def _which(part: PartAnswer) -> str:
    said = {"family": part.family, "lot": part.lot, "piece": part.piece}
    return ", ".join(filter(None, (part.name, *(f"{key} {text}" for key, text in said.items() if text))))


def work_again(
    job: JobId,
    new_id: Annotated[str, Parameter(help="Number of the new ticket.")],
    work: Annotated[str, Parameter(help="regrip, reshaft, loft-lie or weight.")],
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Take the next job on a club of the record: the same order, the club as its last job left it."""
    from clubwright.services.actions import bench
    from clubwright.services.actions.orders.clubs import next_ticket

    act(
        shop,
        by,
        lambda session: bench.take_ticket(session, next_ticket(session.job(job), new_id, work), f"record {job}", key),
        as_json=json,
    )


def same_club(
    job: Annotated[str, Parameter(help="The later job.")],
    club: Annotated[str, Parameter(help="An earlier job on the same club.")],
    /,
    *,
    reason: Annotated[str, Parameter(help="How it is known.")],
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Say that a job is work on the same club as an earlier one."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.say_club(session, job, club, reason, key), as_json=json)

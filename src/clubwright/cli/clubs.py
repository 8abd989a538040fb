"""The command on clubs that outlive their jobs: which jobs were on one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from clubwright.cli.acting import session_at
from clubwright.cli.options import SHOP, By, JobId, Json, Shop

if TYPE_CHECKING:
    from clubwright.services.told.club import PartAnswer


def club(job: JobId, /, *, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """Say which club a job is on, and list the jobs on it, the first one first."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.journal.times import day_of
    from clubwright.services.actions.orders.clubs import jobs_of_club
    from clubwright.services.report.club_part import club_part

    with session_at(shop, by) as session:
        found = club_part(jobs_of_club(session, job))
    if json:
        print_json(found)
        return
    print_lines([f"club {found.club.site}/{found.club.sequence}"])
    print_lines(f"{part.part}: {_which(part)}" for part in found.parts)
    print_lines(table([(row.job, row.work, day_of(row.came), row.state) for row in found.jobs]))
    print_lines(f"{row.job}: glued by {row.glued.by}" for row in found.jobs if row.glued is not None)
    print_lines(f"{row.job}: {item.what}. {item.mend}" for row in found.jobs for item in row.findings)


def _which(part: PartAnswer) -> str:
    said = {"family": part.family, "lot": part.lot, "piece": part.piece}
    return ", ".join(filter(None, (part.name, *(f"{key} {text}" for key, text in said.items() if text))))

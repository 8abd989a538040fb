"""How long the work takes that is left: of one job, step by step, or of every open job."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.acting import session_at
from clubwright.cli.options import SHOP, By, Json, Shop


def minutes(
    job: Annotated[str | None, Parameter(help="Ticket number; every open job when left out.")] = None,
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Show how long the work takes that is left, by the shop's minutes: hands at work, and waiting for the cure."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.services.jobs.minutes import (
        job_times_part,
        open_times,
        open_times_part,
        step_time_text,
        times_now,
        times_text,
    )

    with session_at(shop, by) as session:
        if job is not None:
            found = times_now(session, job)
            if json:
                print_json(job_times_part(found))
                return
            rows = [("x" if item.done else "", item.title, step_time_text(item)) for item in found.steps]
            print_lines([*table(rows), "", f"All: {times_text(found.whole)}.", f"Left: {times_text(found.left)}."])
            return
        every = open_times(session)
    if json:
        print_json(open_times_part(every))
        return
    rows = [(name, title, "?" if left is None else times_text(left)) for name, title, left in every.jobs]
    print_lines([*table(rows), "", f"Left on {len(rows)} open: {times_text(every.left)}."])

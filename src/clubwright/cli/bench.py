"""Commands on the jobs of the record: take one in from a ticket file, list them, show one."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.acting import act, job_row, session_at, show_job
from clubwright.cli.options import SHOP, By, JobId, Json, Key, Shop, ShopFile, WhyKey


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
    from clubwright.services.actions.register.payloads_record import Taken

    payload = Taken(document=load_ticket(ticket), source=ticket.name, club=club)
    act(shop, by, "take", payload, key, as_json=json, make=True, shop_file=shop_file)


def jobs(*, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """List the jobs in the record; of one that is broken, what is wrong with it."""
    from clubwright.cli.output import print_aside, print_json, print_lines, table

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
        print_aside(finding.sentence())


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

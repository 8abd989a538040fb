"""The command that writes a job's ticket as a ticket file."""

from __future__ import annotations

from clubwright.cli.acting import session_at
from clubwright.cli.options import SHOP, By, JobId, Json, Shop
from clubwright.cli.record import Out


def export(job: JobId, /, *, out: Out = None, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """Write the ticket of a job as it stands as a ticket file; read again it gives the same ticket."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.errors import NotPossible
    from clubwright.importers.ticket_file import dump_ticket
    from clubwright.journal.job_ticket import ticket_file_of

    if out is not None and out.exists():
        raise NotPossible(f"{out} is there already", "Name a new file: --out NAME.toml.")
    with session_at(shop, by) as session:
        document = ticket_file_of(session.job(job))
    if out is not None:
        out.write_text(dump_ticket(document), encoding="utf-8")
    if json:
        print_json(document)
    else:
        print_lines([f"Wrote {out}."] if out is not None else [dump_ticket(document)])

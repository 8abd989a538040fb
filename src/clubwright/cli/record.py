"""Commands on the record: the trail, the as-built record, making again, checks, backups and merging."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.acting import session_at
from clubwright.cli.options import SHOP, By, JobId, Json, Shop

Out = Annotated[Path | None, Parameter(name=["--out", "-o"], help="File to write.")]


def trail(job: JobId, /, *, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """Show what was done on a job, newest first, with the number that undo takes."""
    from clubwright.cli.output import print_json, print_lines, table

    with session_at(shop, by) as session:
        lines = list(reversed(session.job(job).trail))
    rows = [
        (str(item.sequence), item.site, item.at, item.by, "undone" if item.undone else "", item.text) for item in lines
    ]
    if json:
        names = ("number", "site", "at", "by", "state", "text")
        print_json([dict(zip(names, row, strict=True)) for row in rows])
        return
    one_site = len({item.site for item in lines}) == 1
    print_lines(table([row[:1] + row[2:] if one_site else row for row in rows]))


def built(job: JobId, /, *, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """Show the as-built record: every target, what was read, and the verdict."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.cli.words import built_rows, built_words
    from clubwright.services.jobs.job_answer import answer_job
    from clubwright.services.report.as_built import as_built_record

    with session_at(shop, by) as session:
        state = session.job(job)
        record = as_built_record(state, answer_job(state, session.now()))
    if json:
        print_json(record)
        return
    head = ("quantity", "ordered", "tolerance", "read", "believed", "verdict")
    rows = built_rows(record.rows, head)
    told = [f"{row.quantity}: {why}" for row in record.rows for why in built_words(row)]
    done = table([(item.part, item.text) for item in record.done])
    print_lines(
        [record.title, "", *table(rows), *told, "", *(done or ["Nothing done was recorded."]), "", record.recipe]
    )


def again(
    job: JobId,
    new_id: Annotated[str, Parameter(help="Number of the new ticket.")],
    /,
    *,
    out: Out = None,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Write the ticket that makes a club of the record again; measure the new parts and take it."""
    from clubwright.cli.output import print_aside, print_json, print_lines
    from clubwright.errors import NotPossible
    from clubwright.importers.ticket_file import dump_ticket
    from clubwright.services.jobs.job_answer import answer_job
    from clubwright.services.report.build_again import again_findings, make_again

    if out is not None and out.exists():
        raise NotPossible(f"{out} is there already", "Name a new file: --out NAME.toml.")
    with session_at(shop, by) as session:
        state = session.job(job)
        document = make_again(state, answer_job(state, session.now()), new_id)
    for item in again_findings(state):
        print_aside(f"{item.severity}: {item.sentence()}")  # beside the document, which stays a ticket
    if out is not None:
        out.write_text(dump_ticket(document), encoding="utf-8")
    if json:
        print_json(document)
    else:
        print_lines([f"Wrote {out}."] if out is not None else [dump_ticket(document)])


def verify(*, shop: Shop = SHOP, by: By = None, json: Json = False) -> int:
    """Check the record: every fact is there, in order, and unchanged."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.words import finding_lines
    from clubwright.services.answer.answer import findings_part

    with session_at(shop, by) as session:
        findings = session.ledger.verify()
        count = session.ledger.count()
    if json:
        print_json({"facts": count, "findings": findings_part(findings)})
    else:
        print_lines(finding_lines(findings) or [f"The record is whole: {count} facts."])
    return 1 if findings else 0


def backup(
    path: Annotated[Path, Parameter(help="File to write; it must not be there yet.")],
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Copy the record safely while it is in use, and verify the copy."""
    from clubwright.cli.output import print_json, print_lines

    with session_at(shop, by) as session:
        count = session.ledger.backup(path)
    if json:
        print_json({"facts": count, "file": str(path)})
    else:
        print_lines([f"Copied {count} facts to {path}, and read them back."])


def merge(
    other: Annotated[str, Parameter(help="Folder or address of the other bench's record; it is only read.")],
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Take in what another bench wrote into its own record; all of it, or nothing where some could not have happened."""
    from clubwright.bootstrap import read_facts
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.words import told_lines
    from clubwright.services.recording.merging import merged

    facts = read_facts(other)
    with session_at(shop, by) as session:
        answer = merged(session, facts)
    if json:
        print_json(answer)
    else:
        facts_of = f"{answer.new} {'fact' if answer.new == 1 else 'facts'} of {', '.join(answer.sites) or 'nobody'}"
        print_lines([f"Took in {facts_of}; the record holds {answer.facts}.", *told_lines(answer.findings)])


def demo(
    *,
    folder: Annotated[Path, Parameter(help="Where the demo workshop is made.")] = Path("demo-workshop"),
    serve: Annotated[
        bool, Parameter(help="Serve its page, with tickets that wait, until Ctrl-C.", negative=())
    ] = False,
    port: Annotated[int, Parameter(help="Port to serve on.")] = 8484,
    anew: Annotated[
        bool, Parameter(help="Throw away what somebody has worked in the demo of before.", negative=())
    ] = False,
    json: Json = False,
) -> None:
    """Make an invented workshop and work one ticket to its end, step by step."""
    if serve:
        from clubwright.cli.demo_page import serve_demo

        serve_demo(folder, port, as_json=json, anew=anew)
    else:
        from clubwright.cli.demo import run_demo

        run_demo(folder, as_json=json, anew=anew)

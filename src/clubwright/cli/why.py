"""Why a number is what it is, on the command line: of a ticket file, or of a job of the record."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.options import SHOP, By, Json, Shop, ShopFile, units_of

if TYPE_CHECKING:
    from clubwright.journal.job import Job
    from clubwright.services.jobs.job_answer import JobAnswer
    from clubwright.services.jobs.minutes import JobTimes
    from clubwright.services.why.told import Why

NAMED = "Ticket file (TOML), or the number of a job in the record."
WHICH = "Which number, by its place in the answer (finished/swing_weight); a bare quantity is the finished club's."


def why(
    ticket: Annotated[str, Parameter(help=NAMED)],
    key: Annotated[str | None, Parameter(help=f"{WHICH} All that there are when left out.")] = None,
    /,
    *,
    shop_file: ShopFile = None,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Say why a number is what it is: its budget, its readings and whose, its equation, page, source and tests."""
    if Path(ticket).suffix == ".toml":
        of_ticket_file(Path(ticket), key, shop_file, as_json=json)
    else:
        of_job(ticket, key, shop, by, as_json=json)


def of_ticket_file(path: Path, key: str | None, shop_file: Path | None, *, as_json: bool) -> None:
    """Print what stands behind a number of a ticket file; every key when none is given."""
    from clubwright.importers.shop_file import load_shop
    from clubwright.importers.ticket_file import load_ticket
    from clubwright.notation import shown_in
    from clubwright.services.answer.club_answer import work_document
    from clubwright.services.jobs.job_answer import with_plan
    from clubwright.services.jobs.minutes import job_times

    settings = load_shop(shop_file)
    with shown_in(None if as_json else units_of(settings)):
        worked = with_plan(work_document(load_ticket(path), path.name, settings=settings))
        _print(worked, key, None, job_times(worked, settings), as_json=as_json)


def of_job(job: str, key: str | None, shop: str, by: str | None, *, as_json: bool) -> None:
    """Print what stands behind a number of a job of the record; every key when none is given."""
    from clubwright.cli.acting import session_at
    from clubwright.notation import shown_in
    from clubwright.services.jobs.job_answer import answer_job
    from clubwright.services.jobs.minutes import times_now

    with session_at(shop, by) as session, shown_in(None if as_json else session.units()):
        state = session.job(job)
        _print(answer_job(state, session.now(), session.local), key, state, times_now(session, job), as_json=as_json)


def _print(worked: JobAnswer, key: str | None, job: Job | None, times: JobTimes | None, *, as_json: bool) -> None:
    from clubwright.cli.output import print_json, print_lines
    from clubwright.services.why.find import why_keys, why_of

    if key is None:
        keys = list(why_keys(worked))
        if as_json:
            print_json({"keys": keys})
        else:
            print_lines(keys)
        return
    found = why_of(worked, key, job, times)
    if as_json:
        print_json(found.plain())
    else:
        print_lines(why_lines(found))


def why_lines(found: Why) -> list[str]:
    """Say what stands behind a number to a person at the bench."""
    from clubwright.cli.output import table, wrapped
    from clubwright.services.why.told import main_rows, share_text
    from clubwright.words import spoken

    lines = [f"{found.name}: {found.text}" if found.text else found.name, *wrapped(found.note, "  ")]
    kept, left, rest = main_rows(found)
    if kept:
        heads = [("share", "unknown", "its own ±", "moves it by", "that is", "known to be")]
        rows = [
            (share_text(row.share), row.what, row.sd_text, row.slope_text, row.contribution_text, row.believed)
            for row in kept
        ]
        lines += ["", "BUDGET, share of the variance", *table([*heads, *rows], indent="  ")]
        lines += [f"  {left} more with less than 0.1 % each: {share_text(rest)}"] if left else []
    if found.figures:
        lines += ["", "FIGURES", *table([(item.name, item.text, item.formula) for item in found.figures], indent="  ")]
    if found.inputs:
        lines += ["", "TAKEN FROM THE TICKET", *table([(item.name, item.text) for item in found.inputs], indent="  ")]
    if found.readings:
        told = []
        for row in found.readings:
            whose = row.by or (f"job {row.of_job}" if row.of_job else "the ticket")
            did = f"without it {row.text_without}; took off {row.sharpened:.0%}" if row.text_without else row.state
            told.append((f"{row.quantity} {row.typed}", spoken("stage", row.stage), row.gauge, whose, did))
        lines += ["", "READINGS, the one that sharpened it most first", *table(told, indent="  ")]
    for item in found.formulas:
        place = item.page + (f"#{item.section}" if item.section else "")
        lines += ["", item.name.upper(), *wrapped(item.equation, "  ", "    ")]
        lines += [f"  theory  {place}", f"  source  {item.source}:{item.line} {item.function}"]
        lines += [f"  test    {check}" for check in item.checks]
    return lines

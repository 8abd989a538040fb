"""Commands on ticket files; nothing is kept."""

from __future__ import annotations

import textwrap
from difflib import get_close_matches
from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.options import Json, ShopFile, WhyKey, typist_of, units_of

Ticket = Annotated[Path, Parameter(help="Ticket file (TOML).")]


def check(ticket: Ticket, /, *, shop_file: ShopFile = None, json: Json = False) -> int:
    """Check a ticket file: every finding at once, every default it is worked with, and what each value was understood as."""
    from clubwright.cli.output import print_json, print_lines, wrapped
    from clubwright.cli.words import echo_lines, finding_lines
    from clubwright.importers.shop_file import load_shop
    from clubwright.importers.ticket_file import load_ticket
    from clubwright.services.answer.answer import findings_part
    from clubwright.services.answer.shop_settings import read_completed
    from clubwright.services.answer.taken import all_taken
    from clubwright.services.told.words import CheckedAnswer

    read, findings = read_completed(load_ticket(ticket), ticket.name, load_shop(shop_file))
    taken = () if read is None else tuple(item for item in all_taken(read) if item not in findings)
    refused = [item for item in taken if item.severity == "error"]
    if refused:
        read = None
    if json:
        echoes = [] if read is None else echo_lines(read)
        found = findings_part((*findings, *taken))
        print_json(CheckedAnswer(schema=1, findings=found, taken=read is not None, understood=tuple(echoes)))
    else:
        print_lines(finding_lines([*findings, *refused]))
        notes = [item for item in taken if item not in refused]
        print_lines([line for item in notes for line in wrapped(f"{item.severity}: {item.where}: {item.what}.")])
        print_lines([] if read is None else [*echo_lines(read), f"Ticket {read.id} can be taken."])
    return 0 if read is not None else 2


def work(ticket: Ticket, /, *, why: WhyKey = None, shop_file: ShopFile = None, json: Json = False) -> int:
    """Work a ticket file to its answer: cut, finished club, every stage, advice, gates, verdicts."""
    if why is not None:
        from clubwright.cli.why import of_ticket_file

        of_ticket_file(ticket, why, shop_file, as_json=json)
        return 0
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.words import answer_lines
    from clubwright.errors import InputError
    from clubwright.importers.shop_file import load_shop
    from clubwright.importers.ticket_file import load_ticket
    from clubwright.notation import shown_in
    from clubwright.services.answer.answer import empty_answer
    from clubwright.services.answer.club_answer import answer_document

    try:
        settings = load_shop(shop_file)
        with shown_in(None if json else units_of(settings)):
            answer = answer_document(load_ticket(ticket), ticket.name, settings=settings)
    except InputError as refused:
        answer = empty_answer(refused.findings)
    if json:
        print_json(answer)
    else:
        print_lines(answer_lines(answer))
    return 2 if any(item.severity == "error" for item in answer.findings) else 0


def plan(ticket: Ticket, /, *, shop_file: ShopFile = None, json: Json = False) -> None:
    """Plan a ticket file: every step with its numbers, expected readings, cautions, and what each needs first."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.words import plan_lines
    from clubwright.importers.shop_file import load_shop
    from clubwright.importers.ticket_file import load_ticket
    from clubwright.notation import shown_in
    from clubwright.services.answer.club_answer import work_document
    from clubwright.services.jobs.job_answer import with_plan
    from clubwright.services.jobs.minutes import job_times
    from clubwright.services.report.plan_part import plan_part

    settings = load_shop(shop_file)
    with shown_in(None if json else units_of(settings)):
        worked = with_plan(work_document(load_ticket(ticket), ticket.name, settings=settings))
        if json:
            print_json(plan_part(worked.steps))
        else:
            print_lines(plan_lines(worked, job_times(worked, settings)))


def words(
    text: Annotated[str, Parameter(help="The order in words, in quotes: 54, mid bounce, 35 1/4, D4, half flat.")],
    /,
    *,
    json: Json = False,
) -> int:
    """Read an order in words: what is understood, what is asked, and the ticket it makes; the page reads it the same way."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.importers.ticket_file import dump_ticket
    from clubwright.services.answer.order_words import answer_words
    from clubwright.ticket.shop.settings import NO_SETTINGS

    answer = answer_words(text, typist_of(NO_SETTINGS))
    if json:
        print_json(answer)
        return 2 if answer.left else 0
    print_lines(["UNDERSTOOD", *table([(item.words, item.meaning) for item in answer.said], indent="  ")])
    print_lines(["", "NOT TAKEN"] if answer.left else [])
    print_lines(table([(item.words, f"{item.what}. {item.mend}") for item in answer.left], indent="  "))
    print_lines(["", "TICKET", textwrap.indent(dump_ticket(answer.document).rstrip("\n"), "  ")])
    return 2 if answer.left else 0


def schema(
    which: Annotated[
        str, Parameter(help="ticket, shop, answer, check, mixes, merge, forget-apply-to or demo")
    ] = "ticket",
    /,
    *,
    json: Json = True,
) -> None:
    """Print the JSON Schema of the ticket file, of the shop's settings, or of an answer (always as JSON)."""
    del json  # a schema has no other form
    from clubwright.cli.output import print_json
    from clubwright.errors import Finding, InputError
    from clubwright.services.told.schema import ANSWERS, schema_of
    from clubwright.ticket.fields.schema import shop_schema, ticket_schema

    written = {"ticket": ticket_schema, "shop": shop_schema}
    if which not in (*written, *ANSWERS):
        what, mend = f'there is no schema of "{which}"', f"Ask for one of: {', '.join((*written, *ANSWERS))}."
        raise InputError([Finding(where="schema", what=what, mend=mend)])
    print_json(written[which]() if which in written else schema_of(which))


def notation(
    kind: Annotated[str, Parameter(help="Kind of quantity: length, mass, swing_weight, lie ...")],
    text: Annotated[str, Parameter(help="What would be typed.", allow_leading_hyphen=True)],
    /,
    *,
    base: Annotated[str | None, Parameter(help="What a relative value is counted from.")] = None,
    json: Json = False,
) -> None:
    """Say what a value in trade notation is understood as."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.errors import Finding, InputError
    from clubwright.notation import KINDS, parse

    if kind not in KINDS:
        meant = get_close_matches(kind, KINDS, n=1)
        mend = f'Write "{meant[0]}".' if meant else f"There are: {', '.join(sorted(KINDS))}."
        raise InputError([Finding(where="kind", what=f'"{kind}" is no kind of quantity', mend=mend)])
    counted_from = None if base is None else parse(kind, base, where="--base").value
    found = parse(kind, text, where="text", base=counted_from)
    if json:
        print_json({"echo": found.echo, "kind": found.kind, "sd": found.sd, "typed": found.typed, "value": found.value})
    else:
        print_lines([found.echo])

"""A ticket file from words: what was understood as figures, and what is to be filled in as a comment, never as a sample."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

import msgspec

from clubwright.club.quantities import ANGLES
from clubwright.errors import DocumentPlace, Finding
from clubwright.notation import Typist
from clubwright.notation.one_line import one_line
from clubwright.planning.gates.gates import MEASURED
from clubwright.services.answer.answer import findings_part
from clubwright.services.jobs.step_needs import WEIGHED
from clubwright.services.told.words import NewTicketAnswer
from clubwright.ticket.fields.fields import CUT_JOBS, SECTIONS, TICKET
from clubwright.ticket.fields.shop import USUAL
from clubwright.ticket.shop.settings import ShopSettings
from clubwright.ticket.shorthand.document import document_of
from clubwright.ticket.shorthand.reader import read_shorthand


class NewTicket(msgspec.Struct, frozen=True, kw_only=True):
    """A ticket from words.

    Attributes:
        document: What was understood, as a ticket's document; without what must be filled in.
        text: The same as a ticket file, with a comment that names what must be filled in.
        findings: What was not understood (error), what is to be asked (warning), what is open (note).
    """

    document: dict[str, Any]
    text: str
    findings: tuple[Finding, ...]

    def answer(self) -> NewTicketAnswer:
        """Return it for programs."""
        return NewTicketAnswer(document=self.document, findings=findings_part(self.findings), text=self.text)


def new_ticket(words: str, number: str, settings: ShopSettings, typist: Typist | None = None) -> NewTicket:
    """Return the ticket that words ask for.

    Args:
        words: As said; read strictly, as the shorthand of the page.
        number: Ticket number; empty where nobody gave one.
        settings: The shop's; what is usual in it is named on the ticket.
        typist: How numbers are typed in the words; None for as the shop says.
    """
    shorthand = read_shorthand(words, typist or settings.typist())
    document = document_of(shorthand)
    said = {**document["ticket"], "id": number}
    kept = {field.key: said[field.key] for field in TICKET.fields if said.get(field.key)}
    job = kept.get("job", "build")
    usual = settings.table(USUAL.name)
    if "adhesive" in usual and job in CUT_JOBS:
        document["adhesive"] = {"name": usual["adhesive"]}
    document = {"ticket": kept, **{name: content for name, content in document.items() if name != "ticket"}}
    absent = [field for field in TICKET.fields if field.needed and field.key not in kept]
    findings = [
        *settings.errors,
        *shorthand.findings,
        *(
            Finding(
                where=DocumentPlace("ticket", (field.key,)),
                what="not said",
                mend="Ask, and write it in; a ticket is not taken without it.",
                severity="warning",
            )
            for field in absent
        ),
    ]
    if not document.get("target") and job != "weight":
        mend = "Ask what the club shall read, such as its length or swing weight."
        findings.append(
            Finding(where=DocumentPlace("target"), what="nothing was ordered", mend=mend, severity="warning")
        )
    fill = _grouped([*(("ticket", field.key) for field in absent), *_to_measure(job, document)])
    unread = "; ".join(item.words for item in shorthand.left)
    comments = [f"Not understood, and left out: {unread}"] if unread else []
    comments += [f"Fill in, as measured of the parts in hand: {fill}"] if fill else []
    return NewTicket(document=document, text=_file(document, comments), findings=tuple(findings))


def _to_measure(job: str, document: Mapping[str, Any]) -> Iterable[tuple[str, str]]:
    """Name the figures that the steps and the gates of this work ask for."""
    if job not in CUT_JOBS:
        return [("grip", "mass"), ("grip", "core")] if job == "regrip" else []
    wanted = [("head", "hand"), *((section, "mass") for section in WEIGHED), ("shaft", "raw_length")]
    wanted += [("head", key) for key in ANGLES if key in document.get("target", {})]
    return [*wanted, *((section, key) for _, section, key, _, _ in MEASURED)]


def _grouped(fields: Iterable[tuple[str, str]]) -> str:
    """Write fields table by table, in the order of the ticket file: ``[head] hand, mass; [grip] cap``."""
    wanted = set(fields)
    found = []
    for section in SECTIONS:
        keys = [field.key for field in section.fields if (section.name, field.key) in wanted]
        found += [f"[{section.name}] {', '.join(keys)}"] if keys else []
    return "; ".join(found)


def _file(document: Mapping[str, Any], comments: Iterable[str]) -> str:
    """Write a ticket file: short tables, and comments at the end, of one line each."""
    # a table that is one name stands on one line, which has to come before the first heading
    short = {name: table for name, table in document.items() if name == "adhesive" and list(table) == ["name"]}
    lines = [f"{name}.name = {_quoted(table['name'])}" for name, table in short.items()]
    for name, content in document.items():
        if name in short:
            continue
        for table in content if isinstance(content, list) else [content]:
            lines.append(f"[[{name}]]" if isinstance(content, list) else f"[{name}]")
            lines += [f"{key} = {_quoted(text)}" for key, text in table.items()]
    return "\n".join([*lines, *(f"# {_visible(text)}" for text in comments)]) + "\n"


def _visible(text: str) -> str:
    """Return a text on one line, without what a comment of the file cannot hold."""
    return one_line("".join(sign if sign.isprintable() else " " for sign in text))


def _quoted(text: str) -> str:
    """Write a text as a TOML string; those of JSON are a part of them, but for one sign."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")

"""The workshop's printer: the table ``[printer]`` of its settings, a command for each kind of paper."""

from __future__ import annotations

import shlex
from typing import Literal, get_args

from clubwright.ticket.fields.fields import Field, Section

PaperKind = Literal["sheet", "tag", "cards"]
PAPERS: tuple[PaperKind, ...] = get_args(PaperKind)

PRINTER = Section(
    name="printer",
    meaning="the command that takes each paper, a PDF, on its standard input; it runs without a shell",
    fields=(
        Field(key="sheet", kind="text", meaning="for the build sheet", example="lp -d office -o print-scaling=none"),
        Field(
            key="tag",
            kind="text",
            meaning="for the tag label",
            example="lp -d labels -o media=Custom.62x29mm -o print-scaling=none",
        ),
        Field(
            key="cards",
            kind="text",
            meaning="for pencil cards; that of the sheet where left out",
            example="lp -d office",
        ),
    ),
)


def command_fault(command: str) -> str:
    """Say why a text is no command; empty where it is one."""
    try:
        words = shlex.split(command)
    except ValueError:
        return "a quote in it is not closed"
    return "" if words and words[0] else "it names no command"

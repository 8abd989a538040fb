"""The build sheet of one club, with the club drawn to scale, its targets, its steps and its record: one page, mostly."""

from __future__ import annotations

from typing import Literal

from clubwright.labels.code import ticket_code
from clubwright.labels.printable import printable
from clubwright.labels.sheet.data import SheetData
from clubwright.labels.sheet.drawing import draw_club
from clubwright.labels.typesetting import typeset

Paper = Literal["a4", "us-letter"]
PAPER_WIDTH_MM: dict[Paper, float] = {"a4": 210.0, "us-letter": 215.9}
SIDE_MARGINS_MM = 20.0
CODE_MM = 19.0


def build_sheet(data: SheetData, *, paper: Paper = "a4") -> bytes:
    """Return the build sheet as a PDF; the same data gives the same bytes.

    The text shrinks from 8.5 to 6.5 points until one page holds it. What one page does not hold goes on to further pages,
    whole, each with the ticket's number: the readings first, then the findings. Letters that the font does not have leave a
    line to write on.

    Raises:
        InputError: When the id cannot be coded, or the club cannot be drawn.
        NotPrinted: When the typesetter has anything to warn of.
    """
    code = ticket_code(data.ticket_id, side_mm=CODE_MM)
    data = printable(data)
    return typeset(
        "sheet.typ",
        data,
        format="pdf",
        paper=paper,
        code=code,
        drawing=draw_club(data.drawing, width_mm=PAPER_WIDTH_MM[paper] - SIDE_MARGINS_MM),
    )

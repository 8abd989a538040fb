"""The build sheet: one page for one club, with the club drawn to scale, its targets, its steps and its record."""

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
    """Return the build sheet as a PDF of one page; the same data gives the same bytes.

    The text shrinks from 8.5 to 5 points until the page holds it; of the lists only the readings are cut short, and the
    sheet then says how many more the record holds. Letters that the font does not have leave a line to write on.

    Raises:
        InputError: When the id cannot be coded, or the club cannot be drawn.
        NotPrinted: When even the smallest text does not fit one page.
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

"""What is printed and drawn from Python: the build sheet, the tag, and the club to scale, which a notebook shows."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import Literal

import msgspec

from clubwright.api.given import Ticket, ticket_given
from clubwright.errors import Finding, InputError
from clubwright.importers.shop_file import load_shop
from clubwright.journal.job import Job
from clubwright.labels.cards.cards import pencil_cards
from clubwright.labels.cards.from_work import cards_data
from clubwright.labels.printable import unprintable
from clubwright.labels.sheet.drawing import draw_club
from clubwright.labels.sheet.drawing_from_work import drawing_of
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.sheet.sheet import Paper, build_sheet
from clubwright.labels.tag.from_work import tag_data
from clubwright.labels.tag.tag import USUAL_DPI, tag_label
from clubwright.notation import UnitsShown, shown_in
from clubwright.services.answer.answer import findings_part
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import JobAnswer, with_plan
from clubwright.services.told.answer import FindingAnswer

Format = Literal["pdf", "png"]


class Printed(msgspec.Struct, frozen=True, kw_only=True):
    """A sheet or a tag, ready for a printer; a notebook shows it where it is a PNG.

    Attributes:
        content: The file's bytes.
        format: ``pdf`` or ``png``.
        findings: Letters that the print font does not have: a line to write on by hand stands in their place.
    """

    content: bytes
    format: Format
    findings: tuple[FindingAnswer, ...] = ()

    def save(self, path: Path | str) -> Path:
        """Write the file, in the place of one that is there, and return its path.

        Raises:
            InputError: when its name is that of another kind of file.
        """
        return _saved(Path(path), self.content, self.format)

    def __bytes__(self) -> bytes:
        return self.content

    def __repr__(self) -> str:
        return f"Printed(format={self.format!r}, {len(self.content)} bytes)"

    def _repr_png_(self) -> bytes | None:
        return self.content if self.format == "png" else None


class Picture(msgspec.Struct, frozen=True):
    """A drawing, which a notebook shows; ``str(picture)`` is its SVG text.

    Attributes:
        svg: The drawing as one SVG element, with its size in mm.
    """

    svg: str

    def save(self, path: Path | str) -> Path:
        """Write the SVG file, in the place of one that is there, and return its path.

        Raises:
            InputError: when its name is that of another kind of file.
        """
        return _saved(Path(path), self.svg.encode(), "svg")

    def __str__(self) -> str:
        return self.svg

    def __repr__(self) -> str:
        return f"Picture({len(self.svg)} characters of SVG)"

    def _repr_svg_(self) -> str:
        return self.svg


def sheet(
    ticket: Ticket, *, paper: Paper = "a4", day: str | None = None, shop_file: Path | str | None = None
) -> Printed:
    """Print the build sheet of a ticket: one page with the club to scale, every step, and the ticket's code.

    Args:
        ticket: A ticket document (tables of strings), the path of a ticket file, or its TOML text.
        paper: ``a4`` or ``us-letter``.
        day: Day of printing, as it is to be printed; today where it is not said.
        shop_file: The shop's settings, which say once what the ticket then need not say, and which units come first.

    Raises:
        InputError: with every finding, when the ticket or the settings cannot be taken.
    """
    worked, units = _worked(ticket, shop_file)
    return sheet_of(worked, None, day or _today(), units, paper=paper)


def cards(
    ticket: Ticket,
    *,
    step: str = "",
    paper: Paper = "a4",
    day: str | None = None,
    shop_file: Path | str | None = None,
) -> Printed:
    """Print pencil cards of a ticket: each step with its figures, its cautions and places to write.

    Args:
        ticket: A ticket document (tables of strings), the path of a ticket file, or its TOML text.
        step: The one step that is wanted; all of them where it is not said.
        paper: ``a4`` or ``us-letter``.
        day: Day of printing, as it is to be printed; today where it is not said.
        shop_file: The shop's settings.

    Raises:
        InputError: with every finding, when the ticket or the settings cannot be taken, or the plan has no such step.
    """
    worked, units = _worked(ticket, shop_file)
    return cards_of(worked, day or _today(), units, step=step, paper=paper)


def tag(
    ticket: Ticket,
    *,
    format: Format | None = None,  # noqa: A002 - the word of the command line
    dpi: int | None = None,
    day: str | None = None,
    shop_file: Path | str | None = None,
) -> Printed:
    """Print the tag of a ticket, 62 x 29 mm: its figures as read or as believed, and the ticket's code.

    Args:
        ticket: A ticket document (tables of strings), the path of a ticket file, or its TOML text.
        format: ``pdf`` or ``png``; ``png`` where dots are asked for, else ``pdf``.
        dpi: Dots an inch of the label printer, 150 to 1200; 300 for a PNG where it is not said.
        day: Day of printing, as it is to be printed; today where it is not said.
        shop_file: The shop's settings.

    Raises:
        InputError: with every finding, when the ticket or the settings cannot be taken, or for dots of a PDF.
    """
    worked, units = _worked(ticket, shop_file)
    return tag_of(worked, None, day or _today(), units, format=format, dpi=dpi)


def picture(ticket: Ticket, *, shop_file: Path | str | None = None) -> Picture:
    """Draw the club of a ticket to scale, its parts at the belief's mean; those still to come are outlined.

    Args:
        ticket: A ticket document (tables of strings), the path of a ticket file, or its TOML text.
        shop_file: The shop's settings.

    Raises:
        InputError: with every finding, when the ticket or the settings cannot be taken.
    """
    worked, units = _worked(ticket, shop_file)
    return picture_of(worked, None, units)


def sheet_of(
    worked: JobAnswer, job: Job | None, day: str, units: UnitsShown, *, paper: Paper = "a4", seal: str = ""
) -> Printed:
    """Print the build sheet of a worked ticket, or of a job of the record, which the hash of its last fact dates."""
    require_paper(paper)
    with shown_in(units):
        data = sheet_data(worked, job, day, seal)
        content = build_sheet(data, paper=paper)
    return Printed(content=content, format="pdf", findings=findings_part(unprintable(data)))


def cards_of(
    worked: JobAnswer, day: str, units: UnitsShown, *, step: str = "", paper: Paper = "a4", seal: str = ""
) -> Printed:
    """Print the pencil cards of a worked ticket, or of a job of the record."""
    require_paper(paper)
    with shown_in(units):
        data = cards_data(worked, day, seal, step=step)
        content = pencil_cards(data, paper=paper)
    return Printed(content=content, format="pdf", findings=findings_part(unprintable(data)))


def tag_of(
    worked: JobAnswer,
    job: Job | None,
    day: str,
    units: UnitsShown,
    *,
    format: Format | None = None,  # noqa: A002 - the word of the command line
    dpi: int | None = None,
) -> Printed:
    """Print the tag of a worked ticket, or of a job of the record."""
    kind: Format = format or ("pdf" if dpi is None else "png")
    if kind not in ("pdf", "png"):
        raise InputError([Finding(where="format", what=f'no tag is printed as "{kind}"', mend="Take pdf or png.")])
    if kind == "pdf" and dpi is not None:
        raise InputError([Finding(where="dpi", what="a PDF has no dots", mend='Leave it out, or say format="png".')])
    with shown_in(units):
        data = tag_data(worked, job, day)
        content = tag_label(data, format=kind, dpi=USUAL_DPI if dpi is None else dpi)
    return Printed(content=content, format=kind, findings=findings_part(unprintable(data)))


def picture_of(worked: JobAnswer, job: Job | None, units: UnitsShown) -> Picture:
    """Draw the club of a worked ticket, or of a job of the record."""
    with shown_in(units):
        return Picture(draw_club(drawing_of(worked, job)))


def require_paper(paper: str) -> None:
    """Refuse a size of page that there is none of.

    Raises:
        InputError: for such a size.
    """
    if paper not in ("a4", "us-letter"):
        raise InputError([Finding(where="paper", what=f'no page is called "{paper}"', mend="Take a4 or us-letter.")])


def _worked(ticket: Ticket, shop_file: Path | str | None) -> tuple[JobAnswer, UnitsShown]:
    settings = load_shop(None if shop_file is None else Path(shop_file))
    document, source = ticket_given(ticket)
    with shown_in(settings.units()):
        return with_plan(work_document(document, source, settings=settings)), settings.units()


def _saved(path: Path, content: bytes, kind: Literal["pdf", "png", "svg"]) -> Path:
    if path.suffix.lower() in {".pdf", ".png", ".svg"} - {f".{kind}"}:
        raise InputError(
            [Finding(where="path", what=f"{path} is not the name of a {kind} file", mend=f"Name it .{kind}.")]
        )
    path.write_bytes(content)
    return path


def _today() -> str:
    return datetime.now(UTC).date().isoformat()

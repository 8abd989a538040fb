"""Commands that print: the build sheet and the tag, of a job of the record or of a ticket file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from clubwright.cli.acting import session_at
from clubwright.cli.options import SHOP, By, Json, Shop, ShopFile, own_here, units_of

if TYPE_CHECKING:
    from clubwright.errors import Finding
    from clubwright.journal.reducers.fold import Job
    from clubwright.notation import UnitsShown
    from clubwright.services.jobs.job_answer import JobAnswer

JobOrFile = Annotated[str, Parameter(help="Ticket number, or a ticket file.")]
Out = Annotated[Path | None, Parameter(name=["--out", "-o"], help="File to write.")]
TagFormat = Literal["pdf", "png"]


def sheet(
    job: JobOrFile,
    /,
    *,
    out: Out = None,
    paper: Annotated[Literal["a4", "us-letter"], Parameter(help="Size of the page.")] = "a4",
    shop_file: ShopFile = None,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Print the build sheet (PDF): the club to scale, every step, targets and as-built, the ticket's code."""
    from clubwright.labels.printable import unprintable
    from clubwright.labels.sheet.from_work import sheet_data
    from clubwright.labels.sheet.sheet import build_sheet
    from clubwright.notation import shown_in

    with shown_in(units_here(job, shop, by, shop_file)):
        worked, state, day, seal = worked_of(job, shop, by, shop_file)
        data = sheet_data(worked, state, day, seal)
        path = out or Path(f"{worked.club_state.ticket.id}-sheet.pdf")
        path.write_bytes(build_sheet(data, paper=paper))
    say_written(path, unprintable(data), as_json=json)


def tag(
    job: JobOrFile,
    /,
    *,
    out: Out = None,
    format: Annotated[  # noqa: A002 - the word a person types
        TagFormat | None, Parameter(help="Kind of file; by the file's name when left out, else pdf.")
    ] = None,
    dpi: Annotated[
        int | None,
        Parameter(help="Dots an inch of the label printer, such as 180, 203 or 300: writes a picture (png)."),
    ] = None,
    shop_file: ShopFile = None,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Print the tag label, 62 x 29 mm: figures as read or as believed, logo and wraps, the ticket's code."""
    from clubwright.labels.printable import unprintable
    from clubwright.labels.tag.from_work import tag_data
    from clubwright.labels.tag.tag import USUAL_DPI, tag_label
    from clubwright.notation import shown_in

    kind = _kind(out, format, dpi)
    with shown_in(units_here(job, shop, by, shop_file)):
        worked, state, day, _ = worked_of(job, shop, by, shop_file)
        data = tag_data(worked, state, day)
    path = out or Path(f"{worked.club_state.ticket.id}-tag.{kind}")
    path.write_bytes(tag_label(data, format=kind, dpi=USUAL_DPI if dpi is None else dpi))
    say_written(path, unprintable(data), as_json=json)


def _kind(out: Path | None, said: TagFormat | None, dpi: int | None) -> TagFormat:
    """Return the kind of file: as said, else by the name of the file, else a picture where dots are asked for."""
    from clubwright.errors import Finding, InputError

    suffix = "" if out is None else out.suffix.lower()
    named: TagFormat | None = "png" if suffix == ".png" else "pdf" if suffix == ".pdf" else None
    kind = said or named or ("png" if dpi is not None else "pdf")
    findings = []
    if named is not None and named != kind:
        what, mend = f"{out} is not the name of a {kind} file", f"Name it .{kind}, or leave --format out."
        findings.append(Finding(where="--out", what=what, mend=mend))
    if dpi is not None and kind == "pdf":
        what, mend = "a PDF has no dots", "Leave --dpi out, or take --format png (and a file name that ends in .png)."
        findings.append(Finding(where="--dpi", what=what, mend=mend))
    if findings:
        raise InputError(findings)
    return kind


def say_written(path: Path, findings: tuple[Finding, ...], *, as_json: bool) -> None:
    """Say which file was written, and what is left in it to be written by hand."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.words import finding_lines
    from clubwright.services.answer.answer import findings_part

    if as_json:
        print_json({"file": str(path), "findings": findings_part(findings)})
    else:
        print_lines([f"Wrote {path}.", *finding_lines(findings)])


def units_here(job: str, shop: str, by: str | None, shop_file: Path | None) -> UnitsShown:
    """Return the units that come first: by the file that is named, of a job by the one of its workshop."""
    from clubwright.bootstrap import own_settings, person_here, shop_settings
    from clubwright.importers.shop_file import load_shop

    if Path(job).suffix == ".toml":
        return units_of(load_shop(shop_file))
    own = own_here().over(own_settings(shop, person_here(by)))
    return own.units(shop_settings(shop, shop_file).units())


def worked_of(job: str, shop: str, by: str | None, shop_file: Path | None) -> tuple[JobAnswer, Job | None, str, str]:
    """Return a job of the record, or a ticket file, worked; the record's state of it, the day, the last fact's hash."""
    from datetime import UTC, datetime

    from clubwright.importers.shop_file import load_shop
    from clubwright.importers.ticket_file import load_ticket
    from clubwright.services.answer.club_answer import work_document
    from clubwright.services.jobs.job_answer import answer_job, with_plan

    path = Path(job)
    if path.suffix == ".toml":
        worked = with_plan(work_document(load_ticket(path), path.name, settings=load_shop(shop_file)))
        return worked, None, datetime.now(UTC).date().isoformat(), ""
    with session_at(shop, by) as session:
        state = session.job(job)
        return answer_job(state, session.now()), state, session.now().date().isoformat(), session.ledger.last_hash()

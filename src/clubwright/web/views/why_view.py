"""What stands behind a number, laid out: its figures, its budget, its readings, its equations."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import PurePath
from urllib.parse import quote

import msgspec

from clubwright.notation import render_moment
from clubwright.services.record.session import Local, in_utc, moment_of
from clubwright.services.why.budgets import WhyReading
from clubwright.services.why.key import first_of
from clubwright.services.why.library import sources
from clubwright.services.why.told import Why, main_rows, share_text

GROUPS = {
    "finished": "The finished club",
    "cut": "The cut",
    "advice": "The advice",
    "verdicts": "What the readings prove",
    "gates": "The gates",
    "shaft": "The shaft",
    "stages": "At every stage",
    "steps": "The cards",
    "bends": "The bends",
    "minutes": "The minutes",
    "drawing": "The drawing",
    "expected": "What gauges should show",
    "belief": "The parts and the gauges",
}


class BudgetLine(msgspec.Struct, frozen=True, kw_only=True):
    """One row of the budget; `address` leads to the unknown's own page, empty for what a gauge adds."""

    what: str
    address: str
    believed: str
    slope: str
    sd: str
    contribution: str
    share: str
    width: float


class ReadingLine(msgspec.Struct, frozen=True, kw_only=True):
    """One reading with whose it is, and what it did."""

    what: str
    typed: str
    stage: str
    gauge: str
    whose: str
    state: str
    counts: bool
    without: str
    sharpened: str


class FigureLine(msgspec.Struct, frozen=True, kw_only=True):
    """One figure: where it leads, and the name of the equation that gives it; each empty where there is none."""

    name: str
    text: str
    address: str
    equation: str


class FormulaLine(msgspec.Struct, frozen=True, kw_only=True):
    """One equation, with where it leads; `checks` are names and addresses, these empty where a file is not here."""

    name: str
    equation: str
    page: str
    theory: str
    function: str
    source: str
    checks: tuple[tuple[str, str], ...]


class WhyView(msgspec.Struct, frozen=True, kw_only=True):
    """The page of one number."""

    key: str
    name: str
    text: str
    note: str
    figures: tuple[FigureLine, ...]
    rows: tuple[BudgetLine, ...]
    left: str
    readings: tuple[ReadingLine, ...]
    moved: bool
    inputs: tuple[tuple[str, str], ...]
    formulas: tuple[FormulaLine, ...]


def why_view(why: Why, local: Local = in_utc) -> WhyView:
    """Lay out what stands behind a number; addresses are relative to the page of the job's numbers."""
    rows, count, share = main_rows(why)
    known = sources()
    return WhyView(
        key=why.key,
        name=why.name,
        text=why.text,
        note=why.note,
        figures=tuple(
            FigureLine(name=item.name, text=item.text, address=quote(item.key), equation=item.formula)
            for item in why.figures
        ),
        rows=tuple(
            BudgetLine(
                what=row.what,
                address=quote(f"belief/{row.unknown}") if row.believed else "",
                believed=row.believed,
                slope=row.slope_text,
                sd=row.sd_text,
                contribution=row.contribution_text,
                share=share_text(row.share),
                width=min(abs(row.share), 1.0),
            )
            for row in rows
        ),
        left=f"{count} more with less than 0.1 % each: {share_text(share)}" if count else "",
        readings=tuple(_reading(row, local) for row in why.readings),
        moved=any(row.text_without for row in why.readings),
        inputs=tuple((item.name, item.text) for item in why.inputs),
        formulas=tuple(
            FormulaLine(
                name=item.name,
                equation=item.equation,
                page=item.page,
                theory=f"/theory/{PurePath(item.page).stem}" + (f"#{item.section}" if item.section else ""),
                function=item.function,
                source=f"/source/{item.source}#L{item.line}",
                checks=tuple((check, f"/source/{check}" if check in known else "") for check in item.checks),
            )
            for item in why.formulas
        ),
    )


def _reading(row: WhyReading, local: Local) -> ReadingLine:
    at = render_moment(local(moment_of(row.at))) if row.at else ""
    said = f"job {row.of_job}" if row.of_job else "the ticket"
    return ReadingLine(
        what=row.quantity,
        typed=row.typed,
        stage=row.stage,
        gauge=row.gauge,
        whose=", ".join(filter(None, (row.by, at))) or said,
        state=row.state,
        counts=row.counts,
        without=row.text_without,
        sharpened=f"{100 * row.sharpened:.0f} %" if row.text_without else "",
    )


def keys_view(keys: Iterable[str]) -> tuple[tuple[str, tuple[tuple[str, str], ...]], ...]:
    """Return the keys in groups, each with its address."""
    found: dict[str, list[tuple[str, str]]] = {}
    for key in keys:
        kind, rest = first_of(key)
        found.setdefault(GROUPS[kind], []).append((rest or key, quote(key)))
    return tuple((group, tuple(items)) for group, items in found.items())

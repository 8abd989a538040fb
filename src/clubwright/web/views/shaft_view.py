"""The page of one shaft: its stiffness with the cuts, the set it belongs to, and what another trim would do."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import NotPossible
from clubwright.journal.fold import Job
from clubwright.labels.set_svg import draw_set
from clubwright.labels.shaft_svg import draw_stiffness
from clubwright.notation import render
from clubwright.planning.cautions import cautions
from clubwright.planning.situation import Situation
from clubwright.planning.trim_planner import TrimOption, TrimPlan, trim_plan_of
from clubwright.services.chances import percent
from clubwright.services.job_work import WorkedJob
from clubwright.services.set_frequencies import ClubPoint, SetFrequencies, set_frequencies
from clubwright.services.shaft_curves import ShaftCurve, shaft_curve
from clubwright.services.trim_moves import Move, change_text, moves
from clubwright.services.vibration import slope_text
from clubwright.services.waiting import said
from clubwright.web.views.bench_view import NARROW_MM, WIDE_MM

SET_MM = 120.0
NO_STIFFNESS = NotPossible(
    "The ticket does not say how stiff this shaft is along its length, so no frequency can be predicted",
    "Write [shaft] stiffness on the ticket: the geometry of its tube, a table of EI, or a law.",
)
SHOWN = ("frequency", "swing_weight", "total_weight", "length")


class TrimRow(msgspec.Struct, frozen=True, kw_only=True):
    """One trim of the table; `considered` is the one that is looked at, `own` the ticket's."""

    place: int
    trim: str
    values: tuple[str, ...]
    weights: str
    chance: str
    considered: bool
    own: bool
    best: bool


class SetRow(msgspec.Struct, frozen=True, kw_only=True):
    """One club of the set."""

    job: str
    name: str
    length: str
    frequency: str
    known: str
    off: str
    this: bool


class ShaftView(msgspec.Struct, frozen=True, kw_only=True):
    """All that the page of the shaft shows; texts and pictures ready.

    Attributes:
        missing: Why there is no curve, and the mend; None when there is one.
        no_trims: Why there is no table of trims, and the mend.
        moved: Before and after of the trim that is looked at; empty for the ticket's own.
        chance_of: The targets that the chance is of.
        set_said: What the set says of this club, in one sentence.
    """

    job: str
    title: str
    player: str
    hand: str
    shaft: str
    invented: bool
    missing: NotPossible | None
    drawing: str
    drawing_narrow: str
    figures: tuple[tuple[str, str], ...]
    columns: tuple[str, ...]
    trims: tuple[TrimRow, ...]
    no_trims: NotPossible | None
    looked_at: str
    moved: tuple[Move, ...]
    chance_of: str
    limit: str
    irreversible: str
    cautions: tuple[str, ...]
    set_drawing: str
    set_rows: tuple[SetRow, ...]
    set_said: str


def shaft_view(worked: WorkedJob, job: Job, jobs: Iterable[Job], *, trim: int | None = None) -> ShaftView:
    """Make the page of a shaft.

    Args:
        worked: The job, worked.
        job: The job as the record has it.
        jobs: All jobs of the record.
        trim: Place of the trim that is looked at among the planner's; None or beyond them for its best.
    """
    situation = worked.situation
    row = situation.ticket.row("ticket").words
    plan, no_trims = _planned(situation)
    option = None if plan is None else _looked_at(plan, trim)
    curve, missing = _curve(situation, option)
    found = set_frequencies(situation, job, jobs)
    drawn = found.club is not None or found.others
    return ShaftView(
        job=job.id,
        title=said(job, "label") or situation.ticket.kind,
        player=row.get("player", ""),
        hand=situation.ticket.hand,
        shaft=situation.ticket.row("shaft").words.get("name", ""),
        invented="invented" in row.get("note", "").lower(),
        missing=missing,
        drawing="" if curve is None else draw_stiffness(curve, width_mm=WIDE_MM),
        drawing_narrow="" if curve is None else draw_stiffness(curve, width_mm=NARROW_MM),
        figures=() if curve is None else _figures(curve),
        columns=tuple(QUANTITIES[key].name for key in SHOWN),
        trims=() if plan is None else _trim_rows(plan, option),
        no_trims=no_trims,
        looked_at="" if option is None else render("length", option.tip_trim_m),
        moved=() if plan is None or option is None or option is plan.as_ticket else moves(plan.as_ticket, option),
        chance_of="" if plan is None else " and ".join(QUANTITIES[key].name for key in plan.keys),
        limit="" if plan is None else render("length", plan.limit_m),
        irreversible="" if plan is None else plan.irreversible,
        cautions=() if plan is None else cautions("cut", shaft_material=situation.ticket.material),
        set_drawing=draw_set(found, width_mm=SET_MM) if drawn else "",
        set_rows=_set_rows(found),
        set_said=_set_said(found),
    )


def _planned(situation: Situation) -> tuple[TrimPlan | None, NotPossible | None]:
    try:
        return trim_plan_of(situation), None
    except NotPossible as refused:
        return None, refused


def _looked_at(plan: TrimPlan, trim: int | None) -> TrimOption:
    return plan.chosen if trim is None or trim >= len(plan.options) else plan.options[trim]


def _curve(situation: Situation, option: TrimOption | None) -> tuple[ShaftCurve | None, NotPossible | None]:
    if situation.ticket.stiffness is None:
        return None, NO_STIFFNESS
    try:
        return shaft_curve(situation, option), None
    except NotPossible as refused:
        return None, refused


def _figures(curve: ShaftCurve) -> tuple[tuple[str, str], ...]:
    cut = "was cut" if curve.done else "to be cut"
    return (
        (f"tip {cut}, from the raw tip", render("length", curve.tip_cut_m)),
        (f"butt {cut}, from the raw tip", render("length", curve.butt_cut_m)),
        ("EI where the bore ends", render("stiffness", curve.ei_n_m2(curve.insertion_end_m))),
        ("EI where the clamp begins", render("stiffness", curve.ei_n_m2(curve.clamp_m))),
        ("stiffness factor, believed", curve.factor_text),
    )


def _trim_rows(plan: TrimPlan, looked_at: TrimOption | None) -> tuple[TrimRow, ...]:
    return tuple(
        TrimRow(
            place=place,
            trim=render("length", option.tip_trim_m),
            values=tuple(render(QUANTITIES[key].kind, *option.finished[key]) for key in SHOWN),
            weights=" + ".join(option.weights) or "none",
            chance=percent(option.chance) if plan.keys else "",
            considered=option is looked_at,
            own=place == plan.own,
            best=place == plan.best,
        )
        for place, option in enumerate(plan.options)
    )


def _set_rows(found: SetFrequencies) -> tuple[SetRow, ...]:
    points = sorted(
        [*found.others, *([found.club] if found.club else [])], key=lambda point: (point.length_m, point.job)
    )
    return tuple(_set_row(point, found) for point in points)


def _set_row(point: ClubPoint, found: SetFrequencies) -> SetRow:
    off = found.off_line_hz(point)
    return SetRow(
        job=point.job,
        name=point.name,
        length=render("length", point.length_m),
        frequency=render("frequency", point.frequency_hz, point.sd_hz),
        known=point.known,
        off="" if off is None else change_text("frequency", off),
        this=point is found.club,
    )


def _set_said(found: SetFrequencies) -> str:
    """Say what the set says of this club."""
    club, line = found.club, found.line
    if club is None:
        start = "" if line is None else f"The other clubs: {slope_text(line)}. "
        return f"{start}Of this club no frequency is known."
    if line is None:
        return "No line yet: no other club of this player, of another length, has a known frequency."
    off = found.off_line_hz(club)
    if off is None:
        return f"{slope_text(line)}, with this club counted: one more club, and it can be told whether this one lies on it."
    there = render("frequency", line.at_hz(club.length_m))
    known = "" if club.sd_hz is None else f", known to ± {render('frequency', club.sd_hz)}"
    apart = change_text("frequency", off)
    side = "above" if apart.startswith("+") else "below"
    lies = "lies on it" if apart == "none" else f"lies {apart.lstrip('+-')} {side} it"
    return f"The other clubs: {slope_text(line)}. At this length their line is at {there}; this club {lies}{known}."

"""The page of one shaft: its stiffness with the cuts, the set it belongs to, and what another trim would do."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from clubwright.club.planes import ORIENTATION_NOTE
from clubwright.club.quantities import CHANGES, QUANTITIES
from clubwright.errors import NotPossible
from clubwright.journal.reducers.fold import Job
from clubwright.labels.pictures.set_line import draw_set
from clubwright.labels.pictures.shaft import draw_stiffness
from clubwright.notation import render, units_shown
from clubwright.planning.advice.trim_planner import TrimOption, TrimPlan, trim_plan_of
from clubwright.planning.cautions import cautions
from clubwright.planning.club_state import ClubState
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.record.job_lines import said
from clubwright.services.shaft.curves import ShaftCurve, shaft_curve
from clubwright.services.shaft.family import ShaftFamily
from clubwright.services.shaft.set_frequencies import set_frequencies
from clubwright.services.shaft.trim_moves import Move, moves
from clubwright.services.shaft.two_planes import planes_lines, two_planes
from clubwright.web.views.bench_view import NARROW_MM, WIDE_MM
from clubwright.web.views.family_view import FamilyView, family_view
from clubwright.web.views.set_view import SetRow, set_rows, set_said
from clubwright.words.say import percent, say

SET_MM = 120.0
NO_STIFFNESS = NotPossible(
    "The ticket does not say how stiff this shaft is along its length, so no frequency can be predicted",
    "Write [shaft] stiffness on the ticket: the geometry of its tube, a table of EI, or a law.",
)
SHOWN = tuple(CHANGES)[:4]


class TrimRow(msgspec.Struct, frozen=True, kw_only=True):
    """One trim of the table; `key` names it in an address, `considered` is the one that is looked at, `own` the ticket's."""

    key: str
    trim: str
    values: tuple[str, ...]
    weights: str
    chance: str
    considered: bool
    own: bool
    best: bool


class ShaftView(msgspec.Struct, frozen=True, kw_only=True):
    """All that the page of the shaft shows; texts and pictures ready.

    Attributes:
        missing: Why there is no curve, and the mend; None when there is one.
        planes, no_planes: Both planes of the club in lines, or why they cannot be told.
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
    closed: bool
    missing: NotPossible | None
    drawing: str
    drawing_narrow: str
    figures: tuple[tuple[str, str], ...]
    planes: tuple[tuple[str, str], ...]
    no_planes: NotPossible | None
    planes_note: str
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
    family: FamilyView | None


def shaft_view(
    worked: JobAnswer,
    job: Job,
    others: Iterable[Job],
    family: ShaftFamily | None = None,
    *,
    trim: str = "",
) -> ShaftView:
    """Make the page of a shaft.

    Args:
        worked: The job, worked.
        job: The job as the record has it.
        others: The player's other jobs.
        family: What the record says of shafts like this one.
        trim: The trim that is looked at, in whole micrometres; one that is not planned shows the best.
    """
    club_state = worked.club_state
    plan, no_trims = _planned(club_state)
    option = None if plan is None else _looked_at(plan, trim)
    curve, missing = _curve(club_state, option)
    planes, no_planes = _planes(club_state)
    found = set_frequencies(club_state, job, others)
    drawn = found.club is not None or found.others
    return ShaftView(
        job=job.id,
        title=said(job, "label") or club_state.ticket.kind,
        player=club_state.ticket.order.player.name or "",
        hand=club_state.ticket.hand,
        shaft=(club_state.ticket.club.shaft.name or ""),
        invented=club_state.ticket.invented,
        closed=job.finished is not None,
        missing=missing,
        drawing="" if curve is None else draw_stiffness(curve, width_mm=WIDE_MM),
        drawing_narrow="" if curve is None else draw_stiffness(curve, width_mm=NARROW_MM),
        figures=() if curve is None else _figures(curve),
        planes=planes,
        no_planes=no_planes,
        planes_note=ORIENTATION_NOTE,
        columns=tuple(QUANTITIES[key].name for key in SHOWN),
        trims=() if plan is None else _trim_rows(plan, option),
        no_trims=no_trims,
        looked_at="" if option is None else render("length", option.tip_trim_m),
        moved=_moved(plan, option),
        chance_of=""
        if plan is None or "frequency" not in plan.keys
        else " and ".join(QUANTITIES[key].name for key in plan.keys),
        limit="" if plan is None else render("length", plan.limit_m),
        irreversible="" if plan is None else plan.irreversible,
        cautions=()
        if plan is None
        else tuple(say(text, units_shown()) for text in cautions("cut", shaft_material=club_state.ticket.material)),
        set_drawing=draw_set(found, width_mm=SET_MM) if drawn else "",
        set_rows=set_rows(found),
        set_said=set_said(found),
        family=None if family is None else family_view(family),
    )


def _planned(club_state: ClubState) -> tuple[TrimPlan | None, NotPossible | None]:
    try:
        return trim_plan_of(club_state), None
    except NotPossible as refused:
        return None, refused


def _looked_at(plan: TrimPlan, trim: str) -> TrimOption:
    return next((option for option in plan.options if _key(option) == trim), plan.chosen)


def _key(option: TrimOption) -> str:
    """Return what a trim is called in an address: whole micrometres, however figures are shown."""
    return f"{option.tip_trim_m * 1e6:.0f}"


def _moved(plan: TrimPlan | None, option: TrimOption | None) -> tuple[Move, ...]:
    if plan is None or option is None or option is plan.as_ticket:
        return ()
    return moves(plan.as_ticket.finished, option.finished)


def _curve(club_state: ClubState, option: TrimOption | None) -> tuple[ShaftCurve | None, NotPossible | None]:
    if club_state.ticket.club.stiffness is None:
        return None, NO_STIFFNESS
    try:
        return shaft_curve(club_state, option), None
    except NotPossible as refused:
        return None, refused


def _planes(club_state: ClubState) -> tuple[tuple[tuple[str, str], ...], NotPossible | None]:
    if club_state.ticket.club.stiffness is None:
        return (), NO_STIFFNESS
    try:
        return planes_lines(two_planes(club_state)), None
    except NotPossible as refused:
        return (), refused


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
            key=_key(option),
            trim=render("length", option.tip_trim_m),
            values=tuple(render(QUANTITIES[key].kind, *option.finished[key]) for key in SHOWN),
            weights=" + ".join(option.weights) or "none",
            chance=percent(option.chance) if "frequency" in plan.keys else "",
            considered=option is looked_at,
            own=place == plan.own,
            best=place == plan.best,
        )
        for place, option in enumerate(plan.options)
    )

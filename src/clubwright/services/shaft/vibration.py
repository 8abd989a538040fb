"""Frequency questions about ticket files: the trims that a sheet allows, and the slope of a set; as plain data."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from clubwright.errors import Finding, InputError, NotPossible
from clubwright.notation import render
from clubwright.planning.advice.trim_planner import TrimPlan, trim_plan_of
from clubwright.planning.club_state import ClubState
from clubwright.planning.set_slope import SetClub, SetSlope, set_slope
from clubwright.services.answer.answer import figure, rounded, rounded_if
from clubwright.services.answer.club_answer import ask, work_document
from clubwright.services.told.shaft import SetClubAnswer, SlopeAnswer, TrimAnswer, TrimsAnswer
from clubwright.units import CPM_HZ, INCH_M


def trims_of(document: Mapping[str, Any], source: str) -> TrimPlan:
    """Plan the tip trims of a ticket document.

    Raises:
        InputError: when the ticket cannot be taken, or no trim can be planned for it.
    """
    return ask(document, source, trim_plan_of, "shaft")


def trims_part(plan: TrimPlan) -> TrimsAnswer:
    """Return a plan of trims for programs: SI, with the trade's text beside it."""
    return TrimsAnswer(
        best=plan.best,
        irreversible=plan.irreversible,
        limit_m=rounded(plan.limit_m),
        options=tuple(
            TrimAnswer(
                butt_cut_m=rounded(option.butt_cut_m),
                chance=rounded(option.chance) if "frequency" in plan.keys else None,
                chance_of_frequency=rounded_if(option.of_frequency),
                finished={key: figure(key, mean, sd) for key, (mean, sd) in option.finished.items()},
                tip_trim_m=rounded(option.tip_trim_m),
                weights=tuple(option.weights),
            )
            for option in plan.options
        ),
        own=plan.own,
        targets=tuple(plan.keys),
    )


def set_of(tickets: Sequence[tuple[str, Mapping[str, Any]]]) -> tuple[tuple[SetClub, ...], SetSlope]:
    """Return the clubs of a set of ticket documents, by name of their file, with the line through them.

    Raises:
        InputError: with every finding of every ticket, or when they make no slope.
    """
    clubs: list[SetClub] = []
    findings: list[Finding] = []
    for source, document in tickets:
        try:
            club_state = work_document(document, source).club_state
        except InputError as refused:
            findings += refused.findings
            continue
        if not club_state.can_predict("frequency"):
            what = f"no frequency is known of {club_state.ticket.id}: it {club_state.prior.unknowable['frequency']}"
            mend = "Write the stiffness of its shaft, or leave this club out."
            findings.append(Finding(where=source, what=what, mend=mend))
            continue
        clubs.append(_club(club_state))
    if any(finding.severity == "error" for finding in findings):
        raise InputError(findings)
    try:
        return tuple(clubs), set_slope(clubs)
    except NotPossible as refused:
        raise InputError([Finding(where="set", what=refused.what, mend=refused.instead)]) from refused


def _club(club_state: ClubState) -> SetClub:
    prediction = club_state.predict(["length", "frequency"])
    ticket = club_state.ticket
    return SetClub(
        name=ticket.order.label or ticket.id,
        length_m=float(prediction.mean[0, 0]),
        frequency_hz=float(prediction.mean[0, 1]),
        frequency_sd_hz=float(prediction.sd()[0, 1]),
    )


def slope_text(slope: SetSlope) -> str:
    """Say a slope as the trade does, by the inch shorter: ``8.51 cpm for each inch shorter``."""
    by_inch = -slope.slope_hz_m * INCH_M / CPM_HZ
    give = "" if slope.slope_sd_hz_m is None else f" ± {slope.slope_sd_hz_m * INCH_M / CPM_HZ:.2f}"
    return f"{by_inch:.2f}{give} cpm for each inch shorter"


def slope_part(clubs: Sequence[SetClub], slope: SetSlope) -> SlopeAnswer:
    """Return a set and its line for programs."""
    return SlopeAnswer(
        clubs=tuple(
            SetClubAnswer(
                frequency=figure("frequency", club.frequency_hz, club.frequency_sd_hz),
                length_m=rounded(club.length_m),
                length_text=render("length", club.length_m),
                name=club.name,
                off_line_hz=rounded(off),
            )
            for club, off in zip(clubs, slope.residuals_hz, strict=True)
        ),
        scatter_hz=rounded_if(slope.scatter_hz),
        slope_hz_m=rounded(slope.slope_hz_m),
        slope_sd_hz_m=rounded_if(slope.slope_sd_hz_m),
        text=slope_text(slope),
    )

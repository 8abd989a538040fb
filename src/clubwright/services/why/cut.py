"""Why the shaft is cut where it is, and the club drawn as it is: what each length is made of, and how well it is known."""

from __future__ import annotations

import numpy as np

from clubwright.belief.gaussian import Vector
from clubwright.belief.prediction import STEP
from clubwright.belief.unknowns import club_with
from clubwright.club.build import Build
from clubwright.club.cut import shaft_length_m
from clubwright.club.length import plane_minus_axis_m
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED
from clubwright.journal.job import Job
from clubwright.notation import length_in_full, render
from clubwright.planning.club_state import ClubState
from clubwright.services.answer.answer import rounded
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.why.budgets import budget_rows
from clubwright.services.why.formulas.formulas import CUT, quantity_formula, shown
from clubwright.services.why.inputs import inputs_of
from clubwright.services.why.told import Why, WhyFigure


def why_cut(worked: JobAnswer, _: Job | None, rest: str) -> Why | None:
    """Return what stands behind the cut; its budget is that of the length to mark, by the parts as they are known."""
    cut, club_state = worked.cut, worked.club_state
    if cut is None or rest:
        return None
    prior = club_state.prior.belief
    slope = cut_slope(club_state)
    rows = budget_rows(club_state, "length", prior, slope)
    sd = float(np.sqrt(max(float(slope @ prior.covariance @ slope), 0.0)))
    figures = [
        WhyFigure(name="mark, from the tip", text=length_in_full(cut.mark_from_tip_m)),
        WhyFigure(name="mark, from the ground", text=length_in_full(cut.mark_from_ground_m)),
        WhyFigure(name="off the tip first", text=length_in_full(cut.tip_trim_m)),
        WhyFigure(name="kerf", text=length_in_full(cut.kerf_m)),
        *(WhyFigure(name=f"mark with {item.weight} under the tip", text=item.text) for item in cut.lifted),
    ]
    if cut.butt_cut_m is not None:
        figures.insert(2, WhyFigure(name="offcut", text=length_in_full(cut.butt_cut_m)))
    return Why(
        key="cut",
        name="cut: the shaft's length, tip to butt",
        text=length_in_full(cut.shaft_length_m),
        mean=rounded(cut.shaft_length_m),
        sd=rounded(sd),
        formulas=(shown(CUT),),
        rows=rows,
        inputs=inputs_of(club_state.ticket, [CUT]),
        figures=tuple(figures),
        note="How far the length that meets the order may be off, by what is known of head and grip. The saw's own error "
        "comes on top: measure after the cut.",
    )


def cut_slope(club_state: ClubState) -> Vector:
    """Return the derivatives of the length to cut by the unknowns of the parts, shape (n), by complex step."""
    prior, ticket, conventions = club_state.prior.belief, club_state.ticket, club_state.prior.conventions
    theta = list(prior.mean[:, None] + 1j * STEP * np.eye(len(prior.names)))
    club = club_with(club_state.prior.club, prior.names, theta)
    head, plane = club.head, np.zeros(1)
    if conventions.length_method != "axis to ground":
        plane = np.asarray(plane_minus_axis_m(head.lie_rad, head.sole_camber_m, head.sole_contact_m))
    lift = Build(club=club, fitted=ticket.fitted_now).lift_m
    length = np.asarray(shaft_length_m(-plane, head.bore_to_ground_m, lift, club.grip.cap_m), dtype=complex)
    slope: Vector = np.broadcast_to(length.imag / STEP, (len(prior.names),))
    return slope


DRAWN = ("length", "balance_point")
"""Quantities whose figures stand in the drawing."""


def why_drawing(worked: JobAnswer, _: Job | None, rest: str) -> Why | None:
    """Return what stands behind the figures of the drawing."""
    if rest:
        return None
    club_state, figures = worked.club_state, []
    for key in DRAWN:
        if club_state.can_predict(key, FINISHED):
            prediction = club_state.predict([key], FINISHED)
            text = render(QUANTITIES[key].kind, float(prediction.mean[0, 0]), float(prediction.sd()[0, 0]))
            figures.append(WhyFigure(name=QUANTITIES[key].name, text=text, key=f"finished/{key}"))
    if worked.cut is not None:
        figures.append(WhyFigure(name="cut", text=length_in_full(worked.cut.mark_from_tip_m), key="cut"))
    return Why(
        key="drawing",
        name="the drawing of the club",
        formulas=(*(shown(quantity_formula(key)) for key in DRAWN), shown(CUT)),
        inputs=inputs_of(club_state.ticket, [CUT]),
        figures=tuple(figures),
        note="Lengths along the axis are drawn to scale; the fulcrum is that of the shop's scale, grip and tape end where "
        "the ticket says. The outline of the head is a picture of its kind.",
    )

"""From a worked ticket to its drawing: the parts at the belief's mean, on the axis."""

from __future__ import annotations

import math

from clubwright.club.stages import FINISHED, STAGES
from clubwright.journal.reducers.fold import Job
from clubwright.labels.sheet.data import ClubDrawing, CutPlace, TapeExtent, WeightPlace
from clubwright.labels.sheet.data import PartName as DrawnPart
from clubwright.notation import length_in_full
from clubwright.planning.club_state import ClubState
from clubwright.planning.cut import Cut
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.state.steps import STEPS
from clubwright.units import INCH_M
from clubwright.words import on_page, spoken


def drawing_of(worked: ClubAnswer, job: Job | None) -> ClubDrawing:
    """Return the club to be drawn: its parts at the belief's mean."""
    club_state = worked.club_state
    build, club = club_state.build(), club_state.club
    balance = float(club_state.predict(["balance_point"], FINISHED).mean[0, 0])
    hosel = float(build.hosel_top_m)
    return ClubDrawing(
        kind=club_state.ticket.kind,
        length_m=float(build.cap_face_m),
        lie_rad=float(club.head.lie_rad),
        cap_m=float(club.grip.cap_m),
        shaft_tip_from_ground_m=float(build.tip_m),
        shaft_butt_from_ground_m=float(build.butt_m),
        grip_length_m=float(club.grip.length_m),
        hosel_top_from_ground_m=hosel,
        ferrule_from_ground_m=hosel,
        ferrule_to_ground_m=hosel + float(club.ferrule.length_m),
        head_cg_from_ground_m=float(club.head.cg_from_ground_m),
        head_cg_off_axis_m=float(club.head.cg_off_axis_m),
        balance_point_m=balance,
        fulcrum_m=club_state.prior.conventions.scale.fulcrum_m,
        tapes=tuple(
            TapeExtent(
                name=(row.name or spoken("part", "tapes")),
                from_cap_m=max(float(tape.cg_from_cap_m - tape.length_m / 2), 0.0),
                to_cap_m=float(tape.cg_from_cap_m + tape.length_m / 2),
            )
            for row, tape in zip(club_state.ticket.tapes, club.tapes, strict=True)
        ),
        weights=_weight_places(club_state),
        cut=_cut_place(worked),
        on_club=_on_club(club_state, job),
    )


def _weight_places(club_state: ClubState) -> tuple[WeightPlace, ...]:
    build = club_state.build()
    places = []
    for weight, count in zip(club_state.club.weights, club_state.fitted_now[0], strict=True):
        place = build.cap_face_m - weight.place_m if weight.seat == "butt" else weight.place_m
        if count > 0:
            places.append(
                WeightPlace(
                    name=weight.name,
                    from_ground_m=float(place),
                    off_axis_m=float(weight.off_axis_m),
                    fitted=True,
                )
            )
    return tuple(places)


def _cut_place(worked: ClubAnswer) -> CutPlace | None:
    cut, club_state = worked.cut, worked.club_state
    if cut is None or cut.butt_cut_m is None or cut.butt_cut_m <= 0:
        return None
    done = club_state.ticket.club.shaft.cut_length is not None
    sure = done or any(gate.step == "cut" and gate.open for gate in worked.gates)
    return CutPlace(
        mark_from_ground_m=cut.mark_from_ground_m,
        raw_butt_from_ground_m=cut.mark_from_ground_m + cut.butt_cut_m,
        done=done,
        about=not sure,
        text=on_page("mark cut", mark=length_in_full(_cut_at_m(cut, club_state))) if sure else _about(cut, club_state),
    )


def _cut_at_m(cut: Cut, club_state: ClubState) -> float:
    """Return the length as it was measured after the cut; before, the mark."""
    measured = club_state.ticket.club.shaft.cut_length
    return cut.mark_from_tip_m if measured is None else measured.value


def _about(cut: Cut, club_state: ClubState) -> str:
    """Say where the cut will be, as coarsely as it is known: the gate is closed, and nobody saws by this."""
    doubt_m = _doubt_m(club_state)
    if doubt_m <= 0:
        return on_page("mark not settled")
    places = max(0, -math.floor(math.log10(doubt_m / INCH_M)))
    mark, doubt = cut.mark_from_tip_m / INCH_M, doubt_m / INCH_M
    return on_page("mark about", mark=f"{mark:.{places}f}", doubt=f"{doubt:.{places}f}")


def _doubt_m(club_state: ClubState) -> float:
    """Return the uncertainty of what the mark is reckoned from: the bore and the cap."""
    belief = club_state.belief
    return math.hypot(*(belief.sd_of(path) for path in _MARK_FROM if path in belief.names))


_MARK_FROM = ("head.bore_to_ground_m", "grip.cap_m")


_BY_STAGE = {"bare shaft": 1, "dry, no grip": 3, "glued, no grip": 3, "dry, taped": 4}
KEEPS_ITS_JOINT = ("regrip", "weight", "loft-lie")
_EVERYTHING: tuple[DrawnPart, ...] = ("shaft", "head", "ferrule", "tape", "grip")
_BY_STEP = {key: _EVERYTHING.index(step.brings) + 1 for key, step in STEPS.items() if step.brings is not None}


def _on_club(club_state: ClubState, job: Job | None) -> tuple[DrawnPart, ...]:
    """Parts on the club: by the steps that are done and the stage of the last reading; all once the grip is on."""
    # the old shaft of a re-shaft is not the one that is drawn
    old_shaft = club_state.ticket.job == "reshaft"
    readings = [entry for entry in club_state.present_entries if not (old_shaft and STAGES[entry.stage].old_parts)]
    by_reading = _BY_STAGE.get(readings[-1].stage, 5) if readings else 0
    if job is None:
        return _EVERYTHING[:by_reading]
    if job.finished or job.gripped:
        return _EVERYTHING
    if club_state.ticket.job in KEEPS_ITS_JOINT:  # it came in whole; only its grip may be off
        stripped = "strip grip" in job.steps_done
        return _EVERYTHING[: (4 if "tape" in job.steps_done else 3) if stripped else 5]
    if job.glued_at is not None:  # the grip of the dry reading is off again
        return _EVERYTHING[: 4 if "tape" in job.steps_done else 3]
    return _EVERYTHING[: max([by_reading, *(on for step, on in _BY_STEP.items() if step in job.steps_done)])]

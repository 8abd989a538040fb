"""What the glue gate checks on the ticket: hand, loft, grip core, length, readings, weights, and the tip in its bore.

Each function makes the checks that can be made from what is known; what is not ordered or was not measured has no
check, unless the joint must not be closed without it.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, DRY_TAPED
from clubwright.notation import render
from clubwright.planning.advice.tray import names_of
from clubwright.planning.advice.weights import Choice
from clubwright.planning.club_state import ClubState
from clubwright.planning.gates.fit_checks import fit_checks
from clubwright.planning.gates.types import Check, met, unmet
from clubwright.state.particulars import in_si

DRY_STAGES = frozenset({DRY_NO_GRIP.name, DRY_TAPED.name, DRY_GRIPPED.name})
LEAST_CHANCE = 0.5
"""A build with a smaller chance than this of reading as ordered is not glued (estimate of ours)."""

CORE_SLACK_M = 0.021 * 0.0254
"""A grip whose core misses the butt by more than one size step (.020 in) is the wrong grip (common practice, no source)."""

LOFT_REACH_RAD = 4.0 * 0.017453292519943295
"""A head further than this from its loft is another head (estimate of ours)."""


def glue_checks(club_state: ClubState, best: Choice, *, glued: bool) -> tuple[Check, ...]:
    """Return the checks of the glue gate that follow from the ticket.

    Args:
        club_state: The club.
        best: The best set of weights.
        glued: Whether the joint is closed already: it is judged by what was read dry before it was.
    """
    return (
        *_hand(club_state),
        *_loft(club_state),
        *_core(club_state),
        *_length(club_state),
        *_readings(club_state),
        *_dry_reading(club_state, glued=glued),
        *_weights(club_state, best),
        *fit_checks(club_state),
    )


def _hand(club_state: ClubState) -> tuple[Check, ...]:
    ticket = club_state.ticket
    said = ticket.club.head.hand
    ordered = ("ordered", ticket.hand)
    if said is None:
        mend = f'look at it, and write [head] hand = "{ticket.hand}" only if it is'
        return (unmet("hand", "nobody has looked at the hand of the head", mend, ordered),)
    if said != ticket.hand:
        mend = "put it back and pull the right one"
        return (unmet("hand", f"wrong hand: the ticket is {ticket.hand}, the head is {said}", mend, ("", said)),)
    return (met("hand", ("", said)),)


def _loft(club_state: ClubState) -> tuple[Check, ...]:
    goal, entry = club_state.goal("loft"), club_state.ticket.club.head.loft
    if goal is None:
        return ()
    if entry is None:
        return (unmet("loft", "the loft of the head is not measured", "write [head] loft", ("ordered", goal.typed)),)
    off = goal.target - club_state.belief.mean_of("head.loft_rad")
    figures = (("", entry.typed), ("ordered", goal.typed))
    if abs(off) > LOFT_REACH_RAD + goal.half_width:
        what = f"the head's loft is {render('angle', abs(off))} away from the target: this is another head"
        return (unmet("loft", what, "", *figures),)
    return (met("loft", *figures),)


def _core(club_state: ClubState) -> tuple[Check, ...]:
    core = in_si(club_state.ticket.club.grip.core)
    butt = in_si(club_state.ticket.club.shaft.butt_diameter)
    if core is None or butt is None:
        return ()
    figures = (("", render("diameter", core)), ("butt", render("diameter", butt)))
    if abs(core - butt) <= CORE_SLACK_M:
        return (met("grip core", *figures),)
    what = f"grip core {render('diameter', core)} does not suit a butt of {render('diameter', butt)}"
    return (unmet("grip core", what, "pull another grip", *figures),)


def _length(club_state: ClubState) -> tuple[Check, ...]:
    goal = club_state.goal("length")
    if goal is None:
        return ()
    ordered = ("ordered", goal.typed)
    if not club_state.ticket.is_cut:
        what = "the shaft is not cut to length"
        return (unmet("length", what, "cut it at its marks and record the length it has after the cut", ordered),)
    prediction = club_state.predict(["length"])
    mean, sd = float(prediction.mean[0, 0]), float(prediction.sd()[0, 0])
    believed = render("length", mean, sd)
    if goal.low <= mean <= goal.high:
        return (met("length", ("believed", believed), ordered),)
    what = f"the finished length is believed to be {believed}, ordered {goal.typed}"
    mend = "measure bore to ground, cap and cut length again; what is too short needs another shaft"
    return (unmet("length", what, mend, ("believed", believed), ordered),)


def _readings(club_state: ClubState) -> tuple[Check, ...]:
    judged = club_state.present
    open_points = [item for item in judged if not item.taken and item.reading.keep is None]
    if open_points:
        what = "does not fit and nobody has decided about it"
        mend = "read it again, then keep it or leave it out"
        return tuple(unmet("readings", f"the reading at {item.reading.where} {what}", mend) for item in open_points)
    return (met("readings", ("fitting or decided about", str(len(judged)))),) if judged else ()


def _dry_reading(club_state: ClubState, *, glued: bool) -> tuple[Check, ...]:
    if club_state.goal("swing_weight") is None:
        return ()
    dry = [
        item.reading
        for item in (club_state.learned.judged if glued else club_state.present)
        if item.taken and item.reading.quantity == "swing_weight" and item.reading.stage.name in DRY_STAGES
    ]
    if not dry:
        return (unmet("dry reading", "no dry swing-weight reading yet", "read it before gluing"),)
    last = dry[-1]
    return (met("dry reading", (last.stage.name, render(QUANTITIES["swing_weight"].kind, last.value))),)


def _weights(club_state: ClubState, best: Choice) -> tuple[Check, ...]:
    found = []
    if best.keys:
        moved = " and ".join(QUANTITIES[key].name for key in best.keys)
        figure = ("best that can be fitted", f"{best.chance:.0%} for {moved}")
        if best.chance < LEAST_CHANCE:
            what = f"the best that can be fitted has a {best.chance:.0%} chance for {moved}"
            found.append(
                unmet("chance", what, "read the dry club again, pull another head, or agree another target", figure)
            )
        else:
            found.append(met("chance", figure))
    fitted = _tip_names(club_state, club_state.fitted_now[0])
    missing = _tip_names(club_state, (best.counts - club_state.fitted_now[0]).clip(min=0)) if best.changed else []
    if missing:
        what = "fit " + " + ".join(missing) + " before gluing: it sits under the tip"
        found.append(unmet("tip weight", what))
    elif fitted:
        found.append(met("tip weight", ("", " + ".join(fitted))))
    return tuple(found)


def _tip_names(club_state: ClubState, counts: NDArray[np.float64]) -> list[str]:
    """Name the weights of a set that go under the tip."""
    ticket = club_state.ticket
    return [name for name in names_of(ticket, counts) if ticket.weights[ticket.weight_place(name)].seat == "tip"]

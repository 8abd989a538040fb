"""What the glue gate checks on the ticket: hand, loft, grip core, length, readings, weights, and the tip in its bore.

Each function makes the checks that can be made from what is known; what is not ordered or was not measured has no
check, unless the joint must not be closed without it.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import DRY_GRIPPED, DRY_NO_GRIP, DRY_TAPED
from clubwright.planning.advice.tray import names_of
from clubwright.planning.advice.weights import Choice
from clubwright.planning.club_state import ClubState
from clubwright.planning.gates.fit_checks import fit_checks
from clubwright.planning.gates.types import Check, met, unmet
from clubwright.planning.said.phrases import Listed, Word, figure, percent, phrase, quantity
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
        *loft_checks(club_state),
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
    ordered = (phrase("figure.ordered label"), ticket.hand)
    if said is None:
        mend = phrase("gate.look at hand", hand=ticket.hand)
        return (unmet("hand", phrase("gate.hand not looked"), mend, ordered),)
    if said != ticket.hand:
        mend = phrase("gate.put back")
        return (
            unmet(
                "hand",
                phrase("gate.wrong hand", ordered=Word("side", ticket.hand), found=Word("side", said)),
                mend,
                ("", Word("side", said)),
            ),
        )
    return (met("hand", ("", Word("side", said))),)


def loft_checks(club_state: ClubState) -> tuple[Check, ...]:
    """Check that the head is the one ordered, by its loft as measured: a club further off is built with another head."""
    goal, entry = club_state.goal("loft"), club_state.ticket.club.head.loft
    if goal is None:
        return ()
    if entry is None:
        return (
            unmet(
                "loft", phrase("gate.no loft"), phrase("gate.write loft"), (phrase("figure.ordered label"), goal.typed)
            ),
        )
    off = goal.target - club_state.belief.mean_of("head.loft_rad")
    figures = (("", entry.typed), (phrase("figure.ordered label"), goal.typed))
    if abs(off) > LOFT_REACH_RAD + goal.half_width:
        what = phrase("gate.another head", off=figure("angle", abs(off)))
        return (unmet("loft", what, phrase("gate.pull the ordered head"), *figures),)
    return (met("loft", *figures),)


def _core(club_state: ClubState) -> tuple[Check, ...]:
    core = in_si(club_state.ticket.club.grip.core)
    butt = in_si(club_state.ticket.club.shaft.butt_diameter)
    if core is None or butt is None:
        return ()
    figures = (("", figure("diameter", core)), (phrase("figure.butt"), figure("diameter", butt)))
    if abs(core - butt) <= CORE_SLACK_M:
        return (met("grip core", *figures),)
    what = phrase("gate.core", core=figure("diameter", core), butt=figure("diameter", butt))
    return (unmet("grip core", what, phrase("gate.another grip"), *figures),)


def _length(club_state: ClubState) -> tuple[Check, ...]:
    goal = club_state.goal("length")
    if goal is None:
        return ()
    ordered = (phrase("figure.ordered label"), goal.typed)
    if not club_state.ticket.is_cut:
        what = phrase("gate.not cut")
        return (unmet("length", what, phrase("gate.cut it"), ordered),)
    prediction = club_state.predict(["length"])
    mean, sd = float(prediction.mean[0, 0]), float(prediction.sd()[0, 0])
    believed = figure("length", mean, sd)
    if goal.low <= mean <= goal.high:
        return (met("length", (phrase("figure.believed"), believed), ordered),)
    what = phrase("gate.length believed", believed=believed, ordered=goal.typed)
    mend = phrase("gate.measure again")
    return (unmet("length", what, mend, (phrase("figure.believed"), believed), ordered),)


def _readings(club_state: ClubState) -> tuple[Check, ...]:
    judged = club_state.present
    open_points = [item for item in judged if not item.taken and item.reading.keep is None]
    if open_points:
        mend = phrase("gate.read again")
        return tuple(
            unmet("readings", phrase("gate.reading open", where=str(item.reading.where)), mend) for item in open_points
        )
    return (met("readings", (phrase("figure.fitting"), str(len(judged)))),) if judged else ()


def _dry_reading(club_state: ClubState, *, glued: bool) -> tuple[Check, ...]:
    if club_state.goal("swing_weight") is None:
        return ()
    dry = [
        item.reading
        for item in (club_state.learned.judged if glued else club_state.present)
        if item.taken and item.reading.quantity == "swing_weight" and item.reading.stage.name in DRY_STAGES
    ]
    if not dry:
        return (unmet("dry reading", phrase("gate.no dry reading"), phrase("gate.read before gluing")),)
    last = dry[-1]
    return (met("dry reading", (Word("stage", last.stage.name), figure(QUANTITIES["swing_weight"].kind, last.value))),)


def _weights(club_state: ClubState, best: Choice) -> tuple[Check, ...]:
    found = []
    if best.keys:
        moved = Listed(tuple(quantity(key) for key in best.keys), "and")
        chance = percent(best.chance)
        best_now = (phrase("figure.best that can"), phrase("figure.chance for", chance=chance, what=moved))
        if best.chance < LEAST_CHANCE:
            what = phrase("gate.small chance", chance=chance, what=moved)
            found.append(unmet("chance", what, phrase("gate.dry again"), best_now))
        else:
            found.append(met("chance", best_now))
    fitted = _tip_names(club_state, club_state.fitted_now[0])
    missing = _tip_names(club_state, (best.counts - club_state.fitted_now[0]).clip(min=0)) if best.changed else []
    if missing:
        what = phrase("gate.under the tip", weights=Listed(tuple(missing), "plus"))
        found.append(unmet("tip weight", what))
    elif fitted:
        found.append(met("tip weight", ("", Listed(tuple(fitted), "plus"))))
    return tuple(found)


def _tip_names(club_state: ClubState, counts: NDArray[np.float64]) -> list[str]:
    """Name the weights of a set that go under the tip."""
    ticket = club_state.ticket
    return [name for name in names_of(ticket, counts) if ticket.weights[ticket.weight_place(name)].seat == "tip"]

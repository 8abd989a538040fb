"""Before the cut: which tip trim, within the shaft's own sheet, and which weight bring frequency and swing weight closest.

More off the tip makes the club stiffer: the soft end goes, and the butt is cut that much less so that the length stays. The
masses change too, since an inch of tip and an inch of butt do not weigh the same. Each trim is worked with the joint belief
of the finished club. Derivation: docs/theory/frequency.md (the beam), docs/theory/advice.md (the chance); checked in
tests/unit/planning/advice/test_trim_planner.py and tests/published/test_published_frequency_tickets.py.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.belief.prediction import Prediction, predict
from clubwright.club.quantities import CHANGES
from clubwright.club.stages import FINISHED
from clubwright.errors import NotPossible
from clubwright.notation import length_in_full
from clubwright.planning.advice.set_search import chances
from clubwright.planning.advice.tray import names_of
from clubwright.planning.advice.weights import choices, moved_goals
from clubwright.planning.club_state import ClubState
from clubwright.planning.cut import CUT_JOBS
from clubwright.planning.goals import Goal
from clubwright.planning.what_if import shifted
from clubwright.state.particulars import in_si
from clubwright.units import INCH_M

STEP_M = INCH_M / 4
FINE_M = INCH_M / 16
"""Step about the quarter that comes closest to an ordered frequency: a quarter of an inch is some 2 cpm."""

SIXTEENTHS = round(STEP_M / FINE_M)
STEPS = 12
"""Most trims looked at beyond the ticket's: 3 in of them."""

SOFTER = 4
"""Most trims looked at below the ticket's, while nothing is off the tip."""

SETS = 3
"""Sets of weights tried with each trim: those that do best at the trim of the ticket."""

SAME_M = 1e-6
TIP_TRIM = "shaft.tip_trim_m"


class TrimOption(msgspec.Struct, frozen=True, kw_only=True):
    """One trim with the weights that suit it best.

    Attributes:
        tip_trim_m: Off the tip in all.
        butt_cut_m: What then comes off the butt, so that the length is as ordered.
        counts: How many of each weight of the tray.
        weights: Their names, a name for each piece.
        finished: What the finished club would read, quantity to (mean, sd) in SI.
        chance: Chance that frequency, and all targets that weights move, end within tolerance.
        of_frequency: Chance of the frequency alone; None without a target.
    """

    tip_trim_m: float
    butt_cut_m: float
    counts: tuple[float, ...]
    weights: tuple[str, ...]
    finished: dict[str, tuple[float, float]]
    chance: float
    of_frequency: float | None


class TrimPlan(msgspec.Struct, frozen=True, kw_only=True):
    """All trims that the sheet allows, and the best of them.

    Attributes:
        options: By trim, least first.
        own: Place of the ticket's own trim.
        best: Place of the best of them.
        keys: The targets its chance is of.
        limit_m: Most that may come off the tip in all.
        irreversible: What cannot be taken back, in words.
    """

    options: tuple[TrimOption, ...]
    own: int
    best: int
    keys: tuple[str, ...]
    limit_m: float
    irreversible: str

    @property
    def chosen(self) -> TrimOption:
        """The best option."""
        return self.options[self.best]

    @property
    def as_ticket(self) -> TrimOption:
        """The option with the trim that the ticket has."""
        return self.options[self.own]


def plan_trims(club_state: ClubState, sheet_limit_m: float, steps: int = STEPS) -> TrimPlan:
    """Work the tip trims from the ticket's own up to the sheet's limit, that limit too, a quarter of an inch apart.

    While the ticket says that the tip is not trimmed yet, those below its own trim too. Where a frequency is ordered, the
    sixteenths about the best of the quarters as well.

    Args:
        club_state: A build or a re-shaft whose shaft has not been cut.
        sheet_limit_m: Most that the shaft's own sheet allows off the tip, in all.
        steps: Most trims beyond the ticket's that are looked at.

    Raises:
        NotPossible: for a taper tip, a shaft that is cut, without a stiffness or the raw length, or when the ticket's own
            trim is beyond the limit.
    """
    start = float(club_state.club.shaft.tip_trim_m)
    _check(club_state, start, sheet_limit_m)
    goals = moved_goals(club_state)
    keys = tuple(dict.fromkeys((*CHANGES, *(goal.key for goal in goals))))
    sets = np.array([choice.counts for choice in choices(club_state, most=SETS)])
    least = 0.0 if club_state.ticket.club.shaft.tip_trimmed == "no" else start
    raw, length = (float(club_state.club.shaft.raw_length_m), float(club_state.club.shaft.length_m))
    most = min(sheet_limit_m, max(raw - length, start))
    goal = club_state.goal("frequency")

    def worked(trims: list[float]) -> list[TrimOption]:
        return [_option(club_state, trim, raw - trim - length, goals, keys, sets) for trim in trims]

    quarters = [max(start + step * STEP_M, 0.0) for step in range(-SOFTER, steps + 1)]
    ends = [sheet_limit_m] if sheet_limit_m <= most else []
    found = worked(_apart([start, *quarters, *ends], least, most))
    if goal is not None:
        at = found[_best(found, 0, goal)].tip_trim_m
        near = [at + step * FINE_M for step in range(1 - SIXTEENTHS, SIXTEENTHS)]
        taken = [option.tip_trim_m for option in found]
        found += worked(_apart([*taken, *near], least, most)[len(taken) :])
    options = tuple(sorted(found, key=lambda option: option.tip_trim_m))
    own = next(place for place, option in enumerate(options) if option.tip_trim_m == start)
    return TrimPlan(
        options=options,
        own=own,
        best=_best(options, own, goal),
        keys=tuple(goal.key for goal in goals),
        limit_m=sheet_limit_m,
        irreversible=(
            "What is off the tip, or off the butt, does not come back: trim less than planned, read the frequency with the "
            "head dry-fitted, and trim again."
        ),
    )


def _apart(trims: list[float], least: float, most: float) -> list[float]:
    """Return those of some trims that lie within bounds, each once, in their order; the first one always."""
    found = trims[:1]
    for trim in trims[1:]:
        if least - SAME_M <= trim <= most + SAME_M and all(abs(trim - other) > SAME_M for other in found):
            found.append(trim)
    return found


def _check(club_state: ClubState, start_m: float, limit_m: float) -> None:
    """Refuse where no trim is to be planned."""
    ticket = club_state.ticket
    row = ticket.club.shaft
    if row.tip == "taper":
        raise NotPossible(
            "a taper tip is never trimmed: it is made to fit the bore", "Trim at the butt, or pull a shaft."
        )
    if ticket.job not in CUT_JOBS or ticket.is_cut:
        what = "the shaft has its length already: a tip trim would shorten the club"
        raise NotPossible(what, "Change the weights, or pull another shaft.")
    if not club_state.can_predict("frequency"):
        why = club_state.prior.unknowable["frequency"]
        raise NotPossible(f"no frequency can be planned: it {why}", "Write the stiffness of the shaft on the ticket.")
    if row.raw_length is None:
        what = "the raw length of the shaft is not on the ticket, so no trim can be planned"
        raise NotPossible(what, "Measure the raw shaft and write raw_length.")
    if start_m > limit_m + SAME_M:
        what = f"the ticket trims {length_in_full(start_m)} off the tip, the sheet allows {length_in_full(limit_m)}"
        raise NotPossible(what, "Look at the shaft's own sheet, and correct tip_trim or tip_trim_limit.")


def _option(
    club_state: ClubState,
    trim_m: float,
    butt_cut_m: float,
    goals: tuple[Goal, ...],
    keys: tuple[str, ...],
    sets: NDArray[np.float64],
) -> TrimOption:
    """Work one trim with each set of weights, and keep the set that does best."""
    belief, club = shifted(club_state, {TIP_TRIM: trim_m})
    prediction = predict(belief, club, club_state.prior.conventions, keys, FINISHED, sets)
    found = chances(prediction, goals) if goals else np.ones(len(sets))
    place = int(np.lexsort((_off(prediction, goals), -np.round(found, 3)))[0])
    spread = prediction.sd()[place]
    goal = club_state.goal("frequency")
    return TrimOption(
        tip_trim_m=trim_m,
        butt_cut_m=butt_cut_m,
        counts=tuple(float(count) for count in sets[place]),
        weights=tuple(names_of(club_state.ticket, sets[place])),
        finished={
            key: (float(prediction.mean[place, column]), float(spread[column])) for column, key in enumerate(keys)
        },
        chance=float(found[place]),
        of_frequency=None if goal is None else float(chances(prediction, (goal,))[place]),
    )


def _off(prediction: Prediction, goals: tuple[Goal, ...]) -> NDArray[np.float64]:
    """How far each set lies from the targets, root mean square in half-widths."""
    if not goals:
        return np.zeros(len(prediction.mean))
    of = [prediction.keys.index(goal.key) for goal in goals]
    target = np.array([goal.target for goal in goals])
    width = np.array([max(goal.half_width, 1e-12) for goal in goals])
    found: NDArray[np.float64] = np.sqrt(np.mean(((prediction.mean[:, of] - target) / width) ** 2, axis=1))
    return found


def _best(options: Sequence[TrimOption], own: int, goal: Goal | None) -> int:
    """Return the place of the greatest chance, to a whole percent; then of the frequency closest; then of the least trim.

    Without a target frequency nothing is to be gained by a trim.
    """
    if goal is None:
        return own
    ranked = [
        (-round(option.chance, 2), round(abs(option.finished["frequency"][0] - goal.target), 3), place)
        for place, option in enumerate(options)
    ]
    return min(ranked)[2]


def trim_plan_of(club_state: ClubState) -> TrimPlan:
    """Plan the trims within ``[shaft] tip_trim_limit``.

    Raises:
        NotPossible: when the ticket does not give that limit, or as `plan_trims`.
    """
    limit = in_si(club_state.ticket.club.shaft.tip_trim_limit)
    if limit is None:
        if club_state.ticket.club.shaft.tip == "taper":
            limit = 0.0
        else:
            what = "the ticket does not say how much may come off the tip"
            raise NotPossible(what, "Look it up on the shaft's own sheet and write [shaft] tip_trim_limit.")
    return plan_trims(club_state, limit)

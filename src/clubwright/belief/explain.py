"""Why a reading does not fit: single changes that would reconcile all readings, likeliest first.

A hypothesis is one thing gone wrong: one part's number is not what was entered, the reading belongs to another stage or
to other weights, or an earlier reading is at fault. For a part, the change that fits best is the generalised least-squares
shift along that unknown's column, and what it leaves is the drop of chi-square (the mean-shift model of R. D. Cook and S.
Weisberg, Residuals and Influence in Regression, 1982, section 2.2). Each hypothesis pays for how unusual its change is:
the square of the change over the size such slips usually have. Those sizes are estimates of ours.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian, Matrix, Vector
from clubwright.belief.readings import Reading
from clubwright.belief.sharing import carried, groups_of, together
from clubwright.belief.unknowns import is_of_a_gauge
from clubwright.belief.update import predict_readings, with_biases
from clubwright.club.build import Conventions
from clubwright.club.part_paths import (
    TAPES,
    WEIGHTS,
    came_path,
    is_of_a_part,
    of_each,
    path_of,
    read_path,
    without_earlier,
)
from clubwright.club.parts import Came, Club
from clubwright.club.quantities import NEVER_MEASURED
from clubwright.club.stages import STAGES, Stage
from clubwright.errors import Where

SLIP_SIZE: dict[str, float] = {
    "grip.mass_kg": 4e-3,
    "grip.cap_m": 2e-3,
    "grip.cg_from_cap_m": 8e-3,
    "head.mass_kg": 3e-3,
    "head.cg_from_ground_m": 6e-3,
    "head.bore_to_ground_m": 6e-3,
    "head.loft_rad": 0.035,
    "head.lie_rad": 0.035,
    "head.bounce_rad": 0.035,
    "shaft.mass_kg": 4e-3,
    "shaft.length_m": 6e-3,
    "length_m": 6e-3,
    "lie_rad": 0.035,
    "loft_rad": 0.035,
    "bounce_rad": 0.035,
    "shaft.balance_from_tip_m": 15e-3,
    "shaft.butt_diameter_m": 5e-4,
    path_of(TAPES, "mass_kg"): 2e-3,
    "ferrule.mass_kg": 1e-3,
    "adhesive.mass_kg": 1e-3,
    # a whole piece taken for another is a reading with the wrong weights, priced below
    path_of(WEIGHTS, "mass_kg"): 1e-3,
}
"""How large a slip in this number usually is when one is made, by unknown (tapes and weights share one entry each; of what
a change made different, by the figure alone)."""

SLIP_SIZE |= {
    came_path(path): size
    for path, size in list(SLIP_SIZE.items())
    if read_path(path).part in Came.__struct_fields__ and path != "shaft.butt_diameter_m"  # it is measured bare
}

ALIKE = 1e-9
"""Share of a reading's variance by which two of one thing differ that have no noise of their own: too small to be seen."""

STAGE_SLIP = 4.0
"""Price of a reading booked under the wrong stage or with the wrong weights, in chi-square."""

GAUGE_SLIP = 6.0
"""Price of a gauge or an earlier reading at fault, in chi-square."""


class Cause(msgspec.Struct, frozen=True, kw_only=True):
    """One possible cause.

    Attributes:
        unknown: Path of the part's number, or ``stage``, ``weights``, ``earlier reading``, ``gauge``.
        change: By how much that number would differ from what was entered, in SI; 0 where there is no number.
        detail: Which stage, weights (empty for none) or reading.
        left_over: What this cause leaves unexplained, in chi-square, with the price of the cause; small is likely.
    """

    unknown: str
    change: float
    detail: Where
    left_over: float


def causes(
    prior: Gaussian,
    template: Club,
    conventions: Conventions,
    taken: Sequence[Reading],
    suspect: Reading,
    *,
    most: int = 5,
) -> list[Cause]:
    """Rank what could have gone wrong, given the prior from the parts, the readings that fit and the one that does not.

    Returns:
        At most `most` causes, likeliest first.
    """
    readings = [*taken, suspect]
    prior = with_biases(prior, readings)
    # The suspect is judged by itself, also where the same club was read before: see `clubwright.belief.update.learn`.
    groups = (*groups_of(prior, template, conventions, taken), len(taken))
    off, slope = _innovations(prior, template, conventions, readings)
    found = _part_causes(prior, *_averaged(prior, off, slope, readings, groups))
    found += _booking_causes(prior, template, conventions, readings, groups)
    found += _reading_causes(prior, off, slope, readings, groups)
    return sorted(found, key=lambda cause: (cause.left_over, cause.unknown, str(cause.detail)))[:most]


def _innovations(
    prior: Gaussian, template: Club, conventions: Conventions, readings: Sequence[Reading]
) -> tuple[Vector, Matrix]:
    """Return how far each reading is off at the parts' means, and its derivatives."""
    values, slopes = predict_readings(template, conventions, prior.names, prior.mean, readings)
    return np.array([reading.value for reading in readings]) - values, slopes


def _averaged(
    prior: Gaussian, off: Vector, slope: Matrix, readings: Sequence[Reading], groups: Sequence[int]
) -> tuple[Vector, Matrix, Matrix]:
    """Average the readings of one club; return what is off, its derivatives, and its covariance."""
    means, noise = together(readings, groups, carried(prior, readings, slope))
    slope = means @ slope
    spread = slope @ prior.covariance @ slope.T + noise
    # readings without noise of their own may be of one thing: two that agree then say it once
    spread[np.diag_indices_from(spread)] *= 1 + ALIKE
    return means @ off, slope, spread


def _part_causes(prior: Gaussian, off: Vector, slope: Matrix, spread: Matrix) -> list[Cause]:
    inverse = np.linalg.inv(spread)
    whole = float(off @ inverse @ off)
    found = []
    for place, name in enumerate(prior.names):
        size = _slip_size(name)
        column = slope[:, place]
        strength = float(column @ inverse @ column)
        if size is None or strength <= 0 or float(np.max(np.abs(column))) == 0:
            continue
        # The slip has a Gaussian prior of its usual size: chi-square and price are minimised together.
        change = float(column @ inverse @ off) / (strength + 1 / size**2)
        left = whole - 2 * change * float(column @ inverse @ off) + change**2 * strength + (change / size) ** 2
        found.append(Cause(unknown=name, change=change, detail="", left_over=left))
    return found


def _slip_size(name: str) -> float | None:
    if is_of_a_gauge(name):
        return None
    _, path = without_earlier(name)  # a part that was on before is mistaken as one that is on
    return SLIP_SIZE.get(of_each(path))


def _booking_causes(
    prior: Gaussian, template: Club, conventions: Conventions, readings: Sequence[Reading], groups: Sequence[int]
) -> list[Cause]:
    *_, suspect = readings
    found: list[Cause] = []
    if is_of_a_part(suspect.quantity):
        return found

    def left_over(last: Reading) -> float:
        tried = [*readings[:-1], last]
        off, slope = _innovations(prior, template, conventions, tried)
        return _chi_square(*_averaged(prior, off, slope, tried, groups))

    whole = left_over(suspect)
    for stage in _other_stages(template, suspect):
        if stage.name != suspect.stage.name:
            other = msgspec.structs.replace(suspect, stage=stage)
            left = left_over(other)
            if left + STAGE_SLIP < whole:  # a stage that would read the same explains nothing
                found.append(Cause(unknown="stage", change=0.0, detail=stage.name, left_over=left + STAGE_SLIP))
    count = len(template.weights)
    for choice in range(-1, count):
        fitted = tuple(1.0 if place == choice else 0.0 for place in range(count))
        if fitted != suspect.fitted:
            other = msgspec.structs.replace(suspect, fitted=fitted)
            left = left_over(other)
            name = template.weights[choice].name if choice >= 0 else ""
            if left + STAGE_SLIP < whole:
                found.append(Cause(unknown="weights", change=0.0, detail=name, left_over=left + STAGE_SLIP))
    return found


def _other_stages(template: Club, suspect: Reading) -> list[Stage]:
    """Stages that a reading may have been booked under by mistake; with old parts on, only what can be computed of them."""
    came, rests_on = template.came, NEVER_MEASURED.get(suspect.quantity, "")
    old = came is not None and getattr(came, rests_on, None) is None
    return [stage for stage in STAGES.values() if stage.name != "bare shaft" and (old or not stage.old_parts)]


def _chi_square(off: Vector, _: Matrix, spread: Matrix) -> float:
    return float(off @ np.linalg.solve(spread, off))


def _reading_causes(
    prior: Gaussian, off: Vector, slope: Matrix, readings: Sequence[Reading], groups: Sequence[int]
) -> list[Cause]:
    found = []
    for place, reading in enumerate(readings):
        rest = [other for other in range(len(readings)) if other != place]
        left = 0.0
        if rest:
            of, numbers = [readings[other] for other in rest], [groups[other] for other in rest]
            left = _chi_square(*_averaged(prior, off[rest], slope[rest], of, numbers))
        last = place == len(readings) - 1
        found.append(
            Cause(
                unknown="gauge" if last else "earlier reading",
                change=float(off[place]) if last else 0.0,
                detail=reading.instrument.name if last else reading.where,
                left_over=left + GAUGE_SLIP,
            )
        )
    return found

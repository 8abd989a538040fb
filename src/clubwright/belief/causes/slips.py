"""Hypotheses about numbers: a part's figure, a mass typed wrong, a layer of tape, a scale, one reading, a gauge."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor

import numpy as np

from clubwright.belief.causes.cause import (
    LETTER,
    MISREAD,
    OFTEN,
    SCALE_SLIP_KG,
    Cause,
    CauseKind,
    Known,
    slip_size,
)
from clubwright.belief.causes.evidence import Trial, fixed
from clubwright.belief.gaussian import Gaussian, Matrix, Vector
from clubwright.belief.readings import Reading
from clubwright.belief.unknowns import is_of_a_gauge
from clubwright.club.part_paths import TAPES, is_of_a_part, path_of

TYPED_MASSES = ("head.mass_kg", "shaft.mass_kg", "grip.mass_kg")
ANOTHER = {"head.mass_kg": OFTEN["another head"], "grip.mass_kg": OFTEN["another grip"]}
"""A head or a grip taken from the wrong place of the rack weighs what another one weighs."""
USUAL, GROSS = (1.0, 0.85), (4.0, 0.15)
"""Most slips are of their usual size, some are gross: how many times the size, and which share (estimates of ours)."""
PLACES_G = (0.1, 1.0, 10.0)
"""Places of the digits of a mass that two of them may have changed, in grams."""


BESIDE: frozenset[CauseKind] = frozenset({"figure", "layer", "reading", "gauge"})
"""What is tried beside another cause; digits and letters are exact figures, of which two at once would fit anything."""


def slips(prior: Gaussian, readings: Sequence[Reading], off: Vector, slope: Matrix, known: Known) -> list[Trial]:
    """Return every such hypothesis; `off` and `slope` are the readings at the parts' means and their derivatives."""
    found = [trial for times in (USUAL, GROSS) for trial in _figures(prior, off, slope, known, times)]
    found += [*_layers(prior, off, slope, known), *_typed(prior, off, slope, known), *_scale(prior, off, slope, known)]
    return [*found, *_misread(readings, off), *_gauges(readings, off), *_letters(readings, off)]


def _one(cause: Cause, often: float, off: Vector, column: Vector, size: float) -> Trial:
    return Trial(causes=(cause,), often=often, off=off, columns=(column * size)[:, None], slips=((size, 0),))


def _figures(prior: Gaussian, off: Vector, slope: Matrix, known: Known, times: tuple[float, float]) -> list[Trial]:
    """Try every number of a part, with slips so many times the usual size, which so large a share of them has."""
    larger, share = times
    found = []
    for place, name in enumerate(prior.names):
        size, column = None if is_of_a_gauge(name) else slip_size(name), slope[:, place]
        if size is None or not np.any(column):
            continue
        if name in known.assumed:
            size = max(size, 2 * prior.sd_of(name))  # a part that its kind's default does not cover
        often = share * _how_often(name, known)
        found.append(_one(Cause(kind="figure", what=name), often, off, column, larger * size))
    return found


def _how_often(name: str, known: Known) -> float:
    """What was assumed is blamed before what was entered, and that before what a named gauge weighed."""
    if name in known.assumed:
        return OFTEN["assumed"]
    if name in known.weighed:
        return OFTEN["weighed"]
    return ANOTHER.get(name, OFTEN["figure"])


def _typed(prior: Gaussian, off: Vector, slope: Matrix, known: Known) -> list[Trial]:
    """Two digits of a mass that stand beside each other were changed: 189.4 g for 198.4 g."""
    found = []
    for name in TYPED_MASSES:
        if name not in prior.names or name in known.assumed:
            continue
        column = slope[:, prior.index(name)]
        grams = prior.mean_of(name) * 1e3
        for unit in PLACES_G:
            low, high = (floor(grams / (unit * ten) + 1e-6) % 10 for ten in (1, 10))
            change = 9 * unit * (low - high) * 1e-3  # what was meant, less what stands there
            if change and np.any(column):
                cause = Cause(kind="typed", what=name, change=change)
                found.append(fixed((cause,), OFTEN["typed"] / len(PLACES_G), off - column * change))
    return found


def _layers(prior: Gaussian, off: Vector, slope: Matrix, known: Known) -> list[Trial]:
    found = []
    for place, layers in enumerate(known.layers):
        name = path_of(TAPES, place, "mass_kg")
        if layers < 1 or name not in prior.names or not np.any(column := slope[:, prior.index(name)]):
            continue
        one = prior.mean_of(name) / layers
        for more, share in ((-1, 0.6), (1, 0.2), *(((-layers, 0.2),) if layers > 1 else ())):
            cause = Cause(kind="layer", what=name, change=float(more))
            found.append(fixed((cause,), OFTEN["layer"] * share, off - column * one * more))
    return found


def _scale(prior: Gaussian, off: Vector, slope: Matrix, known: Known) -> list[Trial]:
    """Every mass that was entered is off by the same: the scale that the parts were weighed on does not stand at zero."""
    masses = [name for name in prior.names if name in TYPED_MASSES and name not in known.assumed]
    if len(masses) < 2:
        return []
    column = np.sum([slope[:, prior.index(name)] for name in masses], axis=0)
    return [_one(Cause(kind="scale", what=""), OFTEN["scale"], off, column, SCALE_SLIP_KG)] if np.any(column) else []


def _size(reading: Reading) -> float:
    usual = slip_size(reading.quantity) if is_of_a_part(reading.quantity) else None
    return usual or MISREAD * max(reading.instrument.uncertainty(), 1e-9)


def _misread(readings: Sequence[Reading], off: Vector) -> list[Trial]:
    found = []
    for place, reading in enumerate(readings):
        cause = Cause(kind="reading", what=reading.instrument.name, readings=(reading.where,))
        found.append(_one(cause, OFTEN["reading"], off, np.eye(len(readings))[place], _size(reading)))
    return found


def _gauges(readings: Sequence[Reading], off: Vector) -> list[Trial]:
    gauges: dict[tuple[str, str], list[int]] = {}
    for place, reading in enumerate(readings):
        gauges.setdefault((reading.instrument.name, reading.quantity), []).append(place)
    found = []
    for (name, _), places in gauges.items():
        if len(places) > 1:
            column = np.isin(np.arange(len(readings)), places).astype(float)
            cause = Cause(kind="gauge", what=name, readings=tuple(readings[place].where for place in places))
            found.append(_one(cause, OFTEN["gauge"], off, column, _size(readings[places[0]])))
    return found


def _letters(readings: Sequence[Reading], off: Vector) -> list[Trial]:
    found = []
    for place, reading in enumerate(readings):
        if reading.quantity == "swing_weight":
            for change in (-LETTER, LETTER):
                cause = Cause(kind="letter", what="", change=change, readings=(reading.where,))
                moved = off - change * np.eye(len(readings))[place]
                found.append(fixed((cause,), OFTEN["letter"] / 2, moved))
    return found

"""Take readings into a belief; set aside those that do not fit, until a person decides.

Each reading is first held against what the parts and the readings before it predict. One further off than
`INNOVATION_LIMIT` standard deviations (one in a thousand by chance) is not swallowed: it is kept aside with its
likeliest causes (`clubwright.belief.causes`). All readings that stand are then taken in together, so that their order
does not matter; those of one gauge on an unchanged club share their rounding (`clubwright.belief.sharing`).
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian, Matrix, Vector, condition
from clubwright.belief.prediction import linearise
from clubwright.belief.readings import Reading
from clubwright.belief.sharing import carried, flicker, groups_of, together
from clubwright.belief.unknowns import bias_name, is_rounding, rounding_name
from clubwright.club.build import Conventions, FrequencyMeter
from clubwright.club.part_figures import AT_LENGTH, PART_FIGURES
from clubwright.club.parts import Club
from clubwright.errors import NotPossible, Where

INNOVATION_LIMIT = 3.2905
"""Two-sided normal point for 0.001; a setting of the shop's, this default is ours."""

MOVED = 0.1
"""A change that moves a reading by more than this share of its uncertainty takes it out of what is judged now."""


class Judged(msgspec.Struct, frozen=True, kw_only=True):
    """A reading beside what was expected of it before it was taken in.

    Attributes:
        reading: The reading.
        expected, expected_sd: Prediction from the parts and the readings before it, its gauge's noise included.
        taken: Whether it is in the belief.
        present: Whether it still tells of the club as it is now: no change since moves it by more than `MOVED` of its own
            standard uncertainty. One that does not is in the belief all the same, at its own configuration.
    """

    reading: Reading
    expected: float
    expected_sd: float
    taken: bool
    present: bool = True

    @property
    def off_by_sd(self) -> float:
        """How far the reading lies from the expectation, in standard deviations."""
        return (self.reading.value - self.expected) / self.expected_sd


class Learned(msgspec.Struct, frozen=True, kw_only=True):
    """A belief after its readings, and how each of them was judged."""

    belief: Gaussian
    judged: tuple[Judged, ...]

    @property
    def set_aside(self) -> tuple[Judged, ...]:
        """The readings that are not in the belief."""
        return tuple(item for item in self.judged if not item.taken)


def with_biases(prior: Gaussian, readings: Sequence[Reading]) -> Gaussian:
    """Give every gauge that has a bias its own unknown, one for each quantity it reads."""
    biases = {
        bias_name(reading.instrument.name, reading.quantity): (0.0, reading.instrument.bias)
        for reading in readings
        if reading.instrument.bias > 0
    }
    return prior.extended(biases)


def predict_reading(
    template: Club, conventions: Conventions, names: tuple[str, ...], at: Vector, reading: Reading
) -> tuple[float, Vector]:
    """Return what a reading should show at an estimate, and its derivatives by the n unknowns."""
    values, slopes = predict_readings(template, conventions, names, at, [reading])
    return float(values[0]), slopes[0]


def predict_readings(
    template: Club, conventions: Conventions, names: tuple[str, ...], at: Vector, readings: Sequence[Reading]
) -> tuple[Vector, Matrix]:
    """Return what m readings should show at an estimate, shape (m), and their derivatives, shape (m, n).

    Readings of the same build (stage, weights, changes since, how a meter held it) are worked together: the club is put
    together once for all. A frequency is foretold for the clamp that it was read in, and so tells of the club by any other.
    """
    values, slopes = np.empty(len(readings)), np.empty((len(readings), len(names)))
    builds: dict[tuple[str, tuple[float, ...], int | None, FrequencyMeter | None], list[int]] = {}
    for place, reading in enumerate(readings):
        builds.setdefault((reading.stage.name, tuple(reading.fitted), reading.then, reading.meter), []).append(place)
    for (_, fitted, then, _), places in builds.items():
        keys = list(dict.fromkeys(readings[place].quantity for place in places))
        stage, by = readings[places[0]].stage, readings[places[0]].read_by(conventions)
        mean, slope = linearise(template, by, names, at, keys, stage, np.array([fitted], dtype=float), then)
        for place in places:
            reading = readings[place]
            row = keys.index(reading.quantity)
            values[place], slopes[place] = mean[0, row], slope[0, row]
            bias = bias_name(reading.instrument.name, reading.quantity)
            if bias in names:
                values[place] += at[names.index(bias)]
                slopes[place, names.index(bias)] += 1.0
            rounding = rounding_name(reading.instrument.name, reading.quantity)
            if rounding in names and _is_of_now(names, reading, slopes[place]):
                values[place] += at[names.index(rounding)]
                slopes[place, names.index(rounding)] += 1.0
    return values, slopes


def _is_of_now(names: tuple[str, ...], reading: Reading, slope: Vector) -> bool:
    """True for a reading of the very figure that is on the club now: another part was on before, or the shaft was longer."""
    number = AT_LENGTH if reading.quantity in PART_FIGURES else reading.quantity
    return bool(slope[names.index(number)] != 0.0) if number in names else reading.then is None


def learn(
    prior: Gaussian,
    template: Club,
    conventions: Conventions,
    readings: Sequence[Reading],
    *,
    limit: float = INNOVATION_LIMIT,
    by_chance: Collection[Where] = (),
) -> Learned:
    """Take readings into a prior belief.

    Args:
        prior: Belief from the parts alone.
        template: The club.
        conventions: Definitions in use.
        readings: In the order they were taken.
        limit: How many standard deviations off a reading may be before it is set aside.
        by_chance: Places of readings that may be further off: all readings of the club together say that it is chance.

    Raises:
        NotPossible: when readings that a person decided to keep cannot be reconciled with the parts.
    """
    prior = with_biases(prior, readings)
    groups = groups_of(prior, template, conventions, readings)
    judged: list[Judged] = []
    taken: list[int] = []
    belief = prior

    def took(before: Gaussian, places: Sequence[int]) -> Gaussian:
        of = [groups[place] for place in places]
        return _take(before, template, conventions, [readings[place] for place in places], of)

    for place, reading in enumerate(readings):
        expected, gradient = predict_reading(template, conventions, belief.names, belief.mean, reading)
        # Its rounding counts whole here: at the edge of a step it jumps far more often than its share would let a normal.
        least = flicker(reading, *carried(prior, [reading], gradient[np.newaxis]))
        noise = max(reading.instrument.noise(reading.repeats), least)
        spread = float(np.sqrt(gradient @ belief.covariance @ gradient + noise**2))
        fits = abs(reading.value - expected) <= limit * spread
        take = fits or reading.where in by_chance if reading.keep is None else reading.keep
        judged.append(Judged(reading=reading, expected=expected, expected_sd=spread, taken=take))
        if take:
            again = groups[place] in [groups[other] for other in taken]
            taken.append(place)
            try:
                belief = took(prior, taken) if again else took(belief, [place])
            except NotPossible:
                # A narrow belief is curved, and the passes may run off from it: all together from the parts they settle.
                belief = took(prior, taken)
    if len(taken) > 1:
        belief = took(prior, taken)
    judged = [
        msgspec.structs.replace(item, present=is_present(belief, template, conventions, item.reading))
        for item in judged
    ]
    return Learned(belief=belief, judged=tuple(judged))


def is_present(belief: Gaussian, template: Club, conventions: Conventions, reading: Reading) -> bool:
    """True when what changed since a reading moves it by no more than `MOVED` of its standard uncertainty.

    The shift is told by its root mean square: one that is small by the estimate and not known well is no small shift.
    """
    if reading.then is None:
        return True
    both = [reading, msgspec.structs.replace(reading, then=None)]
    try:
        values, slopes = predict_readings(template, conventions, belief.names, belief.mean, both)
    except NotPossible:
        return False  # the part that is on now lacks what this quantity rests on
    shift, slope = values[1] - values[0], slopes[1] - slopes[0]
    square = shift**2 + float(slope @ belief.covariance @ slope)
    return bool(np.sqrt(max(square, 0.0)) <= MOVED * reading.instrument.uncertainty(reading.repeats))


def _take(
    prior: Gaussian, template: Club, conventions: Conventions, readings: Sequence[Reading], groups: Sequence[int]
) -> Gaussian:
    known = None
    if any(is_rounding(name) for name in prior.names):
        _, slopes = predict_readings(template, conventions, prior.names, prior.mean, readings)
        known = carried(prior, readings, slopes)
    means, noise = together(readings, groups, known)

    def model(at: Vector) -> tuple[Vector, Matrix]:
        values, slopes = predict_readings(template, conventions, prior.names, at, readings)
        return means @ values, means @ slopes

    return condition(prior, model, means @ np.array([reading.value for reading in readings]), noise)

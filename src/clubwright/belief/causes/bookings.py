"""Hypotheses about what a reading was taken of: another stage, other weights, the butt in place of the cap.

A slip of stage is tried on all readings of that stage, and one of weights on all readings with that set: who forgets a
weight in a port reads swing weight, total weight and balance with it. A single one of them is tried as well.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np

from clubwright.belief.causes.cause import OFTEN, Cause
from clubwright.belief.causes.evidence import Trial, fixed
from clubwright.belief.gaussian import Gaussian, Matrix, Vector
from clubwright.belief.prediction import values
from clubwright.belief.readings import Reading
from clubwright.belief.update import predict_readings
from clubwright.club.build import Conventions
from clubwright.club.part_paths import is_of_a_part
from clubwright.club.parts import Club
from clubwright.club.quantities import NEVER_MEASURED, QUANTITIES
from clubwright.club.stages import DRY_NO_GRIP, FINISHED, GLUED_NO_GRIP, STAGES, Stage
from clubwright.errors import NotPossible
from clubwright.units import Number

WITHOUT_GRIP = {True: GLUED_NO_GRIP, False: DRY_NO_GRIP}
"""The stage whose butt a length may have been read to, by whether the joint is glued."""


class Bench:
    """The readings of one club, at the parts' means, and under whatever stage or weights each is tried."""

    def __init__(self, prior: Gaussian, template: Club, conventions: Conventions, readings: Sequence[Reading]) -> None:
        self.prior, self.template, self.conventions, self.readings = prior, template, conventions, tuple(readings)
        self.seen = np.array([reading.value for reading in readings])
        expected, self.slope = predict_readings(template, conventions, prior.names, prior.mean, readings)
        self.off: Vector = self.seen - expected
        self.noise = np.diag([reading.instrument.noise(reading.repeats) ** 2 for reading in readings])
        self.base = self.spread(self.slope)
        self._at_stage: dict[tuple[int, str], tuple[float, Vector] | None] = {}

    def spread(self, slope: Matrix) -> Matrix:
        """Return the covariance of the readings whose derivatives are given."""
        found: Matrix = slope @ self.prior.covariance @ slope.T + self.noise
        return found

    def at_stage(self, places: Sequence[int], stage: Stage) -> tuple[Vector, Matrix] | None:
        """Return what all are off, and their derivatives, with some taken at another stage; None where it cannot be."""
        self._foretell(places, stage)
        off, slope = self.off.copy(), self.slope.copy()
        for place in places:
            told = self._at_stage[place, stage.name]
            if told is None:
                return None
            off[place], slope[place] = self.seen[place] - told[0], told[1]
        return off, slope

    def _foretell(self, places: Sequence[int], stage: Stage) -> None:
        new = [place for place in places if (place, stage.name) not in self._at_stage]
        tried = [msgspec.structs.replace(self.readings[place], stage=stage) for place in new]
        light = [not QUANTITIES[item.quantity].moved_by_weights for item in tried]
        try:
            quick = [item for item, is_light in zip(tried, light, strict=True) if is_light]
            told = iter(
                zip(
                    *predict_readings(self.template, self.conventions, self.prior.names, self.prior.mean, quick),
                    strict=True,
                )
            )
            for place, item, is_light in zip(new, tried, light, strict=True):
                # The frequency is an eigenproblem for each derivative: those at the stage that was written down are near.
                self._at_stage[place, stage.name] = next(told) if is_light else (self._mean(item), self.slope[place])
        except NotPossible:
            self._at_stage |= dict.fromkeys(((place, stage.name) for place in new), None)

    def _mean(self, reading: Reading) -> float:
        """Foretell one reading without derivatives."""
        return float(self._foretold(reading, reading.fitted))

    def _foretold(self, reading: Reading, counts: Sequence[Number]) -> Vector:
        """Foretell a reading at the parts' means with so many of each weight on, by the definitions it was read by."""
        theta = [float(value) for value in self.prior.mean]
        read_by = reading.read_by(self.conventions)
        asked = [reading.quantity]
        (found,) = values(self.template, read_by, self.prior.names, theta, asked, reading.stage, counts, reading.then)
        return np.real(np.asarray(found))

    def with_weights(self, place: int, sets: Matrix) -> Vector:
        """Return how much more a reading would show with each of C other sets of weights on, shape (C)."""
        reading = self.readings[place]
        both = np.vstack([[reading.fitted], sets])
        if QUANTITIES[reading.quantity].moved_by_weights:
            return self._by_the_head(place, both)
        all_shown: Vector = np.zeros(len(both)) + self._foretold(
            reading, [both[:, place] for place in range(both.shape[1])]
        )
        found: Vector = all_shown[1:] - all_shown[0]
        return found

    def _by_the_head(self, place: int, sets: Matrix) -> Vector:
        """The frequency by the mass at the head: an eigenproblem for each set would cost more than it tells."""
        masses = [float(weight.mass_kg) if weight.seat != "butt" else 0.0 for weight in self.template.weights]
        if "head.mass_kg" not in self.prior.names:
            return np.zeros(len(sets) - 1)
        found: Vector = (sets[1:] - sets[0]) @ masses * self.slope[place, self.prior.index("head.mass_kg")]
        return found


def bookings(bench: Bench) -> list[Trial]:
    """Return every hypothesis of another stage, other weights, or the butt in place of the cap."""
    return [*_stages(bench), *_weights(bench), *_to_the_butt(bench)]


def _of_the_club(bench: Bench) -> list[int]:
    return [place for place, reading in enumerate(bench.readings) if not is_of_a_part(reading.quantity)]


def _booked(bench: Bench, cause: Cause, often: float, told: tuple[Vector, Matrix]) -> Trial:
    off, slope = told
    return fixed((cause,), often, off, bench.spread(slope))


def _taken_together(groups: dict[object, list[int]]) -> list[tuple[tuple[int, ...], float]]:
    """Return all readings of a group, and each of several alone, with the share of the slips that is of them."""
    found: list[tuple[tuple[int, ...], float]] = []
    for places in groups.values():
        found.append((tuple(places), 1.0))
        if len(places) > 1:
            found += [((place,), OFTEN["one reading"] / len(places)) for place in places]
    return found


def _stages(bench: Bench) -> list[Trial]:
    groups: dict[object, list[int]] = {}
    for place in _of_the_club(bench):
        reading = bench.readings[place]
        groups.setdefault((reading.stage.name, reading.then), []).append(place)
    found = []
    for places, share in _taken_together(groups):
        others = _other_stages(bench, places)
        for stage in others:
            told = bench.at_stage(places, stage)
            # a stage that would read the same explains nothing
            if told is not None and not np.allclose(told[0], bench.off, rtol=0, atol=1e-12):
                where = tuple(bench.readings[place].where for place in places)
                cause = Cause(kind="stage", what=stage.name, readings=where)
                found.append(_booked(bench, cause, OFTEN["stage"] * share / len(others), told))
    return found


def _other_stages(bench: Bench, places: Sequence[int]) -> list[Stage]:
    """Stages that readings may have been booked under by mistake; with old parts on, only what can be computed of them."""
    came = bench.template.came
    now = bench.readings[places[0]].stage.name
    rests_on = {NEVER_MEASURED.get(bench.readings[place].quantity, "") for place in places}
    old = came is not None and all(getattr(came, part, None) is None for part in rests_on)
    return [
        stage for stage in STAGES.values() if stage.name not in ("bare shaft", now) and (old or not stage.old_parts)
    ]


def _weights(bench: Bench) -> list[Trial]:
    pieces = bench.template.weights
    if not pieces:
        return []
    sets = np.vstack([np.zeros((1, len(pieces))), np.eye(len(pieces))])
    names = ("", *(weight.name for weight in pieces))
    readings = bench.readings
    moved = [place for place in _of_the_club(bench) if QUANTITIES[readings[place].quantity].weights_move_it]
    more = {place: bench.with_weights(place, sets) for place in moved}
    groups: dict[object, list[int]] = {}
    by_stage: dict[object, list[int]] = {}
    for place in moved:
        reading = readings[place]
        groups.setdefault((tuple(reading.fitted), reading.then), []).append(place)
        by_stage.setdefault((reading.stage.name, tuple(reading.fitted), reading.then), []).append(place)
    found = []
    taken = _taken_together(groups)
    stages = [tuple(places) for places in by_stage.values() if len(places) > 1]
    taken += [(places, OFTEN["one reading"]) for places in stages if places not in [each for each, _ in taken]]
    for places, share in taken:
        now = np.array(readings[places[0]].fitted)
        for choice, fitted in enumerate(sets):
            if np.array_equal(fitted, now):
                continue
            # left in or left out is one slip, one piece for another is a rarer one
            likely = OFTEN["swapped"] if now.any() and fitted.any() else OFTEN["weights"]
            off = bench.off.copy()
            off[list(places)] -= [more[place][choice] for place in places]
            cause = Cause(kind="weights", what=names[choice], readings=tuple(readings[place].where for place in places))
            count = 1 if not fitted.any() else len(pieces)
            found.append(fixed((cause,), likely * share / count, off))
    return found


def _to_the_butt(bench: Bench) -> list[Trial]:
    """A length at a stage with a grip, read to the end of the shaft: what it is without the cap."""
    groups: dict[object, list[int]] = {}
    for place in _of_the_club(bench):
        reading = bench.readings[place]
        if reading.quantity == "length" and reading.stage.stop_on_cap and not reading.stage.old_parts:
            groups.setdefault("length", []).append(place)
    found = []
    for places, share in _taken_together(groups):
        told = bench.at_stage(places, WITHOUT_GRIP[bench.readings[places[0]].stage == FINISHED])
        if told is not None:
            where = tuple(bench.readings[place].where for place in places)
            found.append(
                _booked(bench, Cause(kind="to the butt", what="", readings=where), OFTEN["to the butt"] * share, told)
            )
    return found

"""The bending stiffness along one shaft, from a few frequencies or tip deflections at several clamp positions.

Few numbers cannot fix a whole curve, so what comes out is a belief: EI at some nodes, how sure each is, and which share of
the doubt the readings removed there. Works on logarithms, in which a beam is nearly linear (twice the EI everywhere is
``sqrt(2)`` of the frequency). Derivation: docs/theory/stiffness-fit.md; checked in
tests/published/test_published_stiffness_fit.py.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian, Matrix, Vector, condition
from clubwright.belief.stiffness.checks import contradictions, plain, reading_findings
from clubwright.belief.stiffness.prior import StiffnessPrior, broad_prior, profile_at
from clubwright.belief.stiffness.reading import StiffnessReading
from clubwright.club.beam.static import tip_deflection
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.club.frequency import frequency_with_test_mass_hz
from clubwright.club.parts import Shaft
from clubwright.errors import Finding, InputError
from clubwright.units import STANDARD_GRAVITY_M_S2

PLACING_SD_M = 0.5e-3
"""Standard deviation with which a clamp's edge is placed on a shaft: from memory, no source."""
MASS_LINE_SD = 0.0015
"""Of a frequency: what is left when mass runs straight along the shaft. On a step-taper steel tube it is 0.14 to 0.19 %."""
STEP = 1e-3
"""Of log EI, for central differences: their error is some 1e-6 of the derivative."""
KEPT = 1e-3
"""While no log EI has moved by this since, the derivatives are kept: what their rounding makes would never come to rest."""


class StiffnessFit(msgspec.Struct, frozen=True, kw_only=True):
    """What is believed of a shaft's stiffness after its readings.

    Attributes:
        shaft: The shaft, with the fitted profile.
        prior, belief: Over log EI at the nodes, before and after.
        readings: What was read.
        predicted: What the fitted shaft gives for each, in its unit.
        slope: Derivatives of their logarithms by log EI, shape (readings, nodes): what each reading feels.
        reading_sd: Relative standard deviation each was taken with, shape (readings).
        findings: What is worth knowing.
    """

    shaft: Shaft
    prior: StiffnessPrior
    belief: Gaussian
    readings: tuple[StiffnessReading, ...]
    predicted: tuple[float, ...]
    slope: Matrix
    reading_sd: Vector
    findings: tuple[Finding, ...] = ()

    @property
    def profile(self) -> StiffnessProfile:
        """The most likely stiffness along the raw shaft."""
        return profile_at(self.prior.nodes_m, self.belief.mean)

    @property
    def ei_n_m2(self) -> tuple[float, ...]:
        """EI at each node."""
        return tuple(float(value) for value in np.exp(self.belief.mean))

    @property
    def relative_sd(self) -> tuple[float, ...]:
        """Standard deviation of EI at each node, as a share of it (that of log EI)."""
        return tuple(float(value) for value in np.sqrt(np.diag(self.belief.covariance)))

    @property
    def learned(self) -> tuple[float, ...]:
        """Share of the prior's variance that the readings removed at each node, 0 to 1."""
        after, before = np.diag(self.belief.covariance), np.diag(self.prior.belief.covariance)
        return tuple(float(value) for value in 1 - after / before)


def fit_stiffness(
    shaft: Shaft,
    readings: Sequence[StiffnessReading],
    prior: StiffnessPrior | None = None,
    *,
    placing_sd_m: float = PLACING_SD_M,
) -> StiffnessFit:
    """Return what a few readings say of the stiffness along a shaft.

    Args:
        shaft: Weighed and balanced, as it was read; plain numbers. Its mass along it is the straight line with that
            balance.
        readings: At least two, best at clamp positions far apart.
        prior: What is believed before; None for a shaft of which nothing is known.
        placing_sd_m: Standard deviation with which the clamp's edge is placed.

    Raises:
        InputError: Fewer than two readings, a number that cannot be one, a reading that no shaft gives, or readings that
            contradict each other: every finding.
        NotPossible: when the update does not settle.
    """
    findings = reading_findings(shaft, readings)
    if any(item.severity == "error" for item in findings):
        raise InputError(findings)
    prior = prior or broad_prior(plain(shaft.raw_length_m))
    seen = np.log([reading.value for reading in readings])
    noise = np.diag([_log_variance(shaft, reading, placing_sd_m) for reading in readings])
    model = _Model(shaft, prior.nodes_m, tuple(readings))
    start, start_slope = model(prior.belief.mean)
    findings += contradictions(readings, seen, start, _spread(start_slope, prior.belief, noise), alone=True)
    if any(item.severity == "error" for item in findings):
        raise InputError(findings)
    belief = condition(prior.belief, model, seen, noise)
    predicted, slope = model(belief.mean)
    # Left out one at a time, for a linear model: (z - h) / (1 - l) with variance R / (1 - l), l = H P H' / R.
    own = np.diag(noise)
    left = np.maximum(1 - np.diag(slope @ belief.covariance @ slope.T) / own, 1e-9)
    others = seen - (seen - predicted) / left
    findings += contradictions(readings, seen, others, np.sqrt(own / left), alone=False)
    if any(item.severity == "error" for item in findings):
        raise InputError(findings)
    return StiffnessFit(
        shaft=msgspec.structs.replace(shaft, stiffness=profile_at(prior.nodes_m, belief.mean), stiffness_factor=1.0),
        prior=prior,
        belief=belief,
        readings=tuple(readings),
        predicted=tuple(float(value) for value in np.exp(predicted)),
        slope=slope,
        reading_sd=np.sqrt(own),
        findings=tuple(findings),
    )


def predict_reading(fit: StiffnessFit, reading: StiffnessReading) -> tuple[float, float]:
    """Return what the shaft gives at another clamp, and the standard deviation its stiffness leaves, in Hz or m.

    The `value` and the `sd` of the reading asked for are not looked at, and the gauge's own scatter is not in the answer.
    """
    model = _Model(fit.shaft, fit.prior.nodes_m, (reading,))
    mean, slope = model(fit.belief.mean)
    value = float(np.exp(mean[0]))
    return value, value * float(np.sqrt((slope @ fit.belief.covariance @ slope.T)[0, 0]))


class _Model:
    """Predicts the logarithms of readings, and their derivatives, from log EI at the nodes."""

    def __init__(self, shaft: Shaft, nodes_m: tuple[float, ...], readings: tuple[StiffnessReading, ...]) -> None:
        self._shaft, self._nodes_m, self._readings = shaft, nodes_m, readings
        self._taken: tuple[Vector, Matrix] | None = None

    def __call__(self, log_ei: Vector) -> tuple[Vector, Matrix]:
        if self._taken is None or np.max(np.abs(log_ei - self._taken[0])) > KEPT:
            self._taken = log_ei.copy(), self._slope(log_ei)
        return self._logs(log_ei), self._taken[1]

    def _slope(self, log_ei: Vector) -> Matrix:
        slope = np.empty((len(self._readings), len(log_ei)))
        for node in range(len(log_ei)):
            step = np.zeros_like(log_ei)
            step[node] = STEP
            slope[:, node] = (self._logs(log_ei + step) - self._logs(log_ei - step)) / (2 * STEP)
        return slope

    def _logs(self, log_ei: Vector) -> Vector:
        profile = profile_at(self._nodes_m, log_ei)
        shaft = msgspec.structs.replace(self._shaft, stiffness=profile, stiffness_factor=1.0)
        return np.log(_values(shaft, profile, self._readings))


def _values(shaft: Shaft, profile: StiffnessProfile, readings: tuple[StiffnessReading, ...]) -> Vector:
    """Return what a shaft gives for each reading."""
    values = np.empty(len(readings))
    swung = [place for place, reading in enumerate(readings) if reading.kind == "frequency"]
    if swung:
        asked = [(readings[i].clamp_length_m, readings[i].mass_kg, readings[i].insertion_m) for i in swung]
        clamps, masses, insertions = np.array(asked).T
        values[swung] = frequency_with_test_mass_hz(shaft, clamps, masses, insertions)
    tip_m = plain(shaft.tip_trim_m)
    butt_m = tip_m + plain(shaft.length_m)
    for place, reading in enumerate(readings):
        if reading.kind == "deflection":
            load_n = reading.mass_kg * STANDARD_GRAVITY_M_S2
            values[place] = tip_deflection(profile, tip_m, butt_m - reading.clamp_length_m, load_n).down_m
    return values


def _log_variance(shaft: Shaft, reading: StiffnessReading, placing_sd_m: float) -> float:
    """Return the variance of the logarithm of a reading: the gauge's own, where the clamp was, the mass.

    A clamp misplaced by d changes the free length L: the frequency by 1.5 d/L of it, a deflection by 3 d/L.
    """
    power, model_sd = (1.5, MASS_LINE_SD) if reading.kind == "frequency" else (3.0, 0.0)
    free_m = plain(shaft.length_m) - reading.clamp_length_m
    return (reading.sd / reading.value) ** 2 + (power * placing_sd_m / free_m) ** 2 + model_sd**2


def _spread(slope: Matrix, belief: Gaussian, noise: Matrix) -> Vector:
    return np.asarray(np.sqrt(np.diag(slope @ belief.covariance @ slope.T + noise)))

"""One mode or two: by what each leaves over near the frequency, and by what it costs.

Derivation: docs/theory/trace.md.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import log, pi

import msgspec
import numpy as np
from scipy.special import ndtri, stdtrit

from clubwright.club.trace.decay_fit import DecayFit, Mode, fit_decay, pencil_start
from clubwright.club.trace.span import Span
from clubwright.club.trace.spectrum import chance_of_peak, left_over, near

ROUNDING = 1e-16
"""Energy that a fit may leave over, as a share of the swing's, before it is rounding and no longer noise."""

CLEAR_LEAD = 20.0
"""By how much the criterion must fall before the second mode is believed: very strong evidence on the usual scale."""

NOISE_LIKE = 1e-3
"""What is left over is noise unless a largest ordinate so high would come from noise less often than this."""

PLANES_APART = 1.15
"""Ratio that the two bending planes of a club stay within by far."""

RESOLVED_BEAT = 0.5
"""Beats that the span must hold before two frequencies are told apart."""

MOST_BESIDE = 3
"""Other swings that are fitted along at most: the bench, a motor, one more."""

LEAST_BESIDE = 0.003
"""Their least amplitude, as a share of the club's."""

RESOLVED_SD = 5.0
"""Standard deviations that the two frequencies must be apart."""


class Judged(msgspec.Struct, frozen=True, kw_only=True):
    """A fit and what speaks for it.

    Attributes:
        fit: The fit.
        variance: Noise near the frequency, as the variance of white noise of that density, per sample of the span.
        criterion: Bayesian information criterion; lower is better.
        chance_of_peak: Chance that noise alone leaves so high a line near the frequency.
    """

    fit: DecayFit
    variance: float
    criterion: float
    chance_of_peak: float


class Choice(msgspec.Struct, frozen=True, kw_only=True):
    """The model chosen and its rival.

    Attributes:
        one: One mode.
        two: Two modes.
        second_wanted: The criterion wants the second mode.
        second_resolved: Its frequency can be told from the first.
    """

    one: Judged
    two: Judged
    second_wanted: bool
    second_resolved: bool

    @property
    def chosen(self) -> Judged:
        """The model to report."""
        return self.two if self.second_wanted and self.second_resolved else self.one


def choose(span: Span, at_hz: float, most_hz: float = 0.0, known_hz: Sequence[float] = ()) -> Choice:
    """Fit one mode and two, and say which the samples speak for.

    Args:
        span: The samples.
        at_hz: Roughly the frequency.
        most_hz: Up to which frequency something else that swings is looked for and fitted along; nowhere when 0.
        known_hz: What else is known to swing, such as a motor that was found before.
    """
    omega, slow = 2 * pi * at_hz, 0.5 / span.length_s
    starts = [[omega, slow], [omega, 6 * slow]]
    pencil = pencil_start(span.values, span.rate_hz, 1) if span.at_s is None else None
    starts += [pencil] if pencil else []
    known = [part for other in known_hz for part in (2 * pi * other, 0.0)]
    one = _judged(span, at_hz, _fit(span, starts, known))
    one = _with_others(span, at_hz, one, starts, most_hz)
    two = _two(span, at_hz, one)
    both = _with_others(span, at_hz, two, [], most_hz)
    if len(both.fit.beside) > len(one.fit.beside):
        # a second plane had hidden them
        two, one = both, _judged(span, at_hz, _fit(span, [_start(one.fit.modes), *starts], _start(both.fit.beside)))
    return Choice(
        one=one,
        two=two,
        second_wanted=two.criterion < one.criterion - CLEAR_LEAD and _both_near(at_hz, two),
        second_resolved=_resolved(span, two),
    )


def _start(modes: Sequence[Mode]) -> list[float]:
    return [part for mode in modes for part in (2 * pi * mode.frequency_hz, mode.decay_per_s)]


def _with_others(span: Span, at_hz: float, judged: Judged, starts: Sequence[Sequence[float]], most_hz: float) -> Judged:
    """Fit along what else swings, as long as it is stronger than what is left over where the planes are."""
    while len(judged.fit.beside) < MOST_BESIDE:
        line = _something_else(span, at_hz, judged.fit, most_hz)
        if line is None:
            break
        beside = [*_start(judged.fit.beside), 2 * pi * line, 0.5 / span.length_s]
        judged = _judged(span, at_hz, _fit(span, [_start(judged.fit.modes), *starts], beside))
    return judged


def _two(span: Span, at_hz: float, one: Judged) -> Judged:
    mode, turn = one.fit.modes[0], 2 * pi / span.length_s
    centre, decay = 2 * pi * mode.frequency_hz, mode.decay_per_s
    pairs = [
        [centre + place * turn, decay, centre + (place + apart) * turn, decay]
        for apart in (1.0, 2.5)
        for place in (-apart, 0.0)
    ]
    pencil = pencil_start(span.values, span.rate_hz, 2) if span.at_s is None else None
    return _judged(span, at_hz, _fit(span, [*pairs, *([pencil] if pencil else [])], _start(one.fit.beside)))


def _fit(span: Span, starts: Sequence[Sequence[float]], beside: Sequence[float]) -> DecayFit:
    at_s = None if span.at_s is None else span.time_s
    return fit_decay(span.values, span.rate_hz, starts, at_s=at_s, beside=beside)


def _something_else(span: Span, at_hz: float, fit: DecayFit, most_hz: float) -> float | None:
    """Return the frequency of the strongest line left over, unless it lies where the planes are; None where none is."""
    bands = [(mode.frequency_hz - 1 / span.length_s, mode.frequency_hz + 1 / span.length_s) for mode in fit.beside]
    line = left_over(fit.residual, span.time_s, most_hz, bands) if most_hz > 0 else None
    if line is None or 1 / PLANES_APART < line[0] / at_hz < PLANES_APART:
        return None
    return line[0] if line[1] > LEAST_BESIDE * fit.modes[0].amplitude else None


def _judged(span: Span, at_hz: float, fit: DecayFit) -> Judged:
    left = near(fit.residual, span.rate_hz, at_hz, None if span.at_s is None else span.time_s)
    within = [mode for mode in fit.beside if 0.6 * at_hz < mode.frequency_hz < 1.6 * at_hz]
    taken = 2 * (len(fit.modes) + len(within))
    rounding = ROUNDING * float(np.sum(span.values**2))
    count, total = 2 * left.size, float(left.sum()) + rounding
    return Judged(
        fit=fit,
        variance=total / max(1, left.size - taken) * _few(2 * max(1, left.size - taken)),
        criterion=count * log(total) + 2 * taken * log(count),
        chance_of_peak=chance_of_peak(left) if total > 2 * rounding else 1.0,
    )


def _few(freedom: int) -> float:
    """Return by how much a variance known from few ordinates is raised, so that 1.96 standard deviations hold 95 %."""
    return float((stdtrit(freedom, 0.975) / ndtri(0.975)) ** 2)


def _both_near(at_hz: float, two: Judged) -> bool:
    """Whether both modes lie where two bending planes can; what is farther off is another mode, let through in part."""
    return all(1 / PLANES_APART < mode.frequency_hz / at_hz < PLANES_APART for mode in two.fit.modes)


def _resolved(span: Span, two: Judged) -> bool:
    """Whether two modes are two: apart by enough, each decaying, neither a thousand times the other."""
    first, second = two.fit.modes
    apart = abs(first.frequency_hz - second.frequency_hz)
    return (
        apart > RESOLVED_SD * two.fit.separation_sd_hz(two.variance)
        and apart * span.length_s >= RESOLVED_BEAT
        and all(mode.decay_per_s > 0 for mode in two.fit.modes)
        and first.amplitude < 1e3 * second.amplitude
    )

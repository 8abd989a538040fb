"""One mode or two: by what each leaves over near the frequency, and by what it costs.

Derivation: docs/theory/trace.md.
"""

from __future__ import annotations

from math import log, pi

import msgspec
import numpy as np

from clubwright.club.trace.decay_fit import DecayFit, fit_decay, pencil_start
from clubwright.club.trace.span import Span
from clubwright.club.trace.spectrum import chance_of_peak, near

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


def choose(span: Span, at_hz: float) -> Choice:
    """Fit one mode and two, and say which the samples speak for."""
    omega, turn = 2 * pi * at_hz, 2 * pi / span.length_s
    slow = 0.5 / span.length_s
    starts = [[omega, slow], [omega, 6 * slow]]
    pencil = pencil_start(span.values, span.rate_hz, 1)
    one = _judged(span, at_hz, fit_decay(span.values, span.rate_hz, [*starts, *([pencil] if pencil else [])]))
    mode = one.fit.modes[0]
    centre, decay = 2 * pi * mode.frequency_hz, mode.decay_per_s
    pairs = [
        [centre + place * turn, decay, centre + (place + apart) * turn, decay]
        for apart in (1.0, 2.5)
        for place in (-apart, 0.0)
    ]
    pencil = pencil_start(span.values, span.rate_hz, 2)
    two = _judged(span, at_hz, fit_decay(span.values, span.rate_hz, [*pairs, *([pencil] if pencil else [])]))
    return Choice(
        one=one,
        two=two,
        second_wanted=two.criterion < one.criterion - CLEAR_LEAD and _both_near(at_hz, two),
        second_resolved=_resolved(span, two),
    )


def _judged(span: Span, at_hz: float, fit: DecayFit) -> Judged:
    left = near(fit.residual, span.rate_hz, at_hz)
    taken = 2 * len(fit.modes)
    rounding = ROUNDING * float(np.sum(span.values**2))
    count, total = 2 * left.size, float(left.sum()) + rounding
    return Judged(
        fit=fit,
        variance=total / max(1, left.size - taken),
        criterion=count * log(total) + 2 * taken * log(count),
        chance_of_peak=chance_of_peak(left) if total > 2 * rounding else 1.0,
    )


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

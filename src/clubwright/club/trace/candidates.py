"""Which line of a record may be the club: where clubs swing, the strongest first, and one that dies away.

A bench sways slower and weaker, a motor hums on, the second bend lies at six times the frequency and more. Derivation and
limits: docs/theory/trace.md.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

from clubwright.club.trace.model_choice import Judged
from clubwright.club.trace.record import Trace
from clubwright.club.trace.spectrum import Line
from clubwright.errors import Finding

CLUB_HZ = (100 / 60, 1000 / 60)
"""Where clamped clubs and weighted bare shafts swing: 100 to 1000 cpm. Common practice, no source; a named band wins."""

AS_STRONG = 1 / 3
"""Share of the strongest line's amplitude from which a lower one may be the club as well."""

SECOND_BEND = 5.0
"""Ratio from which the stronger of two lines may be the second bend of the lower one (6.27 for a bare cantilever)."""

LEAST_DAMPING = 2e-4
"""Damping ratio that whatever a clamp holds is above: clamped shafts have 0.1 % and more (from memory)."""

STEADY_SD = 2.0
"""Standard deviations that the decay must be above none."""

_NAME_IT = "Say where the club is with --lowest and --highest."


def candidates(found: Sequence[Line], band_hz: tuple[float, float] | None) -> list[Line]:
    """Return the lines that may be the club, likeliest first: the lowest of a band that is named, else the strongest."""
    if band_hz is not None:
        return list(found)
    return sorted(
        (line for line in found if CLUB_HZ[0] <= line.frequency_hz <= CLUB_HZ[1]), key=lambda line: -line.power
    )


def elsewhere_findings(trace: Trace, found: Sequence[Line], may_be: Sequence[Line]) -> list[Finding]:
    """Return the finding that what swings does so where no club does."""
    if may_be or not found:
        return []
    listed = " and ".join(f"{line.frequency_hz * 60:.0f}" for line in found[:3])
    what = (
        f"what stands out is at {listed} cpm, and clubs swing at {CLUB_HZ[0] * 60:.0f} to {CLUB_HZ[1] * 60:.0f} cpm: "
        "it may be the bench, a motor or the second bend"
    )
    return [Finding(where=trace.source, what=what, mend=f"Pluck farther, or move the sensor. {_NAME_IT}")]


def rivals(chosen: Line, may_be: Sequence[Line]) -> list[Line]:
    """Return lower lines that may be the club as well as the one chosen."""
    return [
        line
        for line in may_be
        if line.frequency_hz < chosen.frequency_hz / 1.6
        and (line.power >= AS_STRONG**2 * chosen.power or line.frequency_hz < chosen.frequency_hz / SECOND_BEND)
    ]


def rival_findings(trace: Trace, chosen: Line, rival: Line) -> list[Finding]:
    """Return the finding that two lines may be the club."""
    what = f"{rival.frequency_hz * 60:.0f} and {chosen.frequency_hz * 60:.0f} cpm both die away, and either may be the club"
    return [Finding(where=trace.source, what=what, mend=f"Quiet the bench, or pluck straight. {_NAME_IT}")]


def is_steady(judged: Judged) -> bool:
    """True for a swing that does not die away within what is known of it: a motor's, or the building's."""
    mode, sd = judged.fit.modes[0], judged.fit.decay_sd_per_s(judged.variance)[0]
    least = LEAST_DAMPING * 2 * pi * mode.frequency_hz
    return -STEADY_SD * sd <= mode.decay_per_s < max(STEADY_SD * sd, least)


def steady_findings(trace: Trace, judged: Judged) -> list[Finding]:
    """Return the finding that the swing does not die away, and a plucked club does."""
    at = judged.fit.modes[0].frequency_hz * 60
    what = f"what swings at {at:.0f} cpm does not die away, and a plucked club does: a motor, or the building"
    return [Finding(where=trace.source, what=what, mend=f"Switch it off, or record longer. {_NAME_IT}")]

"""Rank what can have gone wrong by how well it foretells all readings of a club at once, times how often it happens.

Readings that have nothing to do with each other (an angle, and a mass) are explained apart. Within what hangs together one
thing went wrong, or two: the likeliest single ones are tried with every slip of a number beside them.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import numpy as np

from clubwright.belief.causes.bookings import Bench, bookings
from clubwright.belief.causes.cause import NOT_SAID, Cause, Explanation, Known
from clubwright.belief.causes.evidence import Trial, changes, fixed, weigh
from clubwright.belief.causes.slips import BESIDE, slips
from clubwright.belief.gaussian import Gaussian, Matrix
from clubwright.belief.readings import Reading
from clubwright.belief.update import with_biases
from clubwright.club.build import Conventions
from clubwright.club.parts import Club
from clubwright.errors import Where

APART = 0.02
"""Correlation up to which two readings have nothing to do with each other."""

STILL_RIGHT = 0.85
"""How often nothing goes wrong on a club (estimate of ours)."""

PAIRED = 10
"""So many of the likeliest single causes are tried with another beside them."""

KEPT = 40
"""So many of the likeliest explanations are kept; those behind have next to no chance."""


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """What explains one reading, together with all that hang together with it.

    Attributes:
        nothing: How likely it is that nothing went wrong and all is chance, from 0 to 1.
        ranked: What can have gone wrong, likeliest first; a figure of a part comes once, under what is likelier of it.
    """

    nothing: float
    ranked: tuple[Explanation, ...]


def explain(
    prior: Gaussian,
    template: Club,
    conventions: Conventions,
    readings: Sequence[Reading],
    suspects: Sequence[Where],
    known: Known = NOT_SAID,
) -> dict[Where, Told]:
    """Explain readings that do not fit, with all readings of the club that hang together with them.

    Args:
        prior: Belief from the parts alone.
        template: The club.
        conventions: Definitions in use.
        readings: All that were taken and are not left out by decision, those that do not fit among them.
        suspects: Places of those that do not fit.
        known: How the numbers of the parts are known.

    Returns:
        For each of the suspects what explains it; those that hang together have one explanation.
    """
    prior = with_biases(prior, readings)
    spread = Bench(prior, template, conventions, readings).base
    found: dict[Where, Told] = {}
    for where in suspects:
        if where not in found:
            mine = _hanging_together(spread, [item.where == where for item in readings])
            told = _told(Bench(prior, template, conventions, [readings[place] for place in mine]), known)
            found |= {readings[place].where: told for place in mine}
    return {where: found[where] for where in suspects}


def _told(bench: Bench, known: Known) -> Told:
    numbers = slips(bench.prior, bench.readings, bench.off, bench.slope, known)
    trials = [fixed((), STILL_RIGHT, bench.off), *numbers, *bookings(bench)]
    first = weigh(trials, bench.base)
    order = np.argsort(-first.log_chance, kind="stable")
    best = [trials[place] for place in order if trials[place].causes][:PAIRED]
    beside = [trial for trial in numbers if trial.causes[0].kind in BESIDE]
    return _ranked([*trials, *(_both(one, other, bench.off) for one, other in _pairs(best, beside))], bench)


def _hanging_together(spread: Matrix, start: Sequence[bool]) -> list[int]:
    """Return the places of the readings that are correlated with a first one, or with one that is."""
    scale = np.sqrt(np.diag(spread))
    near = np.abs(spread / (scale[:, None] * scale)) > APART
    found = np.array(start)
    while (more := near[found].any(axis=0) | found).sum() > found.sum():
        found = more
    return [int(place) for place in np.flatnonzero(found)]


def _pairs(best: Sequence[Trial], numbers: Sequence[Trial]) -> list[tuple[Trial, Trial]]:
    found: list[tuple[Trial, Trial]] = []
    seen: set[frozenset[Cause]] = set()
    for one in best:
        for other in numbers:
            both = frozenset((*one.causes, *other.causes))
            apart = {(cause.what, cause.readings) for cause in both}
            if len(apart) == 2 and both not in seen:
                seen.add(both)
                found.append((one, other))
    return found


def _looked_at(cause: Cause) -> tuple[str, str, tuple[Where, ...]]:
    """What a person would look at: of a number that it may be another, or typed wrong; of readings that a weight was on."""
    if cause.kind in ("figure", "typed"):
        return "number", cause.what, ()
    return cause.kind, "" if cause.kind == "weights" else cause.what, cause.readings


def _both(one: Trial, other: Trial, off: np.ndarray) -> Trial:
    return Trial(
        causes=one.causes + other.causes,
        often=one.often * other.often,
        off=one.off + (other.off - off),
        columns=np.hstack([one.columns, other.columns]),
        spread=one.spread,
        slips=(*one.slips, *((size, place + len(one.causes)) for size, place in other.slips)),
    )


def _ranked(trials: list[Trial], bench: Bench) -> Told:
    weighed = weigh(trials, bench.base)
    chance = np.exp(weighed.log_chance - weighed.log_chance.max())
    chance /= chance.sum()
    still, scale = weighed.off_by_sd(), np.sqrt(np.diag(bench.base))
    places: dict[frozenset[object], list[int]] = {}
    for place in np.argsort(-chance, kind="stable"):
        places.setdefault(frozenset(map(_looked_at, trials[place].causes)), []).append(int(place))
    nothing = places.pop(frozenset())
    found = [
        Explanation(
            causes=changes(trials[alike[0]], weighed.inverse[alike[0]], weighed.off[alike[0]], scale),
            chance=float(chance[alike].sum()),
            off_by_sd={item.where: float(z) for item, z in zip(bench.readings, still[alike[0]], strict=True)},
        )
        for alike in places.values()
    ]
    found.sort(key=lambda item: -item.chance)
    return Told(nothing=float(chance[nothing].sum()), ranked=tuple(found[:KEPT]))

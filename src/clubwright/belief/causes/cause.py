"""What can go wrong at a bench, as data, and how often each is taken to happen before anything is read.

A cause has a kind, what it is about, and numbers. The frequencies (`OFTEN`) are shares of clubs and the sizes (`SLIP_SIZE`,
`MISREAD`) standard deviations of a mistake once made. All of them are estimates of ours: nobody has counted mistakes of
a workshop. What they do is held against mistakes injected in simulated clubs (benchmarks/causes.py).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import msgspec

from clubwright.club.part_paths import TAPES, WEIGHTS, came_path, of_each, path_of, read_path, without_earlier
from clubwright.club.parts import Came
from clubwright.errors import Where

CauseKind = Literal[
    "figure", "typed", "layer", "scale", "stage", "weights", "to the butt", "letter", "reading", "gauge"
]
"""A number of a part is another than entered, or was typed wrong; a layer of tape is missing or too many; the scale of the
parts is off zero; readings belong to another stage, or to other weights; a length was read to the butt instead of the cap; a
letter of the swing weight is wrong; one reading is wrong; all readings of a gauge are off."""

OFTEN: dict[
    CauseKind | Literal["assumed", "weighed", "another head", "another grip", "one reading", "swapped"], float
] = {
    "assumed": 0.03,
    "figure": 0.01,
    "weighed": 0.003,
    "another head": 0.04,
    "another grip": 0.02,
    "typed": 0.004,
    "layer": 0.02,
    "scale": 0.01,
    "stage": 0.03,
    "weights": 0.03,
    "swapped": 0.01,
    "one reading": 0.3,
    "to the butt": 0.04,
    "letter": 0.02,
    "reading": 0.004,
    "gauge": 0.002,
}
"""Share of clubs in which it happens, of each figure, stage, set of weights, reading or gauge.

Estimates of ours. A number of a part that nobody entered (``assumed``) is another than its default ten times as often as
one that a named gauge weighed (``weighed``); head and grip are taken from the wrong place of a rack more often than a shaft
is; ``swapped`` is one piece for another; ``one reading`` is how often a slip of stage or weights is of one reading alone,
where several were taken in a row.
"""

SLIP_SIZE: dict[str, float] = {
    "grip.mass_kg": 4e-3,
    "grip.cap_m": 2e-3,
    "grip.cg_from_cap_m": 8e-3,
    "head.mass_kg": 4e-3,
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
    # a whole piece taken for another is a reading with the wrong weights
    path_of(WEIGHTS, "mass_kg"): 1e-3,
}
"""How large a slip in this number usually is when one is made, by unknown (tapes and weights share one entry each; of what
a change made different, by the figure alone)."""

SLIP_SIZE |= {
    came_path(path): size
    for path, size in list(SLIP_SIZE.items())
    if read_path(path).part in Came.__struct_fields__ and path != "shaft.butt_diameter_m"  # it is measured bare
}

MISREAD = 25.0
"""How far off a misread reading usually is, in standard uncertainties of its gauge: three to four points, 3 g, 9 mm."""

SCALE_SLIP_KG = 0.4e-3
"""How far off zero a scale of the parts usually is when it is (estimate of ours)."""

LETTER = 10.0
"""Points from one letter of the swing weight to the next."""


class Known(msgspec.Struct, frozen=True, kw_only=True):
    """How the numbers of the parts are known.

    Attributes:
        assumed: Unknowns for which a documented default stands.
        weighed: Unknowns that a named gauge measured.
        layers: Of each tape, how many layers of it are on.
    """

    assumed: frozenset[str] = frozenset()
    weighed: frozenset[str] = frozenset()
    layers: tuple[int, ...] = ()


NOT_SAID = Known()


class Cause(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that went wrong.

    Attributes:
        kind: What kind of thing.
        what: Path of the part's number, name of the stage or the gauge, or the piece that was on (empty for none).
        change: By how much that number, or what the readings show, is more than entered, in SI; of a layer, how many more.
        readings: Places of the readings that it is about; empty where it is about the club.
    """

    kind: CauseKind
    what: str
    change: float = 0.0
    readings: tuple[Where, ...] = ()


class Explanation(msgspec.Struct, frozen=True, kw_only=True):
    """One way to reconcile the readings of a club with its parts.

    Attributes:
        causes: One thing that went wrong, or two at once.
        chance: Its posterior probability among all that were tried, nothing wrong among them, from 0 to 1.
        off_by_sd: By its place, how far off each reading still is when the others are believed, in standard deviations.
    """

    causes: tuple[Cause, ...]
    chance: float
    off_by_sd: Mapping[Where, float]


def slip_size(unknown: str) -> float | None:
    """Return the usual size of a slip in an unknown, in SI; None for one in which no slip is looked for."""
    _, path = without_earlier(unknown)  # a part that was on before is mistaken as one that is on
    return SLIP_SIZE.get(of_each(path))

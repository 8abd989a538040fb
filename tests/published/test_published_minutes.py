"""Minutes of a job: sums over its steps, and a cure between two rows of a sheet, each beside numpy."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from clubwright.planning.joint.cure import release_time
from clubwright.planning.steps.minutes import times_of

Published = Callable[..., None]
MINUTES = {"weigh": 6.0, "mix": 4.0, "glue": 3.0, "cure": 720.0, "grip": 5.0}
"""An invented shop's."""
ROWS = ((298.15, 12 * 3600.0), (313.15, 3 * 3600.0))


def test_minutes_of_the_work_and_of_the_cure(published: Published) -> None:
    minutes_s = {step: 60.0 * minutes for step, minutes in MINUTES.items()}
    at_k = 303.15
    # a straight line between the logarithms of both times
    cure_s = float(np.exp(np.interp(at_k, [row[0] for row in ROWS], np.log([row[1] for row in ROWS]))))
    found = times_of(MINUTES, minutes_s, release_time(list(ROWS), at_k).time_s)
    published(
        quantity="hands-on minutes of five steps, one of which waits",
        source="numpy.sum",
        theirs=float(np.sum([minutes for step, minutes in MINUTES.items() if step != "cure"])),
        ours=found.hands_on_s / 60,
        tolerance=1e-9,
        unit="min",
        standing="library",
    )
    published(
        quantity="waiting of a joint at 30 C between 12 h at 25 C and 3 h at 40 C",
        source="numpy.interp on logarithms of the times",
        theirs=cure_s / 60,
        ours=found.waiting_s / 60,
        tolerance=1e-6,
        unit="min",
        standing="library",
    )

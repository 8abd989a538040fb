"""The line of a set weighs each club by its doubt: numpy's polyfit with weights beside it, and a planned club that errs."""

from __future__ import annotations

import numpy as np
import pytest

from clubwright.planning.set_slope import ALIKE_HZ, SetClub, set_slope
from clubwright.units import CPM_HZ, INCH_M

LENGTHS_IN = (36.0, 36.5, 37.0, 37.5, 38.0)
CPM = (340.0, 336.5, 331.0, 328.0, 322.0)


def clubs(cpm: tuple[float, ...], sds: tuple[float, ...]) -> list[SetClub]:
    return [
        SetClub(name=f"{inch}", length_m=inch * INCH_M, frequency_hz=heard * CPM_HZ, frequency_sd_hz=sd * CPM_HZ)
        for inch, heard, sd in zip(LENGTHS_IN, cpm, sds, strict=True)
    ]


def test_it_is_the_weighed_line_of_a_general_purpose_library():
    sds = (0.5, 5.0, 0.5, 4.0, 0.6)
    line = set_slope(clubs(CPM, sds))
    at = np.array(LENGTHS_IN) * INCH_M
    weights = 1 / np.sqrt((np.array(sds) * CPM_HZ) ** 2 + ALIKE_HZ**2)  # polyfit takes the root of ours
    slope, start = np.polyfit(at, np.array(CPM) * CPM_HZ, 1, w=weights)
    assert line.slope_hz_m == pytest.approx(slope, rel=1e-9)
    assert [line.at_hz(float(x)) for x in at] == pytest.approx([slope * x + start for x in at], rel=1e-9)
    weighed = weights**2 / np.mean(weights**2)
    rest = np.array(CPM) * CPM_HZ - (slope * at + start)
    assert line.scatter_hz == pytest.approx(np.sqrt(np.sum(weighed * rest**2) / 3))


def test_a_club_that_is_only_planned_hardly_moves_the_line_of_the_built_ones():
    """Built ones on a line of 8 cpm an inch; one planned club 10 cpm off it, known to 5 cpm."""
    on_it = tuple(330 - 8 * (inch - 37) for inch in LENGTHS_IN)
    off = (*on_it[:4], on_it[4] + 10)
    straight = set_slope(clubs(on_it, (0.5,) * 5))
    pulled = set_slope(clubs(off, (0.5, 0.5, 0.5, 0.5, 5.0)))
    assert abs(pulled.at_hz(37 * INCH_M) - straight.at_hz(37 * INCH_M)) < 0.3 * CPM_HZ
    as_if_built = set_slope(clubs(off, (0.5,) * 5))
    assert abs(as_if_built.at_hz(37 * INCH_M) - straight.at_hz(37 * INCH_M)) > 1.9 * CPM_HZ


def test_clubs_known_alike_make_the_ordinary_line():
    for sd in (0.0, 0.5, 5.0):
        line = set_slope(clubs(CPM, (sd,) * 5))
        assert line.slope_hz_m == pytest.approx(np.polyfit(np.array(LENGTHS_IN) * INCH_M, np.array(CPM) * CPM_HZ, 1)[0])

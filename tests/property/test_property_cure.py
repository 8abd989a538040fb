"""Release times err towards longer: chords over Arrhenius, monotone, additive."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from clubwright.planning.joint.arrhenius import equivalent_time_s
from clubwright.planning.joint.cure import cured_share, release_time

COLDEST, HOTTEST = 288.0, 423.0
temperatures = st.floats(COLDEST, HOTTEST)
energies = st.floats(30e3, 100e3)
steps = st.lists(st.floats(1.0, 30.0), min_size=1, max_size=5)


def sheet(energy: float, widths: list[float]) -> list[tuple[float, float]]:
    rows_k = [COLDEST]
    for width in widths:
        rows_k.append(rows_k[-1] + width)
    return [(k, equivalent_time_s(86_400.0, COLDEST, k, energy)) for k in rows_k]


@given(energies, steps, temperatures)
def test_the_time_read_is_never_shorter_than_arrhenius_between_rows(energy: float, widths: list[float], kelvin: float):
    rows = sheet(energy, widths)
    kelvin = min(kelvin, rows[-1][0])
    true_s = equivalent_time_s(86_400.0, COLDEST, kelvin, energy)
    assert release_time(rows, kelvin).time_s >= true_s * (1 - 1e-9)


@given(energies, steps, temperatures, temperatures)
def test_a_hotter_part_never_needs_longer(energy: float, widths: list[float], one: float, other: float):
    rows = sheet(energy, widths)
    cold, hot = sorted((one, other))
    assert release_time(rows, hot).time_s <= release_time(rows, cold).time_s * (1 + 1e-12)


@given(
    energies, steps, st.lists(st.tuples(st.floats(0.0, 1e5), st.floats(250.0, 450.0)), max_size=6), st.integers(0, 6)
)
def test_a_history_cut_in_two_adds_up(energy: float, widths: list[float], history: list[tuple[float, float]], cut: int):
    rows = sheet(energy, widths)
    whole = cured_share(rows, history)
    assert whole == pytest.approx(cured_share(rows, history[:cut]) + cured_share(rows, history[cut:]))


@given(energies, steps, temperatures)
def test_staying_for_the_release_time_is_exactly_a_cure(energy: float, widths: list[float], kelvin: float):
    rows = sheet(energy, widths)
    assert cured_share(rows, [(release_time(rows, kelvin).time_s, kelvin)]) == pytest.approx(1.0)

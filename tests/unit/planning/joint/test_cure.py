"""Release of a glued joint from the data sheet's table: never below it, never faster than it."""

from __future__ import annotations

import math

import pytest

from clubwright.errors import InputError, NotPossible
from clubwright.planning.joint.arrhenius import activation_energy_j_mol
from clubwright.planning.joint.cure import checked_table, cured_share, heat_findings, release_time, released

ZERO_C = 273.15
HOUR = 3600.0
TABLE = ((ZERO_C + 40, 3 * HOUR), (ZERO_C + 20, 15 * HOUR), (ZERO_C + 70, 50 * 60.0))  # in any order


def at(celsius: float, **options: object):
    return release_time(TABLE, ZERO_C + celsius, **options)


def test_between_two_rows_the_time_is_their_geometric_mean_half_way():
    assert at(30).time_s == pytest.approx(math.sqrt(15 * 3) * HOUR)


def test_the_colder_rows_time_is_given_beside_it():
    assert at(30).colder_row_s == 15 * HOUR
    assert at(40).colder_row_s == at(40).time_s == pytest.approx(3 * HOUR)
    assert at(90).colder_row_s == 50 * 60.0


def test_colder_than_the_sheet_there_is_no_answer_but_a_thing_to_do():
    with pytest.raises(NotPossible) as caught:
        at(19.9)
    assert "Warm the part to 20.0 °C" in caught.value.instead


def test_68_fahrenheit_is_the_20_celsius_row():
    assert release_time(TABLE, (68 - 32) / 1.8 + ZERO_C - 1e-10).time_s == pytest.approx(15 * HOUR)


def test_above_the_hottest_row_the_time_is_held_and_said():
    held = at(90, shaft_material="steel")
    assert held.time_s == 50 * 60.0
    assert ["above the sheet's hottest row" in finding.what for finding in held.findings] == [True]
    assert at(70, shaft_material="steel").findings == ()


def test_the_thermometers_error_is_taken_off_before_the_table_is_read():
    assert at(32, temperature_allowance_k=2.0).time_s == pytest.approx(at(30).time_s)
    with pytest.raises(NotPossible):
        at(21, temperature_allowance_k=2.0)


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ((), "no rows"),
        (((20.0, 100.0),), "kelvin"),
        (((300.0, math.nan),), "row 1, time"),
        (((300.0, 0.0),), "row 1, time"),
        (((300.0, 10.0), (300.0, 9.0)), "two rows"),
        (((300.0, 10.0), (310.0, 11.0)), "takes longer"),
    ],
)
def test_a_table_that_cannot_be_one_is_refused(table: tuple[tuple[float, float], ...], says: str):
    with pytest.raises(InputError, match=says):
        checked_table(table)


def test_all_wrong_rows_are_reported_at_once():
    with pytest.raises(InputError) as caught:
        checked_table(((20.0, -1.0), (300.0, math.inf)))
    assert len(caught.value.findings) == 3


def test_a_part_that_has_no_temperature_is_refused():
    with pytest.raises(InputError, match="temperature of the part"):
        release_time(TABLE, math.nan)


def test_one_row_serves_its_own_temperature_only():
    only = ((ZERO_C + 25, 100.0),)
    assert release_time(only, ZERO_C + 25).time_s == 100.0
    with pytest.raises(NotPossible):
        release_time(only, ZERO_C + 24)


def test_shares_of_a_history_add_up():
    history = ((7.5 * HOUR, ZERO_C + 20), (1.5 * HOUR, ZERO_C + 40))
    assert cured_share(TABLE, history) == pytest.approx(1.0)
    assert released(TABLE, history).released
    assert released(TABLE, history).remaining_s == 0.0


def test_a_cold_night_counts_nothing_and_says_so():
    history = ((7.5 * HOUR, ZERO_C + 20), (100 * HOUR, ZERO_C + 5))
    so_far = released(TABLE, history, shaft_material="steel")
    assert so_far.cured_share == pytest.approx(0.5)
    assert not so_far.released
    assert so_far.remaining_s is None
    assert ["span 2" in finding.what for finding in so_far.findings] == [True]


def test_what_remains_is_at_the_temperature_of_the_last_span():
    so_far = released(TABLE, ((7.5 * HOUR, ZERO_C + 20), (0.0, ZERO_C + 40)))
    assert so_far.remaining_s == pytest.approx(1.5 * HOUR)


def test_heat_beyond_the_sheet_counts_no_faster():
    assert cured_share(TABLE, ((25 * 60.0, ZERO_C + 200),)) == pytest.approx(0.5)


def test_nothing_recorded_is_nothing_cured():
    nothing = released(TABLE, ())
    assert (nothing.released, nothing.cured_share, nothing.remaining_s) == (False, 0.0, None)


def test_a_moment_short_is_not_released():
    assert not released(TABLE, ((15 * HOUR - 1.0, ZERO_C + 20),)).released
    assert released(TABLE, ((15 * HOUR, ZERO_C + 20),)).released


def test_a_history_with_wrong_numbers_reports_them_all():
    with pytest.raises(InputError) as caught:
        cured_share(TABLE, ((-1.0, ZERO_C + 20), (60.0, math.nan)), temperature_allowance_k=-1.0)
    assert len(caught.value.findings) == 3


def test_graphite_and_unknown_shafts_are_cautioned_above_60_celsius_and_steel_is_not():
    assert heat_findings(ZERO_C + 61, shaft_material="steel") == ()
    assert len(heat_findings(ZERO_C + 61, shaft_material="graphite")) == 1
    assert len(heat_findings(ZERO_C + 61, shaft_material=None)) == 1
    assert heat_findings(ZERO_C + 60, shaft_material="graphite") == ()
    assert len(at(65, shaft_material="graphite").findings) == 1
    assert len(released(TABLE, ((1.0, ZERO_C + 65),), shaft_material="graphite").findings) == 1


def test_two_equal_temperatures_have_no_activation_energy():
    with pytest.raises(InputError, match="difference"):
        activation_energy_j_mol(10.0, 300.0, 20.0, 300.0)

"""A set built to so many cpm for each half inch through one club: target and trim of every club."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli_runs import clubwright
from clubwright.errors import InputError
from clubwright.importers.ticket_file import dump_ticket
from clubwright.services.shaft.slope_plan import slope_plan
from clubwright.services.shaft.vibration import set_of, trims_of
from clubwright.units import CPM_HZ
from shaftwork import iron, irons

NAMES = ("5.toml", "6.toml", "7.toml", "9.toml")
SET = list(zip(NAMES, irons(), strict=True))


def test_the_targets_climb_by_the_step_for_each_half_inch_through_the_club_that_keeps_its_own():
    found = slope_plan(SET, "4.5 cpm", "7.toml")
    own = found[2].target_hz / CPM_HZ
    ordered = float(str(iron()["target"]["frequency"]).split()[0])
    assert own == pytest.approx(ordered)
    lengths = [club.length_m / 0.0127 for club in found]
    assert [club.target_hz / CPM_HZ for club in found] == pytest.approx(
        [ordered + 4.5 * (lengths[2] - length) for length in lengths]
    )
    assert [round(lengths[2] - length) for length in lengths] == [-2, -1, 0, 2]


def test_each_trim_is_the_one_that_trims_plans_for_that_target():
    for (name, document), club in zip(SET, slope_plan(SET, "4.5 cpm", "7.toml"), strict=True):
        wanted = {**document, "target": {**document["target"], "frequency": f"{club.target_hz / CPM_HZ:.1f} cpm"}}
        assert club.trim is not None
        assert club.trim.tip_trim_m == pytest.approx(trims_of(wanted, name).chosen.tip_trim_m)
    steep = slope_plan(SET, "8 cpm", "7.toml")
    assert steep[3].trim is not None
    flat = slope_plan(SET, "1 cpm", "7.toml")
    assert flat[3].trim is not None
    assert steep[3].trim.tip_trim_m > flat[3].trim.tip_trim_m


def test_without_an_order_the_club_keeps_what_it_is_believed_to_have():
    document = iron()
    del document["target"]["frequency"], document["tolerance"]["frequency"]
    tickets = [SET[0], ("7.toml", document)]
    believed = set_of(tickets)[0][1].frequency_hz
    assert slope_plan(tickets, "4.5 cpm", "7.toml")[1].target_hz == pytest.approx(believed)


def test_what_cannot_be_planned_is_told():
    with pytest.raises(InputError, match=r'"8\.toml" is not among the clubs'):
        slope_plan(SET, "4.5 cpm", "8.toml")
    with pytest.raises(InputError, match="--step"):
        slope_plan(SET, "steep", "7.toml")


def test_the_command(capsys: pytest.CaptureFixture[str], tmp_path: Path):
    paths = []
    for name, document in SET[1:3]:
        (tmp_path / name).write_text(dump_ticket(document), encoding="utf-8")
        paths.append(str(tmp_path / name))
    ran = clubwright(capsys, "slope", *paths, "--step", "4.5 cpm", "--through", paths[1])
    assert (ran.code, ran.err) == (0, "")
    assert "6 iron" in ran.out
    assert "Nothing is kept." in ran.out
    body = clubwright(capsys, "slope", *paths, "--step", "4.5 cpm", "--through", paths[1], "--json")
    (six, seven) = body.body()
    assert six["target_hz"] < seven["target_hz"]
    assert clubwright(capsys, "slope", *paths, "--step", "4.5 cpm").code == 2

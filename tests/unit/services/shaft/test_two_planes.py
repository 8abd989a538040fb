"""Whose the difference between two planes is: what the head makes, what was recorded, what is left for the shaft."""

from __future__ import annotations

from typing import Any

import pytest

from cli_runs import clubwright
from clubwright.club.planes import planes_hz
from clubwright.club.stages import STAGES
from clubwright.errors import InputError
from clubwright.importers.ticket_file import dump_ticket
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.services.shaft.two_planes import planes_lines, planes_of, two_planes
from clubwright.ticket.read import read_ticket
from clubwright.units import CPM_HZ
from shaftwork import DRY, iron, without_stiffness


def club_state(document: dict[str, Any]) -> ClubState:
    ticket, findings = read_ticket(document, "ticket")
    assert ticket is not None, findings
    return club_state_of(ticket)


def recorded(ratio: float) -> dict[str, Any]:
    """An iron whose shaft is stiffer in the face plane, as a recording of it reads."""
    planes = planes_hz(club_state(iron()).build(STAGES[DRY]), ratio)
    document = iron()
    value = f"{planes.toe_hz / CPM_HZ:.3f} cpm ± 0.05 cpm"
    second = f"{planes.face_hz / CPM_HZ:.3f} cpm ± 0.05 cpm"
    document["reading"] = [
        {"quantity": "frequency", "value": value, "second_plane": second, "stage": DRY, "weights": []}
    ]
    return document


@pytest.mark.parametrize("ratio", [0.97, 1.02, 1.04])
def test_a_shaft_that_is_stiffer_one_way_is_found_out(ratio: float) -> None:
    """The frequency of a plane goes with the root of its stiffness: 2 % of it are 1 % of the frequency."""
    found = two_planes(club_state(recorded(ratio)))
    assert found.stage == DRY
    assert found.recorded is not None
    assert found.own_hz is not None
    # the face plane is the slower one where it is the softer
    own = found.own_hz[0] if ratio > 1 else found.own_hz[1]
    assert 2 * own / found.predicted.face_hz == pytest.approx(ratio - 1, abs=0.001)
    assert found.recorded.sd_hz == pytest.approx(0.05 * 2**0.5 * CPM_HZ, rel=1e-6)
    share = 200 * own / found.predicted.face_hz
    assert f"({share:+.1f} % of stiffness)" in dict(planes_lines(found))["the shaft itself, face against toe"]


def test_without_a_recording_only_the_head_is_told() -> None:
    found = two_planes(club_state(iron()))
    assert found.stage == "finished"
    assert (found.recorded, found.own_hz) == (None, None)
    assert found.predicted.toe_hz == pytest.approx(
        float(club_state(iron()).predict(["frequency"]).mean[0, 0]), rel=1e-6
    )
    assert [name for name, _ in planes_lines(found)] == [
        "toe up and down, finished",
        "face to face, were the shaft alike all round",
    ]


def test_what_is_missing_is_said(tmp_path: Any, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(InputError, match="stiffness"):
        planes_of(without_stiffness(), "iron.toml")
    law = iron()
    law["shaft"]["stiffness"] = {"kind": "slope", "alpha": "0.09 N m2/mm", "from": "300 mm"}
    with pytest.raises(InputError, match="torsional stiffness"):
        planes_of(law, "iron.toml")
    path = tmp_path / "iron.toml"
    path.write_text(dump_ticket(recorded(1.02)), encoding="utf-8")
    ran = clubwright(capsys, "planes", str(path))
    assert (ran.code, ran.err) == (0, "")
    assert "cpm apart" in ran.out
    assert "Equipment Rules" in ran.out
    body = clubwright(capsys, "planes", str(path), "--json").body()
    assert body["recorded"]["apart_hz"] == pytest.approx(body["recorded"]["upper_hz"] - body["recorded"]["lower_hz"])
    assert body["own_hz"][0] == pytest.approx(body["recorded"]["apart_hz"] - body["difference_hz"])


def test_a_recording_is_never_paired_with_another_reading() -> None:
    document = recorded(1.02)
    pair = two_planes(club_state(document)).recorded
    later = {"quantity": "frequency", "value": "331 cpm", "stage": "finished", "weights": []}
    document["reading"].append(later)
    assert two_planes(club_state(document)).recorded == pair, "a reading of one frequency has no second plane"
    assert two_planes(club_state(document)).stage == DRY
    document["reading"][0]["keep"] = "no"
    assert two_planes(club_state(document)).recorded is None, "what is left out counts for nothing"
    document["reading"][0]["keep"] = "yes"
    document["reading"][0]["value"] = "250 cpm ± 0.05 cpm"
    document["reading"][0].pop("keep")
    assert two_planes(club_state(document)).recorded is None, "what was set aside counts for nothing"


def test_only_a_frequency_has_a_second_plane() -> None:
    document = iron()
    document["reading"] = [{"quantity": "swing_weight", "value": "D1", "second_plane": "326 cpm", "stage": DRY}]
    ticket, findings = read_ticket(document, "ticket")
    assert ticket is None
    assert "only a frequency has a second plane" in findings[0].what

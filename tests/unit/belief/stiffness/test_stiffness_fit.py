"""The stiffness fit: what is refused, what is said of what stays unknown, and the command."""

from __future__ import annotations

import tomllib
from math import nan
from pathlib import Path

import msgspec
import pytest

from cli_runs import clubwright
from clubwright.belief.stiffness.fit import fit_stiffness, predict_reading
from clubwright.belief.stiffness.prior import broad_prior
from clubwright.belief.stiffness.reading import StiffnessReading
from clubwright.belief.stiffness.words import felt_by_third, learned_by_third, statements
from clubwright.club.beam.stiffness import from_table
from clubwright.club.parts import Shaft
from clubwright.errors import DocumentPlace, InputError
from clubwright.notation import Collector
from clubwright.ticket.rows.rows import Row
from clubwright.ticket.rows.stiffness import read_stiffness
from clubwright.units import CPM_HZ, INCH_M
from stiffness_readings import deflection, frequency

Capsys = pytest.CaptureFixture[str]
LENGTH_M = 40 * INCH_M
TRUE = from_table([0.0, LENGTH_M / 2, LENGTH_M], [20.0, 45.0, 95.0])
SHAFT = Shaft(raw_length_m=LENGTH_M, mass_kg=0.11, balance_from_tip_m=0.53, length_m=LENGTH_M, stiffness=TRUE)
PRIOR = broad_prior(LENGTH_M, nodes=7)


def refusal(readings: list[StiffnessReading], shaft: Shaft = SHAFT) -> list[str]:
    with pytest.raises(InputError) as refused:
        fit_stiffness(shaft, readings, PRIOR)
    return [item.sentence() for item in refused.value.findings if item.severity == "error"]


def test_long_free_lengths_say_little_of_the_tip() -> None:
    fit = fit_stiffness(SHAFT, [frequency(SHAFT, clamp) for clamp in (0.08, 0.127, 0.18)], PRIOR)
    both = fit_stiffness(SHAFT, [frequency(SHAFT, clamp) for clamp in (0.08, 0.127, 0.18, 0.65)], PRIOR)
    little, more = learned_by_third(fit), learned_by_third(both)
    assert little["tip third"] < 0.7 < little["butt third"]
    assert more["tip third"] > little["tip third"] + 0.1
    assert felt_by_third(fit)["tip third"] < 2 < felt_by_third(both)["tip third"]
    assert "No reading feels" in statements(fit)[0]
    assert "No reading feels" not in "".join(statements(both) + statements(fit)[1:])
    assert f"{100 * little['tip third']:.0f} % learned" in statements(fit)[0]
    assert statements(fit)[0].startswith("The tip third")


def test_no_reading_makes_a_node_less_sure() -> None:
    fit = fit_stiffness(SHAFT, [deflection(SHAFT, 0.127), deflection(SHAFT, 0.5)], PRIOR)
    assert all(0 <= share < 1 for share in fit.learned)
    assert [item.severity for item in fit.findings] == ["warning"], "two readings are few"


def test_what_was_read_is_foretold_within_its_scatter() -> None:
    readings = [frequency(SHAFT, clamp) for clamp in (0.127, 0.3, 0.5)]
    fit = fit_stiffness(SHAFT, readings, PRIOR)
    for reading, fitted in zip(readings, fit.predicted, strict=True):
        mean, sd = predict_reading(fit, reading)
        assert mean == pytest.approx(fitted, rel=1e-12)
        assert abs(mean - reading.value) < 2 * (sd + reading.sd)


def test_readings_that_contradict_each_other_are_named() -> None:
    one, two = frequency(SHAFT, 0.127), frequency(SHAFT, 0.4)
    off = msgspec.structs.replace(frequency(SHAFT, 0.129), where="line 4", value=one.value + 12 * CPM_HZ)
    said = refusal([one, off, two])
    assert any(item.startswith("line 4: ") and "by the other readings" in item for item in said)
    assert not any(item.startswith(two.where) for item in said)


def test_a_reading_that_no_shaft_gives_is_named() -> None:
    wrong = msgspec.structs.replace(frequency(SHAFT, 0.127), where="line 2", value=2000 * CPM_HZ)
    assert ["line 2: 2000" in item and "shafts give" in item for item in refusal([wrong, frequency(SHAFT, 0.4)])] == [
        True
    ]


def test_every_number_that_cannot_be_one_is_said_at_once() -> None:
    good = frequency(SHAFT, 0.127)
    bad = {
        "value": msgspec.structs.replace(good, where="value", value=nan),
        "sd": msgspec.structs.replace(good, where="sd", sd=0.0),
        "mass": msgspec.structs.replace(good, where="mass", mass_kg=-0.2),
        "clamp": msgspec.structs.replace(good, where="clamp", clamp_length_m=0.9),
        "bent": msgspec.structs.replace(deflection(SHAFT, 0.127), where="bent", value=0.4),
        "no load": msgspec.structs.replace(deflection(SHAFT, 0.127), where="no load", mass_kg=0.0),
    }
    assert [item.split(":")[0] for item in refusal(list(bad.values()))] == list(bad)


def test_a_shaft_that_is_none_is_said() -> None:
    light = msgspec.structs.replace(SHAFT, mass_kg=0.0, balance_from_tip_m=0.1)
    assert [item.split(":")[0] for item in refusal([], light)] == ["shaft mass", "shaft balance point"]


def test_one_reading_is_too_few_and_one_place_is_said() -> None:
    assert "1 reading cannot tell" in refusal([frequency(SHAFT, 0.127)])[0]
    same = fit_stiffness(SHAFT, [frequency(SHAFT, 0.127), frequency(SHAFT, 0.13), frequency(SHAFT, 0.125)], PRIOR)
    assert "one clamp position" in same.findings[0].what


def lines_of(readings: list[StiffnessReading]) -> str:
    rows = ["clamp,mass,frequency,deflection"]
    for read in readings:
        place, mass = f"{read.clamp_length_m * 1e3:.3f} mm", f"{read.mass_kg * 1e3:.1f} g"
        shown = (
            f"{read.value / CPM_HZ:.2f} cpm ± 0.4 cpm," if read.kind == "frequency" else f",{read.value * 1e3:.2f} mm"
        )
        rows.append(f"{place},{mass},{shown}")
    return "\n".join([*rows, ""])


ABOUT = ("--length", "40 in", "--mass", "110 g", "--balance", "530 mm")


def test_the_command_gives_lines_for_the_ticket(tmp_path: Path, capsys: Capsys) -> None:
    path = tmp_path / "shaft.csv"
    read = [frequency(SHAFT, clamp) for clamp in (0.127, 0.4, 0.6)] + [deflection(SHAFT, 0.127)]
    path.write_text(lines_of(read), encoding="utf-8")
    ran = clubwright(capsys, "stiffness", str(path), *ABOUT, "--json")
    body = ran.body()
    assert (ran.code, ran.err, body["findings"]) == (0, "", [])
    pasted = tomllib.loads("\n".join(body["ticket_lines"]))
    assert pasted["stiffness_factor"].startswith("1 ± 0.00")
    notes = Collector()
    profile = read_stiffness(pasted["stiffness"], Row(where=DocumentPlace("shaft")), notes)
    assert (notes.findings, len(pasted["stiffness"]["at"])) == ([], 17)
    assert profile is not None
    for node in body["nodes"]:
        ei = profile.ei_n_m2(node["at_m"])
        assert ei == pytest.approx(node["ei_n_m2"], abs=0.03)
        assert abs(ei / TRUE.ei_n_m2(node["at_m"]) - 1) < 2 * node["relative_sd"]
    assert [item["where"] for item in body["readings"]] == [f"shaft.csv line {n}" for n in (2, 3, 4, 5)]
    said = clubwright(capsys, "stiffness", str(path), *ABOUT).out
    assert all(line in said for line in body["ticket_lines"])
    assert all(line in said for line in body["statement"])


def test_every_bad_line_is_told_at_once_with_its_number(tmp_path: Path, capsys: Capsys) -> None:
    path = tmp_path / "bad.csv"
    path.write_text(
        "clamp,mass,frequency,deflection\n5 in,205,300 cpm,\n5 in,205 g,300 cpm,1 in\n5 in,205 g,,\n5 in,205 g,30,0 cpm,\n",
        encoding="utf-8",
    )
    ran = clubwright(capsys, "stiffness", str(path), *ABOUT)
    assert ran.code == 2
    for number, what in ((2, "mass"), (3, "both frequency and deflection"), (4, "neither"), (5, "5 cells")):
        assert any(f"line {number}" in line and what in line for line in ran.err.splitlines()), (number, ran.err)


@pytest.mark.parametrize(
    ("text", "what"),
    [("", "the file is empty"), ("clamp,cpm\n", "the first line is"), ("clamp,mass,mass\n", "first line")],
)
def test_another_file_is_refused(tmp_path: Path, capsys: Capsys, text: str, what: str) -> None:
    path = tmp_path / "other.csv"
    path.write_text(text, encoding="utf-8")
    ran = clubwright(capsys, "stiffness", str(path), *ABOUT)
    assert (ran.code, what in ran.err) == (2, True)


def test_the_shaft_itself_is_read_in_trade_notation(tmp_path: Path, capsys: Capsys) -> None:
    ran = clubwright(
        capsys, "stiffness", str(tmp_path / "none.csv"), "--length", "40", "--mass", "x", "--balance", "530 mm"
    )
    assert ran.code == 2
    assert "--mass" in ran.err
    ran = clubwright(capsys, "stiffness", str(tmp_path / "none.csv"), *ABOUT)
    assert (ran.code, "no such file" in ran.err) == (2, True)

"""`calibrate-grips`: the shop's own blend from a file of measured grips, or every bad line at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli_runs import clubwright
from clubwright.errors import InputError
from clubwright.importers.grip_readings import COLUMNS, load_grip_readings, parse_grip_readings
from clubwright.notation import parse

Capsys = pytest.CaptureFixture[str]
HEADER = ",".join(COLUMNS)
GRIPS = [
    (0.600, 0.900, 0.600, 0.020),
    (0.600, 0.900, 0.600, 0.040),
    (0.580, 0.900, 0.600, 0.010),
]


def between(core: float, nominal: float, butt: float, tape: float, blend: float) -> float:
    """Both models written out here from docs/theory/grip-size.md, without the package."""
    under = butt + 2 * tape
    additive, constant = under + nominal - core, (under**2 + nominal**2 - core**2) ** 0.5
    return blend * additive + (1 - blend) * constant


@pytest.fixture
def grips(tmp_path: Path) -> Path:
    path = tmp_path / "grips.csv"
    rows = [f"{c} in,{n} in,{b} in,{t} in,{between(c, n, b, t, 0.37):.6f} in" for c, n, b, t in GRIPS]
    path.write_text("\n".join([HEADER, *rows, ""]), encoding="utf-8")
    return path


def test_the_blend_that_made_the_sizes_is_found(grips: Path, capsys: Capsys) -> None:
    ran = clubwright(capsys, "calibrate-grips", str(grips), "--json")
    body = ran.body()
    assert (ran.code, ran.err) == (0, "")
    assert body["blend"] == pytest.approx(0.37, abs=1e-3)
    assert (body["readings"], body["section"], body["findings"]) == (3, "grip", [])
    # the scatter is next to nothing here, so the caliper's 0.1 mm over the models' distance decides
    apart = [0.0254 * (between(*row, 1.0) - between(*row, 0.0)) for row in GRIPS]
    assert body["sd"] == pytest.approx(1e-4 / sum(x * x for x in apart) ** 0.5, rel=1e-6)


def test_the_line_can_be_written_into_a_ticket(grips: Path, capsys: Capsys) -> None:
    body = clubwright(capsys, "calibrate-grips", str(grips), "--json").body()
    key, _, value = body["ticket_line"].partition(" = ")
    understood = parse("number", value.strip('"'), where=key)
    assert key == "build_up_blend"
    assert (understood.value, understood.sd) == (0.37, pytest.approx(body["sd"], abs=0.005))
    assert body["ticket_line"] in clubwright(capsys, "calibrate-grips", str(grips)).out


def test_every_bad_line_is_told_at_once_with_its_number(tmp_path: Path, capsys: Capsys) -> None:
    path = tmp_path / "bad.csv"
    lines = [
        HEADER,
        ".600,.900 in,.600 in,.020 in,.930 in",
        "",
        ".600 in,.900 in,,.02,.916 in",
        "60,.500 in,.600 in,.010 in,.9165 in",
        "60,.900 in,.600 in,.010 in,0,9165 in",
        "60,.900 in,.600 in,.010 in,NaN",
    ]
    path.write_text("\n".join(lines), encoding="utf-8")
    ran = clubwright(capsys, "calibrate-grips", str(path), "--json")
    assert ran.code == 2
    assert [item["where"] for item in ran.body()["findings"]] == [
        "bad.csv line 2 core",
        "bad.csv line 4 butt",
        "bad.csv line 4 tape",
        "bad.csv line 5, wall",
        "bad.csv line 6",
        "bad.csv line 7 measured",
    ]
    assert "nominal size of 0.500 in" in ran.err


@pytest.mark.parametrize("text", ["", "core;nominal;butt;tape;measured\n", "core,nominal,butt,tape\n"])
def test_a_file_with_other_columns_is_refused(text: str) -> None:
    with pytest.raises(InputError, match=HEADER):
        parse_grip_readings(text)


def test_a_quote_that_never_closes_is_told() -> None:
    with pytest.raises(InputError, match="not closed"):
        parse_grip_readings(f'{HEADER}\n"' + "60," * 60_000)


def test_columns_may_come_in_any_order_and_from_a_spreadsheet(tmp_path: Path) -> None:
    path = tmp_path / "grips.csv"
    path.write_bytes("\ufeffMeasured, Tape,butt,nominal,core\r\n.93 in,0 in,.6 in,.9 in,M58\r\n".encode())
    (reading,) = load_grip_readings(path)
    assert (reading.core_m, reading.measured_m) == pytest.approx((0.58 * 0.0254, 0.93 * 0.0254))


def test_a_file_that_is_not_there_or_no_text_is_said_so(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        load_grip_readings(tmp_path / "none.csv")
    with pytest.raises(InputError, match="this is a folder"):
        load_grip_readings(tmp_path)
    (tmp_path / "picture.csv").write_bytes(b"\x89PNG\xff")
    with pytest.raises(InputError, match="not a text file"):
        load_grip_readings(tmp_path / "picture.csv")

"""Recorded oscillations from files: what is read, and every finding with its line."""

from __future__ import annotations

import io
import wave
from pathlib import Path

import pytest

from clubwright.club.trace.record import Trace
from clubwright.errors import InputError
from clubwright.importers.trace_csv import read_csv
from clubwright.importers.trace_file import load_trace


def parse_trace(text: str, source: str, **options: object) -> Trace:
    return read_csv(io.StringIO(text), source, **options)


def refusal(text: str, **options: object) -> list[str]:
    with pytest.raises(InputError) as refused:
        parse_trace(text, "a.csv", **options)
    return [item.sentence() for item in refused.value.findings]


@pytest.mark.parametrize(
    "text",
    [
        "time (s),strain (um/m)\n0.0,1.5\n0.5,-2\n",
        "time_ms;strain\n0;1.5\n500;-2e0\n",
        "# made by hand\n\nt [us]\tstrain\n0\t1.5\n500000\t-2\n",
        "strain, Time (ms)\n1.5, 0\n\n-2, 500\n",
        "seconds,strain\n0,1.5\n.5,-2\n",
        '"time (s)","strain"\n"0","1.5"\n"0.5","-2"\n',
    ],
)
def test_times_and_values(text: str):
    found = parse_trace(text, "a.csv")
    assert found.times_s == pytest.approx([0, 0.5])
    assert found.values == pytest.approx([1.5, -2])
    assert found.rate_hz is None
    assert found.source == "a.csv"
    assert found.channel.startswith("strain")


@pytest.mark.parametrize("text", ["1.5\n-2\n", "strain\n1.5\n-2\n"])
def test_values_with_a_stated_rate(text: str):
    found = parse_trace(text, "a.csv", rate_hz=500.0)
    assert (found.times_s, found.rate_hz, list(found.values)) == (None, 500.0, [1.5, -2])


def test_one_of_several_columns():
    text = "time (s),x (g),y (g),xy\n0,1,2,3\n1,4,5,6\n"
    assert list(parse_trace(text, "a.csv", column="y").values) == [2, 5]
    assert list(parse_trace(text, "a.csv", column="XY").values) == [3, 6]
    (said,) = refusal(text)
    assert said == "a.csv line 1: 3 columns of values. Name one with --column: 'x (g)', 'y (g)', 'xy'."
    assert "2 columns are called 'x'" in refusal(text, column="x")[0]
    assert "no columns are called 'z'" in refusal(text, column="z")[0]


@pytest.mark.parametrize(
    ("text", "options", "said"),
    [
        ("", {}, "a.csv: the file has no lines"),
        ("# only this\n", {}, "a.csv: the file has no lines"),
        ("0,1.5\n0.5,2\n", {}, "a.csv line 1: 2 columns, and the first line does not name them"),
        ("time,strain\n0,1\n", {}, "a.csv line 1: the column 'time' names no unit of time"),
        ("time (min),strain\n0,1\n", {}, "a.csv line 1: the column 'time (min)' names no unit of time"),
        ("1.5\n2\n", {}, "a.csv line 1: no column of times, and no rate is stated"),
        ("time (s),strain\n0,1\n", {"rate_hz": 5.0}, "a.csv line 1: the file has times, and a rate is stated too"),
        ("time (s);strain\n0;1\n0,5;2.5\n", {}, "a.csv line 3: '2.5' has another decimal mark than the numbers before"),
        ('time (s),strain\n0,1\n"0,5",2\n', {}, "a.csv line 3: '0,5' has a decimal comma. Write 0.5, or part"),
        ("time (s),strain\n0,1\n0,5,2\n", {}, "a.csv line 3: 3 cells for 2 columns"),
        ("time (s),strain\n0,nan\n", {}, "a.csv line 2: 'nan' is no number"),
        ("time (s),strain\n0,inf\n", {}, "a.csv line 2: 'inf' is no number"),
        ("time (s),strain\n0,1_0\n", {}, "a.csv line 2: '1_0' is no number"),
        ('time (s),strain\n0,"1\n', {"column": "x"}, "a.csv line 1: no columns are called 'x'"),
        ("time (s),strain\n0," + "x" * 200_000 + "\n", {}, "a.csv line 2: '0,x"),
        ("time (s),strain\n0,\n", {}, "a.csv line 2: a cell is empty"),
    ],
)
def test_what_cannot_be_taken(text: str, options: dict[str, object], said: str):
    assert refusal(text, **options)[0].startswith(said)


def test_all_findings_at_once_and_long_lists_are_counted():
    said = refusal("time (s),strain\n# pause\n0,x\n1,2,3\n" + "2,y\n" * 20)
    assert said[0].startswith("a.csv line 3: 'x' is no number")
    assert said[1].startswith("a.csv line 4: 3 cells for 2 columns")
    assert len(said) == 9
    assert said[-1].startswith("a.csv: 14 more findings of the same kinds, the last in a.csv line 24")


@pytest.mark.parametrize(
    "text",
    [
        "Logger 7;V2,1\nStart;27.11.2026 18:02\n\nZeit (s);Dehnung\n0,0;1,5\n0,5;-2,0\n",
        "sep=;\ntime (ns);strain;\n1764280000000000000;1,5;\n1764280000500000000;-2;\n",
        "Device,Phone\nSample rate,2\nTime,strain\n(ms),(um/m)\n0,1.5\n500,-2\n",
        "elapsed (us)\tstrain\n0\t1,5\n500000\t-2\n",
    ],
)
def test_what_loggers_write(text: str):
    found = parse_trace(text, "a.csv", column="Dehnung" if "Dehnung" in text else "strain")
    assert found.times_s is not None
    assert found.times_s - found.times_s[0] == pytest.approx([0, 0.5], abs=1e-12)
    assert found.values == pytest.approx([1.5, -2])


def test_files(tmp_path: Path):
    (tmp_path / "a.csv").write_bytes("\ufefftime (s),µ\n0,1\n".encode())
    (tmp_path / "b.csv").write_bytes(b"\xff\xfe\x00")
    with wave.open(str(tmp_path / "c.WAV"), "wb") as sound:
        sound.setparams((1, 2, 8000, 0, "NONE", ""))
        sound.writeframes(bytes(20))
    assert list(load_trace(tmp_path / "a.csv").values) == [1]
    assert load_trace(tmp_path / "c.WAV").source == "c.WAV"
    for name, what in (
        ("b.csv", "not a text file"),
        ("d.csv", "no such file"),
        ("d.wav", "no such file"),
        (".", "folder"),
    ):
        with pytest.raises(InputError, match=what):
            load_trace(tmp_path / name)

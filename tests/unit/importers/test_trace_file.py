"""Recorded oscillations from files: what is read, and every finding with its line."""

from __future__ import annotations

import io
import wave
from pathlib import Path

import numpy as np
import pytest

from clubwright.errors import InputError
from clubwright.importers.trace_csv import parse_trace
from clubwright.importers.trace_file import load_trace
from clubwright.importers.trace_wav import read_wav


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
        (
            "time (s);strain\n0;1\n0,5;2\n",
            {},
            "a.csv line 3: '0,5' has a decimal comma. Write 0.5: decimals have a point.",
        ),
        ("time (s),strain\n0,1\n0,5,2\n", {}, "a.csv line 3: 3 cells for 2 columns"),
        ("time (s),strain\n0,nan\n", {}, "a.csv line 2: 'nan' is no number"),
        ("time (s),strain\n0,inf\n", {}, "a.csv line 2: 'inf' is no number"),
        ("time (s),strain\n0,1_0\n", {}, "a.csv line 2: '1_0' is no number"),
        ('time (s),strain\n0,"1\n', {"column": "x"}, "a.csv line 1: no columns are called 'x'"),
        ("time (s),strain\n0," + "x" * 200_000 + "\n", {}, "a.csv line 2: 'x"),
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


def wav(values: np.ndarray, width: int, channels: int = 1) -> bytes:
    """Write whole numbers as PCM: lowest byte first, 8 bits unsigned."""
    held = io.BytesIO()
    shifted = values + 128 if width == 1 else values
    with wave.open(held, "wb") as file:
        file.setparams((channels, width, 8000, 0, "NONE", ""))
        file.writeframes(b"".join(int(v).to_bytes(width, "little", signed=width > 1) for v in shifted))
    return held.getvalue()


@pytest.mark.parametrize("width", [1, 2, 3, 4])
def test_wav_of_every_width(width: int):
    top = 2 ** (8 * width - 1)
    found = read_wav(wav(np.array([0, 1, -1, top - 1, -top]), width), "a.wav")
    assert list(found.values * top) == [0, 1, -1, top - 1, -top]
    assert (found.rate_hz, found.channel) == (8000.0, "channel 1")


def test_wav_channels():
    content = wav(np.array([1, 2, 3, 4]), 2, channels=2)
    assert list(read_wav(content, "a.wav", channel="2").values * 32768) == [2, 4]
    for channel, what in ((None, "2 channels"), ("3", "there is no channel '3' among 2")):
        with pytest.raises(InputError, match=f"a.wav: {what}. Name one with --column: 1, 2"):
            read_wav(content, "a.wav", channel=channel)


def test_wav_that_cannot_be_taken():
    content = wav(np.arange(100), 2)
    with pytest.raises(InputError) as refused:
        read_wav(content[:-50], "a.wav", rate_hz=5.0, channel="2")
    assert [item.what for item in refused.value.findings] == [
        "a WAV file states its own rate",
        "cut short: 75 of 100 samples are there",
        "there is no channel '2' among 1",
    ]
    floats = content[:20] + (3).to_bytes(2, "little") + content[22:]
    for bad in (b"", b"RIFF", b"time (s),x\n", floats):
        with pytest.raises(InputError, match="not a WAV file of whole numbers"):
            read_wav(bad, "a.wav")


def test_files(tmp_path: Path):
    (tmp_path / "a.csv").write_bytes("\ufefftime (s),µ\n0,1\n".encode())
    (tmp_path / "b.csv").write_bytes(b"\xff\xfe\x00")
    (tmp_path / "c.WAV").write_bytes(wav(np.arange(10), 2))
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

"""Recorded sound: every form of WAV that is read, and what is damaged or of another kind told in words."""

from __future__ import annotations

import io
import struct
import wave
from contextlib import suppress
from pathlib import Path

import numpy as np
import pytest
from scipy.io import wavfile

from clubwright.club.trace.record import Trace
from clubwright.errors import InputError
from clubwright.importers.trace_file import load_trace
from clubwright.importers.trace_wav import read_wav


def opened_wav(content: bytes, name: str = "a.wav", **options: object) -> Trace:
    return read_wav(io.BytesIO(content), name, **options)


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
    found = opened_wav(wav(np.array([0, 1, -1, top - 1, -top]), width), "a.wav")
    assert list(found.values * top) == [0, 1, -1, top - 1, -top]
    assert (found.rate_hz, found.channel) == (8000.0, "channel 1")


def test_wav_channels():
    content = wav(np.array([1, 2, 3, 4]), 2, channels=2)
    assert list(opened_wav(content, "a.wav", channel="2").values * 32768) == [2, 4]
    for channel, what in ((None, "2 channels"), ("3", "there is no channel '3' among 2")):
        with pytest.raises(InputError, match=f"a.wav: {what}. Name one with --column: 1, 2"):
            opened_wav(content, "a.wav", channel=channel)


def test_wav_that_cannot_be_taken():
    content = wav(np.arange(100), 2)
    with pytest.raises(InputError) as refused:
        opened_wav(content[:-50], "a.wav", rate_hz=5.0, channel="2")
    assert [item.what for item in refused.value.findings] == [
        "a WAV file states its own rate",
        "cut short: 75 of 100 samples are there",
        "there is no channel '2' among 1",
    ]


def riff(form: bytes, data: bytes, *, size: int | None = None, before: bytes = b"") -> bytes:
    """Write a file of chunks by hand, as the form says it."""
    chunks = before + b"fmt " + struct.pack("<I", len(form)) + form
    chunks += b"data" + struct.pack("<I", len(data) if size is None else size) + data
    return b"RIFF" + struct.pack("<I", len(chunks) + 4) + b"WAVE" + chunks


def form_of(kind: int, bits: int, channels: int = 1, *, extensible: bool = False) -> bytes:
    frame = channels * bits // 8
    plain = struct.pack("<HHIIHH", 0xFFFE if extensible else kind, channels, 8000, 8000 * frame, frame, bits)
    guid = struct.pack("<H", kind) + bytes.fromhex("000000001000800000aa00389b71")
    return plain + (struct.pack("<HHI", 22, bits, 4) + guid if extensible else b"")


@pytest.mark.parametrize("extensible", [False, True])
@pytest.mark.parametrize("kind", ["<f4", "<f8", "<i2", "<i3", "<i4"])
def test_wav_of_the_extensible_form_and_in_floating_point(kind: str, extensible: bool):
    wanted = np.array([[0.5, -0.25], [0.125, 0.75], [-1.0, 0.0]])
    if kind[1] == "f":
        data = wanted.astype(kind).tobytes()
    else:
        width = int(kind[2])
        whole = (wanted * 2 ** (8 * width - 1)).astype(int).ravel()
        data = b"".join(int(v).to_bytes(width, "little", signed=True) for v in whole)
    form = form_of(3 if kind[1] == "f" else 1, 8 * int(kind[2]), 2, extensible=extensible)
    odd = b"LIST" + struct.pack("<I", 3) + b"abc\0"
    for place in (0, 1):
        found = opened_wav(riff(form, data, before=odd), channel=str(place + 1))
        assert list(found.values) == list(wanted[:, place])


def test_a_general_purpose_reader_reads_the_same(tmp_path: Path):
    rng = np.random.default_rng(7)
    for number, values in enumerate(
        (rng.standard_normal((99, 3)).astype("<f4"), rng.integers(-(2**31), 2**31, (99, 2), dtype="<i4"))
    ):
        path = tmp_path / f"{number}.wav"
        wavfile.write(path, 44100, values)
        theirs = wavfile.read(path)[1].astype(float) / (1 if values.dtype.kind == "f" else 2**31)
        for place in range(values.shape[1]):
            assert np.array_equal(load_trace(path, column=str(place + 1)).values, theirs[:, place])


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "its beginning is missing"),
        (b"RIFF", "its beginning is missing"),
        (b"time (s),x\n0,1\n", "it is another kind of file"),
        (b"RF64" + bytes(4) + b"WAVE", "it is of the long form"),
        (riff(form_of(1, 16), b"")[:12], "it does not say how samples are written"),
        (riff(form_of(1, 16), b"")[:14], "it ends within the head of a part"),
        (riff(form_of(1, 16), b"")[:30], "what says how samples are written is cut short"),
        (riff(form_of(1, 16), b"")[:36], "it has no samples"),
        (b"RIFF" + bytes(4) + b"WAVE" + b"data" + bytes(8), "it does not say how samples are written"),
        (riff(form_of(0x55, 16), bytes(8)), r"it is compressed \(MP3\)"),
        (riff(form_of(3, 16), bytes(8)), "it is of 16 bits in floating point"),
        (riff(form_of(1, 12), bytes(8)), "it is of 12 bits"),
        (riff(form_of(1, 16, 0), bytes(8)), "its head is damaged: 0 channels"),
        (riff(form_of(1, 16, extensible=True)[:20], bytes(8)), "what says how samples are written is cut short"),
        (riff(form_of(1, 16), bytes(8), size=0xFFFFFFFF), "the recorder did not finish this file"),
        (riff(form_of(1, 16), bytes(8), size=0), "the recorder did not finish this file"),
        (riff(form_of(1, 16), bytes(8), size=80), "cut short: 4 of 40 samples are there"),
    ],
)
def test_a_damaged_wav_is_told_in_words(content: bytes, said: str):
    with pytest.raises(InputError, match=said):
        opened_wav(content)


def test_any_bytes_behind_a_wav_head_are_read_or_told(tmp_path: Path):
    whole = riff(form_of(1, 16, 2, extensible=True), bytes(range(64)))
    rng = np.random.default_rng(3)
    for _ in range(400):
        spoilt = bytearray(whole[: rng.integers(1, len(whole) + 1)])
        for place in rng.integers(0, len(spoilt), 3):
            spoilt[place] = rng.integers(0, 256)
        with suppress(InputError):
            opened_wav(bytes(spoilt), channel="1")

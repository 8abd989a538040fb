"""Files that are far too large: refused, in little memory, and read no further than is needed."""

from __future__ import annotations

import io
import struct
import tracemalloc

import pytest

from clubwright.club.trace.record import MOST_SAMPLES
from clubwright.errors import InputError
from clubwright.importers.trace_csv import read_csv
from clubwright.importers.trace_wav import read_wav


class Endless(io.RawIOBase):
    """A file of many bytes that are made as they are read."""

    def __init__(self, start: bytes, again: bytes, size: int) -> None:
        self.start, self.again, self.size, self.at, self.given = start, again, size, 0, 0

    def readable(self) -> bool:
        return True

    def seekable(self) -> bool:
        return True

    def seek(self, place: int, whence: int = 0) -> int:
        self.at = place + (0, self.at, self.size)[whence]
        return self.at

    def tell(self) -> int:
        return self.at

    def readinto(self, into: memoryview) -> int:  # type: ignore[override]
        count = min(len(into), self.size - self.at, 2**16)
        there = self.start if self.at < len(self.start) else b""
        made = there[self.at : self.at + count] if there else (self.again * (count // len(self.again) + 1))[:count]
        into[: len(made)] = made
        self.at += len(made)
        self.given += len(made)
        return len(made)


def test_200_megabytes_are_refused_in_little_memory():
    size = 200 * 2**20
    tracemalloc.start()
    form = struct.pack("<HHIIHH", 1, 1, 8000, 16000, 2, 16)
    head = b"RIFF" + bytes(4) + b"WAVEfmt " + struct.pack("<I", 16) + form + b"data" + struct.pack("<I", size)
    sound = Endless(head, b"\1\2", size + len(head))
    with pytest.raises(InputError, match=f"104857600 samples, and at most {MOST_SAMPLES} are taken"):
        read_wav(io.BufferedReader(sound), "a.wav")
    one_line = Endless(b"time (s),x\n", b"1", size)
    with pytest.raises(InputError, match="goes on for more than 65536 characters"):
        read_csv(io.TextIOWrapper(io.BufferedReader(one_line)), "a.csv")
    wrong = Endless(b"x\n", b"none\n", 2**20)
    with pytest.raises(InputError, match="more findings of the same kinds"):
        read_csv(io.TextIOWrapper(io.BufferedReader(wrong)), "a.csv", rate_hz=1000.0)
    assert tracemalloc.get_traced_memory()[1] < 8 * 2**20
    tracemalloc.stop()
    assert max(sound.given, one_line.given) < 2**18


def test_more_samples_than_are_used_are_not_read_on(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("clubwright.importers.trace_csv.MOST_SAMPLES", 1000)
    many = Endless(b"x\n", b"0.5\n", 2**24)
    with pytest.raises(InputError, match=r"a\.csv line 1002: there are more than 1000 samples"):
        read_csv(io.TextIOWrapper(io.BufferedReader(many)), "a.csv", rate_hz=1000.0)
    assert many.given < 2**17

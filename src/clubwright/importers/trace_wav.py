"""One channel of a WAV file: whole numbers of 8 to 32 bits or floating point, in the plain form or the extensible one.

The file is a list of chunks, each with a name of four letters and its length; `fmt ` says how samples are written, `data`
holds them (Microsoft and IBM, Multimedia Programming Interface, 1991; WAVE_FORMAT_EXTENSIBLE; both from memory).
"""

from __future__ import annotations

import os
import struct
from typing import Any, BinaryIO

import msgspec
import numpy as np

from clubwright.club.trace.record import MOST_SAMPLES, Samples, Trace
from clubwright.errors import Finding, InputError

PCM, FLOAT, EXTENSIBLE = 1, 3, 0xFFFE
COMPRESSED = {2: "ADPCM", 6: "A-law", 7: "mu-law", 0x11: "ADPCM", 0x50: "MPEG", 0x55: "MP3", 0xFF: "AAC"}
BITS = {PCM: (8, 16, 24, 32), FLOAT: (32, 64)}
AT_A_TIME = 2**16
"""Frames that are read at a time: of several channels only the wanted one is kept."""
UNFINISHED = (0, 0xFFFFFFFF)
_MEND = "Save it as WAV of 16, 24 or 32 bits or floating point, or as CSV."


class _Damaged(Exception):
    """The file is not whole."""


class _OtherForm(Exception):
    """The file is of a kind that is not read."""


class _Form(msgspec.Struct, frozen=True, kw_only=True):
    kind: int
    channels: int
    rate_hz: int
    bits: int

    @property
    def frame_bytes(self) -> int:
        return self.channels * self.bits // 8


def read_wav(file: BinaryIO, source: str, *, rate_hz: float | None = None, channel: str | None = None) -> Trace:
    """Return one channel of a WAV file, in parts of full scale; floating point as it stands.

    Args:
        file: The file, which can be wound back.
        source: Name for findings.
        rate_hz: Must be None: the file states its own.
        channel: "1" is the first; needed where there are several.

    Raises:
        InputError: It is no WAV file, compressed, damaged, cut short, too long, or the channel is not there.
    """
    findings = []
    if rate_hz is not None:
        findings.append(Finding(where=source, what="a WAV file states its own rate", mend="Leave the stated rate out."))
    try:
        form, start, stated = _found(file)
    except (_Damaged, _OtherForm) as refused:
        mend = _MEND if isinstance(refused, _OtherForm) else "Copy the file again, or record again."
        what = f"no WAV file that can be read: {refused}"
        raise InputError([*findings, Finding(where=source, what=what, mend=mend)]) from None
    there = (file.seek(0, os.SEEK_END) - start) // form.frame_bytes
    wanted = stated // form.frame_bytes
    if stated in UNFINISHED:
        what = "the recorder did not finish this file: it does not say how many samples there are"
        findings.append(Finding(where=source, what=what, mend="Stop the recording before the file is copied."))
    elif there < wanted:
        what = f"cut short: {there} of {wanted} samples are there"
        findings.append(Finding(where=source, what=what, mend="Copy the file again."))
    elif wanted > MOST_SAMPLES:
        what = (
            f"{wanted} samples, and at most {MOST_SAMPLES} are taken ({MOST_SAMPLES / form.rate_hz:.0f} s of this file)"
        )
        findings.append(Finding(where=source, what=what, mend="Cut it to the swing: from before the pluck to its end."))
    names = [str(number + 1) for number in range(form.channels)]
    chosen = "1" if form.channels == 1 and channel is None else channel
    if chosen not in names:
        what = (
            f"{form.channels} channels" if channel is None else f"there is no channel {channel!r} among {form.channels}"
        )
        listed = ", ".join(names[:8]) + (" ..." if form.channels > 8 else "")
        findings.append(Finding(where=source, what=what, mend=f"Name one with --column: {listed}."))
    if findings:
        raise InputError(findings)
    file.seek(start)
    values = _channel(file, form, wanted, names.index(str(chosen)))
    return Trace(values=values, rate_hz=float(form.rate_hz), source=source, channel=f"channel {chosen}")


def _found(file: BinaryIO) -> tuple[_Form, int, int]:
    """Return how samples are written, where they begin, and how many bytes are said to be there.

    Raises:
        _Damaged, _OtherForm: with what is wrong.
    """
    mark, _, kind = _unpacked("<4sI4s", file.read(12), "its beginning is missing")
    if mark in (b"RF64", b"BW64"):
        raise _OtherForm("it is of the long form (RF64)")
    if (mark, kind) != (b"RIFF", b"WAVE"):
        raise _OtherForm("it is another kind of file")
    form = None
    while True:
        head = file.read(8)
        if not head:
            raise _Damaged("it has no samples" if form else "it does not say how samples are written")
        name, size = _unpacked("<4sI", head, "it ends within the head of a part")
        if name == b"data":
            if form is None:
                raise _Damaged("it does not say how samples are written")
            return form, file.tell(), size
        if name == b"fmt ":
            form = _form(file.read(min(size, 64)), size)
            file.seek(max(0, size - 64), os.SEEK_CUR)
        else:
            file.seek(size, os.SEEK_CUR)
        file.seek(size % 2, os.SEEK_CUR)


def _unpacked(form: str, content: bytes, what: str) -> tuple[Any, ...]:
    if len(content) < struct.calcsize(form):
        raise _Damaged(what)
    return struct.unpack_from(form, content)


def _form(content: bytes, size: int) -> _Form:
    if min(size, len(content)) < 16:
        raise _Damaged("what says how samples are written is cut short")
    kind, channels, rate, _, frame, bits = struct.unpack_from("<HHIIHH", content)
    if kind == EXTENSIBLE:
        if len(content) < 26:
            raise _Damaged("what says how samples are written is cut short")
        (kind,) = struct.unpack_from("<H", content, 24)
    if kind not in BITS:
        raise _OtherForm(f"it is compressed ({COMPRESSED.get(kind, f'form {kind}')})")
    if bits not in BITS[kind]:
        raise _OtherForm(f"it is of {bits} bits{' in floating point' if kind == FLOAT else ''}")
    if not channels or not rate or frame != channels * bits // 8:
        raise _Damaged(f"its head is damaged: {channels} channels at {rate} a second, {frame} bytes for each moment")
    return _Form(kind=kind, channels=channels, rate_hz=rate, bits=bits)


def _channel(file: BinaryIO, form: _Form, frames: int, place: int) -> Samples:
    values = np.empty(frames)
    for first in range(0, frames, AT_A_TIME):
        count = min(AT_A_TIME, frames - first)
        values[first : first + count] = _samples(file.read(count * form.frame_bytes), form, place)
    return values


def _samples(content: bytes, form: _Form, place: int) -> Samples:
    """Return one channel's samples in parts of full scale; 8 bits are unsigned, the others signed, lowest byte first."""
    width = form.bits // 8
    parts = np.frombuffer(content, dtype=np.uint8).reshape(-1, form.channels, width)[:, place, :]
    if form.kind == FLOAT:
        return np.asarray(np.ascontiguousarray(parts).view(f"<f{width}")[:, 0], dtype=np.float64)
    if width == 1:
        return (parts[:, 0].astype(np.float64) - 128) / 128
    padded = np.zeros((parts.shape[0], 4), dtype=np.uint8)
    padded[:, 4 - width :] = parts
    return padded.view("<i4")[:, 0].astype(np.float64) / 2**31

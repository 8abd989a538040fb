"""One channel of a WAV file: PCM of 8, 16, 24 or 32 bits."""

from __future__ import annotations

import io
import wave

import numpy as np

from clubwright.club.trace.record import Samples, Trace
from clubwright.errors import Finding, InputError


def read_wav(content: bytes, source: str, *, rate_hz: float | None = None, channel: str | None = None) -> Trace:
    """Return one channel of a WAV file, in parts of full scale.

    Args:
        content: The file's bytes.
        source: Name for findings.
        rate_hz: Must be None: the file states its own.
        channel: "1" is the first; needed where there are several.

    Raises:
        InputError: It is no WAV file, not PCM, cut short, or the channel is not there.
    """
    findings = []
    if rate_hz is not None:
        findings.append(Finding(where=source, what="a WAV file states its own rate", mend="Leave the stated rate out."))
    try:
        with wave.open(io.BytesIO(content)) as file:
            channels, width = file.getnchannels(), file.getsampwidth()
            rate, stated = file.getframerate(), file.getnframes()
            frames = file.readframes(stated)
    except (wave.Error, EOFError) as error:
        what = f"not a WAV file of whole numbers (PCM): {error or 'it ends too early'}"
        mend = "Save it as PCM with 16, 24 or 32 bits, or as CSV."
        raise InputError([*findings, Finding(where=source, what=what, mend=mend)]) from None
    if len(frames) != stated * channels * width:
        what = f"cut short: {len(frames) // max(1, channels * width)} of {stated} samples are there"
        findings.append(Finding(where=source, what=what, mend="Copy the file again."))
    wanted = ["1"] if channels == 1 and channel is None else [channel]
    names = [str(number + 1) for number in range(channels)]
    if wanted[0] not in names:
        what = f"{channels} channels" if channel is None else f"there is no channel {channel!r} among {channels}"
        mend = f"Name one with --column: {', '.join(names)}."
        findings.append(Finding(where=source, what=what, mend=mend))
    if findings:
        raise InputError(findings)
    values = _samples(frames, width).reshape(-1, channels)[:, names.index(str(wanted[0]))]
    return Trace(values=values, rate_hz=float(rate), source=source, channel=f"channel {wanted[0]}")


def _samples(frames: bytes, width: int) -> Samples:
    """Return samples in parts of full scale; 8 bits are unsigned, the others signed, lowest byte first."""
    if width == 1:
        return (np.frombuffer(frames, dtype=np.uint8).astype(np.float64) - 128) / 128
    if width == 3:
        parts = np.frombuffer(frames, dtype=np.uint8).reshape(-1, 3)
        padded = np.zeros((parts.shape[0], 4), dtype=np.uint8)
        padded[:, 1:] = parts
        return padded.view("<i4")[:, 0].astype(np.float64) / 2**31
    whole = np.frombuffer(frames, dtype=np.dtype(f"<i{width}"))
    return np.asarray(whole / 2.0 ** (8 * width - 1), dtype=np.float64)

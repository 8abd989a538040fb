"""A recorded oscillation from a file: CSV of times and values, or WAV."""

from __future__ import annotations

from pathlib import Path

from clubwright.club.trace.record import Trace
from clubwright.importers.opening import opening
from clubwright.importers.trace_csv import read_csv
from clubwright.importers.trace_wav import read_wav


def load_trace(path: Path, *, rate_hz: float | None = None, column: str | None = None) -> Trace:
    """Return one channel of a file: WAV by its ending, else CSV.

    Args:
        path: The file.
        rate_hz: Samples a second, for a CSV file that has values only.
        column: Column of the CSV file by its name, or channel of the WAV file by its number, where there is a choice.

    Raises:
        InputError: The file is not there or cannot be taken: every finding, with its line number.
    """
    with opening(path, name="Name the file.", save="Save it as CSV in UTF-8, or as WAV."):
        if path.suffix.lower() in (".wav", ".wave"):
            with path.open("rb") as file:
                return read_wav(file, path.name, rate_hz=rate_hz, channel=column)
        with path.open(encoding="utf-8-sig") as text:
            return read_csv(text, path.name, rate_hz=rate_hz, column=column)

"""A recorded oscillation from a file: CSV of times and values, or WAV."""

from __future__ import annotations

from pathlib import Path

from clubwright.club.trace.record import Trace
from clubwright.errors import Finding, InputError
from clubwright.importers.trace_csv import parse_trace
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
    try:
        if path.suffix.lower() in (".wav", ".wave"):
            return read_wav(path.read_bytes(), path.name, rate_hz=rate_hz, channel=column)
        return parse_trace(path.read_text(encoding="utf-8-sig"), path.name, rate_hz=rate_hz, column=column)
    except FileNotFoundError:
        raise InputError(
            [Finding(where=str(path), what="no such file", mend="Check the name and the folder.")]
        ) from None
    except IsADirectoryError:
        raise InputError([Finding(where=str(path), what="this is a folder", mend="Name the file.")]) from None
    except UnicodeDecodeError as error:
        what = f"not a text file: byte {error.start} cannot be read"
        raise InputError([Finding(where=path.name, what=what, mend="Save it as CSV in UTF-8, or as WAV.")]) from None

"""What is said when a file cannot be opened or is no text: the same words for every kind of file."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from clubwright.errors import Finding, InputError


@contextmanager
def opening(path: Path, *, name: str, save: str) -> Iterator[None]:
    """Turn what the system says about a file into a finding.

    Args:
        path: The file that is read inside.
        name: What to do when it is a folder, such as ``Name the ticket file.``
        save: What to do when it is no text, such as ``Save it as CSV in UTF-8.``

    Raises:
        InputError: when the file is not there, is a folder, or is no text.
    """
    try:
        yield
    except FileNotFoundError:
        raise InputError(
            [Finding(where=str(path), what="no such file", mend="Check the name and the folder.")]
        ) from None
    except IsADirectoryError:
        raise InputError([Finding(where=str(path), what="this is a folder", mend=name)]) from None
    except UnicodeDecodeError as error:
        what = f"not a text file: byte {error.start} cannot be read"
        raise InputError([Finding(where=path.name, what=what, mend=save)]) from None

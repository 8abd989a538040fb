"""Put a file in its place so that a power cut leaves the one before or the new one, whole; the new one once it is done.

Three things are needed, in this order: the content is on the disk, the name changes at one stroke, the folder is on the
disk. Without the first a file may come back empty, without the last the one before may come back.
"""

from __future__ import annotations

import os
import secrets
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path


def put_in_place(part: Path, path: Path) -> None:
    """Give a finished file its name, in the place of whatever has that name.

    Raises:
        OSError: when the system refuses; then the name is as it was.
    """
    _sync(part)
    os.replace(part, path)  # noqa: PTH105 - all that touches the disk here goes through `os`, which a test stands in for
    _sync_folder(path.parent)


def write_private(path: Path, content: bytes) -> None:
    """Write a file that only this account can read, in the place of one that is there.

    Raises:
        OSError: when the system refuses; then the file is as it was.
    """
    _written(path, content, os.replace)


def make_private(path: Path, content: bytes) -> bool:
    """Make a file that only this account can read, unless there is one; of several that try at once, one succeeds.

    Returns:
        Whether it was made.

    Raises:
        OSError: when the system refuses; then there is no such file.
    """
    try:
        _written(path, content, _link_or_move)
    except FileExistsError:
        return False
    return True


def _written(path: Path, content: bytes, give_name: Callable[[str, Path], None]) -> None:
    part = str(path.with_name(f".{path.name}-{secrets.token_hex(8)}"))
    number = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        try:
            rest = content
            while rest:
                rest = rest[os.write(number, rest) :]
            os.fsync(number)
        finally:
            os.close(number)
        give_name(part, path)
    finally:
        with suppress(FileNotFoundError):
            os.unlink(part)  # noqa: PTH108 - see above
    _sync_folder(path.parent)


def _link_or_move(part: str, path: Path) -> None:
    try:
        os.link(part, path)  # see above
    except FileExistsError:
        raise
    except OSError:
        # a stick whose file system knows no second name for a file
        if path.exists():
            raise FileExistsError(path) from None
        os.replace(part, path)  # noqa: PTH105 - see above


def _sync(path: Path) -> None:
    number = os.open(path, os.O_RDWR)
    try:
        os.fsync(number)
    finally:
        os.close(number)


def _sync_folder(folder: Path) -> None:
    """Bring a folder's names to the disk, where the system knows such a thing; some shared folders do not."""
    if os.name != "posix":
        return
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)

"""A disk in memory that remembers what was asked of it, so that the power can be cut after any operation.

What a real disk has promised is little: the content of a file up to its last sync, and the names of a folder up to the
folder's. Whatever was asked later may be there, may be missing, or may be there in part, whatever its order:

* a write or a change of length: kept, dropped, or torn at the sectors of 512 bytes;
* a name made, taken away or replaced: kept up to some one of them, as a file system that keeps a journal of its names
  does; the content of a file and its name wait for different syncs.

`Disk` is what a running program sees. Its `log` holds every operation, and `wreck.Wreck` works out from a part of that log
what may be left when the power goes there. Nothing here knows of SQLite.
"""

from __future__ import annotations

import errno
from collections.abc import Sequence

import msgspec

SECTOR = 512


class Write(msgspec.Struct, frozen=True):
    """Bytes were put into a file."""

    file: int
    offset: int
    data: bytes


class Truncate(msgspec.Struct, frozen=True):
    """A file was given another length."""

    file: int
    size: int


class Sync(msgspec.Struct, frozen=True):
    """All of a file's content is on the disk for good."""

    file: int


class Name(msgspec.Struct, frozen=True):
    """Names of the folder changed, all at once: a file under each, or None where the name is gone."""

    names: tuple[tuple[str, int | None], ...]


class SyncFolder(msgspec.Struct, frozen=True):
    """All names of the folder are on the disk for good."""


class Mark(msgspec.Struct, frozen=True):
    """The program said something to somebody."""

    text: str


Op = Write | Truncate | Sync | Name | SyncFolder | Mark


def laid(content: bytes, change: Write | Truncate) -> bytes:
    """Return a file's content after a change."""
    if isinstance(change, Truncate):
        return content[: change.size].ljust(change.size, b"\0")
    end = change.offset + len(change.data)
    return content[: change.offset].ljust(change.offset, b"\0") + change.data + content[end:]


class DiskFull(OSError):
    """There is no room for what a write would add."""

    def __init__(self) -> None:
        super().__init__(errno.ENOSPC, "the simulated disk is full")


class Disk:
    """One folder of files as a running program sees it.

    Attributes:
        files: Content by number of file.
        names: Number of the file under each name.
        log: Every operation since the disk was as it is now at rest.
        room: So many bytes are left before it is full; None for as many as anybody wants.
    """

    room: int | None = None

    def __init__(self, content: dict[str, bytes] | None = None) -> None:
        given = content or {}
        self.names: dict[str, int] = {name: number for number, name in enumerate(given)}
        self.files: dict[int, bytes] = {self.names[name]: data for name, data in given.items()}
        self.log: list[Op] = []
        self.at_rest()

    def at_rest(self) -> None:
        """Everything so far is on the disk for good; the log begins anew."""
        self.log.clear()
        self.rest = (dict(self.files), dict(self.names))

    def make(self, name: str) -> int:
        """Make an empty file under a name."""
        number = max(self.files, default=-1) + 1
        self.files[number] = b""
        self._name((name, number))
        return number

    def write(self, file: int, offset: int, data: bytes) -> None:
        """Put bytes into a file.

        Raises:
            DiskFull: when the file would grow by more than there is room for; nothing is written.
        """
        growth = max(0, offset + len(data) - len(self.files[file]))
        if self.room is not None:
            if growth > self.room:
                raise DiskFull
            self.room -= growth
        self._change(Write(file, offset, bytes(data)))

    def truncate(self, file: int, size: int) -> None:
        """Give a file another length."""
        self._change(Truncate(file, size))

    def sync(self, file: int) -> None:
        """Bring a file's content to the disk for good."""
        self.log.append(Sync(file))

    def sync_folder(self) -> None:
        """Bring the folder's names to the disk for good."""
        self.log.append(SyncFolder())

    def unlink(self, name: str) -> None:
        """Take a name away."""
        self._name((name, None))

    def link(self, old: str, new: str) -> None:
        """Give a file a second name."""
        self._name((new, self.names[old]))

    def replace(self, old: str, new: str) -> None:
        """Put a file under another name, in the place of whatever was there."""
        self._name((old, None), (new, self.names[old]))

    def say(self, text: str) -> None:
        """Note that the program told somebody something."""
        self.log.append(Mark(text))

    def _change(self, change: Write | Truncate) -> None:
        self.files[change.file] = laid(self.files[change.file], change)
        self.log.append(change)

    def _name(self, *names: tuple[str, int | None]) -> None:
        rename(self.names, names)
        self.log.append(Name(names))


def rename(names: dict[str, int], changes: Sequence[tuple[str, int | None]]) -> None:
    """Change names of a folder."""
    for name, file in changes:
        if file is None:
            del names[name]
        else:
            names[name] = file

"""A disk in memory that remembers what was asked of it, so that the power can be cut after any operation.

What a real disk has promised is little: the content of a file up to its last sync, and the names of a folder up to the
folder's. Whatever was asked later may be there, may be missing, or may be there in part, whatever its order:

* a write or a change of length: kept, dropped, or torn at the sectors of 512 bytes;
* a name made, taken away or replaced: kept up to some one of them, as a file system that keeps a journal of its names
  does; the content of a file and its name wait for different syncs.

`Disk` is what a running program sees. Its `log` holds every operation, and `Wreck` works out from a part of that log what
may be left when the power goes there. Nothing here knows of SQLite.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator, Sequence

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


class Disk:
    """One folder of files as a running program sees it.

    Attributes:
        files: Content by number of file.
        names: Number of the file under each name.
        log: Every operation since the disk was as it is now at rest.
    """

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
        """Put bytes into a file."""
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
        _rename(self.names, names)
        self.log.append(Name(names))


def _rename(names: dict[str, int], changes: Sequence[tuple[str, int | None]]) -> None:
    for name, file in changes:
        if file is None:
            del names[name]
        else:
            names[name] = file


class Wreck:
    """What may be left of a disk when the power goes after a number of its operations.

    Args:
        disk: The disk.
        after: How many operations of its log were asked for.
    """

    def __init__(self, disk: Disk, after: int) -> None:
        files, names = disk.rest
        self.files, self.names = dict(files), dict(names)
        self.said: list[str] = []
        self.pending: list[Write | Truncate] = []
        self.renamed: list[Name] = []
        for op in disk.log[:after]:
            self._add(op)

    def _add(self, op: Op) -> None:
        if isinstance(op, Mark):
            self.said.append(op.text)
        elif isinstance(op, Name):
            self.renamed.append(op)
        elif isinstance(op, SyncFolder):
            for change in self.renamed:
                _rename(self.names, change.names)
            self.renamed = []
        elif isinstance(op, Sync):
            for change in self.pending:
                if change.file == op.file:
                    self._lay(self.files, change)
            self.pending = [change for change in self.pending if change.file != op.file]
        else:
            self.pending.append(op)

    def left(self, chance: random.Random, torn: int) -> Iterator[dict[str, bytes]]:
        """Yield what may be left: with every number of names kept, each with several fates of the writes.

        Args:
            chance: Decides what is torn and how.
            torn: How many times it is asked, beside everything kept, nothing kept, and all but one kept.
        """
        seen: set[tuple[tuple[str, bytes], ...]] = set()
        for kept in range(len(self.renamed) + 1):
            names = dict(self.names)
            for change in self.renamed[:kept]:
                _rename(names, change.names)
            for fate in self._fates(chance, torn):
                files = dict(self.files)
                for change in fate:
                    self._lay(files, change)
                found = {name: files.get(file, b"") for name, file in names.items()}
                mark = tuple(sorted(found.items()))
                if mark not in seen:
                    seen.add(mark)
                    yield found

    def _fates(self, chance: random.Random, torn: int) -> Iterator[list[Write | Truncate]]:
        yield self.pending
        if not self.pending:
            return
        yield []
        for gone in range(len(self.pending)):
            yield self.pending[:gone] + self.pending[gone + 1 :]
        for _ in range(torn):
            yield list(itertools.chain.from_iterable(_torn(change, chance) for change in self.pending))

    @staticmethod
    def _lay(files: dict[int, bytes], change: Write | Truncate) -> None:
        files[change.file] = laid(files.get(change.file, b""), change)


def _torn(change: Write | Truncate, chance: random.Random) -> list[Write | Truncate]:
    """Return what is left of a change: all, nothing, or some of its sectors."""
    fate = chance.choice(("kept", "dropped", "torn"))
    if fate == "dropped":
        return []
    if fate == "kept" or isinstance(change, Truncate):
        return [change]
    pieces = []
    start = change.offset
    while start < change.offset + len(change.data):
        end = min((start // SECTOR + 1) * SECTOR, change.offset + len(change.data))
        if chance.random() < 0.5:
            pieces.append(Write(change.file, start, change.data[start - change.offset : end - change.offset]))
        start = end
    return list(pieces)

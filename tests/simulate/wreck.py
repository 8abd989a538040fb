"""What may be left of a disk when the power goes: of what was not synced some is there, some is not, some in part."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator

from disk import SECTOR, Disk, Mark, Name, Op, Sync, SyncFolder, Truncate, Write, laid, rename


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
                rename(self.names, change.names)
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
                rename(names, change.names)
            for fate in self._fates(chance, torn):
                files = dict(self.files)
                for change in fate:
                    self._lay(files, change)
                found = {name: files.get(file, b"") for name, file in names.items()}
                mark = tuple(sorted(found.items()))
                if mark not in seen:
                    seen.add(mark)
                    yield found

    def drawn(self, chance: random.Random) -> dict[str, bytes]:
        """Return one of the things that may be left, by chance."""
        names = dict(self.names)
        for change in self.renamed[: chance.randint(0, len(self.renamed))]:
            rename(names, change.names)
        files = dict(self.files)
        fate = chance.choice(("all", "nothing", "one gone", "torn"))
        gone = chance.randrange(len(self.pending)) if self.pending else 0
        for number, change in enumerate(self.pending):
            if fate == "torn":
                for piece in _torn(change, chance):
                    self._lay(files, piece)
            elif fate == "all" or (fate == "one gone" and number != gone):
                self._lay(files, change)
        return {name: files.get(file, b"") for name, file in names.items()}

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

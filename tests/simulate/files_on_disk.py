"""The system's calls on files, on the disk in memory: stands in for `os` in a module that writes files."""

from __future__ import annotations

import os
from pathlib import Path

from disk import Disk

FOLDER = Path("/workshop")


class DiskOs:
    """As much of `os` as `clubwright.store.files` uses, on one folder."""

    name = "posix"
    O_RDONLY, O_RDWR, O_WRONLY, O_CREAT, O_EXCL = os.O_RDONLY, os.O_RDWR, os.O_WRONLY, os.O_CREAT, os.O_EXCL

    def __init__(self, disk: Disk, *, links: bool = True) -> None:
        self.disk = disk
        self.links = links
        self.at: dict[int, int] = {}
        self.opened: list[int | None] = []

    def open(self, path: str | Path, flags: int, mode: int = 0o777) -> int:
        if Path(path) == FOLDER:
            self.opened.append(None)
            return len(self.opened) - 1
        name = self._name(path)
        if flags & self.O_EXCL and name in self.disk.names:
            raise FileExistsError(name)
        if flags & self.O_CREAT and name not in self.disk.names:
            self.disk.make(name)
        self.opened.append(self.disk.names[name])
        return len(self.opened) - 1

    def write(self, number: int, data: bytes) -> int:
        file = self.opened[number]
        assert file is not None
        some = data[: max(1, len(data) // 2)]  # a system may take less than it is given
        self.disk.write(file, len(self.disk.files[file]), some)
        return len(some)

    def fsync(self, number: int) -> None:
        file = self.opened[number]
        if file is None:
            self.disk.sync_folder()
        else:
            self.disk.sync(file)

    def close(self, number: int) -> None:
        pass

    def replace(self, old: str | Path, new: str | Path) -> None:
        self.disk.replace(self._name(old), self._name(new))

    def link(self, old: str | Path, new: str | Path) -> None:
        if not self.links:
            raise PermissionError("no links here")
        if self._name(new) in self.disk.names:
            raise FileExistsError(new)
        self.disk.link(self._name(old), self._name(new))

    def unlink(self, path: str | Path) -> None:
        if self._name(path) not in self.disk.names:
            raise FileNotFoundError(path)
        self.disk.unlink(self._name(path))

    @staticmethod
    def _name(path: str | Path) -> str:
        assert Path(path).parent == FOLDER
        return Path(path).name

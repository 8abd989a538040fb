"""Sessions that were signed out before their day was over, in a file beside the people: a restart revives none of them."""

from __future__ import annotations

import logging
import threading
from pathlib import Path
from typing import Any

import msgspec

from clubwright.store.files import write_private

FILE = "signed-out"

log = logging.getLogger("clubwright.web")


class SignedOut:
    """Numbers of sessions, each with when it would have ended (seconds since 1970); read anew when the file has changed.

    Where the file cannot be written, sessions still stay signed out until the program ends, and the log says so.
    """

    def __init__(self, path: Path | None) -> None:
        self.path = path
        self._lock = threading.Lock()
        self._stamp: tuple[Any, ...] = ()
        self._ended: dict[str, int] = {}

    def __contains__(self, number: str) -> bool:
        with self._lock:
            self._read()
            return number in self._ended

    def add(self, number: str, until: int, now: float) -> None:
        """Keep one, and forget those that are over by now."""
        with self._lock:
            self._read()
            self._ended[number] = until
            self._ended = {key: end for key, end in self._ended.items() if end > now}
            if self.path is None:
                return
            try:
                write_private(self.path, msgspec.json.encode(self._ended))
            except OSError as refused:
                log.warning("%s cannot be written (%s): a restart would revive sessions", self.path, refused.strerror)

    def _read(self) -> None:
        """Take in what another program on this workshop has signed out; what cannot be read leaves what is known."""
        if self.path is None:
            return
        try:
            found = self.path.stat()
            stamp = (found.st_mtime_ns, found.st_size, found.st_ino)
            if stamp != self._stamp:
                self._ended |= msgspec.json.decode(self.path.read_bytes(), type=dict[str, int])
                self._stamp = stamp
        except (OSError, msgspec.DecodeError):
            return

"""A log that strangers cannot fill: so many lines at once, then so many a minute, and how many were left out."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable

AT_ONCE, A_MINUTE = 60.0, 6.0
LONGEST = 8000
"""Characters of a line with its trace; what is behind is cut off."""
LOGGERS = ("uvicorn.error", "asyncio", "clubwright.web", "concurrent.futures")
"""Who writes when somebody knocks: each has lines of its own, so that one does not silence another."""


class FewLines(logging.Filter):
    """Lets through what a bucket of lines holds; it fills again with time."""

    def __init__(self, now: Callable[[], float] = time.monotonic) -> None:
        super().__init__()
        self._now = now
        self._left, self._since, self._out = AT_ONCE, now(), 0

    def filter(self, record: logging.LogRecord) -> bool:
        """Say whether a line is written; the first after a gap says how many were not."""
        now = self._now()
        self._left = min(AT_ONCE, self._left + (now - self._since) * A_MINUTE / 60)
        self._since = now
        if self._left < 1:
            self._out += 1
            return False
        self._left -= 1
        if self._out:
            record.msg, record.args = f"({self._out} lines were left out) {record.getMessage()}", None
            self._out = 0
        if record.exc_info and not record.exc_text:
            record.exc_text = logging.Formatter().formatException(record.exc_info)[-LONGEST:]
        if len(record.getMessage()) > LONGEST:
            record.msg, record.args = record.getMessage()[:LONGEST], None
        return True


def quiet_log() -> None:
    """Bound the log of a served workshop; again is no different from once."""
    for name in LOGGERS:
        logger = logging.getLogger(name)
        if not any(isinstance(each, FewLines) for each in logger.filters):
            logger.addFilter(FewLines())

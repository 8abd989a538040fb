"""How often: requests for each address, and a growing wait after wrong PINs. The time is passed in."""

from __future__ import annotations

import math
import threading
from collections import OrderedDict
from datetime import datetime, timedelta

MOST_KEYS = 2000
"""Addresses and names remembered; the oldest are forgotten first, so that no flood of them fills the memory."""

FREE_TRIES = 3
LONGEST_WAIT_S = 900
FORGOTTEN = timedelta(hours=12)
"""Wrong PINs are forgotten after half a day without a further one."""


class Buckets:
    """Token buckets: each address has a full one of `burst`, which fills again by `per_second`."""

    def __init__(self, burst: float, per_second: float) -> None:
        self.burst, self.per_second = burst, per_second
        self._left: OrderedDict[str, tuple[float, datetime]] = OrderedDict()

    def take(self, key: str, now: datetime) -> int:
        """Take one; return 0 when there was one, else the whole seconds to wait."""
        left, since = self._left.pop(key, (self.burst, now))
        left = min(self.burst, left + max((now - since).total_seconds(), 0.0) * self.per_second)
        taken = left >= 1
        self._left[key] = (left - 1 if taken else left, now)
        while len(self._left) > MOST_KEYS:
            self._left.popitem(last=False)
        return 0 if taken else int((1 - left) / self.per_second) + 1


class WrongPins:
    """Counts wrong PINs for a person and for an address: three are free, then 2 s to wait, doubled by each, up to 15 min."""

    def __init__(self) -> None:
        self._wrong: OrderedDict[str, tuple[int, datetime]] = OrderedDict()
        self._lock = threading.Lock()

    def begin(self, keys: tuple[str, ...], now: datetime) -> int:
        """Count a try before it is checked; return 0, or the whole seconds to wait, and then it is not counted.

        Counted first, so that many tries sent at once do not all slip in before the first is found wrong.
        """
        with self._lock:
            wait = max(self._wait(key, now) for key in keys)
            if wait:
                return wait
            for key in keys:
                self._wrong[key] = (self._count(key, now) + 1, now)
                self._wrong.move_to_end(key)
            while len(self._wrong) > MOST_KEYS:
                self._wrong.popitem(last=False)
            return 0

    def right(self, keys: tuple[str, ...]) -> None:
        """The PIN was right: what was counted for these is forgotten."""
        with self._lock:
            for key in keys:
                self._wrong.pop(key, None)

    def _count(self, key: str, now: datetime) -> int:
        count, last = self._wrong.get(key, (0, now))
        return 0 if now - last > FORGOTTEN else count

    def _wait(self, key: str, now: datetime) -> int:
        count = self._count(key, now)
        if count < FREE_TRIES:
            return 0
        last = min(self._wrong[key][1], now)
        self._wrong[key] = (count, last)  # a clock that was set back locks nobody out
        due = last + timedelta(seconds=min(2 ** (count - FREE_TRIES + 1), LONGEST_WAIT_S))
        return max(math.ceil((due - now).total_seconds()), 0)

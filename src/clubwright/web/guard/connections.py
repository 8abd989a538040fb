"""How many connections there may be and how long one may take to ask or to listen, so that strangers shut nobody out.

A request that is not whole in time is hung up on, and so is who does not take what they asked for. Where there are too many,
the one that has waited longest without asking makes room for the newcomer: half-sent requests never keep a tablet out.
"""

from __future__ import annotations

import asyncio
import sys
from collections.abc import Callable
from typing import Any, cast

from uvicorn.protocols.http.h11_impl import H11Protocol

REQUEST_S = 30.0
"""From the first byte of a request, or from the connection, to the last byte of its body: 256 kB at 70 kbit/s."""
LISTEN_S = 30.0
"""How long an answer may stand in the way, untouched."""
MOST, MOST_OF_ONE = 400, 40
"""Connections in all, and from one address: a tablet has six at most."""
KEPT_FREE = 160
"""File descriptors left for the record, for gauges, and for those that wait at the door: `BACKLOG` of them."""
BACKLOG = 64
"""Connections that wait at the door; the system takes them in as many at a time."""


def raised_limit() -> int:
    """Raise what this process may have open, where the system lets it; return how many connections that leaves."""
    if sys.platform == "win32":
        return MOST
    import resource

    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = MOST + KEPT_FREE
    if soft != resource.RLIM_INFINITY and soft < wanted:
        soft = wanted if hard == resource.RLIM_INFINITY else min(wanted, hard)
        resource.setrlimit(resource.RLIMIT_NOFILE, (soft, hard))
    return MOST if soft == resource.RLIM_INFINITY else max(16, min(MOST, soft - KEPT_FREE))


WHOLE = frozenset({"DONE", "MUST_CLOSE", "CLOSED"})
"""States of the other end, by the names that the reader of HTTP gives them, in which all of a request is there."""


class Connections:
    """Who is connected, oldest first.

    Attributes:
        most: In all.
        most_of_one: From one address; a proxy that is named speaks for many, and may have as many as there are.
        proxies: Addresses of the proxies.
    """

    def __init__(self, most: int, most_of_one: int, proxies: Callable[[str], bool] = lambda _: False) -> None:
        self.most, self.most_of_one, self.proxies = most, most_of_one, proxies
        self._all: dict[Guarded, str] = {}

    def let_in(self, new: Guarded, address: str) -> bool:
        """Take a newcomer in, where need be in the place of who waits without asking; false when all are busy."""
        alike = [each for each, other in self._all.items() if other == address]
        if (len(alike) >= self.most_of_one and not self.proxies(address) and not _make_room(alike)) or (
            len(self._all) >= self.most and not _make_room(list(self._all))
        ):
            return False
        self._all[new] = address
        return True

    def gone(self, old: Guarded) -> None:
        """Forget who hung up."""
        self._all.pop(old, None)


def _make_room(among: list[Guarded]) -> bool:
    oldest = next((each for each in among if not each.asked), None)
    if oldest is None:
        return False
    oldest.hang_up()
    return True


class Guarded(H11Protocol):
    """One connection, with its two clocks."""

    among: Connections
    request_s: float = REQUEST_S
    listen_s: float = LISTEN_S

    def __init__(self, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        self._to_ask: asyncio.TimerHandle | None = None
        self._to_listen: asyncio.TimerHandle | None = None

    @property
    def asked(self) -> bool:
        """Whether a whole request is being answered."""
        return self.cycle is not None and not self.cycle.response_complete and self._is_whole

    @property
    def _is_whole(self) -> bool:
        return self.conn.their_state.__name__ in WHOLE

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Take a connection in, or hang up at once."""
        super().connection_made(transport)
        if self.among.let_in(self, self.client[0] if self.client else ""):
            self._to_ask = self.loop.call_later(self.request_s, self.hang_up)
        else:
            self.hang_up()

    def data_received(self, data: bytes) -> None:
        """Take what came; the clock of a request runs from its first byte until it is whole."""
        if self._to_ask is None and not self.asked:
            self._to_ask = self.loop.call_later(self.request_s, self.hang_up)
        super().data_received(data)
        if self._is_whole:
            self._to_ask = _stopped(self._to_ask)

    def pause_writing(self) -> None:
        """The other end takes nothing for the moment."""
        super().pause_writing()
        self._to_listen = self._to_listen or self.loop.call_later(self.listen_s, self.hang_up)

    def resume_writing(self) -> None:
        """The other end listens again."""
        super().resume_writing()
        self._to_listen = _stopped(self._to_listen)

    def connection_lost(self, exc: Exception | None) -> None:
        """Forget it, clocks and all."""
        self._to_ask, self._to_listen = _stopped(self._to_ask), _stopped(self._to_listen)
        self.among.gone(self)
        super().connection_lost(exc)

    def hang_up(self) -> None:
        """End the connection, whatever is under way on it."""
        self.among.gone(self)
        self.transport.abort()


def _stopped(clock: asyncio.TimerHandle | None) -> asyncio.TimerHandle | None:
    if clock is not None:
        clock.cancel()
    return None


def guarded(among: Connections, *, request_s: float = REQUEST_S, listen_s: float = LISTEN_S) -> type[asyncio.Protocol]:
    """Return the protocol of a server whose connections are counted together."""
    kind = type("GuardedHere", (Guarded,), {"among": among, "request_s": request_s, "listen_s": listen_s})
    return cast("type[asyncio.Protocol]", kind)

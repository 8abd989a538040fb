"""Live news: that the record changed, what the gauges show, and a beat every second so that a dead link shows.

One task watches the record's facts (other benches may write to it too) and wakes every open page. A page that hears no beat
for three seconds says that the link is lost and greys its numbers (static/bench.js).
"""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from contextlib import suppress

import msgspec
from fastapi import APIRouter, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.sse import EventSourceResponse, ServerSentEvent

from clubwright.devices.gauges import Gauges
from clubwright.errors import ClubwrightError
from clubwright.services.record.session import Session
from clubwright.web.guard.access import Access

router = APIRouter()
BEAT_S = 1.0
RETRY_MS = 1000
"""How soon a browser asks again after the stream has ended."""


class Watch:
    """How many facts the record holds, looked up at most once a beat however many pages are open."""

    def __init__(self, session: Session) -> None:
        self.session = session
        self.count = -1
        self._looked = 0.0
        self._lock = asyncio.Lock()

    async def facts(self) -> int:
        """Return the number of facts, no older than half a beat."""
        async with self._lock:
            now = asyncio.get_running_loop().time()
            if now - self._looked >= BEAT_S / 4:
                with suppress(
                    ClubwrightError
                ):  # a record that is damaged or busy: the beat goes on with the number it has
                    self.count = await run_in_threadpool(self.session.ledger.count)
                self._looked = now
            return self.count


@router.get("/live", response_class=EventSourceResponse)
async def live(request: Request) -> AsyncIterator[ServerSentEvent]:
    """Stream beats: each carries the number of facts, and a page whose number is older fetches itself anew."""
    state = request.app.state
    watch: Watch = state.watch
    gauges: Gauges = state.gauges
    session: Session = state.session
    stopping: asyncio.Event = state.stopping
    last = -1
    waited = 0.0
    yield ServerSentEvent(retry=RETRY_MS)
    access: Access = state.access
    cookie = request.cookies.get(access.session_cookie, "")
    # asked again at each turn: who was taken out, signed out or has had their day sees nothing more
    while not stopping.is_set() and not await request.is_disconnected() and access.still_in(cookie, session.now()):
        count = await watch.facts()
        if count != last or waited >= BEAT_S:
            yield ServerSentEvent(event="beat", data={"facts": count})
            last, waited = count, 0.0
        for shown in gauges.shown():
            yield ServerSentEvent(event="line", raw_data=msgspec.json.encode(shown).decode())
        await asyncio.sleep(BEAT_S / 4)
        waited += BEAT_S / 4

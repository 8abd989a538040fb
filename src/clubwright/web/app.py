"""The web application: routes, security, static files, and errors as pages."""

from __future__ import annotations

import asyncio
import time
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import Any

from fastapi import FastAPI
from fastapi.responses import RedirectResponse, Response
from fastapi.staticfiles import StaticFiles

from clubwright.devices.gauges import Gauges
from clubwright.services.record.session import Session
from clubwright.web import api, live
from clubwright.web.api.structs import COMPONENTS
from clubwright.web.errors import add_error_pages
from clubwright.web.live import Watch
from clubwright.web.pages import (
    alarms,
    bench,
    clubs,
    forgetting,
    orders,
    own,
    records,
    shaft,
    sign_in,
    theme,
    tickets,
    why,
)
from clubwright.web.rendering import STATIC
from clubwright.web.security import secure
from clubwright.web.settings import WebSettings
from clubwright.web.units_first import UnitsFirst


class Bench(FastAPI):
    """The application; its document says the structs that routes take and give."""

    def openapi(self) -> dict[str, Any]:
        """Return the interface's document."""
        found = super().openapi()
        found.setdefault("components", {}).setdefault("schemas", {}).update(COMPONENTS)
        return found


def create_app(settings: WebSettings, session: Session, gauges: Gauges | None = None) -> FastAPI:
    """Return the application for one workshop.

    Args:
        settings: How it is served.
        session: The record and the clock; the person is put in for each request.
        gauges: Gauges on this bench's cables, whose lines the page shows; none when not given.
    """

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[None]:
        app.state.stopping = asyncio.Event()
        app.state.gauges.start()
        yield
        app.state.stopping.set()
        app.state.gauges.stop()

    app = Bench(title="clubwright", lifespan=lifespan, docs_url=None, redoc_url=None)
    app.state.settings = settings
    app.state.session = session
    app.state.watch = Watch(session)
    app.state.gauges = gauges or Gauges({})
    app.state.alarms = alarms.Alarms()
    app.state.stopwatch = time.monotonic
    app.state.stopping = asyncio.Event()
    app.add_middleware(UnitsFirst)
    secure(app, settings)
    add_error_pages(app)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    for module in (bench, forgetting, shaft, why, orders, tickets, clubs, records, theme, own, sign_in, live, alarms):
        app.include_router(module.router, include_in_schema=False)
    for router in api.ROUTERS:
        app.include_router(router)

    @app.get("/", include_in_schema=False)
    def front() -> Response:
        """Lead to the tickets."""
        return RedirectResponse("/tickets", status_code=303)

    return app

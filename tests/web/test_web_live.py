"""The live link as a browser's event source reads it: events by name, at once when something happened, and an end."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from typing import Any, cast

import httpx
from browsing import Server
from fastapi import FastAPI

from benchwork import JOB
from clubwright.devices.gauges import Gauges, Shown
from clubwright.services.actions import bench
from clubwright.services.record.session import Session


class OneGauge:
    """A scale whose line holds what would end an event, were it sent as it came."""

    def start(self) -> None: ...

    def stop(self) -> None: ...

    def shown(self) -> tuple[Shown, ...]:
        text = "12 g\n\nevent: beat"
        return (Shown(gauge="gram scale", quantities=(), kind="mass", text=text, stable=True, dropped=0),)


def events(lines: Iterator[str]) -> Iterator[dict[str, str]]:
    """Part lines into events, as the standard says: a field each, an empty line ends one, a colon begins a remark."""
    event: dict[str, str] = {}
    for line in lines:
        if line.startswith(":"):
            continue
        if line:
            key, _, value = line.partition(": ")
            event[key] = value
        elif event:
            yield event
            event = {}


def test_it_beats_says_what_is_new_at_once_and_shows_gauges(web_app: FastAPI, web_session: Session) -> None:
    web_app.state.gauges = cast("Gauges", OneGauge())
    with Server(web_app) as address, httpx.stream("GET", f"{address}/live") as answer:
        found = events(answer.iter_lines())
        assert next(found) == {"retry": "1000"}
        first = next(found)
        assert (first["event"], json.loads(first["data"])) == ("beat", {"facts": 1})
        line: dict[str, Any] = next(found)
        assert (line["event"], json.loads(line["data"])["text"]) == ("line", "12 g\n\nevent: beat")
        bench.change_part(web_session, JOB, "head", {"hand": "right"})
        written = time.monotonic()
        beat = next(event for event in found if event["event"] == "beat" and json.loads(event["data"])["facts"] == 2)
        assert beat
        assert time.monotonic() - written < 5
        again = next(event for event in found if event["event"] == "beat")
        assert json.loads(again["data"]) == {"facts": 2}, "a beat comes also when nothing is new"
        web_app.state.stopping.set()
        assert all(event["event"] in ("beat", "line") for event in found), "and it ends when the program does"

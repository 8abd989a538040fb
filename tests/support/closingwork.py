"""Small invented jobs without a joint, and how the tests accept what a test about something else leaves open."""

from __future__ import annotations

import copy
from typing import Any

from benchwork import JOB
from clubwright.services.actions import bench
from clubwright.services.jobs.closing import ClosingPoint, closing_points, open_points
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session

BEND: dict[str, Any] = {
    "ticket": {"id": "T-7", "kind": "iron", "hand": "right", "job": "loft-lie", "player": "Robin Ashdown (invented)"},
    "target": {"loft": "34 deg", "lie": "62 deg"},
    "tolerance": {"loft": "1 deg", "lie": "1 deg"},
    "head": {"mass": "270 g", "loft": "34.5 deg", "lie": "63.5 deg", "hand": "right"},
    "shaft": {"cut_length": "36 in", "mass": "120 g"},
    "grip": {"mass": "50 g"},
    "instrument": {"angle gauge": {"resolution": "0.25 deg"}},
}
GRIP: dict[str, Any] = {
    "ticket": {"id": "T-8", "kind": "iron", "hand": "right", "job": "regrip"},
    "target": {"grip_diameter_2in": "0.915 in"},
    "tolerance": {"grip_diameter_2in": "0.010 in"},
    "head": {"mass": "261 g"},
    "shaft": {"cut_length": "36.4 in", "mass": "118 g"},
    "grip": {"mass": "56.3 g", "diameter_2in": "0.914 in"},
    "instrument": {"caliper": {"resolution": "0.001 in"}},
}
WEIGHT: dict[str, Any] = {
    "ticket": {"id": "T-9", "kind": "iron", "hand": "right", "job": "weight"},
    "target": {"swing_weight": "D4", "length": "37 in"},
    "tolerance": {"swing_weight": "1 pt", "length": "1/4 in"},
    "head": {"mass": "262 g"},
    "shaft": {"cut_length": "35.85 in", "mass": "118 g"},
    "grip": {"mass": "50 g", "cap": "1/8 in"},
    "weight": [{"name": "lead 8", "mass": "8 g", "seat": "head"}],
    "instrument": {"swing scale": {"resolution": "0.1 pt"}},
}


def take(session: Session, document: dict[str, Any]) -> str:
    """Take a small job; return its number."""
    bench.take_ticket(session, copy.deepcopy(document), "small.toml")
    return str(document["ticket"]["id"])


def points(session: Session, job: str) -> dict[str, ClosingPoint]:
    state = session.job(job)
    return {point.key: point for point in closing_points(state, answer_job(state, session.now()))}


def accept_all(session: Session, job: str = JOB) -> None:
    """Accept whatever is open, by the name of an invented player."""
    state = session.job(job)
    for point in open_points(state, answer_job(state, session.now())):
        bench.accept(session, job, point.key, name="R. Ashdown", reason="plays it as it is")

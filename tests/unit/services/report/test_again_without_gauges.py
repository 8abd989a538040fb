"""A club that is made again has parts that no gauge has measured yet: the first measuring of each stands in its table."""

from __future__ import annotations

from typing import Any

import pytest

from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.build_again import make_again
from clubwright.ticket.read import read_ticket

pytestmark = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
SCALE = {"gram scale": {"resolution": "0.1 g"}, "caliper": {"resolution": "0.001 in"}}
CLUB: dict[str, Any] = {
    "ticket": {"id": "T-1", "kind": "iron", "hand": "right"},
    "target": {"length": "36 1/2 in"},
    "head": {
        "mass": "262 g",
        "bore_diameter": "0.359 in",
        "gauges": {"mass": "gram scale", "bore_diameter": "caliper"},
    },
    "shaft": {"raw_length": "39 in", "mass": "118 g", "gauges": {"mass": "gram scale"}},
    "grip": {"mass": "50 g", "gauges": {"mass": "gram scale"}},
    "tape": [{"name": "base", "mass": "1.6 g", "layers": "1", "gauges": {"mass": "gram scale"}}],
    "weight": [{"name": "port 4", "mass": "4 g", "seat": "port", "gauges": {"mass": "gram scale"}}],
    "instrument": SCALE,
}


def again(session: Session) -> dict[str, Any]:
    bench.take_ticket(session, CLUB, "ticket")
    job = session.job("T-1")
    return make_again(job, answer_job(job, session.now()), "T-2")


def test_no_gauge_is_said_to_have_measured_another_part(session: Session) -> None:
    made = again(session)
    rows = [row for content in made.values() for row in (content if isinstance(content, list) else [content])]
    assert [row for row in rows if "gauges" in row] == []
    assert made["instrument"] == SCALE
    _, findings = read_ticket(made)
    assert [finding for finding in findings if "gauge without a figure" in finding.what] == []


def test_what_is_first_measured_of_the_new_part_stands_in_its_table(session: Session) -> None:
    """It took its place beside what such a head is believed to weigh, as if that had been weighed too."""
    bench.take_ticket(session, again(session), "ticket")
    bench.change_part(session, "T-2", "head", {"mass": "264.1 g"}, gauge="gram scale")
    made = session.job("T-2").document
    assert (made["head"]["mass"], made["head"]["gauges"]) == ("264.1 g", {"mass": "gram scale"})
    assert made.get("reading", []) == []

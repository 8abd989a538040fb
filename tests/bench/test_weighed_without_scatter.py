"""A scale that only has a step is weighed on twice: the two that clash are named, and nothing falls over."""

from __future__ import annotations

import pytest

from benchwork import JOB, document, worked
from clubwright.services.actions import bench
from clubwright.services.record.session import Session

pytestmark = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)


@pytest.mark.parametrize("again", ["296.0 g", "296.1 g", "299.0 g"])
def test_a_mass_weighed_again_on_a_scale_without_scatter_is_worked(session: Session, again: str) -> None:
    found = document()
    found["instrument"]["gram scale"] = {"resolution": "0.1 g"}
    bench.take_ticket(session, found, "test")
    for mass in ("296.0 g", again):
        bench.change_part(session, JOB, "head", {"mass": mass})
    told = [item.what for item in worked(session).findings if "kept aside" in item.what]
    assert bool(told) == (again == "299.0 g"), "a digit that flickers by one step is nothing"
    assert all("reads 299.0 g" in text and "[head] mass is 296.0 g by the gram scale" in text for text in told)

"""Of a club that is not finished, making again takes the order and says so: no belief becomes a target."""

from __future__ import annotations

import pytest

from benchwork import JOB, Clock, document, run_to, worked
from clubwright.services.record.session import Session
from clubwright.services.report.build_again import again_findings, make_again

pytestmark = [pytest.mark.usefixtures("played"), pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


@pytest.mark.parametrize("until", ["hand", "cut", "glue", "read grip_diameter_2in 0.916 in finished"])
def test_an_unfinished_club_is_ordered_again_as_it_was_ordered(session: Session, clock: Clock, until: str):
    run_to(session, clock, until)
    new = make_again(session.job(JOB), worked(session), "T-0999")
    assert new["target"] == document()["target"]
    assert new.get("base") == document().get("base"), "a target counted from a base keeps it"
    (found,) = again_findings(session.job(JOB))
    assert (found.where, found.severity) == ("target", "warning")
    assert JOB in found.what
    assert "not finished" in found.what


def test_a_finished_club_is_made_again_as_it_came_out(session: Session, clock: Clock):
    run_to(session, clock, "finish")
    assert make_again(session.job(JOB), worked(session), "T-0999")["target"] != document()["target"]
    assert again_findings(session.job(JOB)) == ()

"""A figure without a unit takes the unit that its gauge shows, by every way in; nothing is guessed beside a gauge."""

from __future__ import annotations

import pytest

from benchwork import JOB, document
from clubwright.errors import InputError
from clubwright.services.actions import bench
from clubwright.services.actions.door import act
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.record.session import Session

pytestmark = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)


@pytest.fixture
def taken(session: Session) -> Session:
    bench.take_ticket(session, document(), "wedge-54.toml")
    return session


def do(session: Session, action: str, **given: object) -> str:
    return act(session, action, ACTIONS[action].payload(job=JOB, **given)).fact.typed


def test_a_reading_takes_the_unit_of_its_gauge(taken: Session) -> None:
    said = do(taken, "read", quantity="total_weight", value="465.4", stage="dry, gripped")
    assert said == "total_weight 465.4 g"
    assert do(taken, "read", quantity="length", value="35.25", stage="finished") == "length 35.25 in"


def test_figures_take_the_unit_of_theirs(taken: Session) -> None:
    do(taken, "figures", values={"head.mass": "297.1", "shaft.raw_length": "37.5"})
    found = taken.job(JOB).document
    assert (found["head"]["mass"], found["shaft"]["raw_length"]) == ("297.1 g", "37.5 in")
    do(taken, "measure", section="grip", values={"mass": "50.2"})
    assert taken.job(JOB).document["grip"]["mass"] == "50.2 g"
    do(taken, "mix", part_a="4.0", part_b="2.0", temperature="22 C", batch="lot 7")
    assert "4.0 g + 2.0 g" in taken.job(JOB).trail[-1].text


def test_without_a_gauge_nothing_is_guessed(taken: Session) -> None:
    with pytest.raises(InputError, match="has no unit"):
        do(taken, "read", quantity="frequency", value="327", stage="finished")
    with pytest.raises(InputError, match="has no unit"):
        do(taken, "mix", part_a="4.0 g", part_b="2.0 g", temperature="22", batch="lot 7")

"""A part measured again: both figures stand and count, one can be left out, and two that clash are both named."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from benchwork import JOB, Clock, document, session_on, state_bytes, worked
from clubwright.errors import ClubwrightError, InputError
from clubwright.importers.ticket_file import dump_ticket, parse_ticket
from clubwright.journal.facts import PartChanged
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.services.report.reading_states import reading_states
from clubwright.ticket.exporting import document_of_ticket
from clubwright.ticket.read import read_ticket

GRAM = 1e-3


@pytest.fixture
def taken(session: Session) -> Session:
    bench.take_ticket(session, document(), "wedge-54.toml")
    return session


def weigh(session: Session, mass: str, gauge: str | None = None, part: str = "head") -> int:
    return bench.change_part(session, JOB, part, {"mass": mass}, gauge=gauge).sequence


def head(session: Session) -> tuple[float, float]:
    belief = worked(session).club_state.belief
    return belief.mean_of("head.mass_kg") / GRAM, belief.sd_of("head.mass_kg") / GRAM


def test_the_usual_scale_is_said_and_the_first_weighing_takes_the_place_of_what_the_ticket_said(taken: Session) -> None:
    weigh(taken, "296.0 g")
    state = taken.job(JOB)
    assert state.document["head"]["mass"] == "296.0 g"
    assert state.document["head"]["gauges"] == {"mass": "gram scale"}
    assert "reading" not in state.document
    assert state.trail[-1].text == "head: mass 296.0 g"
    assert (state.trail[-1].by, state.trail[-1].at[:10]) == ("Ann", "2026-03-02")


def test_weighing_again_adds(taken: Session, clock: Clock) -> None:
    weigh(taken, "296.0 g")
    _, once = head(taken)
    clock.wait(hours=1)
    other = session_on(taken.ledger, clock, by="Ben")
    weigh(other, "296.2 g")
    state = taken.job(JOB)
    assert state.document["head"]["mass"] == "296.0 g"
    assert [(row["quantity"], row["value"], row["instrument"]) for row in state.document["reading"]] == [
        ("head.mass", "296.2 g", "gram scale")
    ]
    assert [line.by for line in state.trail[-2:]] == ["Ann", "Ben"]
    mean, twice = head(taken)
    assert mean == pytest.approx(296.1, abs=1e-6)
    gauge = worked(taken).club_state.ticket.gauges["gram scale"]
    # what one scale has in common with itself is not averaged: its error, and the rounding that both share
    assert gauge.bias / GRAM < twice < once
    assert not worked(taken).club_state.learned.set_aside


def test_another_scale_counts_by_its_own_doubt(taken: Session) -> None:
    bench.change_part(taken, JOB, "instrument.kitchen scale", {"resolution": "1 g"})
    weigh(taken, "296.0 g")
    weigh(taken, "296.5 g", gauge="kitchen scale")
    assert taken.job(JOB).trail[-1].text == "head: mass 296.5 g (kitchen scale)"
    sound, coarse = (worked(taken).club_state.ticket.gauges[name] for name in ("gram scale", "kitchen scale"))
    first = sound.bias**2 + sound.repeatability**2 + sound.resolution**2 / 12
    second = coarse.resolution**2 / 12
    mean, sd = head(taken)
    assert mean == pytest.approx((296.0 / first + 296.5 / second) / (1 / first + 1 / second), rel=1e-9)
    assert sd == pytest.approx((1 / (1 / first + 1 / second)) ** 0.5 / GRAM, rel=1e-6)


def test_two_that_clash_are_both_named_and_either_can_be_left_out(taken: Session) -> None:
    first = weigh(taken, "269.0 g")
    second = weigh(taken, "296.0 g")
    findings = [item for item in worked(taken).answer()["findings"] if "296.0 g" in item["what"]]
    assert len(findings) == 1
    assert "269.0 g" in findings[0]["what"]
    assert "[head] mass" in findings[0]["what"]
    assert head(taken)[0] == pytest.approx(269.0, abs=1e-6), "neither counts for more until a person has decided"
    bench.decide_reading(taken, JOB, first, keep=False, reason="a 6 and a 9 changed places")
    assert head(taken)[0] == pytest.approx(296.0, abs=1e-6)
    assert taken.job(JOB).document["head"]["mass"] == "296.0 g"
    assert "reading" not in taken.job(JOB).document
    bench.decide_reading(taken, JOB, first, keep=True, reason="it was the other one")
    bench.decide_reading(taken, JOB, second, keep=False, reason="it was another head")
    assert head(taken)[0] == pytest.approx(269.0, abs=1e-6)
    (state,) = reading_states(worked(taken)).values()
    assert state.state == "left out"


def test_without_a_gauge_a_figure_takes_the_place_of_what_stood_there(taken: Session) -> None:
    weigh(taken, "296.0 g")
    weigh(taken, "295.0 g", gauge="")
    state = taken.job(JOB)
    assert state.document["head"]["mass"] == "295.0 g"
    assert "gauges" not in state.document["head"]
    assert "reading" not in state.document


def test_a_gauge_that_the_ticket_has_not_is_refused_and_nothing_is_kept(taken: Session) -> None:
    before = state_bytes(taken)
    with pytest.raises(InputError) as refused:
        weigh(taken, "296.0 g", gauge="grain scale")
    assert 'no gauge is called "grain scale"' in str(refused.value)
    with pytest.raises(ClubwrightError):
        weigh(taken, "296.0 g", gauge="rule")  # reads lengths
    assert state_bytes(taken) == before


def test_the_same_tap_twice_is_one_weighing(taken: Session) -> None:
    once = bench.change_part(taken, JOB, "head", {"mass": "296.0 g"}, "tap-1")
    twice = bench.change_part(taken, JOB, "head", {"mass": "296.0 g"}, "tap-1")
    assert once == twice


def test_another_head_is_not_what_was_weighed(taken: Session) -> None:
    weigh(taken, "296.0 g")
    weigh(taken, "296.2 g")
    bench.change_part(taken, JOB, "head", {"mass": "301.0 g"}, another=True, said_by="Ann", reason="the first is worn")
    assert head(taken)[0] == pytest.approx(301.0, abs=1e-3)
    assert taken.job(JOB).document["head"]["gauges"] == {"mass": "gram scale"}
    assert not worked(taken).club_state.learned.set_aside


def test_the_ticket_file_says_the_same(taken: Session, tmp_path: Path) -> None:
    weigh(taken, "296.0 g")
    weigh(taken, "296.2 g")
    ticket = worked(taken).club_state.ticket
    text = dump_ticket(document_of_ticket(ticket))
    again, findings = read_ticket(parse_ticket(text, "again.toml"), ticket.source)
    assert again == ticket, findings
    assert again is not None
    assert again.club.head.gauges == {"mass": "gram scale"}


def test_a_fact_from_before_there_were_gauges_is_the_bytes_it_was() -> None:
    old = PartChanged(job=JOB, section="head", values={"mass": "296.0 g"})
    assert msgspec.json.encode(old) == (
        b'{"kind":"part changed","job":"T-0054","section":"head","values":{"mass":"296.0 g"}}'
    )

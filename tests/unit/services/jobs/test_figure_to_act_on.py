"""The figure to act on: the trim of the tip, the least mix the scale can weigh, and the release as a time of day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from benchwork import JOB, START, Clock, run, session_on
from clubwright.cli.demo import _ticket_text
from clubwright.importers.ticket_file import parse_ticket
from clubwright.journal.facts import Glued
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.notation import parse, render_moment
from clubwright.planning.joint.adhesive import MixRatio, plan_mix
from clubwright.planning.joint.mix_check import check_mix
from clubwright.services.actions import bench
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import JobAnswer, answer_job, with_plan
from clubwright.services.record.session import Session, in_utc
from clubwright.services.recording.recording import keep_what
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.web.views.card_view import card_of
from clubwright.words.step import StepWords, say_steps

GRAM = 1e-3
BERLIN = ZoneInfo("Europe/Berlin")


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def session(tmp_path: Path, clock: Clock) -> Iterator[Session]:
    engine = open_engine(f"sqlite:///{tmp_path / 'record.sqlite'}")
    migrate(engine)
    yield session_on(Ledger(engine), clock)
    engine.dispose()


def step_of(worked: JobAnswer, key: str) -> StepWords:
    return next(step for step in say_steps(worked.steps, None) if step.key == key)


def planned(name: str, key: str, **adhesive: str) -> StepWords:
    document = parse_ticket(_ticket_text(name), name)
    document["adhesive"] |= adhesive
    return step_of(with_plan(work_document(document, name)), key)


def test_the_trim_is_the_figure_of_its_card(session: Session) -> None:
    document = parse_ticket(_ticket_text("iron-7.toml"), "iron-7.toml")
    bench.take_ticket(session, document, "iron-7.toml")
    job = session.job(document["ticket"]["id"])
    worked = answer_job(job, session.now())
    assert step_of(worked, "tip trim").act_on == (("off the tip", document["shaft"]["tip_trim"]),)
    card = card_of(worked, job, key="k", step="tip trim")
    assert card.act_on == (("off the tip", document["shaft"]["tip_trim"]),)


def grams(step: StepWords) -> tuple[float, float]:
    (a_name, a), (b_name, b) = step.act_on
    assert (a_name, b_name) == ("part A", "part B")
    return parse("mass", a, where=a_name).value, parse("mass", b, where=b_name).value


@pytest.mark.parametrize(
    ("adhesive", "part_a_g", "part_b_g"),
    [
        # by the rule of docs/theory/adhesive.md, worked by hand: the smaller part is the scale's 0.1 g over 5 %, so 2 g
        ({"ratio": "2:1", "basis": "weight"}, 4.0, 2.0),
        ({"ratio": "1:1", "basis": "weight"}, 2.0, 2.0),
        ({"ratio": "1:2", "basis": "weight"}, 2.0, 4.0),
        ({"ratio": "100:44", "basis": "weight"}, 4.55, 2.0),
        ({"ratio": "1:1", "basis": "weight", "scale_error": "0.01 g", "per_joint": "4 g", "waste": "0.25"}, 2.5, 2.5),
    ],
)
def test_the_mix_is_the_least_that_the_scale_can_weigh(
    adhesive: dict[str, str], part_a_g: float, part_b_g: float
) -> None:
    """Or what the joints need, where that is more."""
    part_a, part_b = grams(planned("putter.toml", "mix", **adhesive))
    assert part_a == pytest.approx(part_a_g * GRAM, abs=0.005 * GRAM)
    assert part_b == pytest.approx(part_b_g * GRAM, abs=0.005 * GRAM)


def test_a_cup_weighed_as_the_card_says_keeps_its_ratio() -> None:
    for ratio in (0.5, 1.0, 100 / 44, 2.0, 10.0):
        plan = plan_mix(
            MixRatio(part_a=ratio, part_b=1.0, basis="weight"),
            joints=1,
            per_joint_kg=1.2 * GRAM,
            scale_error_kg=0.1 * GRAM,
        )
        assert check_mix(plan.cup_a_kg, plan.cup_b_kg, ratio).part_b_error == pytest.approx(0.0, abs=1e-12)
        assert plan.cup_a_kg + plan.cup_b_kg == pytest.approx(max(plan.batch_kg, plan.smallest_batch_kg), rel=1e-12)


def test_without_the_sheets_figures_there_is_no_mass_to_act_on() -> None:
    assert planned("putter.toml", "mix", ratio="2:1", basis="volume").act_on == ()


def glued(session: Session, clock: Clock, temperature: str) -> None:
    for name in run(session, clock):
        if name == "sign glue":
            break
    clock.wait(minutes=6)
    bench.glue(session, JOB, temperature)


def test_before_the_joint_is_closed_the_cure_is_planned_by_the_ticket(session: Session, clock: Clock) -> None:
    for name in run(session, clock):
        if name == "mix":
            break
    worked = answer_job(session.job(JOB), session.now())
    assert [name for name, _ in step_of(worked, "cure").act_on] == ["cured, may be hit after, at 22.0 C"]


@pytest.mark.parametrize(("typed", "hours"), [("20 C", 15.0), ("25 C", 12.0), ("68 F", 15.0), ("30 C", None)])
def test_card_and_sheet_follow_the_temperature_typed_at_the_joint(
    session: Session, clock: Clock, typed: str, hours: float | None
) -> None:
    """The rows of the ticket's own table: what stands there for a temperature is what the card has to say for it."""
    table = {"20 C": "15 h", "25 C": "12 h"}
    document = parse_ticket(_ticket_text("wedge-54.toml"), "wedge-54.toml")
    assert {row["temperature"]: row["time"] for row in document["adhesive"]["release"]}.items() >= table.items()
    glued(session, clock, typed)
    job = session.job(JOB)
    assert job.glued_at is not None
    worked = answer_job(job, session.now())
    ((name, shown),) = step_of(worked, "cure").act_on
    assert name == "cured, may be hit from (UTC)"
    closed = datetime.fromisoformat(job.glued_at)
    if hours is not None:
        assert shown == render_moment(closed + timedelta(hours=hours))
    assert shown != render_moment(closed + timedelta(hours=13, minutes=43)), "the ticket's own 22 C"
    sheet = sheet_data(worked, job, "2026-03-02")
    assert f"cured, may be hit from (UTC): {shown}" in sheet.adhesive
    assert any("gluing at" in line and "22.0 C" not in line for line in sheet.adhesive)


def test_below_the_table_there_is_no_release_and_no_time(session: Session, clock: Clock) -> None:
    for name in run(session, clock):
        if name == "sign glue":
            break
    keep_what(session, Glued(job=JOB, temperature="10 C"), "glued at 10 C", None)  # as older records have it
    step = step_of(answer_job(session.job(JOB), session.now()), "cure")
    assert step.act_on == ()
    assert any("No release at 10.0" in text for text in step.what)


def test_the_time_is_the_benchs_own_and_never_early(session: Session, clock: Clock) -> None:
    clock.time = START.replace(second=7, microsecond=5000)
    glued(session, clock, "20 C")
    job = session.job(JOB)
    until = datetime.fromisoformat(job.glued_at or "") + timedelta(hours=15)
    shown = {}
    for zone in (UTC, BERLIN, timezone(timedelta(hours=-7, minutes=-30), "bench time")):
        worked = answer_job(job, session.now(), lambda moment, zone=zone: moment.astimezone(zone))
        ((name, text),) = step_of(worked, "cure").act_on
        shown[name] = text
        up = until + timedelta(minutes=1)
        assert text == render_moment(up.astimezone(zone)), "rounded up to the next minute, in the clock's own zone"
    assert set(shown) == {f"cured, may be hit from ({zone})" for zone in ("UTC", "CET", "bench time")}


def test_summer_time_that_begins_in_the_night_is_in_the_time_shown(session: Session, clock: Clock) -> None:
    """On 29 March 2026 Berlin's clocks skip an hour (IANA time zone data): twelve hours later is thirteen on the clock."""
    clock.time = datetime(2026, 3, 28, 18, 0, tzinfo=UTC) - timedelta(hours=1, minutes=12)
    for name in run(session, clock):
        if name == "sign glue":
            break
    clock.time = datetime(2026, 3, 28, 18, 0, tzinfo=UTC)
    bench.glue(session, JOB, "25 C")
    worked = answer_job(session.job(JOB), session.now(), lambda moment: moment.astimezone(BERLIN))
    assert datetime(2026, 3, 28, 19, 0, tzinfo=BERLIN) == clock.time
    assert step_of(worked, "cure").act_on == (("cured, may be hit from (CEST)", "Sun 29 Mar 08:00"),)


def test_a_computers_own_time_is_passed_in_and_utc_is_said() -> None:
    moment = datetime(2026, 7, 1, 12, 0, tzinfo=BERLIN)
    assert in_utc(moment).tzname() == "UTC"
    assert render_moment(in_utc(moment)) == "Wed 1 Jul 10:00"

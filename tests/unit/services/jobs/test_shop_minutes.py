"""Minutes of operations: a key for each step of the plan, all findings at once, and sums that follow from them."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import msgspec
import pytest

from benchwork import Clock
from cli_runs import clubwright
from clubwright.services.actions import bench
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import with_plan
from clubwright.services.jobs.job_list import JobStatuses
from clubwright.services.jobs.minutes import job_times, open_times, times_now, times_text
from clubwright.services.record.session import Session
from clubwright.state.steps import STEPS
from clubwright.ticket.fields.minutes import MINUTES, USUAL_S, key_of
from clubwright.ticket.shop.settings import NO_SETTINGS, ShopSettings, read_shop
from shopwork import SHOP_TEXT, TICKET_TEXT, shop, ticket

MINUTE, HOUR = 60.0, 3600.0


def settings(**minutes: str) -> ShopSettings:
    return read_shop({**shop(), "minutes": minutes})


def test_every_step_of_the_plan_has_a_time_and_nothing_else_has() -> None:
    assert len({key_of(step) for step in STEPS}) == len(STEPS) == len(MINUTES.fields)


def test_what_the_shop_says_stands_before_what_is_usual() -> None:
    found = settings(mark_and_cut="12 min", mix="90 s").minutes_s()
    assert (found["mark and cut"], found["mix"], found["glue"]) == (12 * MINUTE, 90.0, USUAL_S["glue"])
    assert NO_SETTINGS.minutes_s() == USUAL_S


def test_every_finding_comes_at_once() -> None:
    found = settings(pull="0 min", weigh="5", cure="25 h", glue="-3 min", mix="24 h", lunch="30 min")
    assert {str(item.where).removeprefix("shop.toml [minutes] ") for item in found.errors} == {
        "pull",
        "weigh",
        "cure",
        "glue",
        "lunch",
    }
    assert found.minutes_s()["mix"] == 24 * HOUR
    assert found.minutes_s()["cure"] == USUAL_S["cure"], "what was refused is not taken"


def test_a_plan_sums_its_steps_with_the_cure_of_the_sheet() -> None:
    shop_says = settings(**{key_of(step): "10 min" for step in STEPS if step != "cure"}, cure="20 h")
    worked = with_plan(work_document(ticket(), settings=shop_says))
    found = job_times(worked, shop_says)
    assert found.whole.hands_on_s == 10 * MINUTE * (len(worked.steps) - 1)
    by_key = {item.key: item for item in found.steps}
    # the sheet's rows are 15 h at 20 C and 12 h at 25 C, the bench has 22 C: between them
    assert 12 * HOUR < by_key["cure"].time_s < 15 * HOUR
    assert found.whole.waiting_s == by_key["cure"].time_s
    no_rows = msgspec.structs.replace(shop_says, tables={**shop_says.tables, "adhesive": {}})
    assert job_times(with_plan(work_document(ticket(), settings=no_rows)), no_rows).whole.waiting_s == 20 * HOUR
    assert found.left == found.whole


@pytest.fixture
def at(session: Session) -> Session:
    found = settings(pull="7 min")
    return msgspec.structs.replace(session, settings=lambda: found)


def test_what_is_left_gets_less_and_is_summed_over_open_jobs(at: Session, clock: Clock) -> None:
    head = {"hand": "right"}
    bench.take_ticket(at, ticket(head=head), "T.toml")
    bench.take_ticket(at, {**ticket(head=head), "ticket": {**ticket()["ticket"], "id": "T-0302"}}, "T.toml")
    standings = JobStatuses()
    before = open_times(at, standings)
    bench.do_step(at, "T-0301", "pull")
    after, one = open_times(at, standings), times_now(at, "T-0301")
    assert before.left.hands_on_s - after.left.hands_on_s == 7 * MINUTE
    assert one.whole.hands_on_s - one.left.hands_on_s == 7 * MINUTE
    left = {job: times for job, _, times in after.jobs}
    assert left["T-0301"] == one.left
    assert left["T-0301"] is not None
    assert left["T-0302"] is not None
    assert after.left == left["T-0301"] + left["T-0302"]


def test_times_are_said_in_words_and_as_plain_data(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    workshop, file, order = tmp_path / "w", tmp_path / "shop.toml", tmp_path / "T.toml"
    file.write_text(SHOP_TEXT + '[minutes]\npull = "37 min"\n', encoding="utf-8")
    order.write_text(TICKET_TEXT, encoding="utf-8")
    workshop.mkdir()
    (workshop / "shop.toml").write_text(file.read_text(encoding="utf-8"), encoding="utf-8")
    text = clubwright(capsys, "plan", str(order), "--shop-file", str(file)).out
    assert "(37 min)" in text
    assert " of work, " in text.split("TIME  ")[1].splitlines()[0]
    clubwright(capsys, "take", str(order), "--shop", str(workshop), "--by", "Ann")
    every = clubwright(capsys, "minutes", "--shop", str(workshop), "--json").body()
    one = clubwright(capsys, "minutes", "T-0301", "--shop", str(workshop), "--json").body()
    assert every["left"] == one["left"] == one["whole"]
    assert next(item for item in one["steps"] if item["key"] == "pull")["time_s"] == 37 * MINUTE
    assert "Left on 1 open: " in clubwright(capsys, "minutes", "--shop", str(workshop)).out
    assert timedelta(seconds=one["whole"]["waiting_s"]) > timedelta(hours=12)


def test_words_of_a_time() -> None:
    found = job_times(with_plan(work_document(ticket(), settings=settings())), settings())
    assert " of work, " in times_text(found.whole)
    assert times_text(msgspec.structs.replace(found.whole, hands_on_s=29.0, waiting_s=0.0)) == "0 min of work"
    assert times_text(msgspec.structs.replace(found.whole, hands_on_s=60.0, waiting_s=61.0)) == (
        "1 min of work, 2 min waiting"
    ), "a joint is never called ready early"

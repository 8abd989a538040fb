"""The cut shaft on the record: weighed with the cut or after it, cut again, undone; alike by page, command and program."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import msgspec
import pytest

from benchwork import JOB, Clock, document, run_to, session_on, worked
from cli_runs import clubwright, workshop
from clubwright.bootstrap import open_session
from clubwright.club.part_figures import CUT_MASS
from clubwright.club.stages import BARE_SHAFT
from clubwright.errors import InputError
from clubwright.journal.facts import PartChanged, ShaftCut
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from clubwright.words.step import say_steps
from webclient import LOOPBACK, TestClient, post

pytestmark = pytest.mark.usefixtures("played")


@pytest.fixture
def session(tmp_path: Path, clock: Clock) -> Iterator[Session]:
    """A session on an empty SQLite record."""
    engine = open_engine(f"sqlite:///{tmp_path / 'record.sqlite'}")
    migrate(engine)
    yield session_on(Ledger(engine), clock)
    engine.dispose()


def shaft(session: Session) -> dict[str, Any]:
    return session.job(JOB).document["shaft"]


def cut_mass(session: Session) -> tuple[float, float]:
    found = worked(session).club_state.predict([CUT_MASS], BARE_SHAFT)
    return float(found.mean[0, 0]), float(found.sd()[0, 0])


def without_raw_length(session: Session) -> None:
    """Take the wedge's ticket without the raw length of its shaft, as a ticket of words has it, and sign the cut."""
    ticket = document()
    del ticket["shaft"]["raw_length"]
    bench.take_ticket(session, ticket, "wedge-54.toml")
    bench.sign_gate(session, JOB, "cut")


def test_a_cut_without_its_weighing_is_the_fact_it_was() -> None:
    """Hashes of cuts from before there were such fields stay: nothing is written for what was not measured."""
    assert msgspec.json.encode(ShaftCut(job=JOB, cut_length="34.01 in")) == (
        b'{"kind":"shaft cut","job":"T-0054","cut_length":"34.01 in"}'
    )


def test_the_cut_shaft_is_weighed_with_the_cut_in_one_fact_and_one_undo(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign cut")
    before = session.ledger.count()
    fact = bench.cut_shaft(session, JOB, "34.01 in", cut_mass="114.6 g", cut_balance_from_tip="17.76 in")
    assert session.ledger.count() == before + 1
    assert fact.typed == "cut to 34.01 in, cut_mass 114.6 g, cut_balance_from_tip 17.76 in"
    assert (shaft(session)["cut_mass"], shaft(session)["cut_balance_from_tip"]) == ("114.6 g", "17.76 in")
    assert cut_mass(session)[0] == pytest.approx(0.1146, abs=5e-5)
    bench.undo(session, JOB)
    assert not {"cut_mass", "cut_length", "cut_balance_from_tip"} & shaft(session).keys()


def test_weighed_later_it_is_no_second_cut_and_the_readings_since_stay(session: Session, clock: Clock) -> None:
    run_to(session, clock, "read swing_weight D1.3 dry, gripped")
    assert len(session.job(JOB).document["reading"]) == 1
    fact = bench.cut_shaft(session, JOB, "34.01 in", "weighed", cut_mass="114.6 g")
    assert isinstance(fact.what, PartChanged)
    assert len(session.job(JOB).document["reading"]) == 1, "nothing was cut, and the reading is gone"
    assert bench.cut_shaft(session, JOB, "34.01 in", "weighed", cut_mass="114.6 g") == fact, "sent twice, kept once"
    with pytest.raises(InputError, match=r"cut to .* already"):
        bench.cut_shaft(session, JOB, "34.01 in")


def test_a_retried_cut_with_its_weighing_is_kept_once(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign cut")
    first = bench.cut_shaft(session, JOB, "34.01 in", "once", cut_mass="114.6 g")
    assert isinstance(first.what, ShaftCut)
    assert bench.cut_shaft(session, JOB, "34.01 in", "once", cut_mass="114.6 g") == first


def test_cut_again_the_mass_stays_with_the_length_it_was_weighed_at(session: Session, clock: Clock) -> None:
    """2 mm of offcut at the 3.6 g/in of the ticket weigh 0.28 g."""
    run_to(session, clock, "sign cut")
    bench.cut_shaft(session, JOB, "34.05 in", cut_mass="114.75 g")
    then = cut_mass(session)
    bench.cut_shaft(session, JOB, "33.97 in")
    assert shaft(session)["cut_mass_length"] == "34.05 in"
    now = cut_mass(session)
    assert then[0] - now[0] == pytest.approx(0.08 * 3.6e-3, abs=2e-5)
    assert now[1] < 1.2 * then[1]
    bench.change_part(session, JOB, "shaft", {"cut_mass": "114.5 g"})
    assert "cut_mass_length" not in shaft(session), "weighed anew, it is of the shaft as it is now"
    assert cut_mass(session)[0] == pytest.approx(0.1145, abs=5e-5)


def test_a_mass_from_before_the_cut_stays_the_raw_shafts_when_nobody_measured_how_long_it_was(session: Session) -> None:
    without_raw_length(session)
    before = worked(session).answer()["finished"]["total_weight"]
    bench.cut_shaft(session, JOB, "34.01 in")
    assert shaft(session)["weighed"] == "raw"
    after = worked(session).answer()["finished"]["total_weight"]
    assert after["mean"] == pytest.approx(before["mean"], abs=2e-4)
    assert after["sd"] == pytest.approx(before["sd"], rel=0.05)
    assert after["sd"] > 2.5e-3
    bench.cut_shaft(session, JOB, "34.01 in", cut_mass="114.6 g")
    assert worked(session).answer()["finished"]["total_weight"]["sd"] < 0.7e-3
    bench.change_part(session, JOB, "shaft", {"cut_mass": "", "mass": "114.6 g"})
    asked = [item for item in worked(session).findings if str(item.where).endswith("[shaft] weighed")]
    assert len(asked) == 1, "a mass typed after the cut may be of either"


def test_what_is_not_cut_is_not_weighed_as_cut(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done weigh")
    with pytest.raises(InputError) as refused:
        bench.change_part(session, JOB, "shaft", {"cut_mass": "114.6 g", "cut_balance_from_tip": "17.8 in"})
    assert [item.what for item in refused.value.findings] == ["the shaft is not cut yet"] * 2
    assert "cut_mass" not in shaft(session)


def test_a_cut_mass_heavier_than_the_raw_shaft_is_kept_nowhere(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign cut")
    with pytest.raises(InputError, match=r"more than the raw shaft"):
        bench.cut_shaft(session, JOB, "34.01 in", cut_mass="134.6 g")
    assert "cut_length" not in shaft(session), "the cut was kept without its weighing"


def test_a_tip_trimmed_after_all_takes_the_figures_of_the_cut_shaft_with_it(session: Session) -> None:
    ticket = document()
    ticket["shaft"] |= {"tip": "parallel", "tip_trim": "1/2 in"}
    bench.take_ticket(session, ticket, "wedge-54.toml")
    bench.trim_shaft(session, JOB, "tip", "1/2 in")
    bench.sign_gate(session, JOB, "cut")
    bench.cut_shaft(session, JOB, "34.01 in", cut_mass="114.0 g", gauge="gram scale")
    assert shaft(session)["gauges"] == {"cut_mass": "gram scale"}
    bench.trim_shaft(session, JOB, "tip", "1/4 in")
    assert "cut_mass" not in shaft(session)
    assert "gauges" not in shaft(session), "a gauge is said of a figure that is gone"


def test_page_command_and_program_leave_the_same_shaft(
    session: Session, clock: Clock, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run_to(session, clock, "sign cut")
    said = {"cut_length": "34.01 in", "cut_mass": "114.6 g", "cut_balance_from_tip": "17.76 in"}
    bench.cut_shaft(session, JOB, **said)
    wanted = shaft(session)
    shop = workshop(tmp_path / "command", "sign cut")
    ran = clubwright(capsys, "cut", JOB, "34.01 in", "--mass", "114.6 g", "--balance", "17.76 in", "--shop", shop)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0].endswith("cut to 34.01 in, cut_mass 114.6 g, cut_balance_from_tip 17.76 in.")
    with open_session(shop, by="Ann", site="bench") as other:
        assert shaft(other) == wanted


def page_on(session: Session, folder: Path) -> TestClient:
    app = create_app(WebSettings(shop=str(folder)), session)
    return TestClient(app, base_url=LOOPBACK, follow_redirects=False)


def test_the_weigh_card_asks_for_the_raw_length_and_will_not_be_passed_without(
    session: Session, clock: Clock, tmp_path: Path
) -> None:
    without_raw_length(session)
    step = next(step for step in say_steps(worked(session).steps, None) if step.key == "weigh")
    assert ("raw length of the shaft", "not measured yet") in step.numbers
    assert any("Measure the raw shaft" in text for text in step.what)
    assert "raw length" in step.done_when
    assert any(item.quantity == "shaft.raw_length" for item in step.expected)
    with page_on(session, tmp_path) as client:
        shown = client.get(f"/bench/{JOB}?step=weigh").text
        field = re.search(r'<input name="shaft\.raw_length"[^>]*>', shown)
        assert field is not None
        assert " required" in field[0]
        assert 'value=""' in field[0]
        answer = post(
            client,
            f"/bench/{JOB}",
            page=f"/bench/{JOB}?step=weigh",
            action="measure",
            step="weigh",
            key="weigh-1",
            **{"shaft.mass": "125.2 g", "shaft.raw_length": "37 in"},
        )
        assert answer.status_code in (200, 303), answer.text
    assert shaft(session)["raw_length"] == "37 in"
    step = next(step for step in say_steps(worked(session).steps, None) if step.key == "weigh")
    assert any(name == "raw length of the shaft" and "37" in text for name, text in step.numbers)


def test_the_cut_card_takes_the_weighing_and_then_the_weigh_card_asks_for_the_cut_shaft(
    session: Session, clock: Clock, tmp_path: Path
) -> None:
    without_raw_length(session)
    step = next(step for step in say_steps(worked(session).steps, None) if step.key == "mark and cut")
    assert {"shaft.cut_mass", "shaft.cut_balance_from_tip"} <= {item.quantity for item in step.expected}
    assert any("the raw shaft was not measured" in text for text in step.what)
    with page_on(session, tmp_path) as client:
        card = f"/bench/{JOB}?step=mark%20and%20cut"
        assert 'name="cut_mass"' in client.get(card).text
        sent = {"cut_length": "34.01 in", "cut_mass": "114.6 g", "cut_balance_from_tip": "17.76 in"}
        said = {"action": "cut", "step": "mark and cut", "key": "cut-1", "looked": "yes"}
        answer = post(client, f"/bench/{JOB}", page=card, **said, **sent)
        assert answer.status_code in (200, 303), answer.text
        assert sent.items() <= shaft(session).items()
        assert 'name="shaft.cut_mass"' in client.get(f"/bench/{JOB}?step=weigh").text
        headers = {"X-Clubwright": "1", "Idempotency-Key": "cut-2"}
        body = {**sent, "cut_mass": "114.7 g"}
        answer = client.post(f"/api/jobs/{JOB}/cuts", json=body, headers=headers)
        assert answer.status_code == 201, answer.text
        assert answer.json()["kind"] == "part changed"
    assert shaft(session)["cut_mass"] == "114.6 g", "weighing again adds"
    again = session.job(JOB).document["reading"][-1]
    assert (again["quantity"], again["value"], again["instrument"]) == ("shaft.cut_mass", "114.7 g", "gram scale")


def test_the_cut_undone_under_its_weighing_leaves_a_job_that_can_be_worked_and_cut_anew(
    session: Session, clock: Clock
) -> None:
    """The first length was misread: the weighing stands, and is of the shaft at the length that is measured then."""
    run_to(session, clock, "sign cut")
    fact = bench.cut_shaft(session, JOB, "34.05 in")
    bench.change_part(session, JOB, "shaft", {"cut_mass": "114.6 g"})
    bench.undo(session, JOB, fact.sequence)
    assert "cut_length" not in shaft(session)
    assert cut_mass(session)[0] == pytest.approx(0.1146, abs=5e-5)
    bench.cut_shaft(session, JOB, "34.01 in")
    assert "cut_mass_length" not in shaft(session)
    assert cut_mass(session)[0] == pytest.approx(0.1146, abs=5e-5)

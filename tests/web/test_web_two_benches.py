"""Two benches on one record: they refuse each other where they decide on one club, and never over a gauge."""

from __future__ import annotations

import re
from collections.abc import Callable

import msgspec
import pytest

from benchwork import JOB, Clock, document, run_to, session_on
from clubwright.errors import GateClosed
from clubwright.journal.facts import Fact
from clubwright.journal.seen import read_seen, seen_text
from clubwright.services.actions import bench
from clubwright.services.record.ledger import LedgerPort
from clubwright.services.record.session import Session
from webclient import TestClient, token_of

OTHER = "T-0055"
SCALE = "gram scale"


def reading(client: TestClient, job: str, value: str, key: str) -> dict[str, str]:
    """Return the form of a reading as the page shows it now."""
    text = client.get(f"/bench/{job}").text
    [seen] = set(re.findall(r'name="seen" value="([^"]*)"', text))
    return {
        "action": "read",
        "quantity": "total_weight",
        "stage": "dry, gripped",
        "value": value,
        "confirmed": value,
        "gauge": SCALE,
        "seen": seen,
        "key": key,
        "csrf": token_of(client),
    }


@pytest.fixture
def van(web_session: Session) -> Session:
    """Another bench that writes into the same record."""
    return msgspec.structs.replace(web_session, site="van", by="Bo")


def test_what_another_bench_read_of_this_club_is_put_beside_what_was_typed(
    web_client: TestClient, web_session: Session, van: Session
) -> None:
    form = reading(web_client, JOB, "465.4 g", "mine")
    theirs = bench.note_reading(van, JOB, "total_weight", "466.9 g", stage="dry, gripped", instrument=SCALE)
    answer = web_client.post(f"/bench/{JOB}", data=form)
    assert answer.status_code == 409
    assert "466.9 g" in answer.text
    [fact] = re.findall(r'name="theirs" value="([^"]*)"', answer.text)
    assert fact == f"van:{theirs.sequence}"
    again = web_client.post(f"/bench/{JOB}", data={**form, "choose": "mine", "theirs": fact})
    assert again.status_code == 303
    assert [line.text for line in web_session.job(JOB).trail if line.undone] == ["total_weight 466.9 g"]


def test_what_the_page_had_shown_of_another_bench_is_no_clash(
    web_client: TestClient, web_session: Session, van: Session
) -> None:
    """The other bench's numbers may be higher or lower than this one's: each is counted by itself."""
    for _ in range(3):
        bench.do_step(van, JOB, "weigh")
    bench.note_reading(van, JOB, "total_weight", "466.9 g", stage="dry, gripped", instrument=SCALE)
    form = reading(web_client, JOB, "465.4 g", "first")
    assert web_client.post(f"/bench/{JOB}", data=form).status_code == 303
    late = reading(web_client, JOB, "465.5 g", "late")
    bench.note_reading(web_session, JOB, "total_weight", "465.6 g", stage="dry, gripped", instrument=SCALE)
    assert web_client.post(f"/bench/{JOB}", data=late).status_code == 409


def test_two_tablets_that_read_two_clubs_on_one_gauge_never_refuse_each_other(
    web_client: TestClient, web_session: Session, van: Session
) -> None:
    other = document()
    other["ticket"]["id"] = OTHER
    bench.take_ticket(web_session, other, "t")
    forms = [(job, reading(web_client, job, "465.4 g", f"{job}-1")) for job in (JOB, OTHER)]
    bench.note_reading(van, OTHER, "swing_weight", "D1", stage="dry, gripped")
    assert [web_client.post(f"/bench/{job}", data=form).status_code for job, form in forms] == [303, 303]


class Meanwhile(msgspec.Struct, frozen=True):
    """A record into which somebody else writes once, after the facts were read."""

    ledger: LedgerPort
    write: list[Callable[[], object]]

    def facts(self, *args: object) -> list[Fact]:
        found = self.ledger.facts(*args)
        if self.write:
            self.write.pop()()
        return found

    def __getattr__(self, name: str) -> object:
        return getattr(self.ledger, name)


@pytest.mark.usefixtures("played")
@pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
def test_a_cut_is_refused_when_another_bench_withdraws_the_signature_in_between(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign cut")
    tent = session_on(session.ledger, clock, site="tent", by="Bo")
    slow = msgspec.structs.replace(session, ledger=Meanwhile(session.ledger, [lambda: bench.undo(tent, JOB)]))
    with pytest.raises(GateClosed, match="nobody has signed"):
        bench.cut_shaft(slow, JOB, "34.01 in")
    assert "cut_length" not in session.job(JOB).document["shaft"]


@pytest.mark.usefixtures("played")
@pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
def test_an_action_on_another_club_in_between_refuses_nothing(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done weigh")
    other = document()
    other["ticket"]["id"] = OTHER
    bench.take_ticket(session, other, "t")
    slow = Meanwhile(session.ledger, [lambda: bench.do_step(session, OTHER, "weigh")])
    bench.do_step(msgspec.structs.replace(session, ledger=slow), JOB, "ferrule")
    assert ("ferrule" in session.job(JOB).steps_done, "weigh" in session.job(OTHER).steps_done) == (True, True)


@pytest.mark.parametrize("seen", [{"bench": 3}, {"the van, 2": 12, "bench": 4}, {"a:b%2C": 1, "%": 2}])
def test_what_was_seen_is_read_back_from_a_form(seen: dict[str, int]) -> None:
    assert read_seen(seen_text(seen), "bench") == seen


@pytest.mark.parametrize("text", ["", "van:", "van:-1", "van:²", "a,b", "9" * 30])
def test_what_nobody_saw_is_told_from_it(text: str) -> None:
    assert read_seen(text, "bench") is None
    assert read_seen("7", "bench") == {"bench": 7}

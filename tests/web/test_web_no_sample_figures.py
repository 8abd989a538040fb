"""A field is empty until somebody fills it: no page, in any state of any demo ticket, shows what nobody typed.

Samples in grey were taken for values: a trim, a mix, a target that stood in the field of its own reading.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from urllib.parse import quote

import pytest
from fastapi import FastAPI

from benchwork import JOB, Clock, actions
from closingwork import accept_all
from clubwright.cli.demo import WAITING, _ticket_text
from clubwright.importers.ticket_file import parse_ticket
from clubwright.notation import KINDS
from clubwright.planning.steps.types import StepKey
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.step_needs import lacking
from clubwright.services.record.session import Session
from clubwright.words.how_typed import HOW_TYPED
from clubwright.words.step import say_steps
from webclient import TestClient, post, tablet

WORDS = "54, mid bounce, 35 1/4 to the cap, D4, half flat, two wraps, logo down"
NOT_TYPED = {"hidden", "radio", "checkbox", "submit"}
GIVEN_NUMBERS = {"id", "ticket.id"}
"""A new ticket's number is the record's to give: a name, and no figure of a club."""


class Fields(HTMLParser):
    """What is in the fields of a page that a person types in: name, value, placeholder."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, str, str | None]] = []
        self.area: str | None = None
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        typed = tag == "input" and said.get("type") not in NOT_TYPED
        if typed or tag == "textarea":
            self.found.append((said.get("name") or "", said.get("value") or "", said.get("placeholder")))
        self.area = said.get("name") or "" if tag == "textarea" else None

    def handle_data(self, data: str) -> None:
        if self.area is not None and data.strip():
            self.found.append((self.area, data.strip(), None))


def kept(session: Session) -> set[str]:
    """Return every text that somebody typed into a ticket of the record."""

    def texts(item: object) -> Iterator[str]:
        if isinstance(item, dict):
            for inner in item.values():
                yield from texts(inner)
        elif isinstance(item, list):
            for inner in item:
                yield from texts(inner)
        else:
            yield str(item)

    return {text for job in session.shop().jobs.values() for text in texts(job.document)}


def check(client: TestClient, session: Session, path: str, typed: str = "", *, empty: bool = False) -> int:
    """Look at one page; return how many fields it has."""
    answer = client.get(path)
    assert answer.status_code == 200, (path, answer.status_code)
    fields = Fields(answer.text).found
    samples = [field for field in fields if field[2] is not None]
    assert not samples, f"{path} shows samples in its fields: {samples}"
    known = set() if empty else kept(session)
    strange = [
        (name, value)
        for name, value, _ in fields
        if value and name not in GIVEN_NUMBERS and value not in known and value not in typed
    ]
    assert not strange, f"{path} has figures in its fields that nobody typed: {strange}"
    return len(fields)


def check_bench(client: TestClient, session: Session, job: str) -> int:
    """Look at every card of a job as it stands now."""
    path, worked = f"/bench/{job}", answer_job(session.job(job), session.now())
    seen = check(client, session, path, empty=True)
    seen += sum(check(client, session, f"{path}?step={quote(step.key)}", empty=True) for step in worked.steps)
    offers = f"{path}?step=choose%20weight&consider="
    return seen + sum(check(client, session, offers + quote(item.id), empty=True) for item in worked.advice[:2])


def test_the_wedge_from_its_ticket_to_its_tag(web_client: TestClient, web_session: Session, web_clock: Clock) -> None:
    fields = check_bench(web_client, web_session, JOB)
    shown = (
        "sign cut",
        "cut",
        "read swing_weight D1.3 dry, gripped",
        "fit",
        "mix",
        "sign glue",
        "glue",
        "grip",
        "bend",
    )
    shown += ("read total_weight 477.2 g finished", "sign release", "finish")
    for name, do, hours in actions()[1:]:
        web_clock.wait(hours=hours)
        do(web_session)
        if name in shown:
            fields += check_bench(web_client, web_session, JOB)
    assert fields > 100
    assert check(web_client, web_session, f"/records/{JOB}/again") > 5


DRY = {"T-0107": {"swing_weight": "D2", "frequency": "330 cpm"}, "T-0109": {"swing_weight": "D6.4"}}
"""Invented readings of the dry club with which its glue gate opens, by ticket."""


def do_what_it_needs(session: Session, clock: Clock, job: str, step: StepKey) -> None:
    """Do a step with what it leaves behind, by the figures of its own card; pass over what needs a gauge or a bench."""

    clock.wait(hours=72 if step == "cure" else 0.1)
    worked = answer_job(session.job(job), session.now())
    figures = [figure for item in say_steps(worked.steps, None) if item.key == step for _, figure in item.act_on]
    if step == "pull":
        bench.change_part(session, job, "head", {"hand": session.job(job).document["ticket"]["hand"]})
    elif step == "tip trim":
        bench.trim_shaft(session, job, "tip", figures[0])
    elif step == "mark and cut":
        bench.sign_gate(session, job, "cut")
        assert worked.cut is not None
        bench.cut_shaft(session, job, f"{worked.cut.shaft_length_m * 1000:.2f} mm")
    elif step == "dry reading":
        for quantity, value in DRY[job].items():
            bench.note_reading(session, job, quantity, value, stage="dry, gripped")
    elif step == "choose weight":
        bench.fit_weights(session, job, list(worked.advice[0].weights))
    elif step == "mix":
        bench.mix_adhesive(session, job, *figures, "22 C", "")
    elif step == "glue":
        bench.sign_gate(session, job, "glue")
        bench.glue(session, job, "22 C")
    elif step == "grip":
        bench.slide_grip(session, job)
    elif step == "tag":
        accept_all(session, job)
        bench.sign_gate(session, job, "release")
        bench.finish(session, job)
    state = session.job(job)
    if step in state.steps_done:
        return
    missing = lacking(step, answer_job(state, session.now()), state)
    bench.do_step(session, job, step, skipped="; ".join(item.what for item in missing) if missing else None)


@pytest.mark.parametrize("name", WAITING)
def test_the_other_tickets_step_by_step(
    web_client: TestClient, web_session: Session, web_clock: Clock, name: str
) -> None:
    document = parse_ticket(_ticket_text(name), name)
    job = document["ticket"]["id"]
    bench.take_ticket(web_session, document, name)
    fields = check_bench(web_client, web_session, job)
    for step in answer_job(web_session.job(job), web_session.now()).steps:
        do_what_it_needs(web_session, web_clock, job, step.key)
        fields += check(web_client, web_session, f"/bench/{job}", empty=True)
    assert web_session.job(job).finished is not None
    assert fields > 20


def test_tickets_records_and_shaft(web_client: TestClient, web_session: Session, open_app: FastAPI) -> None:
    iron = parse_ticket(_ticket_text("iron-7.toml"), "iron-7.toml")
    bench.take_ticket(web_session, iron, "iron-7.toml")
    bare = ("/tickets", "/tickets/new", "/tickets/new/form", "/records", f"/bench/{iron['ticket']['id']}/shaft")
    for path in bare:
        assert check(web_client, web_session, path, empty=True), path
    for path in (f"/tickets/{JOB}", f"/tickets/new/form?like={JOB}", f"/records/{JOB}/again"):
        assert check(web_client, web_session, path), path
    words = web_client.get(f"/tickets/new/form?words={quote(WORDS)}").text
    assert not [field for field in Fields(words).found if field[2] is not None]
    asked = check(web_client, web_session, f"{bare[-1]}?butt=1/4%20in&head=262%20g&other={JOB}", f"1/4 in 262 g {JOB}")
    assert asked == 3
    assert check(tablet(open_app), web_session, "/sign-in", empty=True) == 2


def test_what_was_typed_is_still_there_after_a_refusal(web_client: TestClient, web_session: Session) -> None:
    """And nothing else is."""
    path = "/bench/T-0054?step=weigh"
    answer = post(web_client, "/bench/T-0054", path, action="measure", step="weigh", **{"head.mass": "35,5"})
    assert answer.status_code == 422
    assert [field[:2] for field in Fields(answer.text).found if field[1]] == [("head.mass", "35,5")]


def test_what_is_known_stands_beside_the_field(web_client: TestClient) -> None:
    text = web_client.get("/bench/T-0054?step=weigh").text
    assert '<span class="now">is now 296.4 g</span>' in text
    assert 'id="hint-1">g, oz, gr or kg</span>' in text


def test_every_kind_says_how_it_is_typed_and_shows_no_figure() -> None:
    assert set(HOW_TYPED) == set(KINDS)
    assert not [words for words in HOW_TYPED.values() if re.search(r"(^|[\s,])[0-9.]", words)]


@pytest.mark.parametrize(
    "page",
    [
        '<input name="cut_length" placeholder="34.01 in">',
        '<input name="temperature" value="22 C">',
        '<textarea name="text" placeholder="x"></textarea>',
        '<textarea name="text">D4</textarea>',
    ],
)
def test_the_watch_sees_each_sample(page: str) -> None:
    found = Fields(page).found
    assert any(value or placeholder is not None for _, value, placeholder in found)

"""The page of every number answers, and leads to theory, source and tests that are there without a network."""

from __future__ import annotations

import re
from html import unescape

import pytest
from browsing import bring
from fastapi import FastAPI

from benchwork import JOB, Clock
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.why.find import why_keys
from clubwright.services.why.library import sources, theory_pages
from clubwright.web.theory_html import slug, theory_page
from webclient import TestClient, signed_in, tablet

BENCH = f"/bench/{JOB}"
LINK = re.compile(r'(?:href|src)="([^"]+)"')


def links(text: str) -> list[str]:
    return [unescape(found) for found in LINK.findall(text)]


def why_links(text: str) -> list[str]:
    return [found for found in links(text) if found.startswith(f"{BENCH}/why")]


def test_every_number_of_a_job_has_a_page_that_answers(
    web_client: TestClient, web_session: Session, web_clock: Clock
) -> None:
    bring(web_session, web_clock, "read swing_weight D4.1 finished")
    keys = why_keys(answer_job(web_session.job(JOB), web_session.now()))
    addresses = set(why_links(web_client.get(f"{BENCH}/why").text)) - {f"{BENCH}/why"}
    assert len(addresses) == len(set(keys)) > 80
    lead = set()
    for address in addresses:
        answer = web_client.get(address)
        assert answer.status_code == 200, address
        assert "<h1>" in answer.text
        lead |= {found.partition("#")[0] for found in links(answer.text)}
    for address in sorted(lead - addresses - {""}):
        assert web_client.get(address).status_code == 200, address


@pytest.mark.parametrize("last", ["take", "done mark and cut", "sign glue", "grip", "finish"])
def test_every_number_of_the_bench_page_leads_on(
    web_client: TestClient, web_session: Session, web_clock: Clock, last: str
) -> None:
    if last != "take":
        bring(web_session, web_clock, last)
    steps = [step.key for step in answer_job(web_session.job(JOB), web_session.now()).steps]
    asked = set()
    for step in steps if last in ("take", "sign glue") else steps[-1:]:
        page = web_client.get(BENCH, params={"step": step}).text
        found = why_links(page)
        assert len(found) >= page.count('class="strip-text') + page.count('class="big ')
        assert page.count('class="strip-text') == page.count('class="strip-name"')
        asked |= set(found)
    assert asked
    for address in asked:
        assert web_client.get(address).status_code == 200, address


def test_a_number_is_a_link_on_the_record_too(web_client: TestClient, web_session: Session, web_clock: Clock) -> None:
    bring(web_session, web_clock, "finish")
    found = why_links(web_client.get(f"/records/{JOB}").text)
    assert f"{BENCH}/why/verdicts/swing_weight" in found
    for address in found:
        assert web_client.get(address).status_code == 200, address


def test_programs_get_the_same(web_client: TestClient) -> None:
    keys = web_client.get(f"/api/jobs/{JOB}/why").json()["keys"]
    assert "finished/swing_weight" in keys
    found = web_client.get(f"/api/jobs/{JOB}/why/finished/swing_weight").json()
    assert found["rows"][0]["share"] > 0
    assert found["formulas"][0]["page"] == "swing-weight.md"
    assert web_client.get(f"/api/jobs/{JOB}").json()["answer"]["finished"]["swing_weight"]["sd"] == found["sd"]


def test_what_is_no_number_is_refused_in_words(web_client: TestClient) -> None:
    answer = web_client.get(f"{BENCH}/why/finished/nothing")
    assert answer.status_code == 422
    assert "no number of this job" in answer.text
    assert web_client.get("/bench/T-9999/why/cut").status_code == 404
    assert web_client.get(f"/api/jobs/{JOB}/why/nothing").status_code == 422


@pytest.mark.parametrize("name", theory_pages())
def test_a_theory_page_is_whole_and_needs_no_network(web_client: TestClient, name: str) -> None:
    answer = web_client.get(f"/theory/{name}")
    assert answer.status_code == 200
    assert "<pre>" in answer.text or "<table>" in answer.text
    for target in links(answer.text):
        assert target.startswith(("/", "#")), f"{target} is not of this computer"
        address, _, section = target.partition("#")
        assert not address or web_client.get(address).status_code == 200, target
        if section:
            page = theory_page(address.removeprefix("/theory/") or name)
            assert page is not None and section in {*dict(page.sections), "main"}, target


def test_source_is_shown_and_nothing_else(web_client: TestClient) -> None:
    answer = web_client.get("/source/clubwright/club/moi.py")
    assert answer.status_code == 200
    assert 'id="L1"' in answer.text
    assert "def moi_kg_m2" in answer.text
    assert "tests/published/test_published_moi.py" in sources()
    for path in ("%2e%2e/pyproject.toml", "clubwright/%2e%2e/%2e%2e/pyproject.toml", "etc/passwd", "clubwright", "%2F"):
        assert web_client.get(f"/source/{path}").status_code in (404, 422), path
    assert web_client.get("/theory/no-such").status_code == 404
    assert web_client.get("/theory/..%2Fuser%2Fbench").status_code in (404, 422)


def test_a_heading_goes_by_what_hosts_of_markdown_make_of_it() -> None:
    assert slug("The joint's static strength") == "the-joints-static-strength"
    assert slug("Tip, bore and bond line") == "tip-bore-and-bond-line"


def test_whoever_may_look_may_ask_why_and_nobody_else(open_app: FastAPI) -> None:
    assert signed_in(open_app, "Lena").get(f"{BENCH}/why/finished/swing_weight").status_code == 200
    stranger = tablet(open_app)
    for path in (f"{BENCH}/why/cut", "/theory/belief", "/source/clubwright/club/moi.py", f"/api/jobs/{JOB}/why"):
        assert stranger.get(path).status_code in (303, 401), path

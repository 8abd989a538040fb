"""The door in a real browser: signing in by touch under the strict policy, and another page that tries to post."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import httpx
import pytest
from browsing import BENCH, Server, TabletMaker
from fastapi import FastAPI
from fastapi.responses import HTMLResponse

from benchwork import JOB
from clubwright.services.record.session import Session
from webclient import PINS

ATTACK = """<!doctype html><title>elsewhere</title>
<iframe name="hidden" src="{bench}/bench/{job}"></iframe>
<form id="f" method="post" action="{bench}/bench/{job}" target="_top">
<input name="action" value="step"><input name="step" value="weigh"><input name="key" value="k"><input name="seen" value="1">
</form>
<script>
window.said = [];
const tries = [
  ["{bench}/bench/{job}", {{method: "POST", mode: "no-cors", credentials: "include",
    headers: {{"Content-Type": "application/x-www-form-urlencoded"}}, body: "action=step&step=weigh&key=k2&seen=1"}}],
  ["{bench}/api/jobs/{job}/steps", {{method: "POST", mode: "no-cors", credentials: "include", body: '{{"step":"weigh"}}'}}],
  ["{bench}/api/jobs/{job}/steps", {{method: "POST", credentials: "include", body: '{{"step":"weigh"}}',
    headers: {{"X-Clubwright": "1", "Idempotency-Key": "k3", "Content-Type": "application/json"}}}}],
  ["{bench}/api/jobs", {{credentials: "include"}}],
];
Promise.allSettled(tries.map(([where, how]) => fetch(where, how).then((answer) => answer.text()))).then((all) => {{
  window.said = all.map((item) => item.status + ":" + (item.value || ""));
  window.done = true;
}});
</script>"""


@pytest.fixture
def open_served(open_app: FastAPI) -> Iterator[str]:
    with Server(open_app) as address:
        yield address


def test_a_person_signs_in_by_touch_works_and_signs_out(
    open_served: str, make_tablet: TabletMaker, web_session: Session
) -> None:
    """With no complaint about the page's own policy: htmx, the keypad and the live link work under it."""
    tablet = make_tablet(open_served).open(BENCH)
    page = tablet.page
    assert "/sign-in" in page.url
    page.get_by_label("name").fill("Wil")
    page.get_by_label("PIN").fill(PINS["Wil"])
    page.get_by_role("button", name="Sign in").tap()
    page.wait_for_url(f"**{BENCH}")
    page.locator("#link-state", has_text="live").wait_for()
    page.locator("#bench input[name='hand'][value='right']").check()
    tablet.do()
    assert [line.by for line in web_session.job(JOB).trail[1:]] == ["Wil", "Wil"]
    page.get_by_role("button", name="Wil · Sign out").tap()
    page.wait_for_url("**/sign-in")
    assert page.goto(open_served + BENCH) is not None
    assert "/sign-in" in page.url


def test_another_page_in_the_same_browser_cannot_use_the_bench(
    served: str, make_tablet: TabletMaker, web_session: Session
) -> None:
    """The worst neighbour: a page of another program on this computer, the same site for the browser's cookies."""
    elsewhere = FastAPI()

    @elsewhere.get("/", response_class=HTMLResponse)
    def attack() -> str:
        return ATTACK.format(bench=served, job=JOB)

    tablet = make_tablet(served, quiet=False).open()
    own = {cookie["name"] for cookie in tablet.page.context.cookies()}
    assert own, "the visitor has our cookie, which a browser sends along from the same site"
    with Server(elsewhere) as address:
        page = tablet.page.context.new_page()
        page.goto(address)
        page.wait_for_function("window.done")
        said = page.evaluate("window.said")
        assert len(said) == 4
        assert [text for text in said if JOB in text] == [], "an answer of ours was read by another page"
        assert [item.startswith("rejected") for item in said[2:]] == [True, True]
        page.evaluate("document.getElementById('f').submit()")
        page.wait_for_url(f"{served}/**")
        assert "Another page sent this" in page.inner_text("main")
    assert web_session.ledger.count() == 1


def test_the_live_news_carry_the_headers_too(served: str) -> None:
    with httpx.stream("GET", f"{served}/live") as answer:
        assert answer.headers["content-type"].startswith("text/event-stream")
        assert "default-src 'none'" in answer.headers["content-security-policy"]
        assert answer.headers["cache-control"] == "no-store"
        assert "event: beat" in list(itertools.islice(answer.iter_lines(), 4))

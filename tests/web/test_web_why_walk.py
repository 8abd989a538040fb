"""Every figure of the bench page and of the record is walked, in each state of the demo's wedge: it leads to why in one tap.

What does not is named here with its reason. A figure inside something that is tapped for another purpose leads there by a
link in the same row.
"""

from __future__ import annotations

from html.parser import HTMLParser
from typing import Any

import pytest

from benchwork import JOB, Clock, actions
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from webclient import TestClient

EMPTY = {"input", "br", "meta", "link", "img", "hr"}
STATES = (
    "take",
    "sign cut",
    "read total_weight 465.4 g dry, gripped",
    "mix",
    "glue",
    "leave out",
    "finish",
)
"""After which action of the demo's wedge the pages are walked."""

NO_FIGURE = {
    "id": "the number of a ticket",
    "h1": "the name of a club",
    "who": "who ordered it, and the day it came in",
    "step-count": "the place of a step in the plan",
    "steps": "the places and titles of the steps; their minutes are links",
    "summary": "how many lines, cautions or targets the list below has",
    "h2": "the title of a step",
    "strip-name": "the name of a quantity, and what is ordered, as typed",
    "chip-name": "the name of a quantity",
    "dt": "the name of a figure",
    "th": "the name of a quantity",
    "parts": "the names of parts",
    "papers": "dots an inch of a printer",
    "figure": "marks of the rule that is drawn",
    "scale": "the scale of a drawing",
    "title": "said to who does not see the picture, whose figures stand beside it",
    "desc": "said to who does not see the picture, whose figures stand beside it",
    "hint": "how a field is typed",
    "now": "as typed on the ticket",
    "field": "the name of a field, as the ticket calls what it is of",
    "ordered": "as typed on the ticket",
    "lines": "the trail: as typed, with who and when beside it",
    "last": "the last line of the trail",
    "trail-list": "the trail: as typed, with who and when beside it",
    "cautions": "bounds of a caution, with their own standing",
    "primary": "the name of a weight on a button",
    "second": "how many are left out, on a button",
    "num": "what is ordered or was read, as typed",
    "tolerance": "what is ordered, as typed",
    "aside": "a reading that does not count, as typed",
    "recipe": "the name of the ticket and what was done, as typed",
    "deeds": "what was done, as typed; a ratio is that of both masses beside it",
    "signed": "who signed when, and the words that were signed, kept as they were",
    "stage": "with which weight it was read, by name",
    "read": "the reading after which it was, as typed",
    "how": "measures of an instruction, the same for every club; what is computed for this one is a link",
}
"""Figures that lead nowhere, by a class or element that holds them, and why."""

BESIDE = {"offer": "li", "chip": "div", "causes": "div"}
"""What is tapped for another purpose, and the element around both it and its link."""


class Walk(HTMLParser):
    """Finds every text with a figure in it, and what holds it."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[tuple[str, set[str], dict[str, Any]]] = []
        self.linked: list[tuple[str, str]] = []
        self.bare: list[str] = []
        self.beside: list[tuple[str, dict[str, Any]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        address = found.get("href") or ""
        if tag == "a" and "/why/" in address:
            for _, _, seen in self.open:
                seen["link"] = address
        if tag not in EMPTY:
            names = {tag, found.get("id") or "", *(found.get("class") or "").split()}
            self.open.append((tag, names, {"href": address}))

    def handle_endtag(self, tag: str) -> None:
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        names = set().union(*(names for _, names, _ in self.open)) if self.open else set()
        if not any(sign.isdigit() for sign in data) or names & {"head", "script", "style", "nav", "header"}:
            return
        links = [seen["href"] for tag, _, seen in self.open if tag == "a" and "/why/" in seen["href"]]
        text = " ".join(data.split())
        control = next((name for name in BESIDE if name in names), None)
        if links:
            self.linked.append((text, links[-1]))
        elif control is not None:
            inside = next(place for place, item in enumerate(self.open) if control in item[1])
            around = [item for item in self.open[: inside + 2] if item[0] == BESIDE[control]]
            self.beside.append((text, around[-1][2] if around else {}))
        elif not names & set(NO_FIGURE):
            holders = " ".join(tag + "." + ".".join(sorted(names - {tag, ""})) for tag, names, _ in self.open[-3:])
            self.bare.append(f"{text}  in  {holders}")


@pytest.mark.parametrize("state", STATES)
def test_every_figure_leads_to_why_in_one_tap(
    web_client: TestClient, web_session: Session, web_clock: Clock, state: str
) -> None:
    for place, (name, do, hours) in enumerate(actions()):
        if place:
            web_clock.wait(hours=hours)
            do(web_session)
        if name == state:
            break
    steps = [step.key for step in answer_job(web_session.job(JOB), web_session.now()).steps]
    pages = [(f"/bench/{JOB}", {"step": step}) for step in (steps if state != "finish" else steps[-1:])]
    pages += [(f"/records/{JOB}", {}), (f"/bench/{JOB}/belief", {})]
    lost, lead, told = [], set(), set()
    for path, asked in pages:
        walk = Walk()
        walk.feed(web_client.get(path, params=asked).text)
        where = " ".join((path, *asked.values()))
        lost += [f"{where}: {text}" for text in walk.bare]
        lost += [f"{where}: {text}, no link beside it" for text, seen in walk.beside if "link" not in seen]
        told |= {text for text, _ in walk.linked}
        lead |= {address for _, address in walk.linked} | {seen.get("link", "") for _, seen in walk.beside}
    assert not lost, "\n".join(sorted(set(lost)))
    assert len(lead) > 10
    assert state != "take" or any("ratio is off by 7.9%" in text for text in told), (
        "a sentence with a figure of this club"
    )
    for address in {address.partition("#")[0] for address in lead} - {""}:
        answer = web_client.get(address)
        assert answer.status_code == 200, address
        anchors = {item.partition("#")[2] for item in lead if item.startswith(address + "#")}
        missing = [anchor for anchor in anchors if f'id="{anchor}"' not in answer.text]
        assert not missing, f"{address} has no {missing}"

"""The demo's wedge in German from its ticket to its tag: no card and no sheet holds a word that no German table has."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from benchwork import JOB, PLAYED, Clock, run_to, session_on
from cli_runs import workshop
from clubwright.bootstrap import open_session
from clubwright.journal.job import Job
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.report.done_work import done_work
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from clubwright.web.views.trail_rows import trail_rows
from clubwright.words.german import GERMAN, WORDS
from clubwright.words.language import Counted, Template
from webclient import LOOPBACK, TestClient

WORD = re.compile("[A-Za-zÄÖÜäöüß]+")
OWN = "language=de&decimal=comma&length=mm"


def words_of(template: Template) -> set[str]:
    texts = template if isinstance(template, Counted) else (template,)
    return {word.casefold() for text in texts for word in WORD.findall(re.sub("{[a-z_]+}", "", text))}


TABLES = set().union(*map(words_of, GERMAN.phrases.values()))
TABLES |= {word for register in WORDS.values() for text in register.values() for word in words_of(text)}


def listed(text: str) -> set[str]:
    return set(text.split())


NOTATION = listed("a b c d e f g h l m n r s t kn mpa mm min pt utc flat from base")
"""Units, letters of the swing weight and of a card, the echo of an angle from a base: what may be typed, in any language."""

MONTH = listed("mo märz")
"""The day on which the demo is worked, as the bench's clock shows it in German."""

NAMES = listed("ann robin ashdown invented kestrel mid larch heather cord port two part lot demo double sided build up")
NAMES |= listed("forged carbon steel gram scale angle gauge caliper rule swing down wednesday")
"""Names of people, parts, tapes and gauges, and words that somebody typed on this ticket: they stay as they were typed."""

KEYS = listed("ticket head hand right clubwright why key bore diameter with reamed inspect")
"""Keys of a ticket file and commands, which are written so in every language."""


class Visible(HTMLParser):
    """What a person sees or hears of a page; what stands in a code element is to be typed."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.hidden += tag in ("script", "style", "code", "pre", "title")
        self.texts += [value for name, value in attrs if name in ("title", "aria-label", "placeholder") and value]

    def handle_endtag(self, tag: str) -> None:
        self.hidden -= tag in ("script", "style", "code", "pre", "title")

    def handle_data(self, data: str) -> None:
        if not self.hidden and data.strip():
            self.texts.append(" ".join(data.split()))


def foreign(texts: list[str], kept: list[str]) -> list[tuple[list[str], str]]:
    """Return texts with the words in them that nothing German made; lines of the record are canonical, and left out."""
    found = []
    for text in texts:
        rest = text
        for line in sorted(kept, key=len, reverse=True):
            rest = rest.replace(line, "")
        left = words_of(rest) - TABLES - NOTATION - MONTH - NAMES - KEYS
        if left:
            found.append((sorted(left), text))
    return found


def as_kept(job: Job) -> list[str]:
    """What a sheet prints as the record has it: the order's own words, and what a gate showed when it was signed."""
    shown = [signed.shown.get("answer") or {} for signed in job.gates_signed.values()]
    gates = [gate["why"] for answer in shown for gate in answer.get("gates", ())]
    return [str(job.document["ticket"].get("asked", "")), *filter(None, gates)]


@pytest.mark.usefixtures("played")
@pytest.mark.parametrize("last", ["take", "hand", "mix", "sign glue", "glue", "bend", "finish"])
def test_every_card_of_the_wedge_is_german(tmp_path: Path, last: str) -> None:
    with open_session(str(tmp_path), by="Ann") as opened:
        clock = Clock()
        session = session_on(opened.ledger, clock)
        run_to(session, clock, last)
        job = session.job(JOB)
        trail = [row.text for row in trail_rows(job)]
        client = TestClient(create_app(WebSettings(shop=str(tmp_path)), session), base_url=LOOPBACK)
        client.cookies.set("own", OWN)
        done = [item.text for item in done_work(job, answer_job(job, session.now()))]  # as the record says it
        found = []
        for step in ("", *(step.key for step in answer_job(job, session.now()).steps)):
            answer = client.get(f"/bench/{JOB}", params={"step": step} if step else {})
            assert answer.status_code == 200
            page = Visible()
            page.feed(answer.text)
            assert len(page.texts) > 40
            found += [(step, *hit) for hit in foreign(page.texts, trail)]
        sheet = client.get(f"/records/{JOB}/sheet.pdf")
    assert not found
    assert sheet.status_code == 200
    text = " ".join(pdfium.PdfDocument(sheet.content)[0].get_textpage().get_text_bounded().split())
    assert "Arbeitsblatt" in text
    assert not foreign([text], [*trail, *done, *as_kept(job)])


@pytest.mark.usefixtures("played")
def test_the_card_of_every_moment_is_german(tmp_path: Path) -> None:
    """After each action the page as it opens by itself, a reading that does not fit among them."""
    clock = Clock()
    with open_session(str(tmp_path), by="Ann") as opened:
        session = session_on(opened.ledger, clock)
        client = TestClient(create_app(WebSettings(shop=str(tmp_path)), session), base_url=LOOPBACK)
        client.cookies.set("own", OWN)
        for name, time, fact in PLAYED:
            session.ledger.receive([fact])
            clock.time = time
            page = Visible()
            page.feed(client.get(f"/bench/{JOB}").text)
            assert not foreign(page.texts, [row.text for row in trail_rows(session.job(JOB))]), name


REFUSALS = {
    "a loose tip": (
        {"shaft": {"tip_diameter": ".335 in"}, "head": {"bore_diameter": ".370 in"}},
        "dry fit",
        "Klebefuge",
    ),
    "a tight tip": ({"shaft": {"tip_diameter": ".370 in"}, "head": {"bore_diameter": ".355 in"}}, "dry fit", "zu groß"),
    "a cracked hosel": ({"head": {"hosel": "cracked"}}, "dry fit", "gerissen"),
    "the other hand": ({"head": {"hand": "left"}}, "pull", "HALT: FALSCHES TEIL"),
}


@pytest.mark.usefixtures("played")
@pytest.mark.parametrize("case", REFUSALS)
def test_what_a_card_refuses_is_german(tmp_path: Path, case: str) -> None:
    figures, step, said = REFUSALS[case]
    workshop(tmp_path, "take")
    with open_session(str(tmp_path), by="Ann") as session:
        for part, values in figures.items():
            bench.change_part(session, JOB, part, values)
        client = TestClient(create_app(WebSettings(shop=str(tmp_path)), session), base_url=LOOPBACK)
        client.cookies.set("own", OWN)
        page = Visible()
        page.feed(client.get(f"/bench/{JOB}", params={"step": step}).text)
        assert any(said in text for text in page.texts)
        assert not foreign(page.texts, [row.text for row in trail_rows(session.job(JOB))])


MIXES = [("4.0 g", "3.0 g", 0, "zu viel"), ("4.0 g", "2.0 g", 2, "Topfzeit ist um")]


@pytest.mark.usefixtures("played")
@pytest.mark.parametrize(("part_a", "part_b", "later", "said"), MIXES)
def test_a_mix_that_the_record_speaks_against_is_german(
    tmp_path: Path, part_a: str, part_b: str, later: int, said: str
) -> None:
    with open_session(str(tmp_path), by="Ann") as opened:
        clock = Clock()
        session = session_on(opened.ledger, clock)
        run_to(session, clock, "fit")
        bench.mix_adhesive(session, JOB, part_a, part_b, "22 C", "lot 7")
        clock.wait(hours=later)
        client = TestClient(create_app(WebSettings(shop=str(tmp_path)), session), base_url=LOOPBACK)
        client.cookies.set("own", OWN)
        page = Visible()
        page.feed(client.get(f"/bench/{JOB}", params={"step": "glue"}).text)
        assert any(said in text for text in page.texts)
        assert not foreign(page.texts, [row.text for row in trail_rows(session.job(JOB))])


def test_an_english_word_is_found() -> None:
    assert foreign(["Bohrung bis Boden", "Measure it anew"], []) == [(["anew", "it", "measure"], "Measure it anew")]
    assert not foreign(["Zuletzt: signed: glue"], ["signed: glue"])


@pytest.mark.usefixtures("played")
def test_what_rings_says_so_in_german(tmp_path: Path) -> None:
    with open_session(str(tmp_path), by="Ann") as opened:
        clock = Clock()
        session = session_on(opened.ledger, clock)
        run_to(session, clock, "mix")
        client = TestClient(create_app(WebSettings(shop=str(tmp_path)), session), base_url=LOOPBACK)
        client.cookies.set("own", OWN)
        told = [alarm["text"] for alarm in client.get("/alarms").json()["alarms"]]
    assert f"{JOB}: die Topfzeit ist vorbei: neu mischen" in told

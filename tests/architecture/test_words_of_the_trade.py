"""What people read says the trade's words: pages, papers, screens and sentences are read through, and old words refused.

Keys of ticket files, of answers for programs and of old records are what they were, and stand among the exceptions.
"""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from benchwork import JOB
from cli_runs import clubwright, workshop
from clubwright.bootstrap import open_session
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.planning.gates.types import CHECKS
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.jobs.job_answer import answer_job
from clubwright.state.steps import STEPS
from clubwright.ticket.fields.fields import SECTIONS
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from clubwright.words.english import ENGLISH
from clubwright.words.language import Counted
from repository import DOCS, ROOT
from webclient import LOOPBACK, TestClient

OLD = {
    "within, outside": (
        r"\b(is|was|are|verdict|and|either) (within|outside)\b(?! (the |its |a |what |\d))",
        "in spec, out of spec",
    ),
    "a verdict alone": (r"^\W*(within|outside)( tolerance)?\W*$", "in spec, out of spec"),
    "dry, gripped": (r"\bdry, gripped\b", "dry, grip on"),
    "dry, taped": (r"\bdry, taped\b", "dry, tape only"),
    "mass": (r"\bmass(es)?\b", "weight"),
    "cup": (r"(?<!mixing )\bcups?\b", "mix; the vessel is a mixing cup"),
    "axis to ground": (r"\baxis to ground\b", "along the shaft"),
    "butt density": (r"\b(butt|tip) density\b|\bmass per length\b", "grams an inch at the butt"),
    "lifts the shaft": (r"\blift(s|ing)?( the)? shaft\b", "holds the shaft off the bottom"),
    "weight under the tip": (r"\bweights? under (the|a) tip\b", "tip weight"),
    "family": (r"\bfamil(y|ies)\b", "model"),
    "layers": (r"\blayers? of (build-up )?tape\b|\b(tape|build-up) layers?\b", "wraps"),
    "finish the ferrule": (r"\bfinish(es|ed)? the ferrule\b", "turn the ferrule"),
    "as looked at": (r"\bas looked at\b", "by eye"),
    "moi": (r"(?-i:\bmoi\b)", "MOI"),
    "cg from ground": (r"\bcg from ground\b|centre of gravity's height", "CG from the sole"),
    "bore to ground": (r"(?<!bottom of )\bbore to ground\b", "bottom of bore to ground (BBG)"),
    "pull the head": (
        r"\bpull(ed|ing|s)? (the |of the |that |another )?head\b",
        "take the head off; load on the joint",
    ),
    "joint is closed": (r"\b(joint is closed|clos(e|ed|ing) (the |that |this )?joint)\b", "head is glued"),
    "release of adhesive": (r"\brelease (times?|from|after)\b|\buntil the release\b", "cured, may be hit"),
    "loft-lie": (r"\bloft-lie\b", "loft and lie check"),
}
"""Old word, how it is found, and what the trade says."""

PLACE = re.compile(r"\{[a-z_]+\}")


class Visible(HTMLParser):
    """Texts of a page as a person sees or hears them; what stands in a code element is a key or a command to type."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.hidden += tag in ("script", "style", "code", "pre")
        self.texts += [value for name, value in attrs if name in ("title", "aria-label", "placeholder") and value]

    def handle_endtag(self, tag: str) -> None:
        self.hidden -= tag in ("script", "style", "code", "pre")

    def handle_data(self, data: str) -> None:
        if not self.hidden and data.strip():
            self.texts.append(" ".join(data.split()))


KEPT = re.compile(
    r"\[[a-z_.]+\](?: [a-z_]+)?"  # a table of the ticket file and a key in it
    r"|\b[a-z_]+\.[a-z_]+\b"  # a figure of a part, by its path
    r"|\b[a-z]+_[a-z_]+\b"  # a key
)
"""Keys in a sentence: what is to be typed stays as it is in ticket files, on the command line and in `/api`."""


def old_words(text: str) -> list[str]:
    text = KEPT.sub("", text)
    return [f"{old} (say: {new})" for old, (found, new) in OLD.items() if re.search(found, text, re.IGNORECASE)]


def refused(texts: dict[str, str] | list[str]) -> list[tuple[str, list[str]]]:
    lines = texts.items() if isinstance(texts, dict) else [(text, text) for text in texts]
    return [(f"{place}: {text}", found) for place, text in lines if (found := old_words(text))]


def test_old_words_are_found() -> None:
    """The patterns themselves: each finds what it is there for."""
    bad = {
        "within, outside": "every verdict is within or accepted",
        "a verdict alone": " OUTSIDE ",
        "dry, gripped": "swing weight D1 (dry, gripped)",
        "dry, taped": "dry, taped",
        "mass": "head mass 299.4 g",
        "cup": "one cup to about 50 g",
        "axis to ground": "axis to ground",
        "butt density": "butt density",
        "lifts the shaft": "lifts the shaft",
        "weight under the tip": "weight under the tip",
        "family": "The family",
        "layers": "2 layers of tape",
        "finish the ferrule": "Finish the ferrule",
        "as looked at": "hand, as looked at",
        "moi": "moi",
        "cg from ground": "cg from ground",
        "bore to ground": "Measure bore to ground",
        "pull the head": "Pull the head off",
        "joint is closed": "the joint is closed",
        "release of adhesive": "release times",
        "loft-lie": "loft-lie",
    }
    assert set(bad) == set(OLD)
    assert all(any(found.startswith(old) for found in old_words(text)) for old, text in bad.items())
    assert not old_words("in spec, dry, grip on, one mixing cup, bottom of bore to ground (BBG), within its pot life")


def test_sentences_of_the_words_room() -> None:
    templates = {
        f"{key} {place}": PLACE.sub("", text)
        for key, template in ENGLISH.phrases.items()
        for place, text in enumerate(template if isinstance(template, Counted) else (template,))
    }
    assert len(templates) > 400
    assert not refused(templates)


def test_names_and_meanings_of_the_registers() -> None:
    said = {f"table {item.name}": item.meaning for item in SECTIONS}
    said |= {
        f"field {item.name}.{field.key}": CODE.sub("", field.meaning) for item in SECTIONS for field in item.fields
    }
    said |= {f"label of {field.key}": ENGLISH.word("key", field.key) for item in SECTIONS for field in item.fields}
    said |= {f"quantity {key}": item.name for key, item in QUANTITIES.items()}
    said |= {f"stage {key}": ENGLISH.word("stage", key) for key in STAGES}
    said |= {f"step {key}": item.meaning for key, item in STEPS.items()}
    said |= {f"check {key}": ENGLISH.word("check", key) for key in CHECKS}
    said |= {
        f"action {key} {at}": text for key, item in ACTIONS.items() for at, text in enumerate((item.says, item.more))
    }
    assert not refused(said)


CODE = re.compile(r"`[^`]*`|^ {4}.*$|^```.*?^```", re.MULTILINE | re.DOTALL)
"""What is to be typed, or a key, on a page of the guide."""


def seen(client: TestClient, path: str) -> list[str]:
    answer = client.get(path)
    assert answer.status_code == 200, path
    page = Visible()
    page.feed(answer.text)
    assert len(page.texts) > 5
    return page.texts


@pytest.mark.usefixtures("played")
@pytest.mark.parametrize("last", ["hand", "sign glue", "glue", "finish"])
def test_pages_of_the_wedge(tmp_path: Path, last: str) -> None:
    workshop(tmp_path, last)
    with open_session(str(tmp_path), by="bench") as session:
        keys = [step.key for step in answer_job(session.job(JOB), session.now()).steps]
        app = create_app(WebSettings(shop=str(tmp_path)), session)
        with TestClient(app, base_url=LOOPBACK) as client:
            paths = [f"/bench/{JOB}?step={key}" for key in (keys if last == "hand" else keys[-1:])]
            paths += [f"/bench/{JOB}/shaft", f"/bench/{JOB}/order", f"/records/{JOB}", f"/records/{JOB}/club"]
            paths += ["/tickets", "/tickets/new", f"/tickets/{JOB}", "/records", f"/bench/{JOB}/why"]
            paths += [f"/bench/{JOB}/why/finished/swing_weight"]
            if last != "hand":
                paths = paths[:5] + paths[-1:]
            found = [(path, hit) for path in paths for hit in refused(seen(client, path))]
            sheet = client.get(f"/records/{JOB}/sheet.pdf").content
            tag = client.get(f"/records/{JOB}/tag.pdf").content
    assert not found
    assert not refused([line for paper in (sheet, tag) for line in pdf_lines(paper)])


def pdf_lines(paper: bytes) -> list[str]:
    document = pdfium.PdfDocument(paper)
    text = document[0].get_textpage().get_text_bounded()
    return text.splitlines()


EXAMPLES = sorted(path.stem for path in (ROOT / "examples").glob("*.toml") if path.stem != "shop")


@pytest.mark.parametrize("name", EXAMPLES)
def test_screens_of_the_examples(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    path = str(ROOT / "examples" / f"{name}.toml")
    shop = ("--shop-file", str(ROOT / "examples" / "shop.toml"))
    said = [clubwright(capsys, command, path, *shop) for command in ("work", "plan")]
    assert not refused([line for ran in said for line in (ran.out + ran.err).splitlines()])


@pytest.mark.usefixtures("played")
def test_screens_of_the_wedge(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    shop = ("--shop", workshop(tmp_path, "finish"))
    said = [clubwright(capsys, command, JOB, *shop).out for command in ("show", "built", "club")]
    assert not refused([line for text in said for line in text.splitlines()])


GUIDE = [ROOT / "README.md", *sorted((DOCS / "user").glob("*.md"))]


@pytest.mark.parametrize("path", GUIDE, ids=lambda path: path.name)
def test_the_guide(path: Path) -> None:
    text = CODE.sub("", path.read_text(encoding="utf-8"))
    assert not refused({f"line {at}": line for at, line in enumerate(text.splitlines())})

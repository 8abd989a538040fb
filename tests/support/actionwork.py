"""Every action of the register once, each on a record on which it can be done, and the ways in by which it is done.

A new action gets an entry in `CASES`; a new way in, an entry in `WAYS`.
"""

from __future__ import annotations

import math
import re
import shlex
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec
import pytest

from benchwork import JOB, TEXT, Clock, document
from cli_runs import clubwright
from clubwright.api.shop import Shop
from clubwright.cli.typing_next import command_words
from clubwright.club.oscillation import read_oscillation
from clubwright.importers.ticket_file import parse_ticket
from clubwright.importers.trace_file import load_trace
from clubwright.journal.chain import plain
from clubwright.journal.facts import Fact
from clubwright.journal.touches import touches_of
from clubwright.services.actions import bench
from clubwright.services.actions.following import Following
from clubwright.services.actions.orders.clubs import next_ticket
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.fields import fields_of
from clubwright.services.actions.register.python import method_of, parameters_of
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.shaft.family import family_of
from clubwright.services.shaft.tracing import texts_of
from clubwright.units import CPM_HZ
from clubwright.web.app import create_app
from clubwright.web.second_tap import HELD, LOOKED
from clubwright.web.settings import WebSettings
from records import Swing, recorded
from shaftwork import DRY, IRON, dry_hz, iron
from webclient import LOOPBACK, TestClient, post, token_of

Fields = dict[str, Any]
OTHER, AGAIN = "T-0077", "T-0099"
CHANCE = re.compile(r"\bP-[0-9a-z-]{5,8}|\b[0-9a-f]{64}\b")
"""The mark of a person who was forgotten is made by chance, and what is hashed with it differs too."""


class Case(msgspec.Struct, frozen=True, kw_only=True):
    """One action, and what it is done on.

    Attributes:
        after: The action of the wedge after which it is done; empty for a record of its own.
        given: The fields of its payload.
        job: On which job; empty for none.
        before: What is done first, at the bench.
        page: What the page's form sends in place of the fields under their names; None where the page has no such form.
        path: Where it sends that.
        prepare: Writes what lies beside the workshop, and returns more fields.
        words: The command, where it is another one than the register makes of the fields.
    """

    after: str = "take"
    given: Fields = msgspec.field(default_factory=dict)
    job: str = JOB
    before: Callable[[Session], object] = lambda _: None
    page: Fields | None = msgspec.field(default_factory=dict)
    path: str = f"/bench/{JOB}"
    words: tuple[str, ...] = ()
    prepare: Callable[[Path], Fields] = lambda _: {}

    def payload(self, key: str) -> msgspec.Struct:
        return ACTIONS[key].payload(**({"job": self.job} if self.job else {}), **self.given)


def base_tape_laid(session: Session) -> None:
    bench.lay_tape(session, JOB, "double-sided base", "1", "1.6 g")


def mixed_elsewhere(session: Session) -> None:
    other = document()
    other["ticket"]["id"] = OTHER
    bench.take_ticket(session, other, "other.toml")
    bench.mix_adhesive(session, OTHER, "4.0 g", "2.0 g", "22 C", "lot 8")


def worked_on_apart(session: Session) -> None:
    """The club came back, and nobody said that it is the same."""
    again = next_ticket(session.job(JOB), OTHER, "weight")
    del again["ticket"]["club"]
    bench.take_ticket(session, again, "other.toml")


def like_shafts(session: Session) -> None:
    for number, factor in (("X-1", 1.03), ("X-2", 1.04), (IRON, None)):
        given = iron(number)
        if factor is None:
            given["shaft"]["stiffness_factor"] = "1 ± 0.05"
        bench.take_ticket(session, given, "irons")
        if factor is not None:
            value = f"{dry_hz(given) * math.sqrt(factor) / CPM_HZ:.2f} cpm"
            bench.note_reading(session, number, "frequency", value, stage=DRY, weights=[])


def before_a_cut(session: Session) -> None:
    bench.take_ticket(session, iron(), "irons")


def a_ticket_file(folder: Path) -> Fields:
    text = TEXT.replace(f'id = "{JOB}"', f'id = "{OTHER}"')
    (folder / "w.toml").write_text(text, encoding="utf-8")
    return {"document": parse_ticket(text, "w.toml")}


def a_recording(folder: Path) -> Fields:
    here_hz = dry_hz(iron())
    trace = recorded(Swing(here_hz, 0.008), Swing(1.03 * here_hz, 0.008, 0.5))
    path = folder / "swing.csv"
    path.write_text("strain\n" + "".join(f"{value:.6f}\n" for value in trace.values), encoding="utf-8")
    frequency, second = texts_of(read_oscillation(load_trace(path, rate_hz=250.0)))
    return {"frequency": frequency, "second_plane": second}


def read(quantity: str, value: str, **more: Any) -> Fields:
    return {"quantity": quantity, "value": value, **more}


CASES: dict[str, Case] = {
    "take": Case(
        job="",
        given={"source": "w.toml"},
        prepare=a_ticket_file,
        path="/tickets/new/file",
        words=("take", "{folder}/w.toml"),
    ),
    "read": Case(
        after="done mark and cut",
        given=read("swing_weight", "D1.3", stage="dry, gripped", instrument="swing scale", repeats="2"),
        page={"confirmed": "D1.3"},
    ),
    "trace": Case(
        job=IRON,
        given={"stage": DRY, "clamp": "5 in"},
        before=before_a_cut,
        prepare=a_recording,
        page=None,
        words=("trace", "{folder}/swing.csv", *shlex.split(f"--rate 250 --job {IRON} --stage '{DRY}' --clamp '5 in'")),
    ),
    "decide": Case(
        after="read total_weight 477.2 g finished",
        given={"reading": 23, "keep": False, "reason": "a 2 for a 7"},
        page={"choice": "leave"},
    ),
    "fit": Case(after="cut", given={"weights": ["port 6"]}),
    "pull": Case(given={"hand": "right"}),
    "measure": Case(
        after="hand",
        given={"section": "head", "values": {}, "another": True, "said_by": "R. Ashdown", "reason": "worn"},
        page={"action": "another head", "said_by": "R. Ashdown", "reason": "worn"},
    ),
    "figures": Case(
        after="hand",
        given={
            "values": {"head.mass": "296.2 g", "grip.mass": "50.1 g"},
            "gauges": {"mass": "gram scale"},
            "step": "weigh",
        },
        page={"action": "measure", "head.mass": "296.2 g", "grip.mass": "50.1 g", "gauge_mass": "gram scale"},
    ),
    "trim": Case(after="hand", given={"end": "butt", "amount": "1/4 in"}),
    "cut": Case(
        after="sign cut",
        given={
            "cut_length": "34.01 in",
            "cut_mass": "101.2 g",
            "mass_gauge": "gram scale",
            "done_at": "2026-03-02T08:32:00Z",
        },
        page={"gauge_mass": "gram scale"},
    ),
    "bend": Case(after="grip", given={"loft": "54 deg", "lie": "63.5 deg"}),
    "tape": Case(
        after="cut",
        given={"name": "build-up", "layers": "2", "mass": "2.9 g"},
        before=base_tape_laid,
        page={"tape:build-up": "2.9 g"},
    ),
    "mix": Case(after="fit", given={"part_a": "4.0 g", "part_b": "2.0 g", "temperature": "22 C", "batch": "lot 7"}),
    "mix-from": Case(after="fit", given={"mix": OTHER}, before=mixed_elsewhere, page={"action": "mix from"}),
    "bad-mix": Case(after="mix", given={"reason": "hardener forgotten"}, page={"action": "bad mix"}),
    "glue": Case(after="sign glue", given={"temperature": "22 C"}),
    "grip": Case(after="done cure"),
    "done": Case(after="hand", given={"step": "weigh", "note": "two scales agree"}, page={"action": "step"}),
    "sign": Case(after="done weigh", given={"gate": "cut"}),
    "accept": Case(
        after="bend",
        given={"quantity": "length", "name": "R. Ashdown", "reason": "measured by him"},
        page={"target": "length", "accepted_by": "R. Ashdown"},
    ),
    "finish": Case(after="sign release"),
    "reopen": Case(after="done tag", given={"reason": "it rattles"}),
    "undo": Case(after="fit", given={"fact": 10, "site": "van", "reason": "wrong one"}),
    "renumber": Case(given={"number": "T-van-7"}, path=f"/tickets/{JOB}/number"),
    "order": Case(
        after="hand",
        given={"values": {"target.swing_weight": "D2"}, "said_by": "R. Ashdown", "reason": "likes it lighter"},
        page={"target.swing_weight": "D2", "was:target.swing_weight": "D4"},
        path=f"/bench/{JOB}/order",
    ),
    "pull-again": Case(
        after="glue",
        given={"said_by": "R. Ashdown", "reason": "it rattles", "heat": False},
        page={"do": "pull", "heat": "no"},
        path=f"/bench/{JOB}/order",
    ),
    "family": Case(job=IRON, before=like_shafts, path=f"/bench/{IRON}/shaft", words=("family", IRON, "--use")),
    "make-again": Case(
        after="done tag",
        given={
            "number": AGAIN,
            "values": {"head.mass": "297.4 g", "ticket.promised": "Friday 10:00", "ticket.priority": "today"},
        },
        page={"do": "take", "id": AGAIN, "head.mass": "297.4 g", "promised": "Friday 10:00", "priority": "today"},
        path=f"/records/{JOB}/again",
    ),
    "work-again": Case(
        after="done tag", given={"number": AGAIN, "work": "regrip"}, path=f"/records/{JOB}/club", page={"id": AGAIN}
    ),
    "same-club": Case(
        after="done tag",
        job=OTHER,
        given={"club": JOB, "reason": "its serial"},
        before=worked_on_apart,
        page={"do": "say"},
        path=f"/records/{OTHER}/club",
    ),
    "forget": Case(
        job="",
        given={"player": "Robin Ashdown (invented)", "asked_by": "the player, by letter", "facts": 1},
        page={"do": "erase", "looked": "yes"},
        path="/forget",
        words=(*("forget", "Robin Ashdown (invented)", "--asked-by", "the player, by letter", "--facts", "1"),),
    ),
}


class Bench(msgspec.Struct, frozen=True, kw_only=True):
    """A workshop of its own for one way in."""

    folder: Path
    clock: Clock
    capsys: pytest.CaptureFixture[str]


def by_page(at: Bench, session: Session, key: str, case: Case) -> str:
    assert case.page is not None
    fields = {
        field.page: case.given[field.name] for field in fields_of(ACTIONS[key].payload) if field.name in case.given
    }
    sent = {name: _form_text(value) for name, value in fields.items() if not isinstance(value, dict)}
    sent = {"action": key, "key": "law-1", **sent, **case.page}
    if sent["action"] in HELD:
        sent[LOOKED] = "yes"
    if key == "family":
        sent["factor"] = family_text(session)
    with TestClient(create_app(WebSettings(shop=str(at.folder)), session), base_url=LOOPBACK) as client:
        client.follow_redirects = False
        if key == "take":
            files = {"file": ("w.toml", (at.folder / "w.toml").read_bytes())}
            answer = client.post(case.path, data={"csrf": token_of(client), "key": "law-1"}, files=files)
        else:
            answer = post(client, case.path, **sent)
    return "" if answer.status_code in (200, 303) else answer.text


def _form_text(value: Any) -> Any:
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else value


def by_api(at: Bench, session: Session, key: str, case: Case) -> str:
    with TestClient(create_app(WebSettings(shop=str(at.folder)), session), base_url=LOOPBACK) as client:
        path = "/api" + ACTIONS[key].route.replace("{job}", case.job)
        answer = client.post(path, json=case.given, headers={"X-Clubwright": "1", "Idempotency-Key": "law-1"})
    return "" if answer.status_code == 201 else answer.text


def by_command(at: Bench, session: Session, key: str, case: Case) -> str:
    words = [word.format(folder=at.folder) for word in case.words]
    words = words or shlex.split(" ".join(command_words(Following(action=key, given=case.given), case.job)))[1:]
    ran = clubwright(at.capsys, *words, "--shop", str(at.folder), "--by", "bench", "--key", "law-1")
    return "" if ran.code == 0 else ran.err


def by_python(at: Bench, session: Session, key: str, case: Case) -> str:
    action = ACTIONS[key]
    with Shop(at.folder, by="bench", site="bench", now=at.clock) as shop:
        if key == "take":
            shop.take(at.folder / case.given["source"], key="law-1")
            return ""
        given = {
            item.name: case.given[item.field.name] for item in parameters_of(action) if item.field.name in case.given
        }
        getattr(shop, method_of(action))(*([case.job] if case.job else []), **given, key="law-1")
    return ""


WAYS: dict[str, Callable[[Bench, Session, str, Case], str]] = {
    "python": by_python,
    "command": by_command,
    "page": by_page,
    "api": by_api,
}
"""Each does an action on a workshop of its own; returns why it was refused, nothing when it was done."""


def family_text(session: Session) -> str:
    found = family_of(session, session.job(IRON))
    assert found is not None
    return found.text


def left_behind(session: Session, before: int) -> dict[str, Any]:
    """Return what an action left: its facts as they are kept, and every job as it stands after them."""
    facts = session.ledger.facts()
    new = [kept(fact) for fact in facts if fact.key.startswith("law-1")]
    jobs = {name: state(session, name) for name in session.shop().jobs}
    touched = sorted({touch for fact in facts if fact.key.startswith("law-1") for touch in touches_of(fact)})
    left = {"facts": new, "count": len(facts) - before, "jobs": jobs, "touched": touched}
    text = msgspec.json.encode(left, order="sorted").decode()
    found: dict[str, Any] = msgspec.json.decode(CHANCE.sub("*", text))
    return found


def kept(fact: Fact) -> tuple[str, Any]:
    return fact.typed, plain(fact.what)


def state(session: Session, name: str) -> dict[str, Any]:
    job = session.job(name)
    worked = answer_job(job, session.now())
    return {
        "document": job.document,
        "steps": [(step.key, step.done) for step in worked.steps],
        "gates": [(gate.step, gate.open, gate.step in job.gates_signed) for gate in worked.gates],
        "finished": job.finished is not None,
        "trail": [(line.text, line.undone) for line in job.trail],
    }

"""Free text changes nothing that is computed: whatever a note, a reason or a name says, no list, sheet or answer moves."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import Engine

from benchwork import JOB, Clock, document, session_on, worked
from clubwright.journal.reducers.fold import Shop
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.tag.from_work import tag_data
from clubwright.services.actions import bench
from clubwright.services.answer.misfit_to_decide import misfits_to_decide
from clubwright.services.answer.strips import strips_of
from clubwright.services.jobs.closing import closing_points
from clubwright.services.jobs.job_list import JobStatuses, waiting
from clubwright.services.record.session import Session
from clubwright.services.report.as_built import as_built_record
from clubwright.services.report.build_again import make_again
from clubwright.services.report.reading_states import reading_states
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.web.views.card_view import card_of
from clubwright.web.views.record_views import record_view
from clubwright.words.step import say_steps

HOSTILE = (
    "promise 2026-01-01",
    "x, promised Fri 12:00",
    "ticket: promised yesterday",
    "finished",
    "signed: cut",
    "signed: release",
    "done: glue",
    "invented demo data",
    "undo 3",
    "undone 4 of van",
    "skipped: nothing was done",
    "released",
    "swing_weight D9.9",
    "accepted by R. Ashdown, fine",
    "error: stop; or warning. Likeliest first: and is kept aside",
    "± 1/2 in",
    "within, outside, cannot tell",
    "<b>&amp;{{ 7 * 7 }}</b>",
    "right to left \u202e and back",
)
PLAIN = "Qzqzq"
"""Found nowhere else, so that what was typed can take its place."""


def play_with(session: Session, clock: Clock, text: str) -> None:
    """A wedge as far as its inspection, then taken back a little and closed; every free text there is says ``text``."""
    clock.wait(hours=1)
    start = document()
    start["ticket"] |= {"note": text, "asked": text, "promised": "tomorrow noon"}
    bench.take_ticket(session, start, "wedge-54.toml")
    clock.wait(hours=30)
    bench.change_part(session, JOB, "ticket", {"note": text})
    bench.change_part(session, JOB, "ticket", {"note": f"promised {text}, promised later"})
    bench.change_part(session, JOB, "head", {"hand": "right"})
    for step in ("pull", "weigh", "dry fit"):
        bench.do_step(session, JOB, step, note=text)
    bench.undo(session, JOB, reason=text)
    bench.sign_gate(session, JOB, "cut")
    bench.cut_shaft(session, JOB, "34.01 in")
    bench.note_reading(session, JOB, "swing_weight", "D1.3", stage="dry, gripped", instrument="swing scale")
    bench.note_reading(session, JOB, "total_weight", "465.4 g", stage="dry, gripped", instrument="gram scale")
    bench.fit_weights(session, JOB, ["port 6"])
    far = bench.note_reading(session, JOB, "total_weight", "499 g", stage="dry, gripped", instrument="gram scale")
    bench.decide_reading(session, JOB, far.sequence, keep=False, reason=text)
    bench.note_reading(session, JOB, "total_weight", "490 g", stage="dry, gripped", instrument="gram scale")
    bench.undo(session, JOB, reason=text)
    bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", text)
    bench.sign_gate(session, JOB, "glue")
    bench.glue(session, JOB, "22 C")
    clock.wait(hours=20)
    bench.note_reading(session, JOB, "loft", "54.25 deg", instrument="angle gauge")
    for quantity in ("length", "lie"):
        bench.accept(session, JOB, quantity, name=text, reason=text)


def said(value: Any, text: str) -> Any:
    """Put a text where the plain one stands in plain data: it is shown as it was typed."""
    if isinstance(value, str):
        return value.replace(PLAIN, text)
    if isinstance(value, dict):
        return {key: said(content, text) for key, content in value.items()}
    if isinstance(value, list | tuple):
        return [said(content, text) for content in value]
    return value


def computed(session: Session) -> dict[str, Any]:
    """Everything that is computed of the job; its trail, which tells what was typed, only by kind and standing."""
    job, now = session.job(JOB), worked(session)
    [line] = waiting(Shop(jobs={JOB: job}).jobs.values(), session.now()) or [None]
    sheet = msgspec.to_builtins(sheet_data(now, job, "2026-03-02"))
    record = as_built_record(job, now).plain()
    shown = msgspec.to_builtins(record_view(job, now, ()))
    again = make_again(job, now, "T-9999")
    points = [msgspec.structs.asdict(point) for point in closing_points(job, now)]
    for point in points:
        point["accepted"], point["lapsed"] = point["accepted"] is not None, point["lapsed"] is not None
    found: dict[str, Any] = {
        "adhesive": sheet.pop("adhesive"),
        "again": {name: content for name, content in again.items() if name != "ticket"},
        "answer": now.answer(),
        "aside": msgspec.to_builtins(misfits_to_decide(now)),
        "card": msgspec.to_builtins(card_of(now, job, key="k")),
        "closing": points,
        "gates": msgspec.to_builtins(now.gates),
        "line": None if line is None else [line.priority, line.promised, line.due, line.late],
        "readings": {str(where): msgspec.to_builtins(state) for where, state in reading_states(now).items()},
        "record": {**record, "trail": None},
        "shown": {**shown, "trail": None},
        "sheet": sheet,
        "signed": [(step, mark.sequence, mark.at) for step, mark in job.gates_signed.items()],
        "standing": msgspec.to_builtins(JobStatuses().of(job, session.now())),
        "steps": msgspec.to_builtins(say_steps(now.steps, None)),
        "strips": msgspec.to_builtins(strips_of(now)),
        "tag": msgspec.to_builtins(tag_data(now, job, "2026-03-02")),
        "trail": [(line.kind, line.undone, line.at, line.by) for line in job.trail],
        "finished": job.finished is not None,
    }
    return {name: said(content, PLAIN) for name, content in found.items()}


def said_with(engine: Engine, text: str) -> dict[str, Any]:
    clock = Clock()
    session = session_on(Ledger(engine), clock)
    play_with(session, clock, text)
    return computed(session)


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    return _on_new_record(tmp_path_factory, PLAIN)


def _on_new_record(factory: pytest.TempPathFactory, text: str) -> dict[str, Any]:
    engine = open_engine(f"sqlite:///{factory.mktemp('free') / 'record.sqlite'}")
    migrate(engine)
    try:
        return said_with(engine, text)
    finally:
        engine.dispose()


@pytest.mark.parametrize("text", HOSTILE)
def test_what_is_typed_freely_moves_nothing(
    plain: dict[str, Any], tmp_path_factory: pytest.TempPathFactory, text: str
) -> None:
    found = _on_new_record(tmp_path_factory, text)
    for name, content in plain.items():
        assert found[name] == said(content, text), name


@settings(max_examples=3, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=st.text(st.characters(exclude_categories=("Cc", "Cs")), min_size=1, max_size=40).filter(str.strip))
def test_nor_does_any_other_text(plain: dict[str, Any], tmp_path_factory: pytest.TempPathFactory, text: str) -> None:
    text = f"~{text}~"  # so that it is found again where it is shown
    found = _on_new_record(tmp_path_factory, text)
    for name, content in plain.items():
        assert found[name] == said(content, text), name


def test_a_promise_is_moved_by_the_promise_alone(session: Session, clock: Clock) -> None:
    start = document()
    start["ticket"] |= {"promised": "tomorrow noon"}
    bench.take_ticket(session, start, "wedge-54.toml")
    [first] = waiting([session.job(JOB)], session.now())
    clock.wait(hours=24)
    bench.change_part(session, JOB, "ticket", {"note": "so, promised tomorrow noon"})
    [same] = waiting([session.job(JOB)], session.now())
    assert same.due == first.due
    bench.change_part(session, JOB, "ticket", {"promised": "tomorrow noon", "priority": "now"})
    [moved] = waiting([session.job(JOB)], session.now())
    assert first.due is not None and moved.due is not None
    assert (moved.due - first.due).total_seconds() == 24 * 3600
    bench.undo(session, JOB)
    [back] = waiting([session.job(JOB)], session.now())
    assert back.due == first.due

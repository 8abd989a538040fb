"""Jobs brought from step to step by the bench's own actions, so that a test can look at the card of each."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from importlib.resources import files
from typing import Any

from benchwork import Clock
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import DRY_GRIPPED, FINISHED
from clubwright.importers.ticket_file import parse_ticket
from clubwright.notation import render
from clubwright.services.actions import bench
from clubwright.services.jobs.closing import closing_points
from clubwright.services.jobs.job_answer import JobAnswer, answer_job
from clubwright.services.record.session import Session
from repository import ROOT

WEDGE, IRON, DRIVER = "T-0054", "T-0107", "X-1001"
"""Ticket numbers of the three clubs that are looked at; the wedge stands on the page's own fixture."""


def take_others(session: Session) -> None:
    """Take the demo's iron, and the driver of the examples as it is before anything was read, with its adhesive's sheet."""
    text = (files("clubwright.demo") / "iron-7.toml").read_text(encoding="utf-8")
    iron = parse_ticket(text, "iron-7.toml")
    iron["tolerance"] |= {"swing_weight": "3 pt", "frequency": "9 cpm"}
    bench.take_ticket(session, iron, "iron-7.toml")
    driver: dict[str, Any] = parse_ticket(
        (ROOT / "examples" / "driver.toml").read_text(encoding="utf-8"), "driver.toml"
    )
    del driver["reading"], driver["head"]["hand"]
    driver["adhesive"] = iron["adhesive"]
    bench.take_ticket(session, driver, "driver.toml")


def stations(session: Session, job: str, clock: Clock) -> Iterator[str]:
    """Do a job step by step; yields the name of each card before it is done, signed ones once more before the deed."""
    done: list[str] = []
    while step := next((item.key for item in _worked(session, job).steps if not item.done), ""):
        assert step not in done, f"{step} was done, and is not"
        done.append(step)
        for name in DEEDS.get(step, _plain)(session, job, clock, step):
            clock.wait(hours=0.05)
            yield name
    yield "close"
    bench.finish(session, job)
    yield "closed"


def _worked(session: Session, job: str) -> JobAnswer:
    return answer_job(session.job(job), session.now())


def _value(session: Session, job: str, key: str, stage: Any) -> str:
    """What a gauge would show of the club, were it as believed."""
    club_state = _worked(session, job).club_state
    return render(QUANTITIES[key].shown_kind, float(club_state.predict([key], stage).mean[0, 0]))


def _plain(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    bench.do_step(session, job, step)


def _pull(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    bench.change_part(session, job, "head", {"hand": "right"})
    bench.do_step(session, job, step)


def _trim(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    trim = _worked(session, job).club_state.ticket.club.shaft.tip_trim
    assert trim is not None
    bench.trim_shaft(session, job, "tip", trim.typed)
    if step not in session.job(job).steps_done:
        bench.do_step(session, job, step)


def _cut(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    bench.sign_gate(session, job, "cut")
    yield f"{step}, signed"
    cut = _worked(session, job).cut
    assert cut is not None
    bench.cut_shaft(session, job, render("length", cut.mark_from_tip_m))
    if step not in session.job(job).steps_done:
        bench.do_step(session, job, step)


def _dry(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    value = _value(session, job, "swing_weight", DRY_GRIPPED)
    bench.note_reading(session, job, "swing_weight", value, stage=DRY_GRIPPED.name)
    yield f"{step}, read"
    bench.do_step(session, job, step)


def _weight(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    best = next(item for item in _worked(session, job).advice if item.kind in ("fit", "leave"))
    if best.weights:
        bench.fit_weights(session, job, list(best.weights))
        yield f"{step}, fitted"
    bench.do_step(session, job, step)


def _mix(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    a, b = ("4.0 g", "2.0 g") if job == WEDGE else ("4.8 g", "2.0 g")
    bench.mix_adhesive(session, job, a, b, "22 C", "lot 7")


def _glue(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    bench.sign_gate(session, job, "glue")
    yield f"{step}, signed"
    bench.glue(session, job, "22 C")


def _cure(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    clock.wait(hours=60)
    yield f"{step}, over"
    bench.do_step(session, job, step)


def _grip(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    bench.slide_grip(session, job)


def _bend(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    bench.do_step(session, job, step, skipped="a planned bend")


def _inspect(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    for key in [goal.key for goal in _worked(session, job).club_state.goals]:
        bench.note_reading(session, job, key, _value(session, job, key, FINISHED), stage=FINISHED.name)
    yield f"{step}, read"
    bench.do_step(session, job, step)


def _tag(session: Session, job: str, clock: Clock, step: str) -> Iterator[str]:
    yield step
    for point in [point for point in closing_points(session.job(job), _worked(session, job)) if point.open]:
        bench.accept(session, job, point.key, name="Robin", reason="as it is", shown=point.mark)
    bench.sign_gate(session, job, "release")
    yield f"{step}, signed"
    bench.do_step(session, job, step)


DEEDS: dict[str, Callable[[Session, str, Clock, str], Iterator[str]]] = {
    "pull": _pull,
    "tip trim": _trim,
    "mark and cut": _cut,
    "dry reading": _dry,
    "choose weight": _weight,
    "mix": _mix,
    "glue": _glue,
    "cure": _cure,
    "grip": _grip,
    "loft and lie": _bend,
    "inspect": _inspect,
    "tag": _tag,
}

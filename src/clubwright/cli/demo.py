"""The demo: an invented workshop, and one wedge worked from its ticket to its tag with a clock that runs by itself."""

from __future__ import annotations

import itertools
import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from importlib.resources import files
from pathlib import Path

import msgspec

from clubwright.bootstrap import RECORD, open_session
from clubwright.cli.demo_set import begin_set
from clubwright.cli.output import print_json, print_lines, table, wrapped
from clubwright.cli.words import built_rows, step_lines, verdict_lines
from clubwright.errors import NotPossible
from clubwright.importers.shop_file import NAME as SETTINGS
from clubwright.importers.ticket_file import parse_ticket
from clubwright.journal.facts import Fact
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.sheet.sheet import build_sheet
from clubwright.labels.tag.from_work import tag_data
from clubwright.labels.tag.tag import tag_label
from clubwright.notation import units_shown
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import JobAnswer, answer_job
from clubwright.services.record.session import Session, in_utc
from clubwright.services.report.as_built import DemoAction, DemoAnswer, as_built_record
from clubwright.words import spoken
from clubwright.words.misfit import misfit_finding
from clubwright.words.step import say_step

TICKET = "wedge-54.toml"
JOB = "T-0054"
BY = "demo"
"""Who writes what the demo writes; whatever stands under another name is somebody's work."""

WAITING = ("iron-7.toml", "putter.toml")
"""Tickets that wait in the workshop that is served."""

START = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
"""The demo's own clock starts here, so that every run prints the same."""


def run_demo(folder: Path, *, as_json: bool = False, anew: bool = False) -> None:
    """Make the invented workshop anew in a folder and work its ticket to the end.

    The folder is emptied only if it holds nothing but an earlier demo; one in which somebody worked only with `anew`.
    """
    make_room(folder, anew=anew)
    with open_session(str(folder), by=BY) as real:
        clock = DemoClock()
        session = demo_session(real, clock)
        shown: list[DemoAction] = []
        for item in actions(session, clock):
            news = [line for line in item.outcome if not shown or line not in shown[-1].outcome]
            shown.append(item)
            if not as_json:
                wide = [part for line in news for part in wrapped(line, "  ", "      ")]
                print_lines([f"$ clubwright {item.command}", *wide, ""])
        written = _print_papers(session, folder)
        record = as_built_record(session.job(JOB), _worked(session))
    if as_json:
        print_json(DemoAnswer(schema=1, actions=tuple(shown), files=tuple(written), record=record))
    else:
        names = ("quantity", "ordered", "tolerance", "read", "verdict")
        rows = table(built_rows(record.rows, names))
        print_lines(["AS BUILT (invented demo data)", *(f"  {row}" for row in rows), f"  {record.recipe}", ""])
        print_lines([*(f"Wrote {name}" for name in written), f"Look around: clubwright show {JOB} --shop {folder}"])


class DemoClock:
    """The demo's clock: moves only when told.

    It starts at a day of its own, so that every run prints the same; what is served to people starts near their own day.
    """

    def __init__(self, start: datetime = START) -> None:
        self.time = start

    def now(self) -> datetime:
        """Return the moment."""
        return self.time

    def wait(self, **span: float) -> None:
        """Move on by hours, minutes or seconds."""
        self.time += timedelta(**span)


def demo_session(real: Session, clock: DemoClock) -> Session:
    """Return the session with the demo's own clock and keys, so that every run writes the same record."""
    return msgspec.structs.replace(real, now=clock.now, new_key=_keys().__next__, by=BY, local=in_utc)


def take_waiting(session: Session) -> None:
    """Take the tickets that nobody has begun, and two irons of the first one's set that were begun before."""
    for name in WAITING:
        bench.take_ticket(session, parse_ticket(_ticket_text(name), name), name)
    begin_set(session, parse_ticket(_ticket_text(WAITING[0]), WAITING[0]), WAITING[0])


def _ticket_text(name: str) -> str:
    return (files("clubwright.demo") / name).read_text(encoding="utf-8")


def _keys() -> Iterator[str]:
    return (f"demo-{number}" for number in itertools.count(1))


def worked_in(folder: Path) -> bool:
    """True for a demo in whose record stands more than the demo itself wrote: somebody's work."""
    if not (folder / TICKET).exists() or not (folder / RECORD).exists():
        return False
    with open_session(str(folder), by=BY) as session:
        return any(fact.by != BY for fact in session.ledger.facts())


def make_room(folder: Path, *, anew: bool = False) -> None:
    """Make the folder anew.

    Raises:
        NotPossible: when it holds something else than an earlier demo, or one in which somebody worked, without `anew`.
    """
    if not anew and worked_in(folder):
        mend = "Add --anew to throw that work away, or name another folder: --folder NAME."
        raise NotPossible(f"somebody has worked in the demo in {folder}", mend)
    if folder.exists():
        if not (folder / TICKET).exists() and any(folder.iterdir()):
            raise NotPossible(f"{folder} holds something else than a demo", "Name an empty folder: --folder NAME.")
        shutil.rmtree(folder)
    folder.mkdir(parents=True)
    for name in (TICKET, SETTINGS):
        (folder / name).write_text(_ticket_text(name), encoding="utf-8")


def actions(session: Session, clock: DemoClock) -> Iterator[DemoAction]:
    """Every action of the wedge in order, each run when its turn comes."""

    def act(command: str, action: Callable[[], Fact], minutes: float = 5) -> DemoAction:
        clock.wait(minutes=minutes)
        action()
        return DemoAction(command=command, outcome=tuple(_where_it_stands(_worked(session))))

    def read(quantity: str, value: str, stage: str, gauge: str) -> DemoAction:
        command = f'read {JOB} {quantity} "{value}" --stage "{stage}" --gauge "{gauge}"'
        return act(command, lambda: bench.note_reading(session, JOB, quantity, value, stage=stage, instrument=gauge))

    def done(step: str) -> DemoAction:
        return act(f'done {JOB} "{step}"', lambda: bench.do_step(session, JOB, step))

    yield act(f"take {TICKET}", lambda: bench.take_ticket(session, parse_ticket(_ticket_text(TICKET), TICKET), TICKET))
    yield act(f"measure {JOB} head hand=right", lambda: bench.change_part(session, JOB, "head", {"hand": "right"}))
    for step in ("pull", "weigh", "head check", "bore to ground", "tip prep", "ferrule", "dry fit"):
        yield done(step)
    yield act(f"sign {JOB} cut", lambda: bench.sign_gate(session, JOB, "cut"))
    yield act(f'cut {JOB} "34.01 in"', lambda: bench.cut_shaft(session, JOB, "34.01 in"))
    yield done("tape")
    yield read("swing_weight", "D1.3", "dry, gripped", "swing scale")
    yield read("total_weight", "465.4 g", "dry, gripped", "gram scale")
    yield done("dry reading")
    best = _worked(session).advice[0].weights
    yield act(f"fit {JOB} " + " ".join(f'"{name}"' for name in best), lambda: bench.fit_weights(session, JOB, best))
    yield read("swing_weight", "D3.8", "dry, gripped", "swing scale")
    yield done("choose weight")
    yield act(
        f'mix {JOB} "4.0 g" "2.0 g" --temperature "22 C"',
        lambda: bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 7"),
    )
    yield act(f"sign {JOB} glue", lambda: bench.sign_gate(session, JOB, "glue"))
    yield act(f'glue {JOB} --temperature "22 C"', lambda: bench.glue(session, JOB, "22 C"))
    clock.wait(hours=15)
    for step in ("cure", "ferrule finish"):
        yield done(step)
    yield act(f"grip {JOB}", lambda: bench.slide_grip(session, JOB))
    yield act(
        f'bend {JOB} --loft "54 deg" --lie "63.5 deg" --bounce "9.75 deg"',
        lambda: bench.bend_head(session, JOB, loft="54 deg", lie="63.5 deg", bounce="9.75 deg"),
    )
    yield read("length", "35 1/4 in", "finished", "rule")
    yield read("loft", "54 deg", "finished", "angle gauge")
    yield read("lie", "63.5 deg", "finished", "angle gauge")
    yield read("swing_weight", "D4.1", "finished", "swing scale")
    yield read("swing_weight", "D4", "finished", "swing scale")
    yield read("total_weight", "477.2 g", "finished", "gram scale")
    misread = session.job(JOB).last_standing_line().sequence
    yield act(
        f'decide {JOB} {misread} leave --reason "misread, a 2 for a 7"',
        lambda: bench.decide_reading(session, JOB, misread, keep=False, reason="misread, a 2 for a 7"),
    )
    yield read("total_weight", "472.2 g", "finished", "gram scale")
    yield read("grip_diameter_2in", "0.916 in", "finished", "caliper")
    yield DemoAction(command=f"show {JOB}", outcome=("INSPECTION", *verdict_lines(_worked(session).answer().verdicts)))
    yield done("inspect")
    yield act(f"sign {JOB} release", lambda: bench.sign_gate(session, JOB, "release"))
    yield act(f"finish {JOB}", lambda: bench.finish(session, JOB))


def _worked(session: Session) -> JobAnswer:
    return answer_job(session.job(JOB), session.now())


def _where_it_stands(worked: JobAnswer) -> list[str]:
    """Three lines: what is believed of the main targets, the best advice, the next step."""
    answer = worked.answer()
    believed = [
        f"{spoken('key', key)} {item.text} ({item.chance:.0%})"
        for key, item in answer.finished.items()
        if item.chance is not None and key in ("length", "swing_weight", "total_weight")
    ]
    lines = ["believed when finished: " + ", ".join(believed)]
    aside = (misfit_finding(item, units_shown()) for item in worked.misfits if not item.left_out)
    lines += [f"! {item.what}. {item.mend}" for item in aside]
    if answer.advice:
        best = answer.advice[0]
        lines.append(f"advice: {best.do} ({best.chance:.0%})")
    upcoming = next((step for step in worked.steps if not step.done), None)
    if upcoming is not None:
        said = say_step(upcoming, units_shown())
        head, *numbers = step_lines(said)[0:1] + [f"{name} {text}" for name, text in said.numbers[:2]]
        lines.append("next: " + head[4:] + (" - " + "; ".join(numbers) if numbers else ""))
    return lines


def _print_papers(session: Session, folder: Path) -> list[str]:
    worked, job, day = _worked(session), session.job(JOB), session.now().date().isoformat()
    seal = session.ledger.facts()[-1].hash
    papers = {
        f"{JOB}-sheet.pdf": build_sheet(sheet_data(worked, job, day, seal)),
        f"{JOB}-tag.pdf": tag_label(tag_data(worked, job, day)),
    }
    for name, content in papers.items():
        (folder / name).write_bytes(content)
    return [str(folder / name) for name in papers]

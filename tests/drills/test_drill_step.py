"""A step and a kind of fact that the program does not have are added as CONTRIBUTING.md says; old jobs keep their plan.

Both are invented for the drill: the sole is looked at before the cut, and a fact says so. One more step is dropped from
the plan in the same edition.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from altered import Altered
from benchwork import JOB, Clock, document, session_on
from clubwright.bootstrap import RECORD
from clubwright.journal.facts import KINDS, TicketTaken
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.state.steps import EDITION, STEPS
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

ENTRY = """    StepSpec(
        key="sole check",
        meaning="look at the sole",
        minutes="7 min",
        jobs=ASSEMBLY,
        since=2,
        completed_by=("sole checked",),
        anew_with=frozenset({"head"}),
        headline="the camber of the sole",
    ),
"""
BEFORE = '    StepSpec(\n        key="mark and cut",\n'
DROPPED = '        key="ferrule finish",\n'

MAKER = '''"""The step that looks at the sole."""

from __future__ import annotations

from clubwright.planning.steps.inputs import Bench
from clubwright.planning.steps.types import Step


def sole_check(bench: Bench) -> Step:
    """Look at the sole before anything is cut."""
    return Step(
        key="sole check",
        title="Look at the sole",
        act_on=(("camber", f"{float(bench.club_state.club.head.sole_camber_m) * 1e3:.0f} mm"),),
        done_when="Somebody has looked at it.",
    )
'''

FACT = '''class SoleChecked(_Payload, frozen=True, kw_only=True, tag="sole checked"):
    """Somebody has looked at the sole."""

    found: str


What = (
'''

LAID = '''@apply.register
def _(what: SoleChecked, builder: JobBuilder, fact: Fact) -> None:
    """It changes nothing of the club."""


def _signed(fact'''

GO = """
import itertools
from benchwork import Clock, document
from clubwright.journal.facts import SoleChecked
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.recording.recording import keep_what
from clubwright.services.jobs.minutes import job_times
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.ticket.shop.settings import NO_SETTINGS
from clubwright.web.views.card_view import card_of

record, old = sys.argv[1:]
clock = Clock()
clock.wait(hours=9)
ledger = Ledger(open_engine(f"sqlite:///{record}"))
numbers = itertools.count()
session = Session(ledger=ledger, site="van", by="Ann", now=clock, new_key=lambda: f"later-{next(numbers)}")

def plan(job):
    return [step.key for step in answer_job(session.job(job), session.now()).steps]

def following(job):
    return next(step.key for step in answer_job(session.job(job), session.now()).steps if not step.done)

def card(job):
    return card_of(answer_job(session.job(job), session.now()), session.job(job), key="k")

told = {"old plan": plan(old), "old next": following(old), "old edition": session.job(old).edition}
again = document()
again["ticket"]["id"] = new = "T-0099"
bench.take_ticket(session, again, "again.toml")
told |= {"new plan": plan(new), "new fact": ledger.facts()[-1].what.edition, "new edition": session.job(new).edition}
bench.change_part(session, new, "head", {"hand": "right"})
for step in told["new plan"]:
    if step == "sole check":
        break
    bench.do_step(session, new, step)
told["new next"] = following(new)
shown = card(new)
told["card"] = [shown.step, shown.title, shown.act_on, shown.form.kind, shown.form.action, shown.form.button]
time = {step.key: step.time_s for step in job_times(answer_job(session.job(new), session.now()), NO_SETTINGS).steps}
told["minutes"] = time["sole check"] / 60
keep_what(session, SoleChecked(job=new, found="flat"), "sole checked: flat", None)
told["after fact"] = following(new)
told["trail"] = session.job(new).trail[-1].text
sheet = sheet_data(answer_job(session.job(new), session.now()), session.job(new), "")
told["steps of the sheet"] = [step.title for step in sheet.steps]
bench.undo(session, new, reason="a drill")
told["after undo"] = following(new)
bench.do_step(session, new, "sole check", skipped="a drill")
told["skipped"] = session.job(new).steps_skipped
bench.change_part(session, new, "head", {}, another=True, said_by="Ann", reason="the hosel was cracked")
told["after another head"] = "sole check" in session.job(new).steps_done
told["verified"] = [finding.sentence() for finding in ledger.verify()]
print(json.dumps(told))
"""


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A job half-built with the program as it is: everything up to the dry fit."""
    path = tmp_path_factory.mktemp("shop") / RECORD
    engine = open_engine(f"sqlite:///{path}")
    migrate(engine)
    session = session_on(Ledger(engine), Clock())
    bench.take_ticket(session, document(), "wedge-54.toml")
    bench.change_part(session, JOB, "head", {"hand": "right"})
    for step in steps_until("mark and cut", session):
        bench.do_step(session, JOB, step)
    engine.dispose()
    return path


def steps_until(last: str, session: Session) -> Iterator[str]:
    keys = [step.key for step in answer_job(session.job(JOB), session.now()).steps]
    yield from keys[: keys.index(last)]


@pytest.fixture(scope="module")
def told(record: Path, tmp_path_factory: pytest.TempPathFactory) -> Any:
    program = Altered(tmp_path_factory.mktemp("program"))
    program.edit("state/steps.py", BEFORE, ENTRY + BEFORE)
    program.edit("state/steps.py", DROPPED, f"{DROPPED}        until=1,\n")
    program.write("planning/steps/sole.py", MAKER)
    program.edit(
        "planning/steps/plan.py",
        "\nMAKERS: dict",
        "\nfrom clubwright.planning.steps.sole import sole_check\n\nMAKERS: dict",
    )
    program.edit(
        "planning/steps/plan.py",
        '    "mark and cut": mark_and_cut,\n',
        '    "sole check": sole_check,\n    "mark and cut": mark_and_cut,\n',
    )
    program.edit("journal/facts.py", "What = (\n", FACT)
    program.edit("journal/facts.py", "    | Gripped\n", "    | Gripped\n    | SoleChecked\n")
    program.edit(
        "journal/reducers/apply.py",
        "    ShaftTrimmed,\n    StepDone,",
        "    ShaftTrimmed,\n    SoleChecked,\n    StepDone,",
    )
    program.edit("journal/reducers/apply.py", "def _signed(fact", LAID)
    assert program.touched == [
        "state/steps.py",
        "planning/steps/sole.py",
        "planning/steps/plan.py",
        "journal/facts.py",
        "journal/reducers/apply.py",
    ]
    return program.run(GO, str(record), JOB)


def test_the_program_as_it_is_has_neither(record: Path) -> None:
    assert "sole check" not in STEPS
    assert "sole checked" not in KINDS
    (ticket, *_) = Ledger(open_engine(f"sqlite:///{record}")).facts()
    assert isinstance(ticket.what, TicketTaken)


def test_a_job_that_was_half_built_keeps_the_steps_it_began_with(told: dict[str, Any], record: Path) -> None:
    assert told["old edition"] == EDITION
    session = session_on(Ledger(open_engine(f"sqlite:///{record}")), Clock())
    assert told["old plan"] == [step.key for step in answer_job(session.job(JOB), session.now()).steps]
    assert "sole check" not in told["old plan"]
    assert "ferrule finish" in told["old plan"]
    assert told["old next"] == "mark and cut"


def test_a_new_job_has_the_steps_of_the_new_edition(told: dict[str, Any]) -> None:
    assert told["new fact"] == told["new edition"] == EDITION + 1
    old = [step for step in told["old plan"] if step != "ferrule finish"]
    old.insert(old.index("mark and cut"), "sole check")
    assert told["new plan"] == old
    assert told["new next"] == "sole check"


def test_the_step_has_its_card_its_minutes_and_its_line_on_the_sheet(told: dict[str, Any]) -> None:
    assert told["card"] == ["sole check", "Look at the sole", [["camber", "250 mm"]], "step", "step", "Done"]
    assert told["minutes"] == pytest.approx(7.0)
    assert "Look at the sole" in told["steps of the sheet"]


def test_the_fact_is_kept_and_completes_the_step_until_it_is_undone(told: dict[str, Any]) -> None:
    assert told["trail"] == "sole checked: flat"
    assert told["after fact"] == "mark and cut"
    assert told["after undo"] == "sole check"
    assert told["verified"] == []


def test_the_step_may_be_passed_over_and_is_to_do_again_with_another_head(told: dict[str, Any]) -> None:
    assert told["skipped"] == {"sole check": "a drill"}
    assert told["after another head"] is False

"""What the register says of a step is what its card shows: the gate it waits for, and a figure to act on."""

from __future__ import annotations

import pytest

from clubwright.importers.ticket_file import load_ticket
from clubwright.journal.facts import Glued, ShaftCut, TicketTaken
from clubwright.journal.reducers.completion import COMPLETED_BY
from clubwright.planning.steps.types import Step
from clubwright.services.answer.club_answer import work_document
from clubwright.services.checks.payloads import payload_findings
from clubwright.services.jobs.job_answer import with_plan
from clubwright.state.step import FIRST_EDITION, StepSpec
from clubwright.state.steps import EDITION, STEPS, USED_UP_BY
from repository import ROOT

EXAMPLES = ("iron", "regrip", "reshaft", "wedge-54")


@pytest.fixture(scope="module")
def shown() -> list[Step]:
    files = [ROOT / "examples" / f"{name}.toml" for name in EXAMPLES]
    return [step for file in files for step in with_plan(work_document(load_ticket(file), file.name)).steps]


def test_a_step_waits_for_no_other_gate_than_the_register_says(shown: list[Step]) -> None:
    assert all(step.gate in (None, STEPS[step.key].gate) for step in shown)
    assert {step.gate for step in shown} == {None, "cut", "glue", "release"}


def test_a_card_has_a_figure_to_act_on_where_the_register_says_what_it_is_and_nowhere_else(shown: list[Step]) -> None:
    told = {key for key, step in STEPS.items() if step.headline}
    assert {step.key for step in shown if step.act_on} <= told
    assert told - {step.key for step in shown if step.act_on} <= {"tip trim", "cure"}, "no example has one"


def test_a_step_is_done_by_its_fact_and_a_signature_has_served_with_the_step_that_uses_it_up() -> None:
    assert COMPLETED_BY["mark and cut"] == (ShaftCut,)
    assert COMPLETED_BY["glue"] == (Glued,)
    assert USED_UP_BY == {"cut": "mark and cut", "glue": "glue"}


@pytest.mark.parametrize(
    ("since", "until", "editions"), [(1, None, [1, 2, 3]), (2, None, [2, 3]), (1, 2, [1, 2]), (2, 2, [2])]
)
def test_a_step_is_in_the_editions_from_its_first_to_its_last(
    since: int, until: int | None, editions: list[int]
) -> None:
    step = StepSpec(key="x", meaning="", minutes="1 min", jobs=frozenset(), since=since, until=until)
    assert [edition for edition in (1, 2, 3) if step.in_edition(edition)] == editions


@pytest.mark.parametrize("edition", [-1, 0, FIRST_EDITION, EDITION + 1])
def test_an_edition_that_no_version_wrote_is_refused_with_a_way_out(edition: int) -> None:
    ticket = TicketTaken(job="T-1", document={"ticket": {"id": "T-1"}}, source="", edition=edition)
    (found,) = payload_findings(ticket)
    assert found.where == "edition"
    assert str(edition) in found.what
    assert found.mend
    assert payload_findings(TicketTaken(job="T-1", document={"ticket": {"id": "T-1"}}, source="")) == []

"""Run one bench action and show where the job stands after it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from clubwright.cli.options import person

if TYPE_CHECKING:
    from collections.abc import Callable

    from clubwright.journal.facts import Fact
    from clubwright.services.desk import Desk


def act(shop: str, by: str | None, job: str, action: Callable[[Desk], Fact], *, as_json: bool) -> None:
    """Run one action and show where the job stands after it."""
    from clubwright.bootstrap import open_desk

    with open_desk(shop, by=person(by)) as desk:
        fact = action(desk)
        show_job(desk, job, as_json=as_json, fact=fact)


def show_job(desk: Desk, job: str, *, as_json: bool, fact: Fact | None = None) -> None:
    """Print where a job stands: belief, advice, gates and the next step, after a fact where one was kept."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.words import answer_lines, step_lines
    from clubwright.services.job_work import work_job

    worked = work_job(desk.job(job), desk.now())
    answer = worked.answer()
    upcoming = next((step for step in worked.steps if not step.done), None)
    if as_json:
        body: dict[str, Any] = {**answer, "job": job, "next_step": None if upcoming is None else upcoming.key}
        body["fact"] = None if fact is None else fact.sequence
        print_json(body)
        return
    if fact is not None:
        print_lines([f"Kept as {fact.sequence}: {fact.typed}.", ""])
    print_lines(answer_lines(answer))
    if upcoming is not None:
        print_lines(["", "NEXT STEP", *step_lines(upcoming)])


def job_row(job: Any) -> tuple[str, ...]:
    """Number, label, player and state of a job."""
    said = job.document["ticket"]
    state = "finished" if job.finished else f"{len(job.steps_done)} steps done"
    return job.id, said.get("label", ""), said.get("player", ""), state

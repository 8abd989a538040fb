"""Run one bench action and show where the job stands after it."""

from __future__ import annotations

import os
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from clubwright.cli.options import BY_VARIABLE, SHOP, SHOP_VARIABLE, own_here

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from msgspec import Struct

    from clubwright.journal.reducers.fold import Job
    from clubwright.services.actions.door import Kept
    from clubwright.services.record.job_lines import JobLine
    from clubwright.services.record.session import Session
    from clubwright.services.told.answer import Answer


@contextmanager
def session_at(shop: str, by: str | None, *, make: bool = False, shop_file: Path | None = None) -> Iterator[Session]:
    """Open a session on a workshop's record; a record is made only where a ticket is taken, never by a slip in a name.

    Raises:
        RecordError: when there is no record and none is to be made.
    """
    import msgspec

    from clubwright.bootstrap import bench_here, has_record, open_session, person_here
    from clubwright.errors import RecordError

    if not make and not has_record(shop):
        raise RecordError(f'there is no record in "{shop}": name its folder with --shop, or begin one: clubwright take')
    with open_session(shop, by=person_here(by), site=bench_here(), shop_file=shop_file) as session:
        yield msgspec.structs.replace(session, own=own_here().over(session.own))


def act(
    shop: str,
    by: str | None,
    action: str,
    payload: Struct,
    key: str | None,
    *,
    as_json: bool,
    make: bool = False,
    shop_file: Path | None = None,
) -> None:
    """Do one action of the register and show where the job stands after it, and the next command to type."""
    from clubwright.cli.output import print_aside
    from clubwright.services.actions import door
    from clubwright.services.actions.register.facets import action_of
    from clubwright.services.actions.typed_in import typed_payload
    from clubwright.services.record.looking_up import name_of

    with session_at(shop, by, make=make, shop_file=shop_file) as session:
        for text in door.cautions_of(session, action_of(action), getattr(payload, "job", "")):
            print_aside(f"! {text}")
        kept = door.act(session, action, typed_payload(payload, session.typist()), key)
        show_job(session, name_of(kept.fact), as_json=as_json, kept=kept, said=said_again(shop, by))


def said_again(shop: str, by: str | None) -> tuple[str, ...]:
    """Return the options that the next command needs too: those that were typed, and are neither usual nor set for all."""
    named = (("--shop", shop, (SHOP, os.environ.get(SHOP_VARIABLE))), ("--by", by, (None, os.environ.get(BY_VARIABLE))))
    return tuple(word for option, text, usual in named if text not in usual for word in (option, str(text)))


def show_job(
    session: Session,
    job: str,
    *,
    as_json: bool,
    kept: Kept | None = None,
    belief: bool = False,
    said: Sequence[str] = (),
) -> None:
    """Print where a job stands: belief, advice, gates and the next step, after an action where one was kept.

    Args:
        session: Whose.
        job: Ticket number.
        as_json: For a program.
        kept: What the action left behind.
        belief: Also every part's.
        said: Options that the next command needs too.
    """
    from clubwright.notation import shown_in

    with shown_in(None if as_json else session.units()):
        _show_job(session, job, as_json=as_json, kept=kept, belief=belief, said=said)


def _show_job(
    session: Session, job: str, *, as_json: bool, kept: Kept | None, belief: bool, said: Sequence[str]
) -> None:
    from msgspec import structs

    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.typing_next import command_lines, command_words
    from clubwright.cli.words import answer_lines, belief_lines, closing_lines, kept_lines, step_lines
    from clubwright.notation import units_shown
    from clubwright.services.actions.following import next_action
    from clubwright.services.answer.answer import findings_part
    from clubwright.services.answer.belief_table import belief_part
    from clubwright.services.answer.shop_settings import with_changes
    from clubwright.services.jobs.closing import at_the_end, closing_part, closing_points
    from clubwright.services.jobs.job_answer import answer_job
    from clubwright.services.jobs.minutes import job_times, step_time_text, times_text
    from clubwright.services.told.job import StandingAnswer
    from clubwright.words.step import say_step

    fact = None if kept is None else kept.fact
    if fact is not None and _ticket_gone(session, job):
        left = {"fact": fact.sequence, "job": None}
        if as_json:
            print_json(left)
        else:
            number = fact.what.job
            print_lines([f"Kept as {fact.sequence}: {fact.typed}. The record has no ticket {number} any more."])
        return
    state = session.job(job)
    worked = answer_job(state, session.now(), session.local)
    answer = with_changes(worked.answer(), state, session.settings())
    upcoming = next((step for step in worked.steps if not step.done), None)
    following = next_action(worked, state)
    command = None if following is None else command_words(following, state.id, said)
    if as_json:
        body = StandingAnswer(
            **structs.asdict(answer),
            belief=belief_part(worked.club_state),
            closing=closing_part(closing_points(state, worked)),
            fact=None if fact is None else fact.sequence,
            job=state.id,
            step_done=None if kept is None else kept.step,
            step_lacks=findings_part(() if kept is None else kept.lacks),
            next_command=None if command is None else " ".join(command),
            next_step=None if upcoming is None else upcoming.key,
        )
        print_json(body)
        return
    if kept is not None:
        print_lines([*kept_lines(kept), ""])
    print_lines(["  ".join(text for text in job_row(state) if text), "", *answer_lines(_of_use(state, answer))])
    points = closing_points(state, worked)
    told = closing_lines(points) if at_the_end(state, worked) or state.accepted else []
    if told:
        print_lines(["", "OUT OF SPEC, OPEN OR ACCEPTED", *told])
    if belief:
        print_lines(["", "BELIEF, part by part", *belief_lines(belief_part(worked.club_state))])
    if upcoming is not None:
        times = job_times(worked, session.settings(), state, session.now())
        time = next(step_time_text(item) for item in times.steps if item.key == upcoming.key)
        print_lines(
            [
                "",
                "NEXT STEP",
                *step_lines(say_step(upcoming, units_shown()), time=time),
                f"LEFT  {times_text(times.left)}",
            ]
        )
    if command is not None:
        print_lines(["", "NEXT COMMAND", *command_lines(command)])


def _of_use(state: Job, answer: Answer) -> Answer:
    """Leave out of the screen what is behind: the cut once it is made, advice and gates once the job is finished."""
    import msgspec

    from clubwright.services.checks.job_ticket import ticket_of

    cut = ticket_of(state).club.shaft.cut_length
    gone: dict[str, Any] = {} if cut is None else {"cut": None}
    if state.finished:
        gone |= {"unreached": None, "advice": (), "gates": ()}
    return msgspec.structs.replace(answer, **gone)


def _ticket_gone(session: Session, job: str) -> bool:
    """Whether an undo took the ticket itself out of the record."""
    from clubwright.services.record.looking_up import look_up

    subject = look_up(session.ledger, job).subject
    return subject is not None and subject.gone


def job_row(job: Job | JobLine) -> tuple[str, ...]:
    """Number, label, player and state of a job."""
    from clubwright.services.record.job_lines import JobLine

    steps = job.steps if isinstance(job, JobLine) else len(job.steps_done)
    state = "finished" if job.finished else f"{steps} steps done"
    return job.id, job.order.label, job.order.player, state

"""The bench: one club in work. Every action is a plain form; htmx only spares the page its reload."""

from __future__ import annotations

from typing import Annotated
from urllib.parse import urlencode

import msgspec
from fastapi import APIRouter, Query, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import RedirectResponse, Response

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.errors import ClubwrightError, Finding, InputError
from clubwright.journal.seen import read_seen, seen_text
from clubwright.notation import canonical, shown_in, units_shown
from clubwright.planning.steps.plan import expected_at
from clubwright.services.actions.making.figure_read_back import read_figure_back
from clubwright.services.actions.making.gauge_units import figure_in_gauge_unit
from clubwright.services.actions.making.mix_list import mixes_at_hand
from clubwright.services.actions.typed_in import typed_reading
from clubwright.services.answer.belief_trail import belief_trail
from clubwright.services.answer.misfit_to_decide import misfits_to_decide
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.minutes import job_times
from clubwright.services.record.session import Session, utc_text
from clubwright.services.report.reading_back import Echo, read_back
from clubwright.web.actions import ACTIONS, Sent, WrongPartError, go_on, one
from clubwright.web.conflict import Conflict, conflict_of
from clubwright.web.echo import echo_of, in_unit
from clubwright.web.errors import findings_of, status_of
from clubwright.web.rendering import is_fragment, page
from clubwright.web.second_tap import require_look, require_rest, stamp
from clubwright.web.sent import sent_of
from clubwright.web.sessions import AtSession
from clubwright.web.views.bench_view import BenchView, bench_view
from clubwright.web.views.forms_reading import expectation
from clubwright.words.say import say

router = APIRouter(include_in_schema=False)
NOTHING_SENT: Sent = {}
STAYS = ("read", "fit", "figures")
"""Actions that do not end their step: another reading may follow."""


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """What the page says about the action that was just tried.

    Attributes:
        sent: What was typed, so that it is still there.
        findings: Why it was refused.
        echo: What a reading was understood as.
        conflict: What another tablet kept meanwhile.
        stop: Why nothing may go on: a wrong part in the hand.
        said: What was recognised, of which nothing is kept.
    """

    sent: Sent = NOTHING_SENT
    findings: tuple[Finding, ...] = ()
    echo: Echo | None = None
    conflict: Conflict | None = None
    stop: str = ""
    said: str = ""


@router.get("/bench/{job}")
def show(
    request: Request,
    session: AtSession,
    job: str,
    consider: Annotated[str | None, Query(max_length=200)] = None,
    step: Annotated[str | None, Query(max_length=40)] = None,
    stay: Annotated[str | None, Query(max_length=3)] = None,
) -> Response:
    """Show one club; `consider` names an offer of the advice, `step` a step other than the next.

    With `stay` the step is shown only while it is not done and nothing has to be decided.
    """
    if stay is not None and step is not None:
        state = session.job(job)
        if step in state.steps_done or misfits_to_decide(answer_job(state, session.now())):
            step = None
    return _shown(request, view_of(session, job, consider=consider, step=step), Told())


@router.post("/bench/{job}")
async def act(request: Request, session: AtSession, job: str) -> Response:
    """Do one action: check, keep it, and show where the club stands."""
    sent = await sent_of(request)
    # A second button of a form names its own action after the form's: the last one was tapped.
    sent = {**sent, "action": sent.get("action", [""])[-1:]}
    return await run_in_threadpool(_act, request, session, job, sent)


def _act(request: Request, session: Session, job: str, sent: Sent) -> Response:
    """Try an action; a form that is shown again before anything was kept keeps its key, so that a retry is no second try."""
    step = one(sent, "step") or None
    try:
        require_rest(sent, request.app.state.stopwatch())
        require_look(sent)
    except InputError as refused:
        told = Told(sent=sent, findings=refused.findings)
        return _shown(request, _same_form(session, job, sent, step), told, status_of(refused))
    echo = echo_of(session, job, sent)
    if echo is not None:
        status = 422 if echo.findings else 200
        return _shown(request, _same_form(session, job, sent, step), Told(sent=sent, echo=echo), status)
    if one(sent, "choose") == "theirs":
        return _done(job)
    at, clash = conflict_of(session, job, sent)
    if clash is not None:
        return _shown(request, _same_form(session, job, sent, step), Told(sent=sent, conflict=clash), 409)
    try:
        said = ACTIONS[_action(sent)](at, job, sent)
        if one(sent, "then") == "step":
            go_on(at, job, sent)
    except WrongPartError as wrong:
        return _shown(request, view_of(session, job, step=step), Told(stop=str(wrong)), 409)
    except ClubwrightError as refused:
        told = Told(sent=sent, findings=findings_of(refused))
        return _shown(request, view_of(session, job, step=step), told, status_of(refused))
    if said is not None:
        return _shown(request, view_of(session, job, step=step), Told(sent=sent, said=said))
    return _done(job, step if one(sent, "action") in STAYS and one(sent, "then") != "step" else None)


def _same_form(session: Session, job: str, sent: Sent, step: str | None) -> BenchView:
    """Keep what makes a form the same one: its key, and the last facts that its page had shown."""
    view = view_of(session, job, step=step)
    card = msgspec.structs.replace(view.card, key=one(sent, "key") or view.card.key)
    seen = read_seen(one(sent, "seen"), session.site)
    return msgspec.structs.replace(view, card=card, seen=view.seen if seen is None else seen_text(seen))


def _done(job: str, step: str | None = None) -> Response:
    """Lead to what comes next; with `stay` the page shows the same step again while there is something to do in it."""
    query = "" if step is None else "?" + urlencode({"step": step, "stay": "yes"})
    return RedirectResponse(f"/bench/{job}{query}", status_code=303)


def _action(sent: Sent) -> str:
    name = one(sent, "action")
    if name not in ACTIONS:
        raise InputError(
            [Finding(where="action", what=f'no action is called "{name}"', mend="Use the page's buttons.")]
        )
    return name


def _shown(request: Request, view: BenchView, told: Told, status: int = 200) -> Response:
    template = "bench/_bench.html" if is_fragment(request) else "bench/page.html"
    drawn = stamp(request.app.state.stopwatch())
    return page(request, template, status=status, view=view, told=told, drawn=drawn)


def view_of(session: Session, job: str, *, consider: str | None = None, step: str | None = None) -> BenchView:
    """Work the job and lay its page out, as this person reads."""
    with shown_in(session.units()):
        return _view_of(session, job, consider=consider, step=step)


def _view_of(session: Session, job: str, *, consider: str | None, step: str | None) -> BenchView:
    facts = session.ledger.count()  # before the job: a fact that comes in between makes the page load itself once more
    state = session.job(job)
    now = session.now()
    worked = answer_job(state, now, session.local)
    shown = step or next((item.key for item in worked.steps if not item.done), "")
    return bench_view(
        worked,
        state,
        facts=facts,
        key=session.new_key(),
        now=utc_text(now),
        times=job_times(worked, session.settings(), state, now),
        consider=consider,
        step=step,
        local=session.local,
        at_hand=mixes_at_hand(session, state) if shown == "mix" else (),
    )


@router.get("/bench/{job}/echo")
def understood(
    request: Request,
    session: AtSession,
    job: str,
    quantity: Annotated[str, Query(max_length=40)],
    stage: Annotated[str, Query(max_length=40)],
    value: Annotated[str, Query(max_length=80)],
    gauge: Annotated[str, Query(max_length=200)] = "",
) -> Response:
    """Say what a typed reading is understood as, and what was expected."""
    typed = in_unit(session, job, quantity, typed_reading(quantity, value, session.typist()), gauge)
    echo = read_back(answer_job(session.job(job), session.now()), quantity, typed, stage)
    return page(request, "bench/_echo.html", echo=echo, job=job)


@router.get("/bench/{job}/figure")
def figure(
    request: Request,
    session: AtSession,
    job: str,
    name: Annotated[str, Query(max_length=80)],
    kind: Annotated[str, Query(max_length=40)],
    value: Annotated[str, Query(max_length=80)],
    gauge: Annotated[str, Query(max_length=200)] = "",
) -> Response:
    """Say what a figure that is typed on a card is understood as, and what of the work it goes against."""
    worked = answer_job(session.job(job), session.now())
    typed = canonical(value, session.typist(), kind)
    typed = figure_in_gauge_unit(worked.club_state.ticket, name, kind, typed, gauge or None)
    echo = read_figure_back(worked, name, kind, typed)
    against = "" if echo.against is None else say(echo.against, units_shown())
    return page(request, "bench/_figure.html", echo=echo, against=against[:1].upper() + against[1:])


@router.get("/bench/{job}/expected")
def expected(session: AtSession, job: str, stage: Annotated[str, Query(max_length=40)]) -> dict[str, str]:
    """Say what the gauges should show at a stage, by quantity: what the card's choices say when another stage is chosen."""
    if stage not in STAGES:
        return {}
    club_state = answer_job(session.job(job), session.now()).club_state
    with shown_in(session.settings().units()):
        found = expected_at(club_state, tuple(QUANTITIES), STAGES[stage])
        return {item.quantity: expectation(item) for item in found}


@router.get("/bench/{job}/belief")
def history(request: Request, session: AtSession, job: str) -> Response:
    """Show what each reading taught about the finished swing weight: a table, which the page also draws."""
    points = belief_trail(answer_job(session.job(job), session.now()), "swing_weight")
    template = "bench/_belief.html" if is_fragment(request) else "bench/belief.html"
    return page(request, template, points=points, job=job)

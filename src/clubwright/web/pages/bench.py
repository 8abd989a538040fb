"""The bench: one club in work. Every action is a plain form; htmx only spares the page its reload."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import RedirectResponse, Response

from clubwright.errors import ClubwrightError, Finding, GateClosed, InputError
from clubwright.services.desk import Desk, utc_text
from clubwright.services.job_work import work_job
from clubwright.web.actions import ACTIONS, Sent
from clubwright.web.conflict import Conflict, conflict_of
from clubwright.web.desks import AtDesk
from clubwright.web.echo import Echo, echo_of
from clubwright.web.echo import echo as echo_of_value
from clubwright.web.rendering import is_fragment, page
from clubwright.web.views.bench_view import BenchView, bench_view

router = APIRouter(include_in_schema=False)


@router.get("/bench/{job}")
def show(
    request: Request,
    desk: AtDesk,
    job: str,
    consider: Annotated[int | None, Query(ge=0, le=99)] = None,
    step: Annotated[str | None, Query(max_length=40)] = None,
) -> Response:
    """Show one club; `consider` is a line of the advice, `step` a step other than the next."""
    view = view_of(desk, job, consider=consider, step=step)
    template = "bench/_bench.html" if is_fragment(request) else "bench/page.html"
    return page(request, template, view=view, sent={}, findings=(), echo=None, conflict=None)


@router.post("/bench/{job}")
async def act(request: Request, desk: AtDesk, job: str) -> Response:
    """Do one action: check, keep it, and show where the club stands."""
    form = await request.form()
    sent: Sent = {name: [str(value) for value in form.getlist(name)] for name in form}
    # A second button of a form names its own action after the form's: the last one was tapped.
    sent = {**sent, "action": sent.get("action", [""])[-1:]}
    return await run_in_threadpool(_act, request, desk, job, sent)


def _act(request: Request, desk: Desk, job: str, sent: Sent) -> Response:
    step = sent.get("step", [""])[0] or None
    clash = conflict_of(desk, job, sent)
    if clash is not None:
        return _again(request, desk, job, sent, step=step, conflict=clash, status=409)
    echo = echo_of(desk, job, sent)
    if echo is not None and not echo.confirmed:
        return _again(request, desk, job, sent, step=step, echo=echo, status=422 if echo.findings else 200)
    try:
        ACTIONS[_action(sent)](desk, job, sent)
    except InputError as refused:
        return _again(request, desk, job, sent, step=step, findings=refused.findings, status=422)
    except GateClosed as closed:
        findings = tuple(Finding(where=closed.step, what=reason, mend="") for reason in closed.reasons)
        return _again(request, desk, job, sent, step=step, findings=findings, status=409)
    except ClubwrightError as refused:
        findings = (Finding(where="record", what=str(refused), mend=""),)
        return _again(request, desk, job, sent, step=step, findings=findings, status=409)
    if is_fragment(request):
        view = view_of(desk, job)
        return page(request, "bench/_bench.html", view=view, sent={}, findings=(), echo=None, conflict=None)
    return RedirectResponse(f"/bench/{job}", status_code=303)


def _action(sent: Sent) -> str:
    name = sent.get("action", [""])[0]
    if name not in ACTIONS:
        raise InputError(
            [Finding(where="action", what=f'no action is called "{name}"', mend="Use the page's buttons.")]
        )
    return name


def _again(
    request: Request,
    desk: Desk,
    job: str,
    sent: Sent,
    *,
    step: str | None,
    findings: tuple[Finding, ...] = (),
    echo: Echo | None = None,
    conflict: Conflict | None = None,
    status: int,
) -> Response:
    """Show the page again with what was typed, and what is wrong with it."""
    view = view_of(desk, job, step=step)
    template = "bench/_bench.html" if is_fragment(request) else "bench/page.html"
    return page(request, template, status=status, view=view, sent=sent, findings=findings, echo=echo, conflict=conflict)


def view_of(desk: Desk, job: str, *, consider: int | None = None, step: str | None = None) -> BenchView:
    """Work the job and lay its page out."""
    state = desk.job(job)
    now = desk.now()
    worked = work_job(state, now)
    return bench_view(
        worked,
        state,
        facts=desk.ledger.count(),
        key=desk.new_key(),
        now=utc_text(now),
        consider=consider,
        step=step,
    )


@router.get("/bench/{job}/echo")
def read_back(
    request: Request,
    desk: AtDesk,
    job: str,
    quantity: Annotated[str, Query(max_length=40)],
    stage: Annotated[str, Query(max_length=40)],
    value: Annotated[str, Query(max_length=80)],
) -> Response:
    """Say what a typed reading is understood as, and what was expected."""
    return page(request, "bench/_echo.html", echo=echo_of_value(desk, job, quantity, value, stage))

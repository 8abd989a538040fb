"""How this person reads and types: kept with their name where people sign in, else on this tablet."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import RedirectResponse, Response

from clubwright.notation.own import CHOICES, own_of
from clubwright.web.guard.access import Access
from clubwright.web.rendering import page
from clubwright.web.session import OWN_COOKIE, cookie_of_own, inside, visitor_of
from clubwright.web.sessions import AtSession

router = APIRouter(include_in_schema=False)
YEAR_S = 365 * 86400


@router.get("/own")
def ask(request: Request, session: AtSession, back: str = "/") -> Response:
    """Show what this person said for themselves, and what the shop says."""
    shop = session.settings()
    usual = {key: getattr(shop.units(), key, getattr(shop.typist(), key, "")) for key in CHOICES}
    rows = [(key, words, visitor_of(request).own.said().get(key, ""), usual[key]) for key, words in CHOICES.items()]
    return page(request, "own.html", rows=rows, back=inside(back[:500]))


@router.post("/own")
async def keep(request: Request) -> Response:
    """Keep it: with the person where they signed in, else on this tablet."""
    form = await request.form()
    own = own_of({key: str(form.get(key, "")) for key in CHOICES})
    visitor, access = visitor_of(request), request.app.state.access
    assert isinstance(access, Access)
    answer = RedirectResponse(inside(str(form.get("back", "/"))), status_code=303)
    if visitor.signed_in and access.people is not None:
        await run_in_threadpool(access.people.keep_own, visitor.name, own)
    else:
        answer.set_cookie(OWN_COOKIE, cookie_of_own(own), max_age=YEAR_S, samesite="strict", httponly=True)
    return answer

"""A code scanned at the pull: held against the names on the ticket, and said where there is none to hold it against."""

from __future__ import annotations

import pytest

from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.web.scanned import scan
from clubwright.web.sent import WrongPartError


def take(session: Session, **tables: dict[str, str]) -> str:
    ticket = {"id": "T-0090", "kind": "driver", "hand": "right"}
    bench.take_ticket(session, {"ticket": ticket, "target": {"length": "45 in"}, **tables}, "test")
    return "T-0090"


def test_without_names_on_the_ticket_the_scan_says_what_it_read(web_session: Session) -> None:
    job = take(web_session)
    said = scan(web_session, job, {"code": ["Siskin 9"]})
    assert said == "Siskin 9: read; this ticket names no head, shaft or grip that it could be held against"


def test_with_some_names_it_may_be_one_that_is_not_named(web_session: Session) -> None:
    job = take(web_session, head={"name": "Siskin 9"})
    assert scan(web_session, job, {"code": ["siskin 9"]}) == "siskin 9: the head of this ticket"
    with pytest.raises(WrongPartError) as refused:
        scan(web_session, job, {"code": ["Rowan 60"]})
    (finding,) = refused.value.findings
    assert finding.what == '"Rowan 60" is not on this ticket'
    assert finding.mend.endswith("It names no shaft and no grip: if it is that, write its name on the ticket.")
    assert "Siskin 9" in finding.mend

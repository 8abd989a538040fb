"""A ratio by volume: nothing is stirred before both densities are known, by any door, and the card takes them itself."""

from __future__ import annotations

import html
from typing import Any

import pytest

from benchwork import JOB, Clock, document
from clubwright.errors import InputError
from clubwright.services.actions import bench
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.jobs.mixed_batch import mix_lacks
from clubwright.services.record.session import Session
from clubwright.web.views.forms_joint import mix as mix_form
from clubwright.words.say import say

pytestmark = [pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


def take(session: Session, **adhesive: str) -> None:
    found: dict[str, Any] = document()
    found["adhesive"] = {**found["adhesive"], **adhesive}
    for key, text in adhesive.items():
        if not text:
            del found["adhesive"][key]
    bench.take_ticket(session, found, "t.toml")


def mix(session: Session) -> None:
    bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 7")


def test_no_cup_is_kept_before_both_densities_are_known(session: Session) -> None:
    take(session, basis="volume")
    with pytest.raises(InputError) as refused:
        mix(session)
    assert [str(finding.where) for finding in refused.value.findings] == [
        "[adhesive] density_a",
        "[adhesive] density_b",
    ]
    assert all("data sheet" in finding.mend for finding in refused.value.findings)
    assert session.ledger.count() == 1
    bench.change_part(session, JOB, "adhesive", {"density_a": "1.16 g/cm3"})
    with pytest.raises(InputError, match="density_b"):
        mix(session)
    bench.change_part(session, JOB, "adhesive", {"density_b": "0.97 g/cm3"})
    mix(session)
    assert len(session.job(JOB).mixes) == 1


def test_no_cup_is_kept_before_the_basis_is_known(session: Session) -> None:
    take(session, basis="")
    with pytest.raises(InputError, match="basis"):
        mix(session)
    assert [field.name for field in form(session).fields] == ["adhesive.basis"]


def form(session: Session) -> Any:
    job = session.job(JOB)
    return mix_form(answer_job(job, session.now()), job)


def test_the_card_asks_for_what_is_missing_first(session: Session) -> None:
    take(session, basis="volume", density_a="1.16 g/cm3")
    assert (form(session).action, [field.name for field in form(session).fields]) == ("figures", ["adhesive.density_b"])
    bench.change_part(session, JOB, "adhesive", {"density_b": "0.97 g/cm3"})
    assert (form(session).action, form(session).fields[0].name) == ("mix", "part_a")


def test_by_weight_nothing_is_missing(session: Session) -> None:
    take(session)
    assert mix_lacks(ticket_of(session.job(JOB)).row("adhesive")) == ()


def test_a_cup_from_before_says_what_is_not_known_and_how_to_mend_it(session: Session, clock: Clock) -> None:
    """A record may hold a mix that this program would refuse now, and the ticket may have been changed since."""
    take(session)
    mix(session)
    bench.change_order(session, JOB, {"adhesive.basis": "volume"}, said_by="Ann", reason="as its sheet has it")
    gate = next(gate for gate in answer_job(session.job(JOB), session.now()).gates if gate.step == "glue")
    reasons = [say(check.reason, None) for check in gate.checks if check.key == "mix"]
    assert reasons == [
        f"the density of part {part} is not known, and the ratio is by volume: read it on the data sheet and write "
        f"[adhesive] density_{part.lower()}, or write the sheet's ratio by weight"
        for part in "AB"
    ]
    assert ".;" not in html.unescape(say(gate.why, None))

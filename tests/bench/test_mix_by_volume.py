"""A ratio by volume: nothing is stirred before both densities are known, by any door, and the card takes them itself."""

from __future__ import annotations

import html
from typing import Any

import pytest

from benchwork import JOB, Clock, document
from clubwright.errors import InputError
from clubwright.services import bench
from clubwright.services.cup import mix_lacks
from clubwright.services.desk import Desk
from clubwright.services.job_ticket import ticket_of
from clubwright.services.job_work import work_job
from clubwright.web.views.forms_joint import mix as mix_form

pytestmark = [pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)]


def take(desk: Desk, **adhesive: str) -> None:
    found: dict[str, Any] = document()
    found["adhesive"] = {**found["adhesive"], **adhesive}
    for key, text in adhesive.items():
        if not text:
            del found["adhesive"][key]
    bench.take_ticket(desk, found, "t.toml")


def mix(desk: Desk) -> None:
    bench.mix_adhesive(desk, JOB, "4.0 g", "2.0 g", "22 C", "lot 7")


def test_no_cup_is_kept_before_both_densities_are_known(desk: Desk) -> None:
    take(desk, basis="volume")
    with pytest.raises(InputError) as refused:
        mix(desk)
    assert [finding.where for finding in refused.value.findings] == ["[adhesive] density_a", "[adhesive] density_b"]
    assert all("data sheet" in finding.mend for finding in refused.value.findings)
    assert desk.ledger.count() == 1
    bench.change_part(desk, JOB, "adhesive", {"density_a": "1.16 g/cm3"})
    with pytest.raises(InputError, match="density_b"):
        mix(desk)
    bench.change_part(desk, JOB, "adhesive", {"density_b": "0.97 g/cm3"})
    mix(desk)
    assert len(desk.job(JOB).mixes) == 1


def test_no_cup_is_kept_before_the_basis_is_known(desk: Desk) -> None:
    take(desk, basis="")
    with pytest.raises(InputError, match="basis"):
        mix(desk)
    assert [field.name for field in form(desk).fields] == ["adhesive.basis"]


def form(desk: Desk) -> Any:
    job = desk.job(JOB)
    return mix_form(work_job(job, desk.now()), job)


def test_the_card_asks_for_what_is_missing_first(desk: Desk) -> None:
    take(desk, basis="volume", density_a="1.16 g/cm3")
    assert (form(desk).action, [field.name for field in form(desk).fields]) == ("figures", ["adhesive.density_b"])
    bench.change_part(desk, JOB, "adhesive", {"density_b": "0.97 g/cm3"})
    assert (form(desk).action, form(desk).fields[0].name) == ("mix", "part_a")


def test_by_weight_nothing_is_missing(desk: Desk) -> None:
    take(desk)
    assert mix_lacks(ticket_of(desk.job(JOB)).row("adhesive")) == ()


def test_a_cup_from_before_says_what_is_not_known_and_how_to_mend_it(desk: Desk, clock: Clock) -> None:
    """A record may hold a mix that this program would refuse now, and the ticket may have been changed since."""
    take(desk)
    mix(desk)
    bench.change_order(desk, JOB, {"adhesive.basis": "volume"}, said_by="Ann", reason="as its sheet has it")
    gate = next(gate for gate in work_job(desk.job(JOB), desk.now()).gates if gate.step == "glue")
    reasons = [check.reason for check in gate.checks if check.key == "mix"]
    assert reasons == [
        f"the density of part {part} is not known, and the ratio is by volume: read it on the data sheet and write "
        f"[adhesive] density_{part.lower()}, or write the sheet's ratio by weight"
        for part in "AB"
    ]
    assert ".;" not in html.unescape(gate.why)

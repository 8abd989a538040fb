"""An adhesive that is named otherwise brings its own sheet from the shop's settings, and never keeps another product's."""

from __future__ import annotations

from typing import Any

import pytest

from clubwright.journal.reducers.club_document import taken_over
from clubwright.services.actions import bench
from clubwright.services.answer.club_answer import answer_document
from clubwright.services.answer.shop_settings import completed, read_completed
from clubwright.services.record.session import Session
from clubwright.ticket.exporting import document_of_ticket
from clubwright.ticket.shop.laying import PRODUCT, lay_settings
from clubwright.ticket.shop.settings import NO_SETTINGS, read_shop
from shopwork import shop, ticket

OWN = {"in_joint", "per_joint", "scale_error", "temperature"}


def kept_file(session: Session, **changed: Any) -> dict[str, Any]:
    """The file of a job's ticket as the record writes it, its adhesive named otherwise by hand."""
    document = completed(ticket(**changed), read_shop(shop()))
    read, _ = read_completed(document, "T.toml")
    assert read is not None
    found = document_of_ticket(read)
    assert found["adhesive"]["ratio"] == "2:1"
    assert found["adhesive"]["release"]
    return found


@pytest.mark.parametrize("said", [{}, {"adhesive": {"name": "two-part"}}])
def test_another_name_brings_the_sheet_of_that_name(session: Session, said: dict[str, Any]) -> None:
    document = kept_file(session, **said)
    document["adhesive"]["name"] = "slow"
    found = lay_settings(document, read_shop(shop()))["adhesive"]
    assert found == {"name": "slow", **read_shop(shop()).table("adhesive")["slow"]}
    assert "release" not in found, "its sheet has no table of release times, and the other one's is not its"


@pytest.mark.parametrize("said", [{}, {"adhesive": {"name": "two-part"}}])
@pytest.mark.parametrize("settings", [NO_SETTINGS, read_shop(shop())], ids=["no settings", "settings"])
@pytest.mark.parametrize("name", ["nobody knows it", ""])
def test_a_name_that_no_sheet_is_known_of_has_no_figures(session: Session, said, settings, name: str) -> None:
    document = kept_file(session, **said)
    document["adhesive"]["name"] = name
    read, findings = read_completed(document, "T.toml", settings)
    if read is not None:
        row = read.row("adhesive")
        assert not [key for key in PRODUCT if key != "release" and row.entry(key) is not None]
        assert not row.basis
        assert read.club.release == ()
    told = [item for item in findings if str(item.where) == "T.toml [adhesive]" and "left out" in item.what]
    assert len(told) == 1
    assert 'of "two-part"' in told[0].what
    assert "ratio 2:1" in told[0].what
    assert "12 h at 25 C" in told[0].what


def test_what_the_ticket_said_itself_stays_its_own(session: Session) -> None:
    document = kept_file(session)
    document["adhesive"] |= {"name": "slow", "pot_life": "20 min"}
    found = lay_settings(document, read_shop(shop()))["adhesive"]
    assert (found["pot_life"], found["ratio"]) == ("20 min", "1:1")


def test_the_name_it_had_brings_the_figures_back(session: Session) -> None:
    document = kept_file(session)
    renamed = lay_settings({**document, "adhesive": {**document["adhesive"], "name": "slow"}}, read_shop(shop()))
    again = lay_settings({**renamed, "adhesive": {**renamed["adhesive"], "name": "two-part"}}, read_shop(shop()))
    assert again["adhesive"] == document["adhesive"]
    assert lay_settings(document, read_shop(shop()))["adhesive"] == document["adhesive"]


def test_figures_that_the_sheet_of_that_name_denies_are_said() -> None:
    figures = {"ratio": "2:1", "basis": "weight", "pot_life": "1 h 30 min"}
    answer = answer_document(ticket(adhesive={"name": "slow", **figures}), settings=read_shop(shop()))
    told = [item["what"] for item in answer["findings"] if item["where"] == "ticket [adhesive]"]
    assert 'the ticket says ratio 2:1, and the shop\'s sheet of "slow" says ratio 1:1' in told, "90 min is the same"


def test_another_adhesive_on_a_club_of_the_record_has_nothing_of_the_one_before(session: Session) -> None:
    left = kept_file(session)
    new = {**ticket(adhesive={"name": "slow", "ratio": "1:1"}), "ticket": {"id": "T-2", "job": "weight"}}
    assert taken_over(left, new)["adhesive"] == {"name": "slow", "ratio": "1:1"}
    same = {**ticket(adhesive={"name": "two-part"}), "ticket": {"id": "T-2", "job": "weight"}}
    assert taken_over(left, same)["adhesive"] == left["adhesive"]


def test_a_ticket_named_otherwise_is_taken_with_its_own_sheet_only(session: Session) -> None:
    document = kept_file(session)
    document["adhesive"]["name"] = "slow"
    bench.take_ticket(session, document, "T.toml")
    kept = session.job("T-0301").document
    assert kept["adhesive"] == {"name": "slow"}
    assert "adhesive" not in kept.get("from_shop", {})

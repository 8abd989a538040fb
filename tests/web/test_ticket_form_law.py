"""The form of a ticket has a field for each figure that the program's own checks ask for, whatever the club and the work."""

from __future__ import annotations

from typing import Any

import pytest

from clubwright.club.parts import KINDS
from clubwright.errors import DocumentPlace, Finding
from clubwright.planning.gates.gates import MEASURED
from clubwright.planning.steps.joint import SHEET_FIGURES
from clubwright.services.answer.taken import all_taken
from clubwright.ticket.announced import how_to_mend
from clubwright.ticket.fields.fields import ADAPTER, JOBS, SECTIONS
from clubwright.ticket.read import read_ticket
from clubwright.web.ticket_form import field_of, of_document, of_sent, rest_of
from clubwright.web.ticket_form_fields import KEYS, SHOWN
from clubwright.web.views.ticket_form_view import FormView, form_view

NOWHERE = how_to_mend("old_adhesive.in_joint")
"""Said of the one figure that no ticket has: what the old joint kept of its adhesive."""


def order(kind: str, job: str, **tables: Any) -> dict[str, Any]:
    ticket = {"id": "T-0001", "kind": kind, "hand": "right", "job": job}
    target = {
        "length": "37 in",
        "length_method": "60 degree plane",
        "loft": "30 deg",
        "lie": "62 deg",
        "moi": "2700 kg cm2",
    }
    return {"ticket": ticket, "target": {**target, "grip_diameter_6in": "0.8 in"}, **tables}


def found_about(document: dict[str, Any]) -> list[Finding]:
    ticket, findings = read_ticket(document)
    if ticket is None:
        return list(findings)
    return [*findings, *all_taken(ticket)]


def names_of(view: FormView) -> set[str]:
    return {field.name for group in view.groups for row in (group.fields, *group.rows) for field in row}


def unasked(document: dict[str, Any]) -> set[str]:
    """Return the figures that a finding is about and that the form has no field for."""
    findings = found_about(document)
    names = names_of(form_view(of_document(document), key="k", seen=0, findings=findings))
    about = [item for item in findings if isinstance(item.where, DocumentPlace) and item.where.key]
    assert about
    return {str(item.where) for item in about if item.mend != NOWHERE and field_of(item) not in names}


@pytest.mark.parametrize("job", JOBS)
@pytest.mark.parametrize("kind", KINDS)
def test_whatever_is_found_about_a_figure_has_a_field_on_the_form(kind: str, job: str) -> None:
    assert unasked(order(kind, job)) == set()


@pytest.mark.parametrize("section", [part for part in SECTIONS if part.name in KEYS and not part.many])
def test_a_figure_that_cannot_be_read_is_put_right_on_the_form(section: Any) -> None:
    wrong = dict.fromkeys(KEYS[section.name], "?!")
    document = order("driver", "reshaft")
    document[section.name] = {**document.get(section.name, {}), **wrong}
    assert unasked(document) == set()


def test_a_driver_s_sleeve_has_its_fields_and_what_was_written_stays_to_be_seen() -> None:
    document = order("driver", "build", head={"hand": "right", "own_inertia": "4 kg cm2"}, adapter={"mass": "6 g"})
    filled = of_document(document)
    names = names_of(form_view(filled, key="k", seen=0))
    assert {f"adapter.{field.key}" for field in ADAPTER.fields if field.kind != "gauges"} <= names
    assert {"head.hand", "head.own_inertia"} <= names
    sent = {name: [text] for name, text in filled.values.items()} | {"rest": [rest_of(document)]}
    assert of_sent(sent).document == document
    assert not rest_of(document)


def test_a_field_that_nothing_asks_for_is_not_in_the_way() -> None:
    names = names_of(form_view(of_document({"ticket": {"id": "T-1", "kind": "wedge"}}), key="k", seen=0))
    assert "head.sole_camber" not in names
    assert not {name for name in names if name.startswith(("old_", "shop.", "shim.", "adapter."))}


def test_what_gates_and_mix_wait_for_is_asked_from_the_start() -> None:
    assert {(section, key) for _, section, key, _, _ in MEASURED} <= {
        (part, key) for part in SHOWN for key in SHOWN[part]
    }
    assert {*SHEET_FIGURES, "basis", "scale_error"} <= set(SHOWN["adhesive"])
    assert {"bore_diameter"} <= set(SHOWN["head"])
    assert {"tip_diameter"} <= set(SHOWN["shaft"])

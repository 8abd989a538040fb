"""Every default that a ticket is worked with: those that matter and those that are quiet, of the parts and of the shop.

An answer says only the defaults on which something wanted rests (`clubwright.ticket.announced`). Whoever checks a ticket
file is told all of them.
"""

from __future__ import annotations

from collections.abc import Iterator

from clubwright.club.build import INCH_OUNCE_SCALE
from clubwright.club.quantities import QUANTITIES
from clubwright.errors import ClubwrightError, DocumentPlace, Finding, InputError
from clubwright.planning.cut import CUT_JOBS, DEFAULT_KERF
from clubwright.planning.grip.tape_advice import LAYER
from clubwright.planning.joint.adhesive import WASTE_SHARE
from clubwright.planning.steps.joint import SCALE
from clubwright.state.particulars import Entry
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.priors.prior import prior_from

_PRACTICE = "common practice, no source"
_OURS = "estimate of ours"


def all_taken(ticket: Ticket) -> tuple[Finding, ...]:
    """Return a note for every figure and every definition that the ticket does not give, with what is taken for it.

    What cannot be worked with those is an error among them.
    """
    try:
        of_the_parts = prior_from(ticket, every=True).findings
    except InputError as refused:
        of_the_parts = refused.findings
    except ClubwrightError as refused:
        of_the_parts = (Finding(where=ticket.source, what=str(refused), mend="Look at the parts."),)
    found = [*of_the_parts, *_of_the_order(ticket), *_of_the_shop(ticket)]
    said: dict[tuple[str, str], Finding] = {(str(item.where), item.what): item for item in found}
    return tuple(said.values())


def _of_the_order(ticket: Ticket) -> Iterator[Finding]:
    given = ticket.order.tolerances.numbers
    for key in ticket.targets:
        if key not in given:
            yield _taken(ticket.order.tolerances.where.at(key), QUANTITIES[key].tolerance, _OURS)
    if not ticket.order.targets.length_method:
        where = ticket.order.targets.where.at("length_method")
        yield _taken(where, ticket.length_method, "a definition: the rule's is the 60 degree plane")
    sizes = {"grip_diameter_2in", "grip_diameter_6in"} & ticket.targets.keys()
    if sizes and not any(row.thickness for row in ticket.tapes):
        where = DocumentPlace("tape", many=True, source=ticket.source)
        yield _taken(where.at("thickness"), LAYER, "a published grip-sizing note")


def _of_the_shop(ticket: Ticket) -> Iterator[Finding]:
    shop, where = ticket.shop, ticket.shop.where
    usual: list[tuple[str, Entry | str | None, str, str]] = [
        ("swing_weight_point", shop.swing_weight_point, INCH_OUNCE_SCALE.name, INCH_OUNCE_SCALE.source),
        ("decision_rule", shop.decision_rule, ticket.rule, "its reasons: docs/theory/conformity.md"),
    ]
    if ticket.job in CUT_JOBS:
        usual.append(("kerf", shop.kerf, DEFAULT_KERF, _PRACTICE))
    for key, said, text, standing in usual:
        if said is None:
            yield _taken(where.at(key), text, standing)
    adhesive = ticket.club.adhesive
    if adhesive.ratio is not None and adhesive.waste is None:
        yield _taken(adhesive.where.at("waste"), f"{WASTE_SHARE:g}", _PRACTICE)
    usual_scale = default_for(SCALE, ticket.kind)
    if adhesive.ratio is not None and adhesive.scale_error is None and usual_scale is not None:
        yield _taken(adhesive.where.at("scale_error"), usual_scale.text, usual_scale.standing)


def _taken(where: DocumentPlace, text: str, standing: str) -> Finding:
    mend = "Write what holds here."
    return Finding(where=where, what=f"not given: taken as {text} ({standing})", mend=mend, severity="note")

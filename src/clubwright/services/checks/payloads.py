"""What each kind of fact must say, whatever the job: asked before it is written, and again of what another bench wrote."""

from __future__ import annotations

from collections.abc import Iterable
from functools import singledispatch

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import DocumentPlace, Finding, InputError
from clubwright.journal.chain import GENESIS, is_moment
from clubwright.journal.erasing import erasing_findings
from clubwright.journal.facts import (
    AdhesiveMixed,
    DeviationAccepted,
    Finished,
    GateSigned,
    Glued,
    HeadBent,
    HeadPulled,
    MixCalledBad,
    MixTaken,
    NamesErased,
    OrderChanged,
    PartChanged,
    ReadingDecided,
    RecordsMerged,
    Renumbered,
    ShaftCut,
    ShaftTrimmed,
    StepDone,
    TapeLaid,
    TicketTaken,
    Undone,
    What,
)
from clubwright.journal.texts import content_findings, name_findings, text_findings
from clubwright.services.checks.order_findings import order_findings, said_findings
from clubwright.services.checks.part_payload import part_findings
from clubwright.services.checks.shown import shown_findings
from clubwright.services.checks.sums import amount_findings
from clubwright.services.checks.usual_gauge import gauge_findings
from clubwright.state.step import FIRST_EDITION
from clubwright.state.steps import EDITION, STEPS

ACCEPTED_VERDICTS = ("outside", "cannot tell", "not used", "not read")
GATES = ("cut", "glue", "release")
"""Every gate there is. The record stores these words, so none is ever renamed."""


def fact_findings(what: What, *, site: str, by: str, typed: str, key: str) -> list[Finding]:
    """Return everything that is wrong with a fact by itself: names, texts, and what its kind must say.

    Args:
        what: As it is stored, without floats.
        site: Bench.
        by: Who.
        typed: As said in the trail.
        key: Idempotency key.
    """
    found = [*name_findings("bench", site), *name_findings("person", by), *name_findings("key", key)]
    found += text_findings("trail", typed)
    if not isinstance(what, RecordsMerged | NamesErased):
        found += name_findings("ticket number", what.job)
    content = content_findings("content", {name: getattr(what, name) for name in what.__struct_fields__})
    # what is no text is not read any further
    return [*found, *(content or payload_findings(what))]


def require_payload(what: What) -> None:
    """Refuse a fact that does not say what its kind must say, by an `InputError` with every finding."""
    findings = payload_findings(what)
    if findings:
        raise InputError(findings)


@singledispatch
def payload_findings(what: object) -> list[Finding]:  # noqa: ARG001 - most kinds say enough by their fields
    """Return what is wrong with what a fact says, the job aside."""
    return []


payload_findings.register(TapeLaid, gauge_findings)
payload_findings.register(PartChanged, part_findings)


@payload_findings.register
def _(what: TicketTaken) -> list[Finding]:
    number, found = what.order.id, _edition(what.edition)
    if number.strip() == what.job:
        return found
    mend = "Take the ticket under the number that stands on it."
    said = f'{number or None!r}, and it is taken as "{what.job}"'
    return [Finding(where=DocumentPlace("ticket", ("id",)), what=said, mend=mend), *found]


def _edition(edition: int | msgspec.UnsetType) -> list[Finding]:
    if not isinstance(edition, int) or FIRST_EDITION < edition <= EDITION:
        return []  # the first edition is left out, never written
    what = f"{edition} is no edition of the plan that this version knows: {FIRST_EDITION} to {EDITION}"
    return [Finding(where="edition", what=what, mend="Bring this bench to the version that wrote it.")]


@payload_findings.register
def _(what: ReadingDecided) -> list[Finding]:
    return _number("reading", what.reading, what.site)


@payload_findings.register
def _(what: Undone) -> list[Finding]:
    return _number("fact", what.fact, what.site)


@payload_findings.register
def _(what: ShaftTrimmed) -> list[Finding]:
    return amount_findings(("length", "trim", what.amount))


@payload_findings.register
def _(what: ShaftCut) -> list[Finding]:
    measured = (("mass", "mass", what.cut_mass), ("length", "balance", what.cut_balance_from_tip))
    said = ((kind, where, text) for kind, where, text in measured if isinstance(text, str))
    return [*amount_findings(("length", "cut", what.cut_length), *said), *gauge_findings(what)]


@payload_findings.register
def _(what: HeadBent) -> list[Finding]:
    if any((what.loft, what.lie, what.bounce)):
        return []
    return [Finding(where="bend", what="no angle given", mend="Measure loft, lie or bounce after the bend.")]


@payload_findings.register
def _(what: AdhesiveMixed | MixTaken) -> list[Finding]:
    masses = (("mass", "part A", what.part_a), ("mass", "part B", what.part_b))
    found = amount_findings(*masses, ("temperature", "temperature", what.temperature))
    if isinstance(what, MixTaken):
        found += [*name_findings("mix", what.mix[0]), *name_findings("ticket number", what.of)]
        if not is_moment(what.mixed_at):
            found.append(Finding(where="mixed at", what=f"{what.mixed_at[:40]!r} is no time", mend="Give it in UTC."))
    return found


@payload_findings.register
def _(what: MixCalledBad) -> list[Finding]:
    if what.reason.strip():
        return name_findings("mix", what.mix[0])
    return [
        Finding(where="why it is bad", what="nothing was typed", mend="Say why: whoever has such a joint reads it.")
    ]


@payload_findings.register
def _(what: Glued) -> list[Finding]:
    return amount_findings(("temperature", "temperature", what.temperature))


@payload_findings.register
def _(what: StepDone) -> list[Finding]:
    return _one_of("step", what.step, STEPS)


@payload_findings.register
def _(what: GateSigned) -> list[Finding]:
    return [*_one_of("gate", what.step, GATES), *shown_findings(what.shown)]


@payload_findings.register
def _(what: DeviationAccepted) -> list[Finding]:
    asked = (("who accepts it", what.accepted_by), ("why it is accepted", what.reason))
    unsaid = [
        Finding(where=where, what="nothing was typed", mend="Say it: the record keeps it.")
        for where, text in asked
        if not text.strip()
    ]
    return [
        *_one_of("quantity", what.quantity, QUANTITIES),
        *_one_of("verdict", what.verdict, ACCEPTED_VERDICTS),
        *unsaid,
    ]


@payload_findings.register
def _(what: Renumbered) -> list[Finding]:
    return name_findings("new ticket number", what.number)


@payload_findings.register
def _(what: RecordsMerged) -> list[Finding]:
    found: list[Finding] = []
    for site, (number, seen) in what.heads.items():
        found += _number("head", number, site)
        if len(seen) != len(GENESIS):
            found.append(Finding(where="head", what=f"{seen[:80]!r} is no hash", mend="Merge at the bench."))
    return found


@payload_findings.register
def _(what: NamesErased) -> list[Finding]:
    return [*name_findings("person", what.person), *erasing_findings(what)]


@payload_findings.register
def _(what: Finished) -> list[Finding]:
    return shown_findings(what.shown)


@payload_findings.register
def _(what: HeadPulled) -> list[Finding]:
    return said_findings(what.said_by, what.reason)


@payload_findings.register
def _(what: OrderChanged) -> list[Finding]:
    return order_findings(what.values, said_by=what.said_by, reason=what.reason)


def _number(where: str, number: int, site: str | None) -> list[Finding]:
    found = [] if site is None else name_findings("bench", site)
    if number < 1:
        mend = "Look up the number in the trail of this job."
        found.append(Finding(where=where, what=f"{number} is no number of a fact", mend=mend))
    return found


def _one_of(where: str, word: str, known: Iterable[str]) -> list[Finding]:
    if word in known:
        return []
    return [Finding(where=where, what=f'no {where} is called "{word}"', mend=f"There are: {', '.join(sorted(known))}.")]

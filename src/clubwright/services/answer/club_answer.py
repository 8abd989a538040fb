"""Work a ticket: from its document to its answer. The journalled form and the stateless form both end here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeVar

import msgspec

from clubwright.errors import DocumentPlace, Finding, InputError, NotPossible
from clubwright.notation import units_shown
from clubwright.planning.advice.advice import Advice, advice_of
from clubwright.planning.advice.unreached import Unreached, unreached_of
from clubwright.planning.advice.weights import choices
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.cut import CUT_JOBS, Cut, cut_of
from clubwright.planning.gates.fit_checks import hosel_checks
from clubwright.planning.gates.gates import Gate, Progress, gates_of
from clubwright.planning.misfits import Misfit, misfits_of
from clubwright.planning.said.phrases import phrase
from clubwright.services.answer.answer import (
    advice_part,
    cut_part,
    empty_answer,
    findings_part,
    finished_part,
    gates_part,
    stages_part,
    unreached_part,
    verdicts_part,
)
from clubwright.services.answer.inspection import Inspected, inspect
from clubwright.services.answer.rules_check import rule_findings
from clubwright.services.answer.shop_settings import read_completed
from clubwright.services.told.answer import SCHEMA, Answer
from clubwright.state.ticket import Ticket
from clubwright.ticket.shop.settings import NO_SETTINGS, ShopSettings
from clubwright.words.gate import told
from clubwright.words.misfit import misfit_finding

NOTHING_DONE = Progress()
Found = TypeVar("Found")


class ClubAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """Everything that follows from one ticket; views are made of this."""

    club_state: ClubState
    cut: Cut | None
    unreached: Unreached | None
    advice: tuple[Advice, ...]
    gates: tuple[Gate, ...]
    inspected: dict[str, Inspected]
    findings: tuple[Finding, ...]
    misfits: tuple[Misfit, ...] = ()
    """Readings that are kept aside, which are told among the findings."""

    def answer(self) -> Answer:
        """Return the answer, for programs and for whoever writes it out."""
        return Answer(
            schema=SCHEMA,
            unreached=unreached_part(self.unreached),
            advice=advice_part(self.advice),
            cut=cut_part(self.cut),
            findings=findings_part(self.findings),
            finished=finished_part(self.club_state),
            gates=gates_part(self.gates),
            stages=stages_part(self.club_state),
            verdicts=verdicts_part(self.inspected),
        )


def work_document(
    document: Mapping[str, Any],
    source: str = "ticket",
    progress: Progress = NOTHING_DONE,
    *,
    settings: ShopSettings = NO_SETTINGS,
) -> ClubAnswer:
    """Work a ticket document.

    Args:
        document: Tables of strings, as a ticket file holds them.
        source: Name of the file, for findings.
        progress: What the journal knows beyond the document.
        settings: The shop's; laid in where the ticket is silent.

    Raises:
        InputError: with every finding, when the document cannot be taken.
    """
    ticket, findings = read_completed(document, source, settings)
    if ticket is None:
        raise InputError(findings)
    return work_ticket(ticket, findings, progress)


def work_ticket(ticket: Ticket, findings: tuple[Finding, ...] = (), progress: Progress = NOTHING_DONE) -> ClubAnswer:
    """Work a ticket.

    Args:
        ticket: As it was read, or as it stands in the record.
        findings: What was found when it was read.
        progress: What the journal knows beyond it.

    Raises:
        InputError: with every finding, when the belief cannot take its readings.
    """
    try:
        club_state = club_state_of(ticket, glued=progress.glued)
    except NotPossible as refused:
        where = DocumentPlace("reading", many=True, source=ticket.source)
        raise InputError([*findings, Finding(where=where, what=refused.what, mend=refused.instead)]) from refused
    cut, cut_findings = cut_of(club_state)
    best, misfits = choices(club_state)[0], misfits_of(club_state)
    return ClubAnswer(
        club_state=club_state,
        cut=cut,
        unreached=unreached_of(club_state, best),
        advice=advice_of(club_state),
        gates=gates_of(club_state, cut, best, progress),
        inspected=inspect(club_state),
        findings=(
            *findings,
            *hand_findings(ticket),
            *hosel_findings(ticket),
            *club_state.prior.findings,
            *cut_findings,
            *(misfit_finding(misfit, units_shown()) for misfit in misfits),
            *rule_findings(club_state),
        ),
        misfits=misfits,
    )


def ask(document: Mapping[str, Any], source: str, question: Callable[[ClubState], Found], section: str) -> Found:
    """Ask something of the club of a ticket document.

    Args:
        document: Tables of strings.
        source: Name of the file, for findings.
        question: What is asked.
        section: Table of the ticket that has what the question may lack.

    Raises:
        InputError: when the ticket cannot be taken, or the question cannot be answered of it.
    """
    club_state = work_document(document, source).club_state
    try:
        return question(club_state)
    except NotPossible as refused:
        where = club_state.ticket.row(section).where
        raise InputError([Finding(where=where, what=refused.what, mend=refused.instead)]) from refused


def hand_findings(ticket: Ticket) -> tuple[Finding, ...]:
    """Ask for a look at the head's hand where the ticket does not say that anybody took one."""
    row = ticket.club.head
    if row.hand is not None or ticket.job not in CUT_JOBS:
        return ()
    mend = phrase("hand.look", hand=ticket.hand)
    return (told(row.where.at("hand"), phrase("hand.not looked at"), mend, "warning"),)


def hosel_findings(ticket: Ticket) -> tuple[Finding, ...]:
    """Say for every kind of work that a head whose hosel is cracked is out; the ticket itself can be taken."""
    row = ticket.club.head
    return tuple(
        told(row.where.at("hosel"), check.what, check.mend, "warning")
        for check in hosel_checks(ticket)
        if not check.met
    )


def answer_document(
    document: Mapping[str, Any], source: str = "ticket", *, settings: ShopSettings = NO_SETTINGS
) -> Answer:
    """Return the answer to a ticket document; one that cannot be taken gets its findings and nothing else."""
    try:
        return work_document(document, source, settings=settings).answer()
    except InputError as refused:
        return empty_answer(refused.findings)

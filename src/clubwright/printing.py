"""Print a job's papers on the workshop's printer: the papers and the printer's command, wired to the record."""

from __future__ import annotations

from clubwright.devices.printer import send_to_printer
from clubwright.errors import Finding, InputError, NotPossible
from clubwright.notation import shown_in
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.told.kept import SentToPrinter
from clubwright.ticket.fields.printer import PaperKind


def paper_of(session: Session, job: str, paper: PaperKind, *, step: str = "") -> bytes:
    """Return a paper of a job of the record as a PDF, in the units that the shop puts first.

    Args:
        session: The record and the clock.
        job: Ticket number, or the name that it goes by.
        paper: The build sheet, the tag, or pencil cards.
        step: Key of the one step whose card is wanted; empty for all that is still to do.

    Raises:
        InputError: when the plan has no such step, or one is named for another paper than cards.
        NotPossible: when every step is done and no card is left to fill in.
    """
    from clubwright.labels.cards.cards import pencil_cards  # a typesetter, which no other command waits for
    from clubwright.labels.cards.from_work import cards_data
    from clubwright.labels.sheet.from_work import sheet_data
    from clubwright.labels.sheet.sheet import build_sheet
    from clubwright.labels.tag.from_work import tag_data
    from clubwright.labels.tag.tag import tag_label

    if step and paper != "cards":
        mend = "Leave the step out, or take the cards."
        raise InputError([Finding(where="step", what=f"the {paper} is of the whole job", mend=mend)])
    state, now = session.job(job), session.now()
    day, seal = now.date().isoformat(), session.ledger.last_hash()
    with shown_in(session.units()):
        worked = answer_job(state, now, session.local)
        if paper == "tag":
            return tag_label(tag_data(worked, state, day))
        if paper == "cards":
            return pencil_cards(cards_data(worked, day, seal, step=step))
        return build_sheet(sheet_data(worked, state, day, seal))


def print_paper(session: Session, job: str, paper: PaperKind, *, step: str = "") -> SentToPrinter:
    """Hand a paper of a job to the workshop's printer; the record keeps nothing of it.

    Raises:
        InputError: as `paper_of`.
        NotAllowed: for a person who may only look.
        NotPossible: when the shop names no printer for it, or the printer's command does not take it.
    """
    session.require("work")
    state, command = session.job(job), session.settings().printer(paper)
    if not command:
        what = f"the shop's settings name no printer for the {paper}"
        mend = f'Write [printer] {paper} = "lp -d NAME" in shop.toml, or open the PDF and print it from there.'
        raise NotPossible(what, mend)
    said = send_to_printer(command, paper_of(session, job, paper, step=step))
    return SentToPrinter(job=state.id, paper=paper, said=said)

"""From a worked ticket to the data of its pencil cards."""

from __future__ import annotations

from clubwright.club.quantities import QUANTITIES
from clubwright.errors import Finding, InputError, NotPossible
from clubwright.labels.cards.blanks import blanks_of, figure_words
from clubwright.labels.cards.data import BlankLine, CardsData, PencilCard
from clubwright.labels.sheet.data import Line
from clubwright.notation import units_shown
from clubwright.planning.steps.plan import Step
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.ticket.field_names import read_field_name
from clubwright.words.how_typed import how_typed
from clubwright.words.say import spoken, words_here
from clubwright.words.step import say_step


def cards_data(worked: JobAnswer, date: str, record_hash: str = "", *, step: str = "") -> CardsData:
    """Return what the pencil cards of a job show: a card for each step that is still to do, or for the one that is named.

    Args:
        worked: The ticket, worked.
        date: Day of printing, as it is to be printed.
        record_hash: Hash of the record's last fact, which dates the cards against the record.
        step: Key of the one step that is wanted, done or not; empty for all that is still to do.

    Raises:
        InputError: when the plan has no such step.
        NotPossible: when every step is done and none is named.
    """
    wanted = tuple(item for item in worked.steps if (item.key == step if step else not item.done))
    if not wanted and step:
        mend = f"Its steps: {', '.join(item.key for item in worked.steps)}."
        raise InputError([Finding(where="step", what=f'no step of this job is called "{step}"', mend=mend)])
    ticket = worked.club_state.ticket
    if not wanted:
        raise NotPossible(f"every step of {ticket.id} is done, so no card is left to fill in", "Name a step.")
    return CardsData(
        ticket_id=ticket.id,
        player=ticket.order.player.name or "",
        label=ticket.order.label or "",
        kind=ticket.kind,
        hand=ticket.hand,
        job=ticket.job,
        date=date,
        cards=tuple(_card(item, worked) for item in wanted),
        invented=ticket.invented,
        record_hash=record_hash,
        words=words_here("sheet"),
    )


def _of(quantity: str, stage: str) -> str:
    """Say what is expected: a quantity of the club with its stage, or a figure of a part."""
    if quantity in QUANTITIES:
        return f"{spoken('quantity', quantity)}, {spoken('stage', stage)}"
    section, key, _ = read_field_name(quantity)
    return figure_words(section, key)


def _card(step: Step, worked: JobAnswer) -> PencilCard:
    said = say_step(step, units_shown())
    return PencilCard(
        number=f"{step.number} {spoken('sheet', 'of')} {len(worked.steps)}",
        title=said.title,
        waits=said.waits,
        act_on=tuple(Line(name=name, text=text) for name, text in said.act_on),
        what=said.what,
        numbers=tuple(Line(name=name, text=text) for name, text in said.numbers),
        instrument=said.instrument or "",
        expected=tuple(Line(name=_of(item.quantity, item.stage), text=item.text) for item in said.expected),
        done_when=said.done_when,
        cautions=said.cautions,
        gate=said.gate or "",
        blanks=tuple(
            BlankLine(label=blank.label, how=how_typed(blank.kind), known=blank.known)
            for blank in blanks_of(step, worked)
        ),
    )

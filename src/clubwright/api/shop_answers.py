"""What is asked of a shop: where a job stands, what comes next, what is printed of it, and whether the record is whole."""

from __future__ import annotations

from clubwright.api.acting import Acting
from clubwright.api.papers import Format, Picture, Printed, cards_of, picture_of, sheet_of, tag_of
from clubwright.errors import Finding, InputError
from clubwright.journal.job import Job, TrailLine
from clubwright.labels.sheet.sheet import Paper
from clubwright.printing import print_paper
from clubwright.services.actions.door import cautions_of
from clubwright.services.actions.following import Following, next_action
from clubwright.services.actions.register.facets import action_of
from clubwright.services.answer.answer import advice_part, findings_part
from clubwright.services.answer.belief_table import belief_part
from clubwright.services.answer.shop_settings import with_changes
from clubwright.services.jobs.closing import closing_part, closing_points
from clubwright.services.jobs.job_answer import JobAnswer, answer_job
from clubwright.services.record.job_lines import JobLine
from clubwright.services.report.plan_part import plan_part
from clubwright.services.told.answer import AdviceAnswer, Answer, FindingAnswer
from clubwright.services.told.job import ClosingAnswer, StepAnswer, UnknownAnswer
from clubwright.services.told.kept import SentToPrinter
from clubwright.services.why.find import why_keys, why_of
from clubwright.services.why.told import Why
from clubwright.ticket.fields.printer import PAPERS, PaperKind


class ShopAnswers(Acting):
    """What is asked of a shop; nothing of it changes the record.

    Everywhere ``club`` is a ticket number, or the name that the job goes by. Figures are in SI with canonical text beside
    them; what is printed and drawn is in the units that the shop's settings put first.
    """

    def answer(self, club: str) -> Answer:
        """Return what follows from a job as it stands: cut, finished club, stages, advice, gates, verdicts, findings."""
        state, worked = self._worked(club)
        return with_changes(worked.answer(), state, self._session().settings())

    def advice(self, club: str) -> tuple[AdviceAnswer, ...]:
        """Return what can be done, best first; ``str(advice)`` says one in a sentence."""
        return advice_part(self._worked(club)[1].advice)

    def next(self, club: str) -> Following | None:
        """Return the action that comes next, with what is known of its fields; None when the job is closed or waits."""
        state, worked = self._worked(club)
        return next_action(worked, state)

    def plan(self, club: str) -> tuple[StepAnswer, ...]:
        """Return every step of a job, with its figures, what a gauge should show, its cautions, and whether it is done."""
        return plan_part(self._worked(club)[1].steps)

    def closing(self, club: str) -> tuple[ClosingAnswer, ...]:
        """Return every ordered target with what stands between it and the end of the job."""
        state, worked = self._worked(club)
        return closing_part(closing_points(state, worked))

    def belief(self, club: str) -> tuple[UnknownAnswer, ...]:
        """Return what is believed of every part and every gauge."""
        return belief_part(self._worked(club)[1].club_state)

    def why_keys(self, club: str) -> tuple[str, ...]:
        """Return the key of every number of a job that `why` can be asked of."""
        return why_keys(self._worked(club)[1])

    def why(self, club: str, key: str) -> Why:
        """Return the budget, the readings, the equation, the theory page, the source and the tests behind a number.

        Args:
            club: Ticket number, or the name that the job goes by.
            key: Which number, by its place in the answer, such as ``finished/swing_weight``.
        """
        state, worked = self._worked(club)
        return why_of(worked, key, state)

    def cautions(self, club: str, action: str) -> tuple[str, ...]:
        """Return what can hurt at an action, such as ``pull-again``, that no step of the plan says.

        Args:
            club: Ticket number, or the name that the job goes by.
            action: Its key in the register of actions.
        """
        return cautions_of(self._session(), action_of(action), club)

    def trail(self, club: str) -> tuple[TrailLine, ...]:
        """Return what was done on a job, oldest first, with the number that `undo` takes."""
        return tuple(self._session().job(club).trail)

    def jobs(self) -> tuple[JobLine, ...]:
        """Return one line for each job that can be read, in the order in which their tickets came in."""
        return tuple(self._session().ask(lambda index: list(index.every())))

    def sheet(self, club: str, *, paper: Paper = "a4") -> Printed:
        """Print the build sheet of a job: the club to scale, every step, targets and as built, the ticket's code."""
        state, worked = self._shown(club)
        session = self._session()
        day, units = session.now().date().isoformat(), session.units()
        return sheet_of(worked, state, day, units, paper=paper, seal=session.ledger.last_hash())

    def tag(self, club: str, *, format: Format | None = None, dpi: int | None = None) -> Printed:  # noqa: A002
        """Print the tag of a job, 62 x 29 mm; a PNG where dots an inch are asked for, else a PDF."""
        state, worked = self._shown(club)
        session = self._session()
        return tag_of(worked, state, session.now().date().isoformat(), session.units(), format=format, dpi=dpi)

    def cards(self, club: str, *, step: str = "", paper: Paper = "a4") -> Printed:
        """Print pencil cards of a job: each step that is still to do, or the one that is named, with places to write."""
        worked, session = self._shown(club)[1], self._session()
        day, units = session.now().date().isoformat(), session.units()
        return cards_of(worked, day, units, step=step, paper=paper, seal=session.ledger.last_hash())

    def print_paper(self, club: str, paper: PaperKind = "sheet", *, step: str = "") -> SentToPrinter:
        """Print a paper of a job on the workshop's printer, by the command in its settings; the record keeps nothing of it.

        Args:
            club: Ticket number, or the name that the job goes by.
            paper: ``sheet``, ``tag`` or ``cards``.
            step: Of the cards the one step that is wanted; all that is still to do without it.

        Raises:
            InputError: when there is no such paper or step.
            NotPossible: when the shop names no printer for it, or the printer's command does not take it.
        """
        if paper not in PAPERS:
            what, mend = f'no paper is called "{paper}"', f"Take {', '.join(PAPERS)}."
            raise InputError([Finding(where="paper", what=what, mend=mend)])
        return print_paper(self._session(), club, paper, step=step)

    def picture(self, club: str) -> Picture:
        """Draw the club of a job to scale: what is on it filled, what is still to come outlined."""
        state, worked = self._shown(club)
        return picture_of(worked, state, self._session().units())

    def verify(self) -> tuple[FindingAnswer, ...]:
        """Check that every fact of the record is there, in order and unchanged; empty when the record is whole."""
        return findings_part(self._session().ledger.verify())

    def _worked(self, club: str) -> tuple[Job, JobAnswer]:
        session = self._session()
        state = session.job(club)
        return state, answer_job(state, session.now(), session.local)

    def _shown(self, club: str) -> tuple[Job, JobAnswer]:
        """Work a job for the eye: in the units that come first here."""
        from clubwright.notation import shown_in

        with shown_in(self._session().units()):
            return self._worked(club)

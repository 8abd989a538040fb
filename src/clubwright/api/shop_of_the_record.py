"""What is ordered, signed, answered for and taken back, from Python.

Written from the register: `python tests/unit/api/test_shop_methods.py`.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from clubwright.api.acting import NOTHING, Acting, documented
from clubwright.services.told.kept import KeptAnswer


@documented
class OfTheRecord(Acting):
    """What is ordered, signed, answered for and taken back."""

    def done(
        self, club: str, step: str, *, note: str = "", skip: str | None = None, key: str | None = None
    ) -> KeptAnswer:
        """Record that a step of the plan is done, or passed over."""
        return self._do("done", key, job=club, step=step, note=note, skipped=skip)

    def sign(self, club: str, gate: str, *, key: str | None = None) -> KeptAnswer:
        """Sign a gate: cut, glue or release. What you were shown is stored with it."""
        return self._do("sign", key, job=club, gate=gate)

    def accept(
        self, club: str, quantity: str, *, name: str, reason: str, shown: str | None = None, key: str | None = None
    ) -> KeptAnswer:
        """Accept by name that a target is out of spec, cannot be told, or was not read; only for how it stands now."""
        return self._do("accept", key, job=club, quantity=quantity, name=name, reason=reason, shown=shown)

    def finish(self, club: str, *, key: str | None = None) -> KeptAnswer:
        """Close the job; its verdicts are stored as shown."""
        return self._do("finish", key, job=club)

    def reopen(self, club: str, *, reason: str, key: str | None = None) -> KeptAnswer:
        """Open a closed job again: its end is undone, what was signed stays."""
        return self._do("reopen", key, job=club, reason=reason)

    def undo(
        self, club: str, fact: int | None = None, *, reason: str = "", site: str | None = None, key: str | None = None
    ) -> KeptAnswer:
        """Undo: a new fact reverses an earlier action, with all that it wrote. Undoing an undo brings it back."""
        return self._do("undo", key, job=club, fact=fact, reason=reason, site=site)

    def renumber(self, club: str, number: str, *, key: str | None = None) -> KeptAnswer:
        """Give a ticket another number, where two benches gave one number away; print its tag anew."""
        return self._do("renumber", key, job=club, number=number)

    def order(
        self, club: str, values: Mapping[str, str], *, said_by: str, reason: str, key: str | None = None
    ) -> KeptAnswer:
        """Change the order of an open job, with who said so and why; what was signed for another one is then void."""
        return self._do("order", key, job=club, values=values, said_by=said_by, reason=reason)

    def pull_again(
        self, club: str, *, said_by: str, reason: str, heat: bool = True, key: str | None = None
    ) -> KeptAnswer:
        """Record that a head that was glued on was pulled again: its joint is to be made anew."""
        return self._do("pull-again", key, job=club, said_by=said_by, reason=reason, heat=heat)

    def make_again(
        self, club: str, number: str, values: Mapping[str, str] = NOTHING, *, key: str | None = None
    ) -> KeptAnswer:
        """Take the ticket that makes a club of the record again; `clubwright again` writes it and takes nothing."""
        return self._do("make-again", key, job=club, number=number, values=values)

    def work_again(
        self,
        club: str,
        number: str,
        work: Literal["regrip", "reshaft", "loft-lie", "weight"],
        *,
        key: str | None = None,
    ) -> KeptAnswer:
        """Take the next job on a club of the record: the same order, the club as its last job left it."""
        return self._do("work-again", key, job=club, number=number, work=work)

    def same_club(self, club: str, earlier: str, *, reason: str, key: str | None = None) -> KeptAnswer:
        """Say that a job is work on the same club as an earlier one."""
        return self._do("same-club", key, job=club, club=earlier, reason=reason)

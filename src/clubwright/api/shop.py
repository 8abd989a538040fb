"""A workshop from Python: every action of the bench on its record, and what follows from it."""

from __future__ import annotations

import weakref
from collections.abc import Callable, Mapping, Sequence
from contextlib import ExitStack
from datetime import datetime
from pathlib import Path

from clubwright.api.acting import NOTHING, documented
from clubwright.api.given import Ticket, ticket_given
from clubwright.api.shop_answers import ShopAnswers
from clubwright.api.shop_of_the_record import OfTheRecord
from clubwright.api.shop_on_the_club import OnTheClub
from clubwright.bootstrap import bench_here, has_record, open_session, person_here, read_facts
from clubwright.errors import RecordError
from clubwright.services.actions.door import kept_part
from clubwright.services.actions.forgetting import look_before
from clubwright.services.actions.forgetting_part import forgotten_part, look_part
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import merged
from clubwright.services.told.erased import ForgottenAnswer, LookAnswer
from clubwright.services.told.kept import KeptAnswer, MergedAnswer


@documented
class Shop(OnTheClub, OfTheRecord, ShopAnswers):
    """A workshop's record: what is done at the bench is done here by the same actions, and leaves the same behind.

    Use it in a ``with`` statement, or close it with `close`. Several can be open at once, on one record too. A method that
    acts returns what was kept, with its number in the trail; it raises what keeps it from acting, and then nothing is kept:
    no gate is passed over, and a target that is outside, open or unread is accepted only by name (`accept`).

    Args:
        folder: Folder of the workshop's record, or a ``postgresql://`` address that several benches share. A record is
            made there by `take` alone, never by a slip in a name. Without a folder the record is in memory, and gone when
            the shop is closed.
        by: Who works; as the environment says (``CLUBWRIGHT_BY``), else the name of the account.
        site: Which bench; as the environment says (``CLUBWRIGHT_SITE``), else ``bench``.
        now: Returns the time of day; this computer's clock where none is passed in.
        shop_file: The shop's settings; ``shop.toml`` in the folder, if there is one, where none is named.

    Raises:
        RecordError: when there is a record and it cannot be opened.
        InputError: when a file of settings is named and cannot be opened.
    """

    def __init__(
        self,
        folder: Path | str | None = None,
        *,
        by: str | None = None,
        site: str | None = None,
        now: Callable[[], datetime] | None = None,
        shop_file: Path | str | None = None,
    ) -> None:
        self.by, self.site = person_here(by), bench_here(site)
        self._folder = None if folder is None else str(folder)
        self._file = None if shop_file is None else Path(shop_file)
        self._now = now
        self._stack = ExitStack()
        self._open: Session | None = None
        self._closed = weakref.finalize(self, self._stack.close)
        if self._folder is None or has_record(self._folder):
            self._session(make=True)

    def close(self) -> None:
        """Let go of the record; one in memory is gone. A shop that is closed stays so."""
        self._open = None
        self._closed()

    def __enter__(self) -> Shop:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def __repr__(self) -> str:
        place = "in memory" if self._folder is None else repr(self._folder)
        return f"Shop({place}, by={self.by!r}, site={self.site!r}{'' if self._closed.alive else ', closed'})"

    def take(self, ticket: Ticket, *, club: str | None = None, key: str | None = None) -> KeptAnswer:
        """Take a ticket into the record, with what the shop says where it is silent; with a club, as work on it.

        Args:
            ticket: A ticket document (tables of strings), the path of a ticket file, or its TOML text.
            club: An earlier job on the same club, where the ticket does not say so itself.
            key: Idempotency key: the same key again never records twice.

        Returns:
            What was kept; its ``job`` is the ticket number, which the other methods take.

        Raises:
            InputError: for a ticket that cannot be taken, with every finding; nothing is kept.
            RecordError: when the record has a ticket of that number.
        """
        document, source = ticket_given(ticket)
        session = self._session(make=True)
        given = {"document": document, "source": source, "club": club}
        return kept_part(session, self._kept(session, "take", key, given))

    def weigh(
        self,
        club: str,
        masses: Mapping[str, str] = NOTHING,
        *,
        gauge: str | None = None,
        step: str | None = None,
        key: str | None = None,
        **parts: str,
    ) -> KeptAnswer:
        """Record what parts weigh, all or nothing: ``shop.weigh("X-1007", head="298.2 g", grip="49.6 g")``.

        Args:
            club: Ticket number, or the name that the job goes by.
            masses: The mass of each part as weighed, by its table on the ticket; of more parts than can be named below.
            gauge: The scale, by its name on the ticket; the usual one where it is not said.
            step: Step of the plan that is done with it; it is ticked once nothing that it needs is missing.
            key: Idempotency key: the same key again never records twice.
            **parts: The same, with the table as the name: ``head``, ``shaft``, ``grip``, ``ferrule``, ``old_grip`` ...

        Raises:
            InputError: for what cannot be taken, with every finding; nothing is kept.
        """
        weighed = {f"{part}.mass": mass for part, mass in {**masses, **parts}.items()}
        gauges = {} if gauge is None else {"mass": gauge}
        return self.figures(club, weighed, gauges=gauges, step=step, key=key)

    def forgetting(self, player: str, *, also: Sequence[str] = ()) -> LookAnswer:
        """Say what `forget` would erase, and what it does not reach; nothing is changed.

        Args:
            player: Name, as a ticket says it.
            also: More that is theirs: another name, a telephone number.
        """
        return look_part(look_before(self._session(), player, list(also)))

    def forget(
        self, player: str, *, asked_by: str, facts: int, also: Sequence[str] = (), key: str | None = None
    ) -> ForgottenAnswer:
        """Erase a player's name from the record, for good."""
        given = {"player": player, "asked_by": asked_by, "facts": facts, "also": also}
        done = self._kept(self._session(), "forget", key, given).forgotten
        assert done is not None  # it erases
        return forgotten_part(done)

    def backup(self, path: Path | str) -> int:
        """Copy the record to a file while it is in use, read the copy back, and return how many facts it holds.

        A record in memory is kept so: name the file ``record.sqlite`` in a folder, and `Shop` opens that folder.

        Raises:
            RecordError: when the file is there already, or the copy does not hold every fact; then no file is left.
        """
        return self._session().ledger.backup(Path(path))

    def merge(self, other: Path | str) -> MergedAnswer:
        """Take in what another bench wrote into its own record: all of it, or nothing where some could not have happened.

        Args:
            other: Folder or address of the other record; it is only read.

        Returns:
            How much was new, and what both together leave to be decided: numbers given away twice, what was read apart.

        Raises:
            InputError: with every finding, when any fact could not have happened; nothing is taken in.
            RecordError: when there is no such record.
        """
        return merged(self._session(), read_facts(str(other)))

    def _session(self, *, make: bool = False) -> Session:
        if not self._closed.alive:
            raise RecordError("this shop is closed: open it again with clubwright.Shop")
        if self._open is None:
            if not make:
                what = f'there is no record in "{self._folder}"'
                raise RecordError(f"{what}: name its folder, or begin one by taking a ticket: shop.take(ticket)")
            session = open_session(self._folder, by=self.by, site=self.site, shop_file=self._file, now=self._now)
            self._open = self._stack.enter_context(session)
        return self._open

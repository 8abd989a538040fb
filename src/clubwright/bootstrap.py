"""Open a workshop: the record in its folder, wired to the services."""

from __future__ import annotations

import getpass
import os
import tomllib
import uuid
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import msgspec

from clubwright.errors import RecordError
from clubwright.importers.shop_file import load_shop, settings_in
from clubwright.journal.facts import Fact
from clubwright.notation.own import AS_THE_SHOP, CHOICES, Own
from clubwright.services.record.session import Session
from clubwright.store.engine import READING, open_engine, open_in_memory
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import HEAD, current_form, migrate
from clubwright.ticket.shop.settings import NO_SETTINGS, ShopSettings

RECORD = "record.sqlite"
SITE_VARIABLE = "CLUBWRIGHT_SITE"
"""Environment variable that names the bench, where several share one record or bring theirs together."""
BY_VARIABLE = "CLUBWRIGHT_BY"
"""Environment variable that names who works."""
PEOPLE = "people.toml"
PEOPLE_VARIABLE = "CLUBWRIGHT_PEOPLE"
"""Environment variable that says where the people are kept, where it is not in the workshop's folder."""
BESIDE = (PEOPLE, "secret", f"{RECORD}-journal")
"""Files that a workshop's folder only ever has beside a record: its people, the page's secret, an action half-way."""


@contextmanager
def open_session(
    shop: str | None,
    *,
    by: str,
    site: str = "bench",
    shop_file: Path | None = None,
    now: Callable[[], datetime] | None = None,
) -> Iterator[Session]:
    """Open a session on a workshop's record, making the record when it is not there yet.

    Args:
        shop: A folder, whose record is a SQLite file in it; a ``postgresql://`` address that several benches share; or None
            for a record in memory, which is gone when the session ends.
        by: Who works.
        site: Which bench.
        shop_file: The shop's settings; those in the folder, if there are any, when None.
        now: The time; the clock of this computer when None.

    Raises:
        InputError: when a file of settings is named and cannot be opened.
    """
    if shop is not None:
        _refuse_lost(shop)
    load_shop(shop_file)
    engine = open_in_memory() if shop is None else open_engine(record_url(shop))
    try:
        migrate(engine)
        ledger = Ledger(engine)
        with suppress(RecordError), ledger.index():
            pass  # an older record gets its index here, and not when the first list is waited for
        yield Session(
            ledger=ledger,
            site=site,
            by=by,
            now=now or _now,
            new_key=_new_key,
            local=_local,
            settings=lambda: shop_settings(shop or "", shop_file),
            own=AS_THE_SHOP if shop is None else own_settings(shop, by),
        )
    finally:
        engine.dispose()


def shop_settings(shop: str, shop_file: Path | None = None) -> ShopSettings:
    """Read the settings of a workshop as they are now: of the file named, else of the one in its folder, else none.

    They are read each time they are asked for, so that a page that is served goes by them as soon as they are saved.

    Args:
        shop: Folder or address of the workshop; empty when none is named.
        shop_file: The file that is named.
    """
    if shop_file is not None:
        return load_shop(shop_file)
    return NO_SETTINGS if not shop or is_address(shop) else settings_in(Path(shop))


def people_path(shop: str, environment: Mapping[str, str]) -> Path | None:
    """Return where a workshop keeps its people; None for a shared record without a place named."""
    named = environment.get(PEOPLE_VARIABLE)
    if named:
        return Path(named)
    return None if is_address(shop) else Path(shop) / PEOPLE


def own_settings(shop: str, by: str) -> Own:
    """Read how a person of a workshop reads and types; as the shop says where they are not among its people.

    Nothing is refused here for what is wrong with the file: it keeps the door, and whoever opens that says so.
    """
    path = people_path(shop, os.environ)
    try:
        people = {} if path is None else tomllib.loads(path.read_text(encoding="utf-8")).get("person", {})
        person = msgspec.convert(people, dict[str, dict[str, Any]]).get(by, {})
        return msgspec.convert({key: person[key] for key in CHOICES if key in person}, Own)
    except (OSError, ValueError, msgspec.MsgspecError):
        return AS_THE_SHOP


def read_facts(shop: str) -> list[Fact]:
    """Return all facts of a record that is only read: it is neither made nor brought up to date.

    Raises:
        RecordError: when there is none, or it is not of the form that this version reads.
    """
    if not has_record(shop):
        raise RecordError(f'there is no record in "{shop}": name the folder that holds the other bench\'s')
    engine = open_engine(record_url(shop))
    try:
        with engine.connect().execution_options(**{READING: True}) as connection:
            form = current_form(connection)
        if form != HEAD:
            raise RecordError(
                f'the record in "{shop}" is of form {form or "none"}, and this version reads {HEAD}: work on it once with '
                "this version, or bring this one up to date"
            )
        return Ledger(engine).facts()
    finally:
        engine.dispose()


@contextmanager
def open_copy(file: Path) -> Iterator[Ledger]:
    """Open a copy of a record, such as a backup, to be written.

    Raises:
        RecordError: when there is no such file, or it is no record.
    """
    if not file.is_file():
        raise RecordError(f"there is no file {file}: name the backup itself")
    engine = open_engine(f"sqlite:///{file}")
    try:
        migrate(engine)
        yield Ledger(engine)
    finally:
        engine.dispose()


def is_address(shop: str) -> bool:
    """True for a workshop that is named by the address of its record, false for one named by its folder."""
    return "://" in shop


def record_url(shop: str) -> str:
    """Return the address of a workshop's record; its folder is made when it is not there.

    Raises:
        RecordError: when the folder is a file.
    """
    if is_address(shop):
        return shop.replace("postgresql://", "postgresql+psycopg://", 1)
    folder = Path(shop)
    if folder.exists() and not folder.is_dir():
        raise RecordError(f"{folder} is a file: name the folder of the workshop's record")
    folder.mkdir(parents=True, exist_ok=True)
    return f"sqlite:///{folder / RECORD}"


def _refuse_lost(shop: str) -> None:
    """Refuse to begin a record anew where there was one: what is only ever made beside a record is still there."""
    left = [name for name in BESIDE if (Path(shop) / name).exists()] if not has_record(shop) else []
    if left:
        raise RecordError(
            f"{Path(shop) / RECORD} is gone, and {', '.join(left)} beside it shows that there was one. Put the record, or "
            "the last backup that verifies, back in its place. To begin anew for good, first move the rest elsewhere"
        )


def has_record(shop: str) -> bool:
    """Say whether a folder holds a workshop's record already; an address is asked when it is opened."""
    return is_address(shop) or (Path(shop) / RECORD).exists()


def person_here(by: str | None) -> str:
    """Return who works: as said, else by the environment, else the name of the account."""
    return by or os.environ.get(BY_VARIABLE) or os.environ.get("USER") or getpass.getuser()


def bench_here(site: str | None = None) -> str:
    """Return which bench it is: as said, else by the environment."""
    return site or os.environ.get(SITE_VARIABLE) or "bench"


def _now() -> datetime:
    return datetime.now(UTC)


def _local(moment: datetime) -> datetime:
    """Put a moment into this computer's own time, summer time as it is at that moment."""
    return moment.astimezone()


def _new_key() -> str:
    return uuid.uuid4().hex

"""What keeps the door: the secret, the people, the sessions, the counters. Made once when the program starts."""

from __future__ import annotations

import base64
import binascii
import hashlib
import hmac
import os
import secrets
from collections.abc import Mapping
from contextlib import suppress
from datetime import datetime, timedelta
from pathlib import Path

import msgspec

from clubwright.bootstrap import PEOPLE_VARIABLE, is_address, people_path
from clubwright.errors import NotPossible
from clubwright.store.files import make_private
from clubwright.web.guard.people import PeopleFile, Person, require_private
from clubwright.web.guard.signed_out import FILE as SIGNED_OUT
from clubwright.web.guard.signed_out import SignedOut
from clubwright.web.guard.throttle import Buckets, WrongPins
from clubwright.web.settings import WebSettings

SECRET_FILE = "secret"  # noqa: S105 - the name of the file
SECRET_VARIABLE = "CLUBWRIGHT_SECRET"  # noqa: S105 - its name
SHORTEST_SECRET = 32
SESSION = timedelta(hours=10)
"""A working day: then everybody signs in again."""


class Ticket(msgspec.Struct, frozen=True, array_like=True):
    """What a session cookie says: who, until when (seconds since 1970), and a number of its own."""

    name: str
    until: int
    number: str


class Access:
    """The door of one served workshop.

    Attributes:
        open_network: Whether everybody signs in.
        people: Who may.
        wrong_pins: Counts wrong PINs.
        requests: Counts requests.
    """

    def __init__(self, secret: bytes, people: PeopleFile | None) -> None:
        self._secret = secret
        self.people = people
        self.open_network = people is not None
        self.wrong_pins = WrongPins()
        # 8 tablets that redraw at every fact of the others, and somebody turning pages: far below this
        self.requests = Buckets(burst=400, per_second=40)
        self._signed_out = SignedOut(None if people is None else people.path.with_name(SIGNED_OUT))
        # Cookies know no port: two workshops on one computer must not overwrite each other's.
        mark = self.seal("names of cookies")[:6]
        self.visit_cookie, self.session_cookie = f"visit-{mark}", f"session-{mark}"

    def seal(self, text: str) -> str:
        """Return the mark that only this workshop can put on a text."""
        return hmac.new(self._secret, text.encode("utf-8"), hashlib.sha256).hexdigest()

    def sealed(self, text: str, mark: str) -> bool:
        """True when a mark is this workshop's for a text."""
        return hmac.compare_digest(self.seal(text).encode(), mark.encode("utf-8"))

    def person(self, name: str) -> Person | None:
        """Return a person as the file has them now."""
        return None if self.people is None else self.people.people().get(name)

    def new_session(self, name: str, person: Person, now: datetime) -> str:
        """Return a session cookie; it ends with the working day, at sign-out, and with the PIN it was opened by."""
        until = int((now + SESSION).timestamp())
        body = msgspec.json.encode(Ticket(name, until, secrets.token_hex(8)))
        text = base64.urlsafe_b64encode(body).decode().rstrip("=")
        return f"{text}.{self.seal(f'session {text} {person.pin}')}"

    def session(self, cookie: str, now: datetime) -> tuple[str, Person] | None:
        """Return who a session cookie belongs to; None when it is nobody's any more."""
        text, _, mark = cookie.partition(".")
        ticket = _ticket(text)
        if ticket is None or ticket.until <= now.timestamp() or ticket.number in self._signed_out:
            return None
        person = self.person(ticket.name)
        if person is None or not self.sealed(f"session {text} {person.pin}", mark):
            return None
        return ticket.name, person

    def still_in(self, cookie: str, now: datetime) -> bool:
        """True while whoever sends this cookie may look on: everybody on loopback, else while their session lasts."""
        return not self.open_network or self.session(cookie, now) is not None

    def sign_out(self, cookie: str, now: datetime) -> None:
        """End a session, also for whoever has a copy of its cookie."""
        if self.session(cookie, now) is None:
            return
        ticket = _ticket(cookie.partition(".")[0])
        assert ticket is not None  # as the session was
        self._signed_out.add(ticket.number, ticket.until, now.timestamp())


def _ticket(text: str) -> Ticket | None:
    with suppress(ValueError, binascii.Error, msgspec.DecodeError):
        return msgspec.json.decode(
            base64.urlsafe_b64decode(text.encode("ascii") + b"=" * (-len(text) % 4)), type=Ticket
        )
    return None


def open_access(settings: WebSettings, environment: Mapping[str, str] | None = None) -> Access:
    """Make the door of a workshop, and its secret on first use.

    Raises:
        NotPossible: when the network is to be opened and nobody may sign off, or others can read secret or people.
    """
    given = os.environ if environment is None else environment
    people = people_path(settings.shop, given)
    if not settings.open_network:
        return Access(_secret(settings.shop, given, careful=False), None)
    if people is None:
        raise NotPossible("this workshop has no folder for its people", f"Set {PEOPLE_VARIABLE} to a file's path.")
    file = PeopleFile(people)
    if not any(person.role == "sign off" for person in file.people().values()):
        command = f'clubwright person NAME --role "sign off" --shop {settings.shop}'
        raise NotPossible("nobody may sign off yet, so the network stays closed", f"Add somebody with `{command}`.")
    return Access(_secret(settings.shop, given, careful=True), file)


def _secret(shop: str, environment: Mapping[str, str], *, careful: bool) -> bytes:
    named = environment.get(SECRET_VARIABLE, "")
    if named:
        if len(named) < SHORTEST_SECRET:
            what = f"{SECRET_VARIABLE} has {len(named)} characters"
            raise NotPossible(what, f"Take at least {SHORTEST_SECRET} random ones.")
        return named.encode("utf-8")
    folder = Path(shop)
    if is_address(shop) or not folder.is_dir():
        if careful:
            raise NotPossible("this workshop has no folder for its secret", f"Set {SECRET_VARIABLE}.")
        return secrets.token_bytes(SHORTEST_SECRET)
    return _secret_of(folder / SECRET_FILE, careful=careful)


def _secret_of(path: Path, *, careful: bool) -> bytes:
    try:
        if not path.exists():
            make_private(path, secrets.token_hex(SHORTEST_SECRET).encode("ascii"))
    except OSError as refused:
        if careful:
            raise NotPossible(f"{path} cannot be written: {refused.strerror}", "Look at the folder's rights.") from None
        return secrets.token_bytes(SHORTEST_SECRET)
    try:
        require_private(path)
        found = path.read_bytes().strip()
    except (NotPossible, OSError):
        if careful:
            raise
        # On a stick that knows no rights: nobody signs in on loopback, so a secret for this run is enough.
        return secrets.token_bytes(SHORTEST_SECRET)
    if len(found) < SHORTEST_SECRET:
        raise NotPossible(f"{path} is too short to be a secret", "Delete it; a new one is made at the next start.")
    return found

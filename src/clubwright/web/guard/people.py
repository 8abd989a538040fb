"""The people of the workshop: names, roles and hashed PINs, in a file that only the workshop's account can read."""

from __future__ import annotations

import itertools
import os
import stat
import threading
import tomllib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import msgspec
import tomlkit
from argon2 import PasswordHasher
from argon2.exceptions import Argon2Error, InvalidHashError

from clubwright.bootstrap import PEOPLE
from clubwright.errors import Finding, InputError, NotPossible
from clubwright.notation.own import Own
from clubwright.services.checks.roles import ROLES, Role
from clubwright.store.files import write_private

FILE = PEOPLE
HEAD = "Who may come in over the network. Written by `clubwright person`; PINs are hashed."
SHORTEST, LONGEST = 6, 12
"""Digits of a PIN."""
LONGEST_NAME = 40


class Person(Own, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One person, with how they read and type where it is not as the shop says.

    Attributes:
        role: What they may do.
        pin: argon2id hash of the PIN.
    """

    role: Role
    pin: str


People = dict[str, Person]


def read_people(path: Path) -> People:
    """Return the people of a file; none where there is no file.

    Raises:
        NotPossible: when others can read or write the file, or it is not what `clubwright person` writes.
    """
    if not path.exists():
        return {}
    require_private(path)
    try:
        return msgspec.convert(tomllib.loads(path.read_text(encoding="utf-8")).get("person", {}), People)
    except (ValueError, msgspec.ValidationError) as broken:
        raise NotPossible(
            f"{path} cannot be read: {broken}", "Take a copy, delete it, and add the people anew."
        ) from None


def write_people(path: Path, people: Mapping[str, Person]) -> None:
    """Write the file whole, or not at all, for this account only; after that, no power cut brings the old one back."""
    written = tomlkit.document()
    written.add(tomlkit.comment(HEAD))
    written["person"] = {name: msgspec.to_builtins(person) for name, person in sorted(people.items())}
    write_private(path, tomlkit.dumps(written).encode("utf-8"))


def require_private(path: Path) -> None:
    """Refuse a file that other accounts of this computer can read or write.

    Raises:
        NotPossible: when they can.
    """
    loose = stat.S_IMODE(path.stat().st_mode) & 0o077
    if os.name == "posix" and loose:
        raise NotPossible(f"{path} can be read by other accounts of this computer", f"Run `chmod 600 {path}`.")


def with_person(people: Mapping[str, Person], name: str, role: str, pin: str) -> People:
    """Return the people with one added, or with a new role and PIN.

    Raises:
        InputError: with every finding about name, role and PIN.
    """
    findings = [*_name_findings(people, name), *pin_findings(pin)]
    known: dict[str, Role] = {item: item for item in ROLES}
    if role not in known:
        findings.append(Finding(where="--role", what=f'"{role}" is no role', mend="Write look, work or sign off."))
    if findings:
        raise InputError(findings)
    said = people[name].said() if name in people else {}
    return {**people, name: msgspec.convert({"role": known[role], "pin": hasher().hash(pin), **said}, Person)}


def with_own(people: Mapping[str, Person], name: str, own: Own) -> People:
    """Return the people with how one of them reads and types; role and PIN stay.

    Raises:
        InputError: when there is no such person.
    """
    _require_one(people, name)
    person = people[name]
    return {**people, name: msgspec.convert({"role": person.role, "pin": person.pin, **own.said()}, Person)}


def without_person(people: Mapping[str, Person], name: str) -> People:
    """Return the people without one.

    Raises:
        InputError: when there is no such person.
    """
    _require_one(people, name)
    return {other: person for other, person in people.items() if other != name}


def _require_one(people: Mapping[str, Person], name: str) -> None:
    if name not in people:
        mend = "There are: " + ", ".join(sorted(people)) + "." if people else "There is nobody yet."
        raise InputError([Finding(where="name", what=f'nobody here is called "{name}"', mend=mend)])


def _name_findings(people: Mapping[str, Person], name: str) -> list[Finding]:
    mend = f"Write 1 to {LONGEST_NAME} letters, as it shall stand in the record."
    if not name or name != name.strip() or len(name) > LONGEST_NAME or not name.isprintable():
        return [Finding(where="name", what=f"{name!r} is no name", mend=mend)]
    alike = [other for other in people if other.casefold() == name.casefold() and other != name]
    if alike:
        what = f'"{name}" could be taken for "{alike[0]}"'
        return [Finding(where="name", what=what, mend="Write it the same way, or add a second name.")]
    return []


def pin_findings(pin: str) -> list[Finding]:
    """Say why a PIN is not taken; the PIN itself is never repeated."""
    mend = f"Take {SHORTEST} to {LONGEST} digits that nobody would try first."
    if not (pin.isascii() and pin.isdecimal()):
        return [Finding(where="PIN", what="it must be digits only", mend=mend)]
    if not SHORTEST <= len(pin) <= LONGEST:
        return [Finding(where="PIN", what=f"it has {len(pin)} digits", mend=mend)]
    if _trivial(pin):
        return [Finding(where="PIN", what="it is one of the first that anybody would try", mend=mend)]
    return []


def _trivial(pin: str) -> bool:
    """True for one or two digits only, a run up or down (also past 9), or a short piece repeated."""
    steps = {(int(b) - int(a)) % 10 for a, b in itertools.pairwise(pin)}
    repeated = any(pin == (pin[:size] * len(pin))[: len(pin)] for size in range(1, len(pin) // 2 + 1))
    return len(set(pin)) < 3 or steps in ({1}, {9}) or repeated


@cache
def hasher() -> PasswordHasher:
    """Return the argon2id hasher with the library's parameters (RFC 9106, the low-memory profile)."""
    return PasswordHasher()


@cache
def _nobody() -> str:
    return hasher().hash("nobody's PIN")


_ONE_AT_A_TIME = threading.Lock()


def pin_is_right(person: Person | None, pin: str) -> bool:
    """Check a PIN; for an unknown name it takes as long, so that names cannot be found out by the clock."""
    try:
        # one at a time: each takes 64 MB for a moment, and a flood of tries must not take the bench's memory
        with _ONE_AT_A_TIME:
            hasher().verify(_nobody() if person is None else person.pin, pin)
    except (Argon2Error, InvalidHashError):
        return False
    return person is not None


class PeopleFile:
    """The file, read anew when it has changed: a removed person is out at their next tap."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._stamp: tuple[Any, ...] = ()
        self._people: People = {}

    def people(self) -> People:
        """Return the people as they are now."""
        try:
            found = self.path.stat()
        except FileNotFoundError:
            return {}
        stamp = (found.st_mtime_ns, found.st_size, found.st_ino, found.st_mode)
        if stamp != self._stamp:
            self._people, self._stamp = read_people(self.path), stamp
        return self._people

    def keep_own(self, name: str, own: Own) -> None:
        """Keep how a person reads and types, beside what the file says of everybody now."""
        with _ONE_AT_A_TIME:
            write_people(self.path, with_own(self.people(), name, own))

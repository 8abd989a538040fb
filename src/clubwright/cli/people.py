"""Who may come in over the workshop's network: add, change and remove people, and list them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.options import SHOP, Json, Shop

if TYPE_CHECKING:
    from clubwright.notation.own import Own


def person(
    name: Annotated[str, Parameter(help="Name, as it shall stand in the record.")],
    /,
    *,
    role: Annotated[
        str | None, Parameter(help='What they may do: "look", "work" (when left out) or "sign off".')
    ] = None,
    remove: Annotated[
        bool, Parameter(help="Take the person out; they are out at their next tap.", negative=())
    ] = False,
    language: Annotated[
        str | None, Parameter(help='What they read: "en" or "de". Such words keep PIN and role.')
    ] = None,
    decimal: Annotated[str | None, Parameter(help='Decimal mark they read and type: "point" or "comma".')] = None,
    length: Annotated[
        str | None, Parameter(help='Lengths first in "fractional inches", "decimal inches" or "mm".')
    ] = None,
    temperature: Annotated[str | None, Parameter(help='Temperatures first in "C" or "F".')] = None,
    bare_length: Annotated[
        str | None, Parameter(help='Unit of a length they type without one: "mm", or "refused".')
    ] = None,
    pin_stdin: Annotated[
        bool, Parameter(help="Read the PIN from the standard input instead of asking twice.", negative=())
    ] = False,
    shop: Shop = SHOP,
    json: Json = False,
) -> None:
    """Let a person in over the network with a PIN of their own, or take them out; the same name again is a new PIN.

    How they read and type is said beside it, or later: it holds for them on every tablet and with `--by NAME`, and stands
    before what the shop says. "shop" takes a word back.
    """
    from clubwright.cli.output import print_json, print_lines
    from clubwright.web.guard.people import read_people, with_own, with_person, without_person, write_people

    path = _path(shop)
    _begin_record(shop)
    people = read_people(path)
    given = {
        "language": language,
        "decimal": decimal,
        "length": length,
        "temperature": temperature,
        "bare_length": bare_length,
    }
    own = _own(given)
    if remove:
        write_people(path, without_person(people, name))
        said = f"{name} is out."
    else:
        if not any(given.values()) or name not in people or role is not None or pin_stdin:
            people = with_person(people, name, role or "work", _pin(asked=not pin_stdin))
        people = with_own(people, name, _over(own, given, people[name]))
        write_people(path, people)
        said = f'{name} may "{people[name].role}".{_reads(people[name])}'
    if json:
        told = {} if remove else people[name].said()
        print_json({"name": name, "removed": remove, "role": None if remove else people[name].role, **told})
    else:
        print_lines([said])


def people(*, shop: Shop = SHOP, json: Json = False) -> None:
    """List who may come in over the network, and what they may do."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.web.guard.people import read_people

    found = read_people(_path(shop))
    if json:
        print_json([{"name": name, "role": item.role, **item.said()} for name, item in sorted(found.items())])
    elif found:
        print_lines(table((name, item.role, ", ".join(item.said().values())) for name, item in sorted(found.items())))
    else:
        print_lines(['Nobody yet: `clubwright person NAME --role "sign off"` adds the first.'])


AS_THE_SHOP_SAYS = "shop"
"""Takes back what a person said for themselves."""


def _own(given: Mapping[str, str | None]) -> Own:
    from clubwright.notation.own import own_of

    said = {key: text for key, text in given.items() if text and text != AS_THE_SHOP_SAYS}
    return own_of(said, {key: f"--{key.replace('_', '-')}" for key in given})


def _over(own: Own, given: Mapping[str, str | None], before: Own) -> Own:
    """Return what is said now, and of before what nobody takes back."""
    from clubwright.notation.own import own_of

    return own.over(own_of({key: text for key, text in before.said().items() if given[key] != AS_THE_SHOP_SAYS}))


def _reads(person: Own) -> str:
    said = person.said()
    return f" Reads and types: {', '.join(said.values())}." if said else ""


def _path(shop: str) -> Path:
    import os

    from clubwright.bootstrap import PEOPLE_VARIABLE, people_path
    from clubwright.errors import NotPossible

    path = people_path(shop, os.environ)
    if path is None:
        raise NotPossible("this workshop has no folder for its people", f"Set {PEOPLE_VARIABLE} to a file's path.")
    return path


def _begin_record(shop: str) -> None:
    """Make the workshop's folder and its record, so that people without a record beside them mean that it was lost."""
    from clubwright.bootstrap import has_record, open_session

    if not has_record(shop):
        with open_session(shop, by="bench"):
            pass


def _pin(*, asked: bool) -> str:
    import getpass
    import sys

    from clubwright.errors import Finding, InputError

    if not asked:
        return sys.stdin.readline().strip()
    first = getpass.getpass("PIN: ")
    if getpass.getpass("Once more: ") != first:
        raise InputError([Finding(where="PIN", what="the two are not the same", mend="Type the same PIN twice.")])
    return first

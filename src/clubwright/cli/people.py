"""Who may come in over the workshop's network: add, change and remove people, and list them."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.options import SHOP, Json, Shop


def person(
    name: Annotated[str, Parameter(help="Name, as it shall stand in the record.")],
    /,
    *,
    role: Annotated[str, Parameter(help='What they may do: "look", "work" or "sign off".')] = "work",
    remove: Annotated[
        bool, Parameter(help="Take the person out; they are out at their next tap.", negative=())
    ] = False,
    pin_stdin: Annotated[
        bool, Parameter(help="Read the PIN from the standard input instead of asking twice.", negative=())
    ] = False,
    shop: Shop = SHOP,
    json: Json = False,
) -> None:
    """Let a person in over the network with a PIN of their own, or take them out; the same name again is a new PIN."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.web.guard.people import read_people, with_person, without_person, write_people

    path = _path(shop)
    _begin_record(shop)
    people = read_people(path)
    if remove:
        write_people(path, without_person(people, name))
        said = f"{name} is out."
    else:
        write_people(path, with_person(people, name, role, _pin(asked=not pin_stdin)))
        said = f'{name} may "{role}".'
    if json:
        print_json({"name": name, "removed": remove, "role": None if remove else role})
    else:
        print_lines([said])


def people(*, shop: Shop = SHOP, json: Json = False) -> None:
    """List who may come in over the network, and what they may do."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.web.guard.people import read_people

    found = read_people(_path(shop))
    if json:
        print_json([{"name": name, "role": item.role} for name, item in sorted(found.items())])
    elif found:
        print_lines(table((name, item.role) for name, item in sorted(found.items())))
    else:
        print_lines(['Nobody yet: `clubwright person NAME --role "sign off"` adds the first.'])


def _path(shop: str) -> Path:
    import os

    from clubwright.errors import NotPossible
    from clubwright.web.guard.access import PEOPLE_VARIABLE, people_path

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

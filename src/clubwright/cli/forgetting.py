"""The command that erases a player's name, looks at what it would erase, and brings a backup up to what was erased."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.acting import session_at
from clubwright.cli.options import SHOP, By, Json, Key, Shop

if TYPE_CHECKING:
    from clubwright.services.record.session import Session
    from clubwright.services.told.erased import LookAnswer

MOST_SHOWN = 40
"""So many texts that remain are shown on the screen; --json gives all."""
LONGEST = 100
"""Characters of each that are shown."""


def forget(
    player: Annotated[str | None, Parameter(help="Name, as a ticket says it.")] = None,
    /,
    *,
    asked_by: Annotated[
        str, Parameter(help='Who asked for it, without the name: "the player, by letter". It is kept.')
    ] = "",
    also: Annotated[
        list[str] | None, Parameter(help="More that is theirs: another name, a telephone number. Once for each.")
    ] = None,
    facts: Annotated[
        int | None, Parameter(help="Erase: how many facts hold the name, as shown when this is left out.")
    ] = None,
    apply_to: Annotated[
        Path | None, Parameter(help="An earlier backup: bring it up to this record, with the same erased in it.")
    ] = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Erase a player's name from the record, for good; without --facts, show what would be erased."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.errors import Finding, InputError
    from clubwright.services.actions import door
    from clubwright.services.actions.forgetting import look_before
    from clubwright.services.actions.forgetting_part import forgotten_part, look_part
    from clubwright.services.actions.register.payloads_record import Forgetting

    if (player is None) == (apply_to is None):
        mend = "Give the name of a player, or --apply-to FILE."
        raise InputError([Finding(where="forget", what="one of two is needed", mend=mend)])
    with session_at(shop, by) as session:
        if apply_to is not None:
            _apply(session, apply_to, as_json=json)
            return
        assert player is not None  # one of the two is given
        if facts is None:
            part: LookAnswer = look_part(look_before(session, player, also or ()))
        else:
            payload = Forgetting(player=player, asked_by=asked_by, facts=facts, also=also or [])
            done = door.act(session, "forget", payload, key).forgotten
            assert done is not None  # of an action that erases
            part = forgotten_part(done)
    if json:
        print_json(part)
    else:
        print_lines(_lines(part))


def _apply(session: Session, file: Path, *, as_json: bool) -> None:
    from clubwright.bootstrap import open_copy
    from clubwright.cli.output import print_json, print_lines
    from clubwright.services.recording.erasing_merge import apply_erasures

    with open_copy(file) as copy:
        done = apply_erasures(session, copy)
    if as_json:
        print_json(done)
        return
    print_lines(
        [
            f"Erased in {done.erased} facts of {file}; it took in {done.new} newer ones, holds {done.facts}, and is whole."
        ]
    )


def _lines(part: LookAnswer) -> list[str]:
    from clubwright.services.told.erased import ForgottenAnswer

    done = isinstance(part, ForgottenAnswer)
    verb = "Erased" if done else "Would erase"
    jobs = f" (jobs {', '.join(part.jobs)})" if part.jobs else ""
    lines = [f"{verb} {part.texts} texts in {part.facts} facts{jobs}."]
    if isinstance(part, ForgottenAnswer):
        lines.append(f"The player is now {part.person}; kept as {', '.join(part.written)}.")
    rest = part.remaining
    if rest:
        lines += ["", "LOOK AT THESE: they may still say who it is. --also erases more words; the rest stays."]
        lines += [f"{item.place} {item.job} {item.path}: {item.text[:LONGEST]}" for item in rest[:MOST_SHOWN]]
        lines += [f"and {len(rest) - MOST_SHOWN} more (--json)"] if len(rest) > MOST_SHOWN else []
    lines += ["", "NOT REACHED", *part.unreached]
    if not done:
        lines += ["", "Nothing was erased. It cannot be undone; to erase, run it again with --asked-by and:"]
        lines.append(f"--facts {part.facts}")
    return lines

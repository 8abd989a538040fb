"""The page that lists every bench action, written from the register, so that it cannot go stale."""

from __future__ import annotations

from collections.abc import Sequence
from pkgutil import resolve_name
from typing import Any, get_args, get_origin

from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.facets import gate_of, role_depends, role_of, steps_of
from clubwright.services.actions.register.fields import Said, fields_of
from clubwright.services.actions.register.python import JOB, method_of, parameters_of

OPENING = """\
# The bench actions

Every action that is kept in the record, as the register has it: page, command line, `/api` and Python look it up there, ask
for the same, and leave the same behind. A program posts to `/api` and the route given here, with its fields as JSON; values
are the texts that a person would type ([what you may type](user/notation.md)). [From Python](user/python.md) each is a
method of `clubwright.Shop`.

- **Role**: what a person must be allowed to do at least. To reverse something takes the role of what is reversed.
- **Gate**: in a build or re-shaft it must be open and signed before; nothing goes past it. What is out of spec, open or
  unread is overruled only by name (`accept`), a step is passed over only with what is left out (`done --skip`): alike on
  every way in.
- **Step**: the step of the plan that is done with it; ticked only once nothing that the step needs is missing. What is
  missing is said, and what was measured is kept all the same.

A field marked * is needed."""


def actions_page() -> str:
    """Return the page as Markdown."""
    parts = [OPENING, "## All actions", _table(_HEADER, [_row(action) for action in ACTIONS.values()])]
    for action in ACTIONS.values():
        parts += [f"## `{action.key}`", _told(action)]
        rows = [_field(action, field) for field in fields_of(action.payload)]
        header = _FIELD_HEADER if action.command else _FIELD_HEADER[:-1]
        parts.append(_table(header, rows) if rows else "It asks for nothing more.")
    return "\n\n".join(parts) + "\n"


_HEADER = ("Action", "What it does", "Role", "Gate", "Step", "Command", "Route")
_FIELD_HEADER = ("Field", "What it is", "Kind", "On the command line")
_OWN_COMMANDS = {
    "take": "take TICKET.toml",
    "trace": "trace RECORD --job JOB",
    "family": "family JOB --use",
    "forget": "forget PLAYER",
}
"""Commands that do more than read their words."""


def _row(action: Action) -> tuple[str, ...]:
    words = [field.name.upper() for field in fields_of(action.payload) if field.first]
    command = _OWN_COMMANDS.get(action.key) or " ".join([action.key, "JOB", *words])
    steps = ", ".join(steps_of(action)) or ("the one that is named" if action.names_step else "")
    role = f"{role_of(action)}, or that of what is reversed" if role_depends(action) else role_of(action)
    return (f"`{action.key}`", action.says, role, gate_of(action), steps, f"`{command}`", f"`POST {action.route}`")


def _told(action: Action) -> str:
    writes = ", ".join(action.writes) + (f" (of: {', '.join(action.undoes)})" if action.undoes else "")
    touches = f" It touches: {', '.join(action.touches)}." if action.touches else ""
    told = f"{action.more or action.says} From Python: `{_call(action)}`."
    answers = f" It answers with: {resolve_name(action.answers).__name__}."
    return f"{told} It writes: {writes}. It is decided on: {action.decides}.{touches}{answers}"


def _call(action: Action) -> str:
    """Return how the action is called on a `clubwright.Shop`, what may be left out in brackets."""
    if action.key == "take":
        return "shop.take(ticket, [club=])"
    given = parameters_of(action)
    asked = [JOB] if action.on_a_job else []
    asked += [item.name if item.needed else f"[{item.name}]" for item in given if item.placed]
    asked += [f"{item.name}=" if item.needed else f"[{item.name}=]" for item in given if not item.placed]
    return f"shop.{method_of(action)}({', '.join(asked)})"


def _field(action: Action, field: Said) -> tuple[str, ...]:
    option = field.name.upper() if field.first else f"--{field.command}"
    if field.choices is not None:
        option = " or ".join(field.choices)
    example = f" Such as `{field.example}`." if field.example and field.example not in field.meaning else ""
    cells = (f"`{field.name}`{' *' if field.needed else ''}", field.meaning + example, _kind(field.kind))
    return (*cells, f"`{option}`") if action.command else cells


def _kind(kind: Any) -> str:
    origin = get_origin(kind)
    if origin is list:
        return "texts"
    if origin is dict:
        return "texts by name" if get_args(kind)[1] is str else "tables"
    if origin is not None:
        return "one of " + ", ".join(f"`{word}`" for word in get_args(kind))
    return {str: "text", int: "number", bool: "yes or no"}[kind]


def _table(header: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    lines = [header, ["---"] * len(header), *rows]
    return "\n".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in lines)

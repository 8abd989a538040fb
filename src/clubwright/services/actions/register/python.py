"""How an action is called from Python: the name of its method on `clubwright.Shop`, and that method's parameters."""

from __future__ import annotations

from typing import Any, get_args, get_origin

import msgspec

from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.fields import Said, fields_of

JOB = "club"
"""The parameter that says which job: its ticket number, or the name that it goes by."""

OF_ANOTHER = {"club": "earlier"}
"""Fields that would have the name of that parameter."""

PLACED = {("read", "stage")}
"""Fields that may be given without their name although the command line asks for it."""


class Parameter(msgspec.Struct, frozen=True, kw_only=True):
    """One parameter of a method, without the job and the idempotency key.

    Attributes:
        name: Its name: that of the field, or of the option on the command line where that is another one.
        field: The field of the payload.
        placed: Whether it may be given without its name.
        needed: Whether it must be given.
        annotation: Its type, as Python writes it.
        default: What is taken where it is not given, as Python writes it; empty where it must be.
    """

    name: str
    field: Said
    placed: bool
    needed: bool
    annotation: str
    default: str


def method_of(action: Action) -> str:
    """Return the name of an action's method."""
    return action.key.replace("-", "_")


def parameters_of(action: Action) -> tuple[Parameter, ...]:
    """Return the parameters of an action's method, those that may be given without their name first."""
    found = [_parameter(action, field) for field in fields_of(action.payload)]
    return tuple(sorted(found, key=lambda item: not item.placed))


def _parameter(action: Action, field: Said) -> Parameter:
    name = field.option if field.option and field.choices is None else field.name
    return Parameter(
        name=OF_ANOTHER.get(name, name) if action.on_a_job else name,
        field=field,
        placed=(field.first and field.kind is not bool) or (action.key, field.name) in PLACED,
        needed=field.needed,
        annotation=_annotation(field.kind) + (" | None" if field.optional else ""),
        default="" if field.needed else _default(field),
    )


def _default(field: Said) -> str:
    empty: dict[Any, str] = {list: "()", dict: "NOTHING"}
    return empty.get(get_origin(field.kind), _written(field.default)) if field.default is not None else "None"


def _annotation(kind: Any) -> str:
    origin = get_origin(kind)
    if origin is list:
        return "Sequence[str]"
    if origin is dict:
        return f"Mapping[str, {'str' if get_args(kind)[1] is str else 'Any'}]"
    if origin is not None:
        return f"Literal[{', '.join(map(_written, get_args(kind)))}]"
    return str(kind.__name__)


def _written(value: Any) -> str:
    return f'"{value}"' if isinstance(value, str) else repr(value)

"""The commands of the bench actions, made of what the register says of each: `clubwright.cli.actions.cut` is ``cut``."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from typing import Annotated, Any, get_origin

from cyclopts import Parameter

from clubwright.cli.acting import act
from clubwright.cli.options import SHOP, By, JobId, Json, Key, Shop, named_values
from clubwright.errors import Finding, InputError
from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.fields import Said, fields_of


def __getattr__(name: str) -> Callable[..., None]:
    """Return the command of an action, by its name with underscores."""
    action = ACTIONS.get(name.replace("_", "-"))
    if action is None or not action.command:
        raise AttributeError(name)
    return command_of(action)


def command_of(action: Action) -> Callable[..., None]:
    """Return the function that the command line calls for an action."""
    fields = fields_of(action.payload)

    def command(
        *first: Any, shop: str = SHOP, by: str | None = None, key: str | None = None, json: bool = False, **more: Any
    ) -> None:
        job, *typed = first
        given = dict(zip((field.name for field in fields if field.first), typed, strict=False)) | more
        said = {field.name: given.get(field.name) for field in fields if field.name in given or field.needed}
        values = {field.name: _value(action, field, said[field.name], by) for field in fields if field.name in said}
        act(shop, by, action.key, action.payload(job=job, **values), key, as_json=json)

    command.__name__, command.__doc__ = action.key.replace("-", "_"), action.more or action.says
    command.__signature__ = _signature(fields)  # type: ignore[attr-defined]
    command.__annotations__ = {name: item.annotation for name, item in _signature(fields).parameters.items()}
    return command


def _signature(fields: tuple[Said, ...]) -> inspect.Signature:
    first, named = inspect.Parameter.POSITIONAL_ONLY, inspect.Parameter.KEYWORD_ONLY
    asked = [inspect.Parameter("job", first, annotation=JobId)]
    for field in fields:
        default = _default(field)
        kind = first if field.first else named
        asked.append(inspect.Parameter(field.name, kind, annotation=_option(field), default=default))
    usual = (("shop", Shop, SHOP), ("by", By, None), ("key", Key, None), ("json", Json, False))
    asked += [inspect.Parameter(name, named, annotation=hint, default=default) for name, hint, default in usual]
    return inspect.Signature(asked)


def _default(field: Said) -> Any:
    """Return what an option has that nobody typed: what the action itself says to be missing is left to it."""
    if field.needed and field.late:
        return None if field.by else ""
    if _is_listed(field) and (field.optional or not field.needed or field.first):
        return None
    return inspect.Parameter.empty if field.needed else field.default


def _is_listed(field: Said) -> bool:
    return get_origin(field.kind) in (list, dict)


def _option(field: Said) -> Any:
    """Return the type of an option with its help, as the parser of the command line takes it."""
    example = f' Such as "{field.example}".' if field.example and field.example not in field.meaning else ""
    said: dict[str, Any] = {"help": field.meaning + example}
    if not field.first:
        said["name"] = f"--{field.command}"
    kind: Any = str if field.choices is not None or get_origin(field.kind) is not None else field.kind
    if field.choices is not None:
        said["help"] = f"{field.choices[0]} or {field.choices[1]}. {field.meaning}"
    if _is_listed(field):
        kind = list[str]
        if not field.first:
            said |= {"consume_multiple": True, "negative": f"--no-{field.command}" if field.optional else ()}
    if kind is bool and field.default is not True:
        said["negative"] = ()
    if kind is str or _is_listed(field):
        said["allow_leading_hyphen"] = field.first
    return Annotated[kind | None if _default(field) is None else kind, Parameter(**said)]


def _value(action: Action, field: Said, typed: Any, by: str | None) -> Any:
    """Return what was typed as the register's struct takes it.

    Raises:
        InputError: for a word that is none of those asked for, or a pair without its equals sign.
    """
    if field.by and typed is None:
        return by or ""
    if field.choices is not None:
        if typed not in field.choices:
            what, mend = f'"{typed}" decides nothing', f"Say {' or '.join(field.choices)}."
            raise InputError([Finding(where=action.key, what=what, mend=mend)])
        return typed == field.choices[0]
    if get_origin(field.kind) is dict:
        return named_values(typed or [], action.key, field.example)
    if typed is None and not field.optional:
        return [] if _is_listed(field) else ""
    return typed

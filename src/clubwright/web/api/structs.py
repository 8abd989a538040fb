"""How the JSON interface takes and gives structs: bodies, answers and its document by msgspec.

A body is read with every finding about it at once. A route says by its types what it takes and gives; the interface's
document is made of the same structs.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from functools import wraps
from typing import Annotated, Any, TypeVar, get_args, get_type_hints

import msgspec
from fastapi import Depends, Request, Response
from fastapi.datastructures import DefaultPlaceholder
from fastapi.routing import APIRoute

from clubwright.errors import Finding, InputError

JSON = "application/json"
PLACE = "#/components/schemas/{name}"
COMPONENTS: dict[str, Any] = {}
"""The schemas of all structs that routes take and give, by their names."""

Struct = TypeVar("Struct", bound=msgspec.Struct)


class Taken(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What every request body keeps to: no unknown keys, and no values of another kind."""


def schema_of(kind: Any) -> dict[str, Any]:
    """Return the schema of a struct, or of a list of them, for the document; its parts go into `COMPONENTS`."""
    (found,), parts = msgspec.json.schema_components([kind], ref_template=PLACE)
    for part in parts.values():
        if "description" in part:
            part["description"] = inspect.cleandoc(part["description"])
    COMPONENTS.update(parts)
    return found


def body_in(raw: bytes, kind: type[Struct]) -> Struct:
    """Return what a body says.

    Raises:
        InputError: with every finding about it.
    """
    try:
        said = msgspec.json.decode(raw)
    except msgspec.DecodeError:
        said = None
    if not isinstance(said, dict):
        what = "it is no JSON object" if raw else "nothing was sent"
        raise InputError([Finding(where="body", what=what, mend="Send one JSON object.")])
    fields = {field.encode_name: field for field in msgspec.structs.fields(kind)}
    known = f"Known: {', '.join(fields)}."
    findings = [Finding(where=f"body {name}", what="there is no such key", mend=known) for name in said.keys() - fields]
    values = {}
    for name, field in fields.items():
        if name not in said:
            if field.required:
                findings.append(Finding(where=f"body {name}", what="it is missing", mend=_meaning(field.type)))
            continue
        try:
            values[field.name] = msgspec.convert(said[name], field.type)
        except msgspec.ValidationError as refused:
            findings.append(Finding(where=f"body {name}", what=str(refused), mend=_meaning(field.type)))
    if findings:
        raise InputError(sorted(findings, key=lambda finding: str(finding.where)))
    return kind(**values)


def _meaning(hint: Any) -> str:
    said = [item.description for item in get_args(hint) if isinstance(item, msgspec.Meta) and item.description]
    return said[0] if said else "Send what the interface's document describes."


class StructRoute(APIRoute):
    """A route whose body and whose answer may be structs."""

    def __init__(self, path: str, endpoint: Callable[..., Any], **more: Any) -> None:
        hints = get_type_hints(endpoint, include_extras=True)
        gives = more.get("response_model")
        if gives is None or isinstance(gives, DefaultPlaceholder):
            gives = hints.get("return")
        takes = {name: hint for name, hint in hints.items() if isinstance(hint, type) and issubclass(hint, Taken)}
        if takes or _is_struct(gives):
            endpoint = _by_structs(endpoint, hints, takes, more.get("status_code") or 200)
            more |= {"response_model": None, "openapi_extra": _described(takes, gives, more.get("status_code") or 200)}
        super().__init__(path, endpoint, **more)


def _is_struct(hint: Any) -> bool:
    kinds = (hint, *get_args(hint))
    return any(isinstance(kind, type) and issubclass(kind, msgspec.Struct) for kind in kinds)


def _described(takes: dict[str, Any], gives: Any, status: int) -> dict[str, Any]:
    answer = {"content": {JSON: {"schema": schema_of(gives)}}}
    found: dict[str, Any] = {"responses": {str(status): answer}}
    for kind in takes.values():
        found["requestBody"] = {"content": {JSON: {"schema": schema_of(kind)}}, "required": True}
    return found


def _by_structs(
    endpoint: Callable[..., Any], hints: dict[str, Any], takes: dict[str, Any], status: int
) -> Callable[..., Response]:
    """Wrap what serves a route: its body is read by its struct, its answer written by its own."""

    @wraps(endpoint)
    def served(**values: Any) -> Response:
        told = msgspec.json.encode(endpoint(**values), order="sorted")
        return Response(told, status_code=status, media_type=JSON)

    asked = []
    for name, parameter in inspect.signature(endpoint).parameters.items():
        hint = hints.get(name, parameter.annotation)
        asked.append(parameter.replace(annotation=Annotated[hint, Depends(_reader(hint))] if name in takes else hint))
    served.__signature__ = inspect.Signature(asked)  # type: ignore[attr-defined]
    return served


def _reader(kind: type[Struct]) -> Callable[[Request], Any]:
    async def read(request: Request) -> Struct:
        return body_in(await request.body(), kind)

    return read

"""How the JSON interface takes and gives structs: bodies, answers and its document by msgspec.

A body is read with every finding about it at once. A route says by its types what it takes and gives; the interface's
document is made of the same structs.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterable
from functools import wraps
from types import UnionType
from typing import Annotated, Any, TypeVar, get_args, get_origin, get_type_hints

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
        gives, status = more.get("response_model"), more.get("status_code") or 200
        if gives is None or isinstance(gives, DefaultPlaceholder):
            gives = hints.get("return")
        asked = [
            parameter.replace(annotation=hints.get(parameter.name, parameter.annotation))
            for parameter in inspect.signature(endpoint).parameters.values()
        ]
        bodies = {parameter.name: kind for parameter in asked if (kind := _taken(parameter.annotation)) is not None}
        if bodies or _is_struct(gives):
            needed = all(parameter.default is parameter.empty for parameter in asked if parameter.name in bodies)
            endpoint = _by_structs(endpoint, asked, bodies, status)
            more |= {"response_model": None, "openapi_extra": _described(bodies.values(), gives, status, needed=needed)}
        super().__init__(path, endpoint, **more)


def _is_struct(hint: Any) -> bool:
    return any(isinstance(kind, type) and issubclass(kind, msgspec.Struct) for kind in (hint, *get_args(hint)))


def _taken(hint: Any) -> type[Taken] | None:
    """Return the struct of a body, where a parameter is one, or may be."""
    kinds = (hint, *(get_args(hint) if get_origin(hint) is UnionType else ()))
    return next((kind for kind in kinds if isinstance(kind, type) and issubclass(kind, Taken)), None)


def _described(bodies: Iterable[type[Taken]], gives: Any, status: int, *, needed: bool) -> dict[str, Any]:
    found: dict[str, Any] = {"responses": {str(status): {"content": {JSON: {"schema": schema_of(gives)}}}}}
    for kind in bodies:
        found["requestBody"] = {"content": {JSON: {"schema": schema_of(kind)}}, "required": needed}
    return found


def _by_structs(
    endpoint: Callable[..., Any], asked: list[inspect.Parameter], bodies: dict[str, type[Taken]], status: int
) -> Callable[..., Response]:
    """Wrap what serves a route: its body is read by its struct, its answer written by its own."""

    @wraps(endpoint)
    def served(**values: Any) -> Response:
        told = msgspec.json.encode(endpoint(**values), order="sorted")
        return Response(told, status_code=status, media_type=JSON)

    def read(parameter: inspect.Parameter) -> inspect.Parameter:
        kind = bodies.get(parameter.name)
        if kind is None:
            return parameter
        reader = _reader(kind, needed=parameter.default is parameter.empty)
        return parameter.replace(annotation=Annotated[Any, Depends(reader)], default=parameter.empty)

    served.__signature__ = inspect.Signature([read(item) for item in asked])  # type: ignore[attr-defined]
    return served


def _reader(kind: type[Struct], *, needed: bool) -> Callable[[Request], Any]:
    async def read(request: Request) -> Struct | None:
        raw = await request.body()
        return body_in(raw, kind) if raw or needed else None

    return read

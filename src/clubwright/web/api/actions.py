"""The JSON interface to the bench actions: one route for each entry of the register, made of what the register says."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any, get_args, get_origin

import msgspec
from msgspec import Meta

from clubwright.services.actions.door import act, answer_of, answer_to
from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.fields import LARGEST, Said, fields_of
from clubwright.web.api.refusals import group, refusals
from clubwright.web.api.routes import Job, Key, Ours
from clubwright.web.api.structs import Taken
from clubwright.web.sessions import AtSession

router = group()
MOST = 60
"""So many texts, or names with their texts, are taken at once."""


def body_of(action: Action) -> type[Taken] | None:
    """Return what a program sends for an action: its payload but the job; None where nothing is to be said."""
    fields = [_field(field) for field in fields_of(action.payload)]
    if not fields:
        return None
    name, said = f"{action.payload.__name__}In", {"__doc__": action.payload.__doc__}
    made = msgspec.defstruct(name, fields, bases=(Taken,), namespace=said, module=__name__, frozen=True, kw_only=True)
    assert issubclass(made, Taken)
    return made


def _field(field: Said) -> tuple[str, Any] | tuple[str, Any, Any]:
    kind = _kind(field)
    said = Meta(description=field.meaning, examples=[field.example] if field.example and field.kind is str else None)
    if field.needed:
        return field.name, Annotated[kind, said]
    return field.name, Annotated[kind | None if field.optional else kind, said], field.default


def _kind(field: Said) -> Any:
    """Return the type of a value, with the limits that the register gives it."""
    text = Annotated[str, Meta(min_length=field.least, max_length=field.longest)]
    if field.kind is str:
        return text
    if field.kind is int:
        return Annotated[int, Meta(ge=field.least or 0, le=LARGEST)]
    if get_origin(field.kind) is list:
        return Annotated[list[text], Meta(max_length=MOST)]
    if get_origin(field.kind) is dict and get_args(field.kind)[1] is str:
        return Annotated[dict[str, text], Meta(max_length=MOST)]
    return field.kind


def _add(action: Action) -> None:
    body, on_a_job = body_of(action), action.on_a_job
    may_be_empty = body is not None and not any(field.needed for field in fields_of(action.payload))

    def do(session: AtSession, key: Key, _: Ours, sent: Any = None, job: str | None = None) -> Any:
        given = {} if sent is None else msgspec.structs.asdict(sent)
        kept = act(session, action.key, action.payload(**({"job": job} if on_a_job else {}), **given), key)
        return answer_to(session, action, kept)

    asked: dict[str, Any] = {"session": AtSession, "key": Key, "_": Ours}
    if on_a_job:
        asked["job"] = Job
    if body is not None:
        asked["sent"] = body | None if may_be_empty else body
    endpoint = _with_parameters(do, asked, optional=("sent",) if may_be_empty else ())
    endpoint.__name__, endpoint.__doc__ = action.key.replace("-", "_"), action.more or action.says
    router.add_api_route(
        action.route,
        endpoint,
        methods=["POST"],
        status_code=201,
        summary=action.says,
        response_model=answer_of(action),
        responses=refusals(403, *(() if action.decides == "every job" else (404,)), 409, 413, 415),
    )


def _with_parameters(do: Callable[..., Any], asked: dict[str, Any], optional: tuple[str, ...]) -> Callable[..., Any]:
    """Say by a signature of its own what a route asks for: no source text has one."""
    import inspect

    kind = inspect.Parameter.KEYWORD_ONLY
    given = [
        inspect.Parameter(name, kind, annotation=hint, default=None if name in optional else inspect.Parameter.empty)
        for name, hint in asked.items()
    ]

    def endpoint(**values: Any) -> Any:
        return do(**values)

    endpoint.__signature__ = inspect.Signature(given)  # type: ignore[attr-defined]
    return endpoint


for _action in ACTIONS.values():
    _add(_action)

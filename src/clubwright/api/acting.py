"""What the methods of a shop have in common: what is given is looked at, and goes through the one door to the actions."""

from __future__ import annotations

import inspect
from abc import abstractmethod
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any, Literal, TypeVar, get_args, get_origin

from clubwright.errors import Finding, InputError
from clubwright.services.actions.door import Kept, act, kept_part
from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.fields import Said
from clubwright.services.actions.register.python import JOB, method_of, parameters_of
from clubwright.services.record.session import Session
from clubwright.services.told.kept import KeptAnswer

NOTHING: Mapping[str, str] = MappingProxyType({})
"""What a table of texts is that is not given."""

_CLUB = "Ticket number, or the name that the job goes by."
_KEY = "Idempotency key: the same key again never records twice."
_RAISES = (
    "InputError: for what cannot be taken, with every finding; nothing is kept.",
    "GateClosed: when its gate is not open or not signed, with every reason.",
    "StepNotReady: for a step that needs something still.",
    "RecordError: when the record has no such ticket, or refuses.",
)

_OTHERWISE = ("take",)
"""Actions whose method is given something else than the payload: it says so itself."""

Kind = TypeVar("Kind", bound=type)


class Acting:
    """Does actions of the register on a record."""

    @abstractmethod
    def _session(self, *, make: bool = False) -> Session:
        """Return the session on the record; it is made where that is asked for."""

    def _do(self, key: str, idempotency_key: str | None, /, **given: Any) -> KeptAnswer:
        session = self._session()
        return kept_part(session, self._kept(session, key, idempotency_key, given))

    def _kept(self, session: Session, key: str, idempotency_key: str | None, given: Mapping[str, Any]) -> Kept:
        action = ACTIONS[key]
        return act(session, key, action.payload(**as_taken(action, given)), idempotency_key)


def as_taken(action: Action, given: Mapping[str, Any]) -> dict[str, Any]:
    """Return what was given as the payload of an action takes it.

    Raises:
        InputError: with a finding for each value that is not of its kind, such as a number where a text with its unit
            belongs.
    """
    findings: list[Finding] = []
    taken = dict(given)
    if action.on_a_job and not isinstance(given["job"], str):
        findings.append(_finding(JOB, given["job"], "a text", 'Write the ticket number, such as "X-1007".'))
    for parameter in parameters_of(action):
        field = parameter.field
        value = given[field.name]
        if value is None and field.optional:
            continue
        wanted = _wanted(field, value)
        if wanted is not None:
            findings.append(_finding(parameter.name, value, *wanted))
        elif get_origin(field.kind) in (list, dict):
            taken[field.name] = get_origin(field.kind)(value)
    if findings:
        raise InputError(findings)
    return taken


def _finding(where: str, value: object, wanted: str, mend: str) -> Finding:
    return Finding(where=where, what=f"{value!r} is not {wanted}", mend=mend)


def _wanted(field: Said, value: object) -> tuple[str, str] | None:
    """Say what is wanted in place of a value, and how to write it; None for a value that is of its kind."""
    origin = get_origin(field.kind)
    if origin is Literal:
        words = get_args(field.kind)
        return None if value in words else (f"one of {', '.join(words)}", "Write one of them.")
    if origin is list:
        fits = (
            isinstance(value, Sequence) and not isinstance(value, str) and all(isinstance(item, str) for item in value)
        )
        return None if fits else ("a list of texts", 'Write each in quotes, between brackets, such as ["tip 4"].')
    if origin is dict:
        texts = get_args(field.kind)[1] is str
        fits = isinstance(value, Mapping) and all(
            isinstance(name, str) and (isinstance(text, str) or not texts) for name, text in value.items()
        )
        return None if fits else ("texts by name", 'Write each as a text, as it is typed, such as {"mass": "49.6 g"}.')
    if field.kind is str:
        example = f'such as "{field.example}"' if field.example else "in quotes"
        return None if isinstance(value, str) else ("a text", f"Write it as it is typed, with its unit, {example}.")
    if field.kind is int:
        fits = isinstance(value, int) and not isinstance(value, bool)
        return None if fits else ("a whole number", "Write it without quotes, such as 12.")
    return None if isinstance(value, bool) else ("yes or no", "Write True or False.")


def documented(kind: Kind) -> Kind:
    """Write the register's words of each field into the docstrings of a class's actions, for `help` and an editor."""
    for action in ACTIONS.values():
        method = vars(kind).get(method_of(action))
        if method is not None and action.key not in _OTHERWISE:
            method.__doc__ = _documented(action, inspect.getdoc(method) or "")
    return kind


def _documented(action: Action, said: str) -> str:
    rows = [(JOB, _CLUB)] if action.on_a_job else []
    rows += [(item.name, _meaning(item.field)) for item in parameters_of(action)]
    lines = [said, "", "Args:", *(f"    {name}: {meaning}" for name, meaning in [*rows, ("key", _KEY)])]
    return "\n".join([*lines, "", "Raises:", *(f"    {text}" for text in _RAISES), ""])


def _meaning(field: Said) -> str:
    return field.meaning + (
        f' Such as "{field.example}".' if field.example and field.example not in field.meaning else ""
    )

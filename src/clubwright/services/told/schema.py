"""The JSON Schemas of the answers, made from their structs, and what of them a program may rely on.

Under one number a key, a quantity, a stage, a gate or a check may be added; nothing that is there is taken away, may be null
where it was not, or changes its type, its choices or its meaning. So the schema is open: it accepts what is added later.
"""

from __future__ import annotations

from collections.abc import Iterator
from inspect import cleandoc
from pkgutil import resolve_name
from typing import Any, get_args, get_type_hints

import msgspec

DRAFT = "https://json-schema.org/draft/2020-12/schema"
FREE = ("description", "examples", "title", "propertyNames")
"""Words of a schema for people: they may be put better at any time."""
OF_THE_WHOLE = ("$defs", "$schema")
DEEPER = ("items", "additionalProperties", "anyOf")

Schema = dict[str, Any]


ANSWERS = {
    "answer": "clubwright.services.told.answer:Answer",
    "check": "clubwright.services.told.words:CheckedAnswer",
    "mixes": "clubwright.services.told.club:MixesAnswer",
    "merge": "clubwright.services.told.kept:MergedAnswer",
    "forget-apply-to": "clubwright.services.told.erased:AppliedAnswer",
    "demo": "clubwright.services.report.as_built:DemoAnswer",
}
"""Answers that say the number of their schema, by the command that gives them: each as ``module:struct``."""


def schema_of(name: str) -> Schema:
    """Return the schema of an answer, by its name in `ANSWERS`; its title says the number."""
    kind = resolve_name(ANSWERS[name])
    made = msgspec.json.decode(msgspec.json.encode(msgspec.json.schema(kind)))
    parts = made["$defs"]
    for part in parts.values():
        part["description"] = cleandoc(part["description"])
    top = parts.pop(kind.__name__)
    return {**top, "$schema": DRAFT, "$defs": parts, "title": f"clubwright {name}, schema {number_of(name)}"}


def number_of(name: str) -> int:
    """Return the number of an answer's schema."""
    hints = get_type_hints(resolve_name(ANSWERS[name]))
    found: int = get_args(hints["schema"])[0]
    return found


def broken_promises(was: Schema, now: Schema) -> tuple[str, ...]:
    """Return the places at which a program that keeps to one schema could stumble over another; none where it only adds.

    Args:
        was: The schema as it was promised.
        now: The schema of the same number as it would be.
    """
    return tuple(_broken(was, now, (was, now), "answer"))


def _broken(was: Any, now: Any, whole: tuple[Schema, Schema], place: str) -> Iterator[str]:
    was, now = _resolved(was, whole[0]), _resolved(now, whole[1])
    if isinstance(was, list) and isinstance(now, list) and len(was) == len(now):
        for one, other in zip(was, now, strict=True):
            yield from _broken(one, other, whole, place)
    elif isinstance(was, dict) and isinstance(now, dict):
        for word in sorted((was.keys() | now.keys()) - {*FREE, *OF_THE_WHOLE, "properties", "required"}):
            if word in was and word in now:
                yield from _broken(was[word], now[word], whole, place if word in DEEPER else f"{place}: {word}")
            else:
                yield f"{place}: {word}"
        for key, value in was.get("properties", {}).items():
            there = now.get("properties", {}).get(key)
            if there is None or (key in was.get("required", ())) != (key in now.get("required", ())):
                yield f"{place}.{key}"
            else:
                yield from _broken(value, there, whole, f"{place}.{key}")
    elif was != now:
        yield place


def _resolved(schema: Any, whole: Schema) -> Any:
    parts = {f"#/$defs/{name}": part for name, part in whole["$defs"].items()}
    return parts.get(schema.get("$ref", ""), schema) if isinstance(schema, dict) else schema

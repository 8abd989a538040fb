"""The JSON Schema of the answer, made from its structs, and what of it a program may rely on.

Under one number a key, a quantity, a stage, a gate or a check may be added; nothing that is there is taken away, may be null
where it was not, or changes its type, its choices or its meaning. So the schema is open: it accepts what is added later.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import msgspec

from clubwright.services.told.answer import SCHEMA, Answer

DRAFT = "https://json-schema.org/draft/2020-12/schema"
FREE = ("description", "examples", "title", "propertyNames")
"""Words of a schema for people: they may be put better at any time."""
OF_THE_WHOLE = ("$defs", "$schema")
DEEPER = ("items", "additionalProperties", "anyOf")

Schema = dict[str, Any]


def answer_schema() -> Schema:
    """Return the schema of the answer."""
    made = msgspec.json.schema(Answer)
    parts = made["$defs"]
    top = parts.pop(Answer.__name__)
    return {**top, "$schema": DRAFT, "$defs": parts, "title": f"clubwright answer, schema {SCHEMA}"}


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

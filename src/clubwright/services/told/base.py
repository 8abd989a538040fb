"""What every answer to a program keeps to: a frozen struct, read by attribute, or by key as its JSON has it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import msgspec


def says(meaning: str, **more: Any) -> msgspec.Meta:
    """Return what a field of an answer means, with its unit; the JSON Schema says it too."""
    return msgspec.Meta(description=meaning, extra_json_schema=more or None)


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """Part of an answer.

    A program may read it by key as well (``answer["cut"]["text"]``, ``dict(answer)``), as it reads the same answer from
    JSON. The type checker knows the attributes alone, so that no slip in a key of our own gets by.
    """

    def plain(self) -> Any:
        """Return it as JSON has it: dicts, lists, texts, numbers."""
        return msgspec.json.decode(msgspec.json.encode(self))

    def json(self) -> str:
        """Return its JSON text, keys sorted, so that the same answer gives the same bytes."""
        return msgspec.json.encode(self, order="sorted").decode()

    if not TYPE_CHECKING:

        def __getitem__(self, key: str) -> Any:
            """Return a field."""
            if key in self.__struct_fields__:
                return getattr(self, key)
            raise KeyError(key)

        def __iter__(self) -> Iterator[str]:
            """Go through the names of the fields, as through the keys of a dict."""
            return iter(self.__struct_fields__)

        def keys(self) -> tuple[str, ...]:
            """Return the names of the fields."""
            return self.__struct_fields__

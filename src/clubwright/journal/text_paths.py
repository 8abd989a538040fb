"""Where a text stands in a fact, as a path of keys (RFC 6901, JSON Pointer): written and read here alone."""

from __future__ import annotations


def text_path(path: str, key: str | int) -> str:
    """Return the path one key further."""
    return f"{path}/{str(key).replace('~', '~0').replace('/', '~1')}"


def keys_of(path: str) -> list[str]:
    """Return the keys of a path."""
    return [key.replace("~1", "/").replace("~0", "~") for key in path.split("/")]

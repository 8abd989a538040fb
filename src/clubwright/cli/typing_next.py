"""The next command to type: what comes next on a job, as words for a shell; capitals stand for what a person fills in."""

from __future__ import annotations

import shlex
import string
from collections.abc import Mapping, Sequence
from typing import Any, get_origin

from clubwright.cli.output import WIDTH
from clubwright.services.actions.following import Following
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.fields import Said, fields_of

_PLAIN = frozenset(string.ascii_letters + string.digits + "_./@:=+-")
_READ_IN_QUOTES = frozenset('"$`\\!')
"""Letters that a shell takes as they are, and those that it reads even within double quotes."""


def command_words(following: Following, job: str, said: Sequence[str] = ()) -> list[str]:
    """Return a command, word by word as a shell reads them.

    Args:
        following: What comes next.
        job: Name of the job.
        said: Options that it needs besides.
    """
    words = ["clubwright", following.action, job]
    for field in fields_of(ACTIONS[following.action].payload):
        words += _words(field, following)
    return [_quoted(word) for word in (*words, *said)]


def command_lines(words: Sequence[str], width: int = WIDTH, indent: str = "  ") -> list[str]:
    """Return a command as lines of a screen, each but the last with the backslash by which a shell goes on reading."""
    lines, line = [], indent + words[0]
    for word in words[1:]:
        if len(line) + len(word) + 3 > width:
            lines.append(f"{line} \\")
            line = indent * 2 + word
        else:
            line += f" {word}"
    return [*lines, line]


def _words(field: Said, following: Following) -> list[str]:
    name, given = field.name, following.given
    if name not in given and name not in following.asked and not field.needed:
        return []
    if name in given and (given[name] is None or given[name] == field.default):
        return []
    if field.kind is bool and field.choices is None:
        return [f"--{'no-' if field.default is True else ''}{field.command}"]
    values = _values(field, given[name]) if name in given else [_capitals(field)]
    return values if field.first else [f"--{field.command}", *values]


def _values(field: Said, value: Any) -> list[str]:
    if isinstance(value, Mapping):
        return [f"{path}={text or 'VALUE'}" for path, text in value.items()]
    if field.choices is not None:
        return [field.choices[0 if value else 1]]
    if get_origin(field.kind) is list:
        return list(value)
    return [str(value)]


def _capitals(field: Said) -> str:
    if field.choices is not None:
        return "|".join(word.upper() for word in field.choices)
    return field.name.upper()


def _quoted(word: str) -> str:
    """Quote a word where a shell would take it apart."""
    if word and _PLAIN.issuperset(word):
        return word
    return shlex.quote(word) if _READ_IN_QUOTES.intersection(word) else f'"{word}"'

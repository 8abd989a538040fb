"""Notation that names two things at once: loft with bounce, core with shape."""

from __future__ import annotations

import msgspec

from clubwright.errors import Where
from clubwright.notation.angle import split_pair
from clubwright.notation.grip import Shape, split_stamp
from clubwright.notation.reader import Understood, parse, squeezed


class GripCore(msgspec.Struct, frozen=True, kw_only=True):
    """The core of a grip.

    Attributes:
        core_m: Inner diameter at the mouth, in metres.
        shape: ``round`` or ``ribbed``; None when it is not said.
        typed: The text as typed.
        echo: What was understood.
    """

    core_m: float
    shape: Shape | None
    typed: str
    echo: str


def pair(text: str, *, where: Where = "input") -> tuple[Understood, Understood]:
    """Read loft and bounce of a wedge from ``54.10``, ``54-10`` or ``58/08``.

    Raises:
        InputError: If the text is no such pair.
    """
    both = parse("loft_bounce", text, where=where)
    _, bounce_deg = split_pair(squeezed(text))
    bounce = parse("bounce", f"{bounce_deg} deg", where=where)
    return msgspec.structs.replace(both, kind="loft"), msgspec.structs.replace(bounce, typed=text, echo=both.echo)


def grip_core(text: str, *, where: Where = "input") -> GripCore:
    """Read the core of a grip from its stamp (``58``, ``M60``, ``60 rib``) or its diameter (``.580 in``).

    Raises:
        InputError: If the text is neither.
    """
    understood = parse("grip_core", text, where=where)
    stamp = split_stamp(squeezed(text))
    return GripCore(core_m=understood.value, shape=stamp[1] if stamp else None, typed=text, echo=understood.echo)

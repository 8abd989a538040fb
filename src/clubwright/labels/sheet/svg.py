"""A small writer of SVG text: fixed decimals, escaped text, classes with plain attributes behind them.

The attributes make the picture right on its own (print, Typst); the classes let a page's style sheet overrule them.
"""

from __future__ import annotations

from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from clubwright.labels.sheet.heads import Stroke
from clubwright.notation.one_line import one_line

INK = "#1c2630"
QUIET = "#6b7680"
PAPER = "#ffffff"
FILL = "#dfe3e6"
ACCENT = "#0b57a4"
FONT = "Inter, sans-serif"


Look = dict[str, str | float]
"""Attributes of an element, by their Python names."""


def number(value: float) -> str:
    """Return a coordinate with at most three decimals, so that equal drawings are equal text."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def element(name: str, content: str | None = None, /, **attributes: str | float) -> str:
    """Return one element; ``class_`` and ``stroke_width`` become ``class`` and ``stroke-width``."""
    pairs = "".join(
        f" {key.rstrip('_').replace('_', '-')}={quoteattr(number(value) if isinstance(value, float) else value)}"
        for key, value in attributes.items()
    )
    return f"<{name}{pairs}/>" if content is None else f"<{name}{pairs}>{content}</{name}>"


def _with(attributes: Look, **defaults: str | float) -> Look:
    return {**defaults, **attributes}


def line(x1: float, y1: float, x2: float, y2: float, **attributes: str | float) -> str:
    """Return a straight line, in ink unless told otherwise."""
    style = _with(attributes, stroke=INK, stroke_width=0.2)
    return element("line", x1=float(x1), y1=float(y1), x2=float(x2), y2=float(y2), **style)


def polygon(points: Iterable[tuple[float, float]], **attributes: str | float) -> str:
    """Return a closed shape with straight sides."""
    style = _with(attributes, fill=FILL, stroke=INK, stroke_width=0.25, stroke_linejoin="round")
    return element("polygon", points=" ".join(f"{number(x)},{number(y)}" for x, y in points), **style)


def path(strokes: Iterable[Stroke], **attributes: str | float) -> str:
    """Return a path of M, L, C and Z strokes."""
    style = _with(attributes, fill=FILL, stroke=INK, stroke_width=0.25, stroke_linejoin="round")
    drawn = " ".join(command + " ".join(f"{number(x)},{number(y)}" for x, y in points) for command, points in strokes)
    return element("path", d=drawn, **style)


def circle(x: float, y: float, r: float, **attributes: str | float) -> str:
    """Return a circle."""
    style = _with(attributes, fill=PAPER, stroke=INK, stroke_width=0.25)
    return element("circle", cx=float(x), cy=float(y), r=float(r), **style)


def text(x: float, y: float, words: str, **attributes: str | float) -> str:
    """Return one line of text; whatever a user typed stays literal, and what XML cannot hold shows as U+FFFD."""
    shown = "".join(letter if letter.isprintable() else "\ufffd" for letter in one_line(words))
    style = _with(attributes, font_family=FONT, font_size=2.3, fill=INK)
    return element("text", escape(shown), x=float(x), y=float(y), **style)


def centre_of_gravity(x: float, y: float, r: float, **attributes: str | float) -> str:
    """Return the drawing office's sign for a centre of gravity: a circle with two opposite quarters inked."""
    quarters = "".join(
        element(
            "path",
            d=f"M{number(x)},{number(y)} h{number(s * r)} A{number(r)},{number(r)} 0 0 1 {number(x)},{number(y + s * r)} Z",
            fill=INK,
        )
        for s in (1, -1)
    )
    return element("g", circle(x, y, r) + quarters, **attributes)

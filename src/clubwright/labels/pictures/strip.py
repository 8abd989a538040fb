"""Belief strips as SVG: window, belief, the considered belief, the last reading. The same look in both themes by classes."""

from __future__ import annotations

from clubwright.labels.sheet.svg import element, number
from clubwright.services.answer.strips import Curve, Strip
from clubwright.words import on_page, spoken

WIDTH, HEIGHT, BASE = 400.0, 60.0, 50.0
PEAK = 44.0


def strip_svg(strip: Strip) -> str:
    """Return one strip as an SVG picture, with its text for those who cannot see it.

    What was not measured yet is hatched. A person's action that is being considered is drawn over the belief, whose curve
    stays as a dashed ghost.
    """
    left, right = (place * WIDTH for place in strip.window)
    middle = strip.middle * WIDTH
    parts = [
        element("title", _title(strip)),
        element("rect", x=left, y=2.0, width=right - left, height=BASE - 2, class_="window"),
        element("path", d=f"M{number(left)},2V{number(BASE)}M{number(right)},2V{number(BASE)}", class_="limit"),
        element("line", x1=middle, y1=2.0, x2=middle, y2=BASE, class_="target"),
        element("line", x1=0.0, y1=BASE, x2=WIDTH, y2=BASE, class_="base"),
        _curve(strip.belief, _look(strip), fill="none" if strip.measured else f"url(#hatch-{strip.key})"),
    ]
    if not strip.measured:
        parts.insert(1, _hatching(strip.key))
    if strip.considered is not None:
        parts.append(_curve(strip.considered, "considered"))
    if strip.tick is not None:
        place, half = strip.tick.place * WIDTH, strip.tick.width * WIDTH
        parts.append(element("line", x1=place - half, y1=BASE + 4, x2=place + half, y2=BASE + 4, class_="tick-width"))
        parts.append(element("line", x1=place, y1=BASE - 8, x2=place, y2=BASE + 9, class_="tick"))
    return element(
        "svg",
        "".join(parts),
        class_="strip-picture",
        viewBox=f"0 0 {number(WIDTH)} {number(HEIGHT)}",
        role="img",
        preserveAspectRatio="none",
    )


def _look(strip: Strip) -> str:
    look = "belief" if strip.measured else "belief unread"
    return look if strip.considered is None else f"{look} ghost"


def _hatching(key: str) -> str:
    lines = element("path", d="M0,8L8,0M-2,2L2,-2M6,10L10,6", class_="hatch")
    pattern = element("pattern", lines, id=f"hatch-{key}", width=8.0, height=8.0, patternUnits="userSpaceOnUse")
    return element("defs", pattern)


def _curve(curve: Curve, look: str, **more: str) -> str:
    if curve.beyond:
        place, tip = (8.0, 1.0) if curve.beyond == "left" else (WIDTH - 8.0, WIDTH - 1.0)
        points = f"{number(place)},{BASE - 32:.0f} {number(tip)},{BASE - 20:.0f} {number(place)},{BASE - 8:.0f}"
        return element("polygon", points=points, class_=f"{look} beyond", **more)
    points = " ".join(f"{x * WIDTH:.0f},{BASE - y * PEAK:.1f}" for x, y in curve.points if y > FLAT)
    first, last = (next(x for x, y in run if y > FLAT) for run in (curve.points, reversed(curve.points)))
    ends = f"{first * WIDTH:.0f},{number(BASE)}", f"{last * WIDTH:.0f},{number(BASE)}"
    return element("polygon", points=f"{ends[0]} {points} {ends[1]}", class_=look, **more)


FLAT = 0.002
"""Heights below this lie on the base line: no point is drawn for them."""


def _title(strip: Strip) -> str:
    name = spoken("quantity", strip.key)
    believed = "strip" if strip.measured else "strip unmeasured"
    said = on_page(believed, name=name, target=strip.target, tolerance=strip.tolerance, believed=strip.belief.text)
    if strip.considered is not None:
        said += on_page("strip considered", figure=strip.considered.text)
    if strip.tick is not None:
        said += on_page("strip read", figure=strip.tick.text)
    return said

"""Belief strips as SVG: window, belief, the considered belief, the last reading. The same look in both themes by classes."""

from __future__ import annotations

from clubwright.labels.svg import element, number
from clubwright.services.strips import Curve, Strip

WIDTH, HEIGHT, BASE = 600.0, 64.0, 54.0
PEAK = 44.0


def strip_svg(strip: Strip) -> str:
    """Return one strip as an SVG picture, with its text for those who cannot see it."""
    left, right = (place * WIDTH for place in strip.window)
    parts = [
        element("title", _title(strip)),
        element("rect", x=left, y=4.0, width=right - left, height=BASE - 4, class_="window"),
        element("line", x1=strip.middle * WIDTH, y1=4.0, x2=strip.middle * WIDTH, y2=BASE, class_="target"),
        element("line", x1=0.0, y1=BASE, x2=WIDTH, y2=BASE, class_="base"),
        _curve(strip.belief, "belief" if strip.considered is None else "belief ghost"),
    ]
    if strip.considered is not None:
        parts.append(_curve(strip.considered, "considered"))
    if strip.tick is not None:
        place, half = strip.tick.place * WIDTH, strip.tick.width * WIDTH
        parts.append(element("line", x1=place - half, y1=BASE + 4, x2=place + half, y2=BASE + 4, class_="tick-width"))
        parts.append(element("line", x1=place, y1=BASE - 8, x2=place, y2=BASE + 8, class_="tick"))
    return element(
        "svg",
        "".join(parts),
        class_="strip-picture",
        viewBox=f"0 0 {number(WIDTH)} {number(HEIGHT)}",
        role="img",
        preserveAspectRatio="none",
    )


def _curve(curve: Curve, look: str) -> str:
    if curve.beyond:
        place = 6.0 if curve.beyond == "left" else WIDTH - 6.0
        tip = place - 6 if curve.beyond == "left" else place + 6
        points = (
            f"{number(place)},{number(BASE - 30)} {number(tip)},{number(BASE - 20)} {number(place)},{number(BASE - 10)}"
        )
        return element("polygon", points=points, class_=f"{look} beyond")
    points = " ".join(f"{number(x * WIDTH)},{number(BASE - y * PEAK)}" for x, y in curve.points)
    return element("polygon", points=f"0,{number(BASE)} {points} {number(WIDTH)},{number(BASE)}", class_=look)


def _title(strip: Strip) -> str:
    said = f"{strip.name}: ordered {strip.target}, tolerance {strip.tolerance}; believed {strip.belief.text}"
    if strip.considered is not None:
        said += f"; considered {strip.considered.text}"
    if strip.tick is not None:
        said += f"; read {strip.tick.text}"
    return said

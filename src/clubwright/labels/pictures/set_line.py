"""A set's frequencies against its lengths, as SVG: a ring for each club, the line, and this club with its uncertainty."""

from __future__ import annotations

from math import ceil, floor

from clubwright.labels.sheet import svg
from clubwright.services.shaft.curves import tick_step
from clubwright.services.shaft.set_frequencies import ClubPoint, SetFrequencies
from clubwright.units import CPM_HZ, INCH_M

HEIGHT_MM = 56.0
LEFT_MM, RIGHT_MM, TOP_MM, FOOT_MM = 13.0, 14.0, 6.0, 9.0
RING_MM = 1.0
TEXT_MM = 2.5
NAME_MM = 42.0
"""Room that the longest name may need."""
ROOM = 0.12
"""Share of its span left free at either end of a scale."""
LEAST_INCHES, LEAST_CPM = 1.0, 8.0


class _Scale:
    """One axis: value to mm, ticks at round values."""

    def __init__(self, values: list[float], least: float, start_mm: float, end_mm: float) -> None:
        low, high = min(values), max(values)
        room = max((high - low) * ROOM, (least - (high - low)) / 2)
        self.low, self.high = low - room, high + room
        self.start_mm, self.end_mm = start_mm, end_mm

    def mm(self, value: float) -> float:
        return self.start_mm + (value - self.low) / (self.high - self.low) * (self.end_mm - self.start_mm)

    def ticks(self) -> list[float]:
        step = tick_step(self.high - self.low)
        return [place * step for place in range(ceil(self.low / step), floor(self.high / step) + 1)]


def draw_set(found: SetFrequencies, *, width_mm: float = 120.0) -> str:
    """Return the picture as one SVG text.

    Args:
        found: The set; at least one club has a frequency.
        width_mm: Width on paper.
    """
    points = [*found.others, *([] if found.club is None else [found.club])]
    highs = [_cpm(point) + side * _spread(point) for point in points for side in (-1, 1)]
    across = _Scale([point.length_m / INCH_M for point in points], LEAST_INCHES, LEFT_MM, width_mm - RIGHT_MM)
    up = _Scale(highs, LEAST_CPM, HEIGHT_MM - FOOT_MM, TOP_MM)
    drawn = [
        svg.element("title", "Frequency against length of the player's clubs"),
        *_axes(across, up),
        *_line(found, across, up),
        *(shape for point in found.others for shape in _ring(point, across, up)),
        *_names(found.others, across, up),
        *([] if found.club is None else _this(found.club, across, up)),
    ]
    return svg.element(
        "svg",
        "\n" + "\n".join(drawn) + "\n",
        xmlns="http://www.w3.org/2000/svg",
        class_="set-drawing",
        role="img",
        viewBox=f"0 0 {svg.number(width_mm)} {svg.number(HEIGHT_MM)}",
        width=f"{svg.number(width_mm)}mm",
        height=f"{svg.number(HEIGHT_MM)}mm",
    )


def _cpm(point: ClubPoint) -> float:
    return point.frequency_hz / CPM_HZ


def _spread(point: ClubPoint) -> float:
    return (point.sd_hz or 0.0) / CPM_HZ


def _axes(across: _Scale, up: _Scale) -> list[str]:
    drawn = [
        svg.text(LEFT_MM, TOP_MM - 2.0, "cpm", class_="scale", text_anchor="end", font_size=TEXT_MM),
        svg.text(across.end_mm, HEIGHT_MM - 0.8, "length, in", class_="scale", text_anchor="end", font_size=TEXT_MM),
    ]
    for value in up.ticks():
        y = up.mm(value)
        drawn.append(svg.line(LEFT_MM, y, across.end_mm, y, class_="grid", stroke=svg.QUIET, stroke_width=0.12))
        drawn.append(
            svg.text(LEFT_MM - 1.2, y + 0.9, f"{value:g}", class_="figure", text_anchor="end", font_size=TEXT_MM)
        )
    for value in across.ticks():
        x = across.mm(value)
        drawn.append(svg.line(x, up.start_mm, x, up.start_mm + 1.0, class_="tick-in"))
        drawn.append(
            svg.text(x, up.start_mm + 4.0, f"{value:g}", class_="figure", text_anchor="middle", font_size=TEXT_MM)
        )
    drawn.append(svg.line(LEFT_MM, up.start_mm, across.end_mm, up.start_mm, class_="axis", stroke_width=0.25))
    return drawn


def _line(found: SetFrequencies, across: _Scale, up: _Scale) -> list[str]:
    if found.line is None:
        return []
    ends = [
        (across.mm(inches), up.mm(found.line.at_hz(inches * INCH_M) / CPM_HZ)) for inches in (across.low, across.high)
    ]
    ends = _within(ends, up)
    return [svg.line(*ends[0], *ends[1], class_="slope", stroke_width=0.35)]


def _within(ends: list[tuple[float, float]], up: _Scale) -> list[tuple[float, float]]:
    """Cut a line off where it leaves the picture."""
    (xa, ya), (xb, yb) = ends
    low, high = min(up.start_mm, up.end_mm), max(up.start_mm, up.end_mm)
    found = []
    for x, y in ends:
        held = min(max(y, low), high)
        found.append((x if held == y else xa + (held - ya) / (yb - ya) * (xb - xa), held))
    return found


def _bar(point: ClubPoint, across: _Scale, up: _Scale, **look: str | float) -> list[str]:
    """Return the bar of one standard uncertainty either side."""
    if not point.sd_hz:
        return []
    x, ends = across.mm(point.length_m / INCH_M), [up.mm(_cpm(point) + side * _spread(point)) for side in (-1, 1)]
    return [
        svg.line(x, ends[0], x, ends[1], class_="spread", **look),
        *(svg.line(x - 0.8, y, x + 0.8, y, class_="spread", **look) for y in ends),
    ]


def _ring(point: ClubPoint, across: _Scale, up: _Scale) -> list[str]:
    x, y = across.mm(point.length_m / INCH_M), up.mm(_cpm(point))
    return [*_bar(point, across, up, stroke=svg.QUIET), svg.circle(x, y, RING_MM, class_="ring")]


def _names(points: tuple[ClubPoint, ...], across: _Scale, up: _Scale) -> list[str]:
    """Return the names of the rings, each above the line; a name that would lie on another moves up."""
    placed: list[tuple[float, float]] = []
    drawn = []
    for point in points:
        x, y = across.mm(point.length_m / INCH_M) + 1.8, up.mm(_cpm(point)) - 1.2
        while any(abs(x - there) < NAME_MM / 2 and abs(y - height) < TEXT_MM for there, height in placed):
            y -= TEXT_MM + 0.3
        placed.append((x, y))
        drawn.append(svg.text(x, y, point.name[:16], class_="word", font_size=TEXT_MM))
    return drawn


def _this(point: ClubPoint, across: _Scale, up: _Scale) -> list[str]:
    x, y = across.mm(point.length_m / INCH_M), up.mm(_cpm(point))
    look: svg.Look = {"font_size": TEXT_MM, "fill": svg.ACCENT, "font_weight": "600"}
    # the line falls to the right: there is room below it, on the left
    side, anchor = (-1, "end") if x - LEFT_MM > NAME_MM else (1, "start")
    return [
        *_bar(point, across, up, stroke=svg.ACCENT, stroke_width=0.35),
        svg.circle(x, y, RING_MM * 1.3, class_="this-club", fill=svg.ACCENT, stroke=svg.ACCENT),
        svg.text(
            x + side * 2.2, y + 3.2, f"this club, {point.name[:16]}", class_="word this", text_anchor=anchor, **look
        ),
    ]

"""The set on the page of a shaft: a row for each club, and what the set says of this one."""

from __future__ import annotations

import msgspec

from clubwright.notation import render
from clubwright.services.shaft.set_frequencies import ClubPoint, SetFrequencies
from clubwright.services.shaft.trim_moves import change_text, is_told, size_text
from clubwright.services.shaft.vibration import slope_text


class SetRow(msgspec.Struct, frozen=True, kw_only=True):
    """One club of the set."""

    job: str
    name: str
    length: str
    frequency: str
    known: str
    off: str
    this: bool


def set_rows(found: SetFrequencies) -> tuple[SetRow, ...]:
    """Return the clubs of the set, the shortest first."""
    points = sorted(
        [*found.others, *([found.club] if found.club else [])], key=lambda point: (point.length_m, point.job)
    )
    return tuple(_set_row(point, found) for point in points)


def _set_row(point: ClubPoint, found: SetFrequencies) -> SetRow:
    off = found.off_line_hz(point)
    return SetRow(
        job=point.job,
        name=point.name,
        length=render("length", point.length_m),
        frequency=render("frequency", point.frequency_hz, point.sd_hz),
        known=point.known,
        off="" if off is None else change_text("frequency", off),
        this=point is found.club,
    )


def set_said(found: SetFrequencies) -> str:
    """Say what the set says of this club."""
    club, line = found.club, found.line
    if club is None:
        start = "" if line is None else f"The other clubs: {slope_text(line)}. "
        return f"{start}Of this club no frequency is known."
    if line is None:
        return "No line yet: no other club of this player, of another length, has a known frequency."
    off = found.off_line_hz(club)
    if off is None:
        return f"{slope_text(line)}, with this club counted: one more club, and it can be told whether this one lies on it."
    there = render("frequency", line.at_hz(club.length_m))
    known = "" if club.sd_hz is None else f", known to ± {render('frequency', club.sd_hz)}"
    side = "above" if off > 0 else "below"
    lies = f"lies {size_text('frequency', off)} {side} it" if is_told("frequency", off) else "lies on it"
    return f"The other clubs: {slope_text(line)}. At this length their line is at {there}; this club {lies}{known}."

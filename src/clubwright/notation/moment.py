"""A moment as the bench's clock and calendar show it: weekday, day, time of day."""

from __future__ import annotations

from datetime import datetime

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
"""English, whatever language the computer speaks: the page has one language."""


def render_moment(moment: datetime) -> str:
    """Show a moment in the time it is given in, to the minute it lies in: ``"Tue 3 Mar 06:05"``."""
    day = f"{DAYS[moment.weekday()]} {moment.day} {MONTHS[moment.month - 1]}"
    return f"{day} {moment.hour:02d}:{moment.minute:02d}"

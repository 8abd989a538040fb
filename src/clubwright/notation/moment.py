"""A moment as the bench's clock and calendar show it: weekday, day, time of day."""

from __future__ import annotations

from datetime import datetime

from clubwright.notation.units_shown import LanguageKey, units_shown

DAYS: dict[LanguageKey, tuple[str, ...]] = {
    "en": ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"),
    "de": ("Mo", "Di", "Mi", "Do", "Fr", "Sa", "So"),
}
MONTHS: dict[LanguageKey, tuple[str, ...]] = {
    "en": ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"),
    "de": ("Jan.", "Feb.", "März", "Apr.", "Mai", "Juni", "Juli", "Aug.", "Sep.", "Okt.", "Nov.", "Dez."),
}
"""In the language of whoever reads, whatever language the computer speaks; canonical is English."""


def render_moment(moment: datetime) -> str:
    """Show a moment in its own time, to the minute it lies in: ``"Tue 3 Mar 06:05"``, in German ``"Di 3. März 06:05"``."""
    units = units_shown()
    language: LanguageKey = "en" if units is None else units.language
    point = "." if language == "de" else ""
    day = f"{DAYS[language][moment.weekday()]} {moment.day}{point} {MONTHS[language][moment.month - 1]}"
    return f"{day} {moment.hour:02d}:{moment.minute:02d}"

"""When a ticket is promised: a person's own words, read only to put tickets in order.

The words stay as they were said. Those that cannot be read sort after those that can, never before: a promise that the
program does not understand must not push one aside that it does.
"""

from __future__ import annotations

import re
from datetime import date, datetime, time, timedelta

DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
END_OF_DAY = time(23, 59)
"""A day without an hour is promised by its end."""

_DAY = re.compile(r"(mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?", re.IGNORECASE | re.ASCII)
_DATE = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})", re.ASCII)
_HOUR = re.compile(r"([0-9]{1,2})(?::([0-9]{2}))? ?(am|pm|h)?", re.IGNORECASE | re.ASCII)
_NAMED_HOURS = {"noon": time(12, 0), "morning": time(12, 0), "evening": time(18, 0), "tonight": time(23, 59)}
_FILLERS = frozenset({"by", "at", "on", "the", "this", "next", "before"})


def promised_moment(words: str, taken: datetime) -> datetime | None:
    """Return the moment that a promise names, counted from when it was made; None when the words cannot be read.

    ``Wed 15:00``, ``tomorrow 9am``, ``15:30``, ``2026-11-25 noon`` and ``today`` are read. A day of the week is the next
    such day, the same day included.

    Args:
        words: As said.
        taken: When the promise was made, in the bench's own time.
    """
    text = re.sub(r"[,.]", " ", words.lower())
    day: date | None = None
    hour: time | None = None
    for word in _joined(text.split()):
        if word in _FILLERS:
            continue
        found_day, found_hour = _day(word, taken), _hour(word)
        if found_day is not None and day is None:
            day = found_day
        elif found_hour is not None and hour is None:
            hour = found_hour
        else:
            return None
        if word == "tonight":
            day = taken.date()
    if day is None and hour is None:
        return None
    return datetime.combine(day or taken.date(), hour or END_OF_DAY, tzinfo=taken.tzinfo)


def _joined(words: list[str]) -> list[str]:
    """Put ``9 am`` together to one word."""
    found: list[str] = []
    for word in words:
        if word in ("am", "pm") and found and found[-1].replace(":", "").isdigit():
            found[-1] += word
        else:
            found.append(word)
    return found


def _day(word: str, taken: datetime) -> date | None:
    if word in ("today", "tomorrow"):
        return taken.date() + timedelta(days=int(word == "tomorrow"))
    if match := _DATE.fullmatch(word):
        try:
            return date(int(match[1]), int(match[2]), int(match[3]))
        except ValueError:
            return None
    if match := _DAY.fullmatch(word):
        number = next(place for place, name in enumerate(DAYS) if name.startswith(match[1][:3]))
        return taken.date() + timedelta(days=(number - taken.weekday()) % 7)
    return None


def _hour(word: str) -> time | None:
    if word in _NAMED_HOURS:
        return _NAMED_HOURS[word]
    match = _HOUR.fullmatch(word)
    if match is None or not (match[2] or match[3]):  # a bare number may be a day of the month
        return None
    hours, minutes, half = int(match[1]), int(match[2] or 0), (match[3] or "").lower()
    if half in ("am", "pm"):
        if not 1 <= hours <= 12:
            return None
        hours = hours % 12 + (12 if half == "pm" else 0)
    return time(hours, minutes) if hours < 24 and minutes < 60 else None

"""How a job is written: its ticket number, with the bench that took it where two benches gave one number away."""

from __future__ import annotations

from collections.abc import Iterable

from clubwright.errors import RecordError
from clubwright.journal.facts import Place

AT = "@"
"""Between a number and the bench that took it."""
LINE = "/"
"""Between a bench and the number of a fact of it, as a person writes them."""
MOST_DIGITS = 9
"""No bench has written so many facts that their numbers have more."""
PART = ":"
"""Between that bench and the number of the fact."""


def bench_name(number: str, place: Place) -> str:
    """Return a number with the bench that took it, such as ``T-0110@van``."""
    return f"{number}{AT}{place[0]}"


def exact_name(number: str, place: Place) -> str:
    """Return the name of a job that no other one has, whatever else comes into the record, such as ``T-0110@van:7``."""
    return f"{bench_name(number, place)}{PART}{place[1]}"


def line_name(place: Place) -> str:
    """Return how a person calls a fact by its bench and its number there, such as ``van/7``."""
    return f"{place[0]}{LINE}{place[1]}"


def read_line_name(text: str) -> Place | None:
    """Read such a name; None where it is none. Of more digits than any fact has the number is 0, which no fact has."""
    site, stroke, number = text.rpartition(LINE)
    if not stroke or not number.isascii() or not number.isdecimal():
        return None
    return (site, int(number) if len(number) <= MOST_DIGITS else 0)


def is_named(text: str, numbers: Iterable[str], place: Place) -> bool:
    """True when a text may mean a job: a number means every job that has it or had it, since it may be on an older tag.

    Args:
        text: A number, a number with its bench, or with the very fact.
        numbers: Every number that the job had.
        place: The fact that its ticket was taken by.
    """
    return any(text in (number, bench_name(number, place), exact_name(number, place)) for number in numbers)


def numbers_in(text: str) -> list[str]:
    """Return the numbers that a text may hold: itself, and what stands before each of its @."""
    parts = text.split(AT)
    return [text, *(AT.join(parts[:count]) for count in range(1, len(parts)))]


def which_is_meant(text: str, found: Iterable[tuple[str, str]]) -> RecordError:
    """Return the error of a text that may mean several jobs.

    Args:
        text: As typed or scanned.
        found: Name and title of each.
    """
    choices = " or ".join(f"{name} ({title})" if title else name for name, title in found)
    return RecordError(f'"{text}" is the number of several tickets: write {choices}')

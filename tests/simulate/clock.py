"""Time in a simulated shop: one true time for all benches, and each bench's own clock, which may be set wrong and right."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

BEGIN = datetime(2026, 3, 2, 8, 0, tzinfo=UTC)
FAR_OFF = datetime(2099, 12, 31, 23, 0, tzinfo=UTC)
JUMPS = ("2099", "right", "an hour back", "a day back", "ten hours ahead", "1999")
"""What becomes of a clock: a wrong year, as after a flat battery; set right; summer time; a wrong day; another time zone."""


class TrueTime:
    """What a right clock would show; it moves only when told, by whole seconds."""

    def __init__(self) -> None:
        self.now = BEGIN

    def wait(self, minutes: float) -> None:
        """Let time pass."""
        self.now += timedelta(seconds=round(60 * minutes))


class BenchClock:
    """One bench's clock.

    Args:
        true: What a right one would show.
    """

    def __init__(self, true: TrueTime) -> None:
        self._true = true
        self._off = timedelta()

    def __call__(self) -> datetime:
        """Return what it shows."""
        return self._true.now + self._off

    def jump(self, how: str) -> None:
        """Set it, wrong or right.

        Args:
            how: One of `JUMPS`.
        """
        years = {"2099": FAR_OFF, "1999": FAR_OFF.replace(year=1999)}
        hours = {"right": 0, "an hour back": -1, "a day back": -24, "ten hours ahead": 10}
        self._off = years[how] - self._true.now if how in years else timedelta(hours=hours[how])

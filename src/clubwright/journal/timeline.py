"""When each fact counts as written: never before what its bench had seen, and by its clock where that can be believed.

A fact comes after the facts of its own bench before it, and after what a merge before it brought in. Among facts that knew
nothing of one another the clock decides; but a clock may have stood at another year for a while. So those times of a bench
are believed that fit its own numbering, as many as can be: a longest run that never steps back (by patience sorting). A fact
with another time counts as late as what came before it. And what a merge saw was there by then: it counts as no later.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple, TypeAlias

from clubwright.journal.facts import Place
from clubwright.journal.times import sorted_by

Moment: TypeAlias = tuple[str, int]
"""What facts are sorted by before their place: a time, and how many merges after one another led to them."""
Heads: TypeAlias = Mapping[str, int]
"""The last number of each bench that a merge saw."""

NO_CLOCK_BEFORE = "2025"
"""A clock that shows an earlier year was never set: there was no such record then."""


def believed(times: Sequence[str]) -> list[bool]:
    """Say which times of a bench's facts, in their own numbering, are believed.

    Args:
        times: As written, without the Z.
    """
    tails: list[int] = []
    keys: list[str] = []
    before = [-1] * len(times)
    for index, time in enumerate(times):
        if time < NO_CLOCK_BEFORE:
            continue
        length = bisect_right(keys, time)
        before[index] = tails[length - 1] if length else -1
        # of two runs of one length the later one is kept: a clock that is set is set right
        keys[length : length + 1] = [time]
        tails[length : length + 1] = [index]
    found = [False] * len(times)
    index = tails[-1] if tails else -1
    while index >= 0:
        found[index] = True
        index = before[index]
    return found


class BenchEnd(NamedTuple):
    """The last fact of a bench, as far as the next one is held against it.

    Attributes:
        number: Its number; 0 before the first.
        written: Its time as written, without the Z.
        moment: When it counts as written.
        believed: Whether its time is believed.
        seen_to: Last number of this bench that any merge saw.
    """

    number: int
    written: str
    moment: Moment
    believed: bool
    seen_to: int


NO_END = BenchEnd(0, "", ("", 0), believed=True, seen_to=0)
"""Of a bench that has written nothing, and of which no merge saw anything."""


def going_on(ends: Mapping[str, BenchEnd], rows: Iterable[tuple[str, int, str]]) -> dict[str, BenchEnd] | None:
    """Return the ends that benches have with more facts, each of which counts by its own time and merges nothing.

    The level of all of them is that of the end before. None where another fact may move by them, or one does not count
    by its own time: then all moments are found anew (`Timeline`).

    Args:
        ends: Of each bench that writes here.
        rows: Site, sequence and time of each; of each site those after its end.
    """
    found: dict[str, BenchEnd] = {}
    for site, number, at in sorted(rows):
        end, written = found.get(site, ends[site]), sorted_by(at)
        if not end.believed or written < max(end.written, NO_CLOCK_BEFORE) or number <= end.seen_to:
            return None
        found[site] = end._replace(number=number, written=written, moment=(written, end.moment[1]))
    return found


class Timeline:
    """The moments of all facts of a record; more facts may come in later.

    The same facts give the same moments, however they came in.
    """

    def __init__(self) -> None:
        self.moments: dict[Place, Moment] = {}
        self._numbers: dict[str, list[int]] = {}
        self._times: dict[str, list[str]] = {}
        self._saw: dict[Place, Heads] = {}
        self._seen_to: dict[str, int] = {}
        self._last_believed: dict[str, bool] = {}

    def last(self, site: str) -> int:
        """Return the number of a bench's last fact; 0 before its first."""
        numbers = self._numbers.get(site)
        return numbers[-1] if numbers else 0

    @property
    def sites(self) -> tuple[str, ...]:
        """Every bench that wrote."""
        return tuple(self._numbers)

    def add(self, rows: Iterable[tuple[str, int, str]], saw: Mapping[Place, Heads] | None = None) -> None:
        """Take in more facts.

        Args:
            rows: Site, sequence and time of each; of each site those after what is there already.
            saw: What each merge among them had seen.
        """
        simple = not saw
        for site, number, at in sorted(rows):
            time = sorted_by(at)
            numbers, times = self._numbers.setdefault(site, []), self._times.setdefault(site, [])
            follows = not times or (self._last_believed.get(site, False) and time >= times[-1])
            seen = number <= self._seen_to.get(site, 0)
            if simple and follows and not seen and time >= NO_CLOCK_BEFORE:
                level = self.moments[(site, numbers[-1])][1] if numbers else 0
                self.moments[(site, number)] = (time, level)
                self._last_believed[site] = True
            else:
                simple = False
            numbers.append(number)
            times.append(time)
        for place, heads in (saw or {}).items():
            self._saw[place] = heads
            for site, head in heads.items():
                self._seen_to[site] = max(head, self._seen_to.get(site, 0))
        if not simple:
            self._work_out()

    def ends(self) -> dict[str, BenchEnd]:
        """Return of each bench what the next of its facts is held against."""
        found = {}
        for site, numbers in self._numbers.items():
            moment, believed = self.moments[(site, numbers[-1])], self._last_believed.get(site, False)
            found[site] = BenchEnd(numbers[-1], self._times[site][-1], moment, believed, self._seen_to.get(site, 0))
        return found

    def _work_out(self) -> None:
        """Find every moment anew: another time of one bench may be believed now, or a merge saw what is there."""
        chains = {site: _Chain(self._numbers[site], self._times[site]) for site in sorted(self._numbers)}
        merges = _in_causal_order(self._saw, self._numbers)
        for (site, number), heads in merges:
            for other, head in heads.items():
                chains[other].go_on(head, [])
            chains[site].go_on(number, [chains[other].at(head) for other, head in heads.items()])
        for chain in chains.values():
            chain.go_on(None, [])
        # what saw a merge is of a higher level than it: so the moment of each is final before what it saw is lowered
        for (site, number), heads in sorted(merges, key=lambda item: -chains[item[0][0]].at(item[0][1])[1]):
            time, _ = chains[site].at(number)
            for other, head in heads.items():
                chains[other].no_later(head, time)
        self.moments = {
            (site, number): (chain.time[index], chain.level[index])
            for site, chain in chains.items()
            for index, number in enumerate(chain.numbers)
        }
        self._last_believed = {site: chain.believed[-1] for site, chain in chains.items()}


class _Chain:
    """One bench's facts while their moments are found.

    Args:
        numbers: Of its facts, rising.
        times: As written, without the Z.
    """

    def __init__(self, numbers: Sequence[int], times: Sequence[str]) -> None:
        self.numbers = numbers
        self.times = times
        self.believed = believed(times)
        self.following = [""] * len(times)
        after = ""
        for index in range(len(times) - 1, -1, -1):
            after = times[index] if self.believed[index] else after
            self.following[index] = after
        self.time: list[str] = []
        self.level: list[int] = []

    def at(self, number: int) -> Moment:
        """Return the moment of a fact, or of the last one before it."""
        index = bisect_right(self.numbers, number) - 1
        return (self.time[index], self.level[index]) if index >= 0 else ("", -1)

    def go_on(self, until: int | None, seen: Sequence[Moment]) -> None:
        """Give moments to the facts up to a merge, which had seen some; to all that are left when None."""
        end = len(self.numbers) if until is None else bisect_right(self.numbers, until)
        for index in range(len(self.time), end):
            merge = seen if until is not None and index == end - 1 else ()
            before = self.time[-1] if self.time else ""
            following = self.following[index]
            if self.believed[index]:
                time = max(before, self.times[index])
            else:
                time = max([before or following or self.times[index], *(moment[0] for moment in merge)])
                time = min(time, following) if following else time
            self.time.append(time)
            self.level.append(max([self.level[-1] if self.level else 0, *(moment[1] + 1 for moment in merge)]))

    def no_later(self, number: int, time: str) -> None:
        """Let no fact up to a number count as later than a time."""
        index = bisect_right(self.numbers, number) - 1
        while index >= 0 and self.time[index] > time:
            self.time[index] = time
            index -= 1


def _in_causal_order(
    saw: Mapping[Place, Heads], numbers: Mapping[str, Sequence[int]]
) -> list[tuple[Place, dict[str, int]]]:
    """Return the merges, each after those that it had seen; only what was forged goes round in a ring, and is cut open."""
    waiting: dict[str, list[int]] = {}
    for site, number in sorted(saw):
        if site in numbers:
            waiting.setdefault(site, []).append(number)
    heads = {
        place: {other: head for other, head in sorted(seen.items()) if other in numbers and other != place[0]}
        for place, seen in saw.items()
    }
    found: list[tuple[Place, dict[str, int]]] = []

    def ready(place: Place) -> bool:
        return not any(waiting.get(other, [head + 1])[0] <= head for other, head in heads[place].items())

    while waiting:
        firsts = [(site, mine[0]) for site, mine in sorted(waiting.items())]
        can = [place for place in firsts if ready(place)]
        for place in can or firsts[:1]:
            found.append((place, heads[place] if can else {}))
            waiting[place[0]].pop(0)
            if not waiting[place[0]]:
                del waiting[place[0]]
    return found

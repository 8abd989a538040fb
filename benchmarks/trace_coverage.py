"""How often the 95 % interval of a recorded frequency holds the truth, on kinds of records not used while building.

Each record is drawn by its seed: which noise, which times, how long, how damped, what else swings. A record that is refused
counts as refused and not as missed. `python benchmarks/trace_coverage.py --records 500`.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from math import pi, sqrt

import numpy as np

from clubwright.club.oscillation import read_oscillation
from clubwright.club.trace.record import Samples, Trace
from clubwright.errors import InputError

KINDS = ("phone", "dropped frames", "pink", "laplace", "hum", "planes", "thermal")
CLOCK = 5e-5


def drawn(seed: int) -> tuple[str, float, Trace]:
    """Return the kind, the true damped frequency of the stronger mode in Hz, and the record."""
    rng = np.random.default_rng([20260, seed])
    kind = KINDS[seed % len(KINDS)]
    frequency, ratio = rng.uniform(200, 420) / 60, 10 ** rng.uniform(-2.5, -1.8)
    rate = float(rng.choice([60, 100, 120, 240, 500])) if kind != "dropped frames" else 120.0
    length = rng.uniform(8, 60) / frequency if rate < 200 else rng.uniform(20, 60) / frequency
    time = np.arange(max(64, round(length * rate))) / rate
    timed = kind in ("phone", "dropped frames")
    if kind == "phone":
        time = np.sort(time + rng.uniform(-0.3, 0.3, time.size) / rate)
    if kind == "dropped frames":
        time = time[rng.random(time.size) > 0.15]
    values = _swing(time, frequency, ratio, 1.0, rng.uniform(-pi, pi))
    if kind == "planes":
        apart = frequency * rng.uniform(1.02, 1.08)
        values = values + _swing(time, apart, ratio, rng.uniform(0.1, 0.7), rng.uniform(-pi, pi))
    if kind == "hum":
        values = values + 0.05 * np.cos(2 * pi * rng.uniform(1.5, 2.5) * frequency * time + 1)
        values = values + _swing(time, frequency * rng.uniform(0.2, 0.5), 0.05, 0.08, rng.uniform(-pi, pi))
    values = values + rng.uniform(0.005, 0.03) * _noise(kind, time, rng)
    clock = 1 + CLOCK * rng.standard_normal()
    if timed:
        return kind, frequency, Trace(values=values, times_s=time * clock)
    return kind, frequency, Trace(values=values, rate_hz=rate / clock)


def _swing(time: Samples, frequency: float, ratio: float, amplitude: float, phase: float) -> Samples:
    decay = 2 * pi * frequency * ratio / sqrt(1 - ratio**2)
    return np.asarray(amplitude * np.exp(-decay * time) * np.cos(2 * pi * frequency * time + phase))


def _noise(kind: str, time: Samples, rng: np.random.Generator) -> Samples:
    white = rng.standard_normal(time.size)
    if kind == "laplace":
        return rng.laplace(size=time.size) / sqrt(2)
    if kind == "pink":
        sums = np.fft.rfft(white)
        sums[1:] /= np.sqrt(np.arange(1, sums.size))
        found = np.fft.irfft(sums, time.size)
        return np.asarray(found / found.std())
    if kind == "thermal":
        return white + 20 * (1 - np.exp(-time / 4))
    return white


def coverage(records: int, first: int = 0) -> dict[str, Counter[str]]:
    """Return for each kind how many records held the truth, missed it, and were refused."""
    found: dict[str, Counter[str]] = {kind: Counter() for kind in KINDS}
    for seed in range(first, first + records):
        kind, truth, trace = drawn(seed)
        try:
            read = read_oscillation(trace)
        except InputError:
            found[kind]["refused"] += 1
            continue
        inside = abs(read.frequency_hz - truth) <= 1.96 * read.frequency_sd_hz
        found[kind]["held" if inside else "missed"] += 1
    return found


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--records", type=int, default=500)
    parser.add_argument("--first", type=int, default=0)
    given = parser.parse_args()
    found = coverage(given.records, given.first)
    whole = sum(found.values(), Counter())
    for kind, counts in [*found.items(), ("all", whole)]:
        read = counts["held"] + counts["missed"]
        share = f"{counts['held'] / read:.3f}" if read else "-"
        sys.stdout.write(f"{kind:16} read {read:4}  held {share}  refused {counts['refused']}\n")


if __name__ == "__main__":
    main()

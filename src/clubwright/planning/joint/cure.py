"""When a glued joint may be released: from the data sheet's own table of temperature and time, and nothing else.

Between two rows the time is log-linear in temperature. Below the coldest row there is no answer: warm the part. Above the
hottest row the time is held, not shortened. A joint that saw several temperatures gathers a share of its cure from each.
Derivation and sources: docs/theory/adhesive.md; checked in tests/published/test_published_adhesive.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import fsum, isfinite
from typing import TypeAlias

import msgspec

from clubwright.errors import Finding, NotPossible
from clubwright.planning.number_checks import not_negative, positive, refuse

CureTable: TypeAlias = Sequence[tuple[float, float]]
"""Rows of (temperature in K, time in s), in any order, all for the same state of cure: "handle" or "full", not both."""

History: TypeAlias = Sequence[tuple[float, float]]
"""Spans of (duration in s, coldest temperature of the part in that span in K), in order."""

GRAPHITE_CABINET_K = 333.15
"""60 C: warmest cabinet for a joint with a graphite shaft. Common practice, no source."""

_ZERO_C_K = 273.15
_COLDEST_SENSIBLE_K = 200.0
_ROUNDING_K = 1e-6  # 68 F typed and 20 C in the table are the same temperature
_WHERE = "table of cure times"


class ReleaseTime(msgspec.Struct, frozen=True, kw_only=True):
    """How long a part must stay at one temperature.

    Attributes:
        time_s: Time from closing the joint, log-linear between the rows on either side.
        colder_row_s: Time of the row at or just below this temperature: long enough if heat never slows the cure, with no
            more assumed about what lies between the rows.
        temperature_k: Temperature the table was read at, after the allowance for the thermometer.
        findings: What to know about it.
    """

    time_s: float
    colder_row_s: float
    temperature_k: float
    findings: tuple[Finding, ...] = ()


class Release(msgspec.Struct, frozen=True, kw_only=True):
    """Whether the joint's temperatures so far add up to the table's cure.

    Attributes:
        released: The share has reached 1. The twist test and the rest of the release still stand.
        cured_share: Share of the table's cure gathered so far, from 0; above 1 when it stayed longer than needed.
        remaining_s: Time still needed at the temperature of the last span; zero when released, None when that
            temperature is too cold to count or nothing was recorded.
        findings: Spans that were not counted in full, and why.
    """

    released: bool
    cured_share: float
    remaining_s: float | None
    findings: tuple[Finding, ...] = ()


def checked_table(table: CureTable) -> tuple[tuple[float, float], ...]:
    """Return the rows sorted from cold to hot, once they can be a table of cure times.

    Raises:
        InputError: No row; a number that cannot be one; a temperature given twice or not in kelvin; a hotter row that
            takes longer than a colder one.
    """
    findings: list[Finding] = []
    sheet = "Copy the row again from the data sheet of the adhesive on the bench."
    if not table:
        findings.append(Finding(where=_WHERE, what="no rows", mend="Enter the data sheet's temperatures and times."))
    for number, (temperature_k, time_s) in enumerate(table, start=1):
        where = f"{_WHERE}, row {number}"
        findings += positive(f"{where}, time", time_s, sheet)
        if not isfinite(temperature_k) or temperature_k < _COLDEST_SENSIBLE_K:
            what = f"temperature {temperature_k!r} K cannot be a cure temperature"
            findings.append(Finding(where=where, what=what, mend="Give kelvin: degrees Celsius plus 273.15."))
    refuse(findings)
    rows = sorted((float(temperature_k), float(time_s)) for temperature_k, time_s in table)
    for (cold_k, cold_s), (warm_k, warm_s) in pairwise(rows):
        if cold_k == warm_k:
            findings.append(Finding(where=_WHERE, what=f"two rows at {_celsius(cold_k)}", mend=sheet))
        elif warm_s > cold_s:
            what = f"{_celsius(warm_k)} takes longer ({warm_s:g} s) than {_celsius(cold_k)} ({cold_s:g} s)"
            findings.append(Finding(where=_WHERE, what=what, mend=sheet))
    refuse(findings)
    return tuple(rows)


def release_time(
    table: CureTable, temperature_k: float, *, temperature_allowance_k: float = 0.0, shaft_material: str | None = None
) -> ReleaseTime:
    """Return the time a part needs at one steady temperature.

    Args:
        table: The data sheet's rows.
        temperature_k: Temperature of the part, not of the room.
        temperature_allowance_k: What the thermometer may be wrong by; taken off before the table is read.
        shaft_material: ``"steel"`` or ``"graphite"``; anything else is treated with graphite's caution.

    Raises:
        InputError: The table or a temperature cannot be one.
        NotPossible: The part is colder than the table's coldest row.
    """
    rows = checked_table(table)
    kelvin = "Give the temperature of the part in kelvin: degrees Celsius plus 273.15."
    refuse(
        positive("temperature of the part", temperature_k, kelvin)
        + not_negative("error of the thermometer", temperature_allowance_k, "Give half the width of its error band.")
    )
    read_at_k = temperature_k - temperature_allowance_k
    coldest_k = rows[0][0]
    if _too_cold(rows, read_at_k):
        raise NotPossible(
            f"No release at {_celsius(read_at_k)}: the data sheet's table starts at {_celsius(coldest_k)}, "
            "and a cold joint may stop curing",
            f"Warm the part to {_celsius(coldest_k)} or above, and count its time from then.",
        )
    findings = (*_hotter_than_sheet(rows, temperature_k), *heat_findings(temperature_k, shaft_material=shaft_material))
    return ReleaseTime(
        time_s=_time_in_table(rows, read_at_k),
        colder_row_s=min(time_s for row_k, time_s in rows if not _too_cold(((row_k, time_s),), read_at_k)),
        temperature_k=read_at_k,
        findings=findings,
    )


def cured_share(table: CureTable, history: History, *, temperature_allowance_k: float = 0.0) -> float:
    """Return the share of the table's cure that a history of temperatures has gathered.

    ``share = sum(duration / time(temperature))``. A span colder than the coldest row counts nothing; a span hotter than
    the hottest row counts at the hottest row's time. Above 1 when the part stayed longer than needed.

    Raises:
        InputError: The table or the history cannot be one.
    """
    rows = checked_table(table)
    _check_history(history, temperature_allowance_k)
    return fsum(
        duration_s / _time_in_table(rows, temperature_k - temperature_allowance_k)
        for duration_s, temperature_k in history
        if not _too_cold(rows, temperature_k - temperature_allowance_k)
    )


def released(
    table: CureTable,
    history: History,
    *,
    temperature_allowance_k: float = 0.0,
    shaft_material: str | None = None,
) -> Release:
    """Say whether a joint's history adds up to the table's cure, and what is still missing.

    Args:
        table: The data sheet's rows for the cure that play needs, not for handling.
        history: Every span since the joint was closed. Time that nobody watched is left out: it counts nothing.
        temperature_allowance_k: What the thermometer may be wrong by.
        shaft_material: ``"steel"`` or ``"graphite"``.

    Raises:
        InputError: The table or the history cannot be one.
    """
    rows = checked_table(table)
    share = cured_share(rows, history, temperature_allowance_k=temperature_allowance_k)
    done = share >= 1 - 1e-12
    remaining_s: float | None = 0.0
    if not done:
        last_k = history[-1][1] - temperature_allowance_k if history else 0.0
        remaining_s = None if _too_cold(rows, last_k) else (1 - share) * _time_in_table(rows, last_k)
    findings: list[Finding] = []
    for number, (_, temperature_k) in enumerate(history, start=1):
        if _too_cold(rows, temperature_k - temperature_allowance_k):
            what = f"span {number} at {_celsius(temperature_k)} counts nothing: colder than the table's coldest row"
            mend = f"Keep the part at {_celsius(rows[0][0])} or above."
            findings.append(Finding(where="cure history", what=what, mend=mend, severity="warning"))
    if history:
        hottest_k = max(temperature_k for _, temperature_k in history)
        findings += _hotter_than_sheet(rows, hottest_k)
        findings += heat_findings(hottest_k, shaft_material=shaft_material)
    return Release(released=done, cured_share=share, remaining_s=remaining_s, findings=tuple(findings))


def heat_findings(temperature_k: float, *, shaft_material: str | None) -> tuple[Finding, ...]:
    """Return the caution for a joint that is warmed, by what the shaft is made of."""
    if temperature_k <= GRAPHITE_CABINET_K or shaft_material == "steel":
        return ()
    which = "a graphite shaft" if shaft_material == "graphite" else "a shaft of unknown material"
    return (
        Finding(
            where="heat at the joint",
            what=f"{_celsius(temperature_k)} on {which}: heat can soften its resin without a mark",
            mend=f"Stay at or below {_celsius(GRAPHITE_CABINET_K)} (common practice, no source) unless the shaft's "
            "maker allows more.",
            severity="warning",
        ),
    )


def _too_cold(rows: Sequence[tuple[float, float]], temperature_k: float) -> bool:
    return temperature_k < rows[0][0] - _ROUNDING_K


def _time_in_table(rows: Sequence[tuple[float, float]], temperature_k: float) -> float:
    hottest_k, hottest_s = rows[-1]
    if temperature_k >= hottest_k:
        return hottest_s
    for (cold_k, cold_s), (warm_k, warm_s) in pairwise(rows):
        if temperature_k < warm_k:
            along = (temperature_k - cold_k) / (warm_k - cold_k)
            return float(cold_s * (warm_s / cold_s) ** along)
    raise AssertionError("the caller has ruled out temperatures below the first row")  # pragma: no cover


def _hotter_than_sheet(rows: Sequence[tuple[float, float]], temperature_k: float) -> tuple[Finding, ...]:
    hottest_k, _ = rows[-1]
    if temperature_k <= hottest_k:
        return ()
    return (
        Finding(
            where="heat at the joint",
            what=f"{_celsius(temperature_k)} is above the sheet's hottest row, {_celsius(hottest_k)}: "
            "that row's time is kept, and the sheet does not say that this heat is allowed",
            mend=f"Cool the part to {_celsius(hottest_k)} or below, or find the product's own figure for this heat.",
            severity="warning",
        ),
    )


def _check_history(history: History, temperature_allowance_k: float) -> None:
    findings = not_negative(
        "error of the thermometer", temperature_allowance_k, "Give half the width of its error band."
    )
    for number, (duration_s, temperature_k) in enumerate(history, start=1):
        where = f"cure history, span {number}"
        findings += not_negative(f"{where}, duration", duration_s, "Give the duration in seconds.")
        findings += positive(f"{where}, temperature", temperature_k, "Give kelvin: degrees Celsius plus 273.15.")
    refuse(findings)


def _celsius(temperature_k: float) -> str:
    return f"{temperature_k - _ZERO_C_K:.1f} °C"

"""The answers about a shaft, typed: trims, a set's slope, both planes, a change thought of, a family, a recording."""

from __future__ import annotations

from typing import Annotated

from clubwright.services.told.answer import FindingAnswer, UnitEstimate
from clubwright.services.told.base import Told, says


class TrimAnswer(Told, frozen=True, kw_only=True):
    """One trim of the tip, and the club that it makes."""

    tip_trim_m: Annotated[float, says("What comes off the tip, in m.")]
    butt_cut_m: Annotated[float, says("What then comes off the butt, in m.")]
    weights: Annotated[tuple[str, ...], says("The best weights with it, a name for each piece.")]
    finished: Annotated[dict[str, UnitEstimate], says("What the finished club would read, quantity by quantity.")]
    chance: Annotated[
        float | None,
        says(
            "Chance that every target it moves ends within tolerance, from 0 to 1; null where no frequency is ordered."
        ),
    ]
    chance_of_frequency: Annotated[float | None, says("Of the frequency alone; null where none is ordered.")]


class TrimsAnswer(Told, frozen=True, kw_only=True):
    """The trims of the tip that a sheet allows."""

    options: Annotated[tuple[TrimAnswer, ...], says("Each trim, the least first.")]
    best: Annotated[int, says("Place of the best of them, from 0.")]
    own: Annotated[int, says("Place of the ticket's own, from 0.")]
    targets: Annotated[tuple[str, ...], says("Keys of the targets that count.")]
    limit_m: Annotated[float, says("The most that may come off, in m.")]
    irreversible: Annotated[str, says("Why to think first: what cannot be taken back.")]


class SetClubAnswer(Told, frozen=True, kw_only=True):
    """One club of a set."""

    name: Annotated[str, says("What it is called.")]
    length_m: Annotated[float, says("Its finished length, in m.")]
    length_text: Annotated[str, says("The same in trade notation.")]
    frequency: Annotated[UnitEstimate, says("Its finished frequency.")]
    off_line_hz: Annotated[float, says("How far it lies above the line of the set, in Hz.")]


class SlopeAnswer(Told, frozen=True, kw_only=True):
    """How the frequency of a set goes with the length of its clubs."""

    clubs: Annotated[tuple[SetClubAnswer, ...], says("The clubs.")]
    slope_hz_m: Annotated[float, says("Slope of the line through them, in Hz a metre.")]
    slope_sd_hz_m: Annotated[float | None, says("Its standard uncertainty; null for two clubs.")]
    scatter_hz: Annotated[float | None, says("How far the clubs scatter about the line, in Hz; null for two.")]
    text: Annotated[str, says("The slope as the trade says it.")]


class TwoFrequenciesAnswer(Told, frozen=True, kw_only=True):
    """Two close frequencies of one recorded oscillation."""

    lower_hz: Annotated[float, says("The lower one, in Hz.")]
    upper_hz: Annotated[float, says("The upper one, in Hz.")]
    apart_hz: Annotated[float, says("How far they lie apart, in Hz.")]
    apart_sd_hz: Annotated[float, says("The standard uncertainty of that, in Hz.")]


class PlanesAnswer(Told, frozen=True, kw_only=True):
    """Both planes that a club swings in, with a shaft that is alike all round."""

    stage: Annotated[str, says("Stage of the build that it is of.")]
    toe_hz: Annotated[float, says("Frequency toe up and down, in Hz.")]
    face_hz: Annotated[float, says("Frequency face to face, in Hz.")]
    difference_hz: Annotated[float, says("What the head makes of it: face less toe, in Hz.")]
    recorded: Annotated[TwoFrequenciesAnswer | None, says("What was recorded; null when nothing was.")]
    own_hz: Annotated[
        tuple[float, ...],
        says(
            "What the shaft itself makes, in Hz, were the face plane the faster one recorded, and were it the slower."
        ),
    ]


class MoveAnswer(Told, frozen=True, kw_only=True):
    """One quantity before and after, in trade notation."""

    name: Annotated[str, says("Name of the quantity.")]
    before: Annotated[str, says("As it is.")]
    after: Annotated[str, says("As it would be.")]
    by: Annotated[str, says("The change between.")]


class WhatIfAnswer(Told, frozen=True, kw_only=True):
    """What a change that is only thought of would make of the finished club."""

    said: Annotated[str, says("The change in words.")]
    moves: Annotated[tuple[MoveAnswer, ...], says("What it moves.")]
    notes: Annotated[tuple[str, ...], says("What is to be looked at.")]
    without_readings: Annotated[bool, says("Whether what was read of the club is left out of it.")]


class OfFamilyAnswer(Told, frozen=True, kw_only=True):
    """What one shaft of a family taught."""

    job: Annotated[str, says("Job that it was built in.")]
    factor: Annotated[float, says("Its stiffness factor.")]
    sd: Annotated[float, says("The standard uncertainty of that.")]


class FamilyAnswer(Told, frozen=True, kw_only=True):
    """What the record's shafts of one name and profile say of the next one."""

    name: Annotated[str, says("Name of the shaft.")]
    parts: Annotated[tuple[OfFamilyAnswer, ...], says("The shafts that taught.")]
    undecided: Annotated[tuple[str, ...], says("Jobs with a reading that was set aside and nobody has decided about.")]
    outliers: Annotated[tuple[str, ...], says("Jobs whose shaft lies too far off the others; they are left out.")]
    shared_sd: Annotated[float, says("Standard uncertainty that all of them share.")]
    spread: Annotated[float | None, says("Standard deviation between pieces; null without a forecast.")]
    stiffness_factor: Annotated[float | None, says("What is expected of the next one; null without a forecast.")]
    stiffness_factor_sd: Annotated[float | None, says("The standard uncertainty of that.")]
    text: Annotated[str, says("Both as a ticket says them.")]
    why_not: Annotated[str, says("Why there is no forecast; empty where there is one.")]


class FamilyFoundAnswer(Told, frozen=True, kw_only=True):
    """The family of the shaft of a job."""

    family: Annotated[FamilyAnswer | None, says("Null where no other shaft of it was read.")]


class SecondModeAnswer(Told, frozen=True, kw_only=True):
    """The weaker of two modes that beat."""

    frequency_hz: Annotated[float, says("Its damped frequency, in Hz.")]
    frequency_sd_hz: Annotated[float, says("The standard uncertainty of that, in Hz.")]
    damping_ratio: Annotated[float, says("Its damping ratio.")]
    share: Annotated[float, says("Its amplitude over that of the stronger one.")]
    text: Annotated[str, says("Frequency and uncertainty as they are typed.")]


class TraceAnswer(Told, frozen=True, kw_only=True):
    """What a recorded oscillation says."""

    frequency_hz: Annotated[float, says("Damped frequency of the stronger mode, in Hz.")]
    frequency_sd_hz: Annotated[float, says("Its standard uncertainty, the clock's included, in Hz.")]
    damping_ratio: Annotated[float, says("Its damping ratio.")]
    cycles: Annotated[float, says("Cycles that were fitted.")]
    start_s: Annotated[float, says("Where the fitted part begins, in s.")]
    length_s: Annotated[float, says("How long it is, in s.")]
    signal_to_noise: Annotated[float, says("Oscillation over what is left, root mean square.")]
    cramer_rao_sd_hz: Annotated[float, says("Least standard uncertainty in white noise of that size, in Hz.")]
    whiteness: Annotated[float, says("Chance that noise alone leaves as high a line near it, from 0 to 1.")]
    second: Annotated[SecondModeAnswer | None, says("The second mode; null where one is enough.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("What is to be looked at.")]
    text: Annotated[str, says("Frequency and uncertainty as they are typed.")]

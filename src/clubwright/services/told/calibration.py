"""The answers of calibrations, typed: a shaft's stiffness from readings of it, the shop's build-up from measured grips."""

from __future__ import annotations

from typing import Annotated

from clubwright.services.told.answer import FindingAnswer
from clubwright.services.told.base import Told, says


class NodeAnswer(Told, frozen=True, kw_only=True):
    """Stiffness of a shaft at one place."""

    at_m: Annotated[float, says("From the tip end of the raw shaft, in m.")]
    ei_n_m2: Annotated[float, says("Bending stiffness EI, in N m2.")]
    relative_sd: Annotated[float, says("Its standard uncertainty over itself.")]
    learned: Annotated[float, says("Share of its first doubt that the readings took away, from 0 to 1.")]


class FittedAnswer(Told, frozen=True, kw_only=True):
    """One reading, and what the fit makes of it."""

    where: Annotated[str, says("Line of the file.")]
    kind: Annotated[str, says("frequency or deflection.")]
    read: Annotated[float, says("As read, in Hz or m.")]
    fitted: Annotated[float, says("As fitted, in the same unit.")]


class StiffnessAnswer(Told, frozen=True, kw_only=True):
    """Stiffness along a shaft, fitted to readings of it."""

    nodes: Annotated[tuple[NodeAnswer, ...], says("Stiffness along the shaft.")]
    readings: Annotated[tuple[FittedAnswer, ...], says("Each reading beside what is fitted.")]
    learned: Annotated[dict[str, float], says("Share of the first doubt that the readings took away, by third.")]
    felt: Annotated[dict[str, float], says("How much the readings feel each third.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("What is to be looked at.")]
    statement: Annotated[tuple[str, ...], says("What was learnt, in sentences.")]
    section: Annotated[str, says("Table of a ticket that the lines belong to.")]
    ticket_lines: Annotated[tuple[str, ...], says("Lines for a ticket with this shaft.")]


class BlendAnswer(Told, frozen=True, kw_only=True):
    """Where the shop's grips lie between the two models of build-up."""

    blend: Annotated[float, says("0 is constant volume, 1 is additive.")]
    sd: Annotated[float, says("Its standard uncertainty.")]
    readings: Annotated[int, says("How many grips were measured.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("What is to be looked at.")]
    section: Annotated[str, says("Table of a ticket that the line belongs to.")]
    ticket_line: Annotated[str, says("The line for a ticket with this kind of grip.")]

"""The answers about clubs of the record, typed: which, their jobs, how long these take, the mixes of their joints."""

from __future__ import annotations

from typing import Annotated, Literal

from clubwright.journal.mixes import BadMix
from clubwright.services.told.answer import FindingAnswer
from clubwright.services.told.base import Told, says


class PlaceAnswer(Told, frozen=True, kw_only=True):
    """A fact, by the bench that wrote it and its number there."""

    site: Annotated[str, says("Name of the bench.")]
    sequence: Annotated[int, says("Its number there, from 1.")]


class PartAnswer(Told, frozen=True, kw_only=True):
    """Which part is on a club; a text is empty where nobody has said it."""

    part: Annotated[str, says("head, shaft, grip or ferrule.")]
    name: Annotated[str, says("What it is called.")]
    family: Annotated[str, says("Its model.")]
    lot: Annotated[str, says("Its lot.")]
    piece: Annotated[str, says("Its own number.")]


class GluedAnswer(Told, frozen=True, kw_only=True):
    """Who closed a joint, and when."""

    at: Annotated[str | None, says("When, UTC, ISO 8601 with Z.")]
    by: Annotated[str, says("Who.")]


class ClubJobAnswer(Told, frozen=True, kw_only=True):
    """One job on a club."""

    job: Annotated[str, says("Name that it goes by.")]
    work: Annotated[str, says("Kind of work.")]
    came: Annotated[str, says("When its ticket came in, UTC, ISO 8601 with Z.")]
    state: Annotated[Literal["open", "closed"], says("Whether it is closed.")]
    findings: Annotated[tuple[FindingAnswer, ...], says("What is wrong with it as work on this club.")]
    glued: Annotated[GluedAnswer | None, says("The last joint that was closed in it.")]


class ClubJobsAnswer(Told, frozen=True, kw_only=True):
    """A club: the fact that took its first job in, and the jobs on it, the first one first."""

    club: Annotated[PlaceAnswer, says("The fact that took its first job in.")]
    parts: Annotated[tuple[PartAnswer, ...], says("What is on it now, of which anything is said.")]
    jobs: Annotated[tuple[ClubJobAnswer, ...], says("The jobs on it, the first one first.")]


class MixJoint(Told, frozen=True, kw_only=True):
    """A job whose joint is glued from a mix, or to be."""

    job: Annotated[str, says("Name of the job.")]
    glued: Annotated[bool, says("Whether the head is glued.")]
    finished: Annotated[bool, says("Whether the job is closed.")]


class MixRow(Told, frozen=True, kw_only=True):
    """A mix of the record."""

    mix: Annotated[str, says("What it was made by, as SITE/NUMBER.")]
    made_on: Annotated[str, says("Job that it was made on.")]
    weighed: Annotated[str, says("Part A and part B, as typed.")]
    batch: Annotated[str, says("Lot of the product.")]
    mixed_at: Annotated[str, says("When, UTC, ISO 8601 with Z.")]
    bad: Annotated[BadMix | None, says("Why it is bad, and who says so; null while nobody does.")]
    joints: Annotated[tuple[MixJoint, ...], says("What is glued from it, or to be.")]


class MixesAnswer(Told, frozen=True, kw_only=True):
    """Every mix that stands, newest first."""

    schema: Annotated[Literal[1], says("Number of the schema that this answer keeps to.")]
    mixes: Annotated[tuple[MixRow, ...], says("Each with every joint that is glued from it.")]

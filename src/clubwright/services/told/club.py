"""The answers about a club of the record, typed: which it is, the jobs on it, and how long these take."""

from __future__ import annotations

from typing import Annotated, Literal

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

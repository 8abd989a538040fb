"""The answers about time, typed: how long steps and jobs take by the shop's minutes."""

from __future__ import annotations

from typing import Annotated

from clubwright.services.told.base import Told, says


class TimesAnswer(Told, frozen=True, kw_only=True):
    """Two sums of time."""

    hands_on_s: Annotated[float, says("Hands at work, in s.")]
    waiting_s: Annotated[float, says("Waiting for the cure, in s.")]


class StepTimeAnswer(Told, frozen=True, kw_only=True):
    """How long one step takes."""

    key: Annotated[str, says("Which step.")]
    time_s: Annotated[float, says("Its time, in s.")]
    waits: Annotated[bool, says("Whether the club only waits at it.")]
    done: Annotated[bool, says("Whether the record says that it is done.")]


class JobTimesAnswer(Told, frozen=True, kw_only=True):
    """How long a job takes by the shop's minutes."""

    steps: Annotated[tuple[StepTimeAnswer, ...], says("Each step.")]
    whole: Annotated[TimesAnswer, says("All steps together.")]
    left: Annotated[TimesAnswer, says("Those that are not done.")]


class OpenJobAnswer(Told, frozen=True, kw_only=True):
    """What is left on one open job."""

    job: Annotated[str, says("Ticket number.")]
    title: Annotated[str, says("Its club and its player.")]
    left: Annotated[TimesAnswer | None, says("What is left; null where it cannot be worked.")]


class OpenTimesAnswer(Told, frozen=True, kw_only=True):
    """What is left on every open job, the most urgent first, and on all together."""

    jobs: Annotated[tuple[OpenJobAnswer, ...], says("Each open job, the most urgent first.")]
    left: Annotated[TimesAnswer, says("All together.")]

"""What is erased and what is not reached, for the command, the page and programs."""

from __future__ import annotations

from clubwright.services.actions.forgetting import UNREACHED, Forgotten, Look
from clubwright.services.told.erased import ForgottenAnswer, LookAnswer, RemainingAnswer


def look_part(looked: Look) -> LookAnswer:
    """Return what would be erased."""
    return LookAnswer(
        facts=looked.facts,
        jobs=looked.jobs,
        remaining=_remaining(looked),
        texts=looked.texts,
        unreached=UNREACHED,
    )


def forgotten_part(done: Forgotten) -> ForgottenAnswer:
    """Return what was erased, and by which facts."""
    return ForgottenAnswer(
        facts=done.looked.facts,
        jobs=done.looked.jobs,
        remaining=_remaining(done.looked),
        texts=done.looked.texts,
        unreached=done.unreached,
        person=done.person,
        written=tuple(f"{fact.site}/{fact.sequence}" for fact in done.written),
    )


def _remaining(looked: Look) -> tuple[RemainingAnswer, ...]:
    return tuple(
        RemainingAnswer(job=item.job, place=f"{item.place[0]}/{item.place[1]}", path=item.path, text=item.text)
        for item in looked.remaining
    )

"""The answers about forgetting a player, typed: what would be erased, and what was."""

from __future__ import annotations

from typing import Annotated, Literal

from clubwright.services.told.base import Told, says


class RemainingAnswer(Told, frozen=True, kw_only=True):
    """A text that may still say who it is; a person looks at it."""

    place: Annotated[str, says("The fact that holds it, as SITE/NUMBER.")]
    job: Annotated[str, says("The job that it is of.")]
    path: Annotated[str, says("Where in the fact.")]
    text: Annotated[str, says("The text.")]


class LookAnswer(Told, frozen=True, kw_only=True):
    """What would be erased, what remains to be looked at, and what is not reached."""

    facts: Annotated[int, says("How many facts hold the name.")]
    texts: Annotated[int, says("How many texts of them.")]
    jobs: Annotated[tuple[str, ...], says("The jobs that they are of.")]
    remaining: Annotated[tuple[RemainingAnswer, ...], says("Texts that a person looks at.")]
    unreached: Annotated[tuple[str, ...], says("What an erasure does not reach.")]


class ForgottenAnswer(LookAnswer, frozen=True, kw_only=True):
    """What was erased; the mark of the person, and the facts that say so."""

    person: Annotated[str, says("Mark that stands where the name stood.")]
    written: Annotated[tuple[str, ...], says("The facts that say so, as SITE/NUMBER.")]


class AppliedAnswer(Told, frozen=True, kw_only=True):
    """What was done to an earlier copy of the record, so that it holds nothing that was erased since."""

    schema: Annotated[Literal[1], says("Number of the schema that this answer keeps to.")]
    erased: Annotated[int, says("In how many of its facts texts were erased.")]
    new: Annotated[int, says("Facts that it had not, and has now.")]
    facts: Annotated[int, says("Facts that it holds now.")]

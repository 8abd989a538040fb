"""What the JSON interface takes and gives about the end of a job: its open targets, and what is accepted by name."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from clubwright.web.api.base import Given, Taken, Text


class AcceptIn(Taken):
    """A person accepts by name that a target is outside, cannot be told, or was not read."""

    quantity: Text
    name: Text
    reason: Annotated[str, Field(min_length=1, max_length=1000)]


class ClosingOut(Given):
    """One ordered target as the end of the job sees it; the job is closed once none is open."""

    quantity: str
    ordered: str
    read: list[str]
    verdict: Literal["within", "outside", "cannot tell", "not used", "not read"]
    open: bool
    mend: str
    accepted_by: str
    reason: str
    lapsed: Annotated[str, Field(description="Who accepted how it stood before; that no longer holds.")]

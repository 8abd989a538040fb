"""What the JSON interface takes about the end of a job: what is accepted by name."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from clubwright.web.api.base import Taken, Text


class AcceptIn(Taken):
    """A person accepts by name that a target is outside, cannot be told, or was not read."""

    quantity: Text
    name: Text
    reason: Annotated[str, Field(min_length=1, max_length=1000)]

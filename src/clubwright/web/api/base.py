"""What every request and answer of the JSON interface keeps to, and the kinds of text they are made of."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

Text = Annotated[str, Field(min_length=1, max_length=200, examples=["35 1/4 in"])]
Note = Annotated[str, Field(max_length=1000)]
Site = Annotated[str | None, Field(max_length=80, description="Bench that wrote the fact; yours when left out.")]
DoneAt = Annotated[
    str | None,
    Field(max_length=40, description="When it was done, where that was earlier, such as 9:40 by the bench's clock."),
]
Number = Annotated[int, Field(ge=1, le=2**31 - 1, description="Number of a fact, as the trail shows it.")]


class Taken(BaseModel):
    """What every request body keeps to: no unknown keys, no values of another kind, nothing that is not a number."""

    model_config = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False)

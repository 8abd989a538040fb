"""What the request of every bench action keeps to."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class Taken(BaseModel):
    """What every request body keeps to: no unknown keys, no values of another kind, nothing that is not a number."""

    model_config = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False)

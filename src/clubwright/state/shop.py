"""What the workshop goes by on one job."""

from __future__ import annotations

from clubwright.state.particulars import Entry, Particulars


class ShopFigures(Particulars, frozen=True, kw_only=True):
    """What the workshop goes by on one job: its swing weight scale, its decision rule, its saw and its clamp."""

    swing_weight_point: str | None = None
    decision_rule: str | None = None
    kerf: Entry | None = None
    clamp: Entry | None = None
    clamp_give: Entry | None = None
    frequency_test_weight: Entry | None = None
    frequency_test_insertion: Entry | None = None
    local_length_limit: Entry | None = None
    lead_tape: Entry | None = None
    most_pieces: Entry | None = None

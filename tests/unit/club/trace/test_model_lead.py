"""A second plane is believed only where its criterion lies far enough below that of one: never for a small lead."""

from __future__ import annotations

import msgspec
import pytest

from clubwright.club.trace import model_choice
from clubwright.club.trace.model_choice import CLEAR_LEAD, Choice, Judged, choose
from clubwright.club.trace.span import Span
from records import Swing, recorded


@pytest.mark.parametrize(
    ("lead", "wanted"), [(CLEAR_LEAD + 1, True), (CLEAR_LEAD - 1, False), (0.0, False), (1 - CLEAR_LEAD, False)]
)
def test_a_second_plane_needs_a_clear_lead(monkeypatch: pytest.MonkeyPatch, lead: float, wanted: bool) -> None:
    trace = recorded(Swing(5.0, 0.004), Swing(5.3, 0.004, 0.5), length_s=15)
    judged, criteria = model_choice._judged, [100.0, 100.0 - lead]

    def set_apart(*given: object) -> Judged:
        return msgspec.structs.replace(judged(*given), criterion=criteria.pop(0))  # type: ignore[arg-type]

    monkeypatch.setattr(model_choice, "_judged", set_apart)
    found: Choice = choose(Span(values=trace.values, rate_hz=trace.rate_hz, start_s=0.0), 5.1)
    assert found.second_wanted is wanted

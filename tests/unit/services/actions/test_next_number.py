"""The next free ticket number is one more than the highest that was ever given, whatever became of that job."""

from __future__ import annotations

import pytest

from clubwright.services.actions.orders.renumbering import next_number
from clubwright.services.record.job_index import highest_of


@pytest.mark.parametrize(
    ("numbers", "start", "highest"),
    [
        ([], "T-", 0),
        (["T-0001"], "T-", 1),
        (["T-0003", "T-0011", "T-0007"], "T-", 11),
        (["T-0003", "T-van-0042"], "T-", 3),
        (["T-0003", "T-van-0042"], "T-van-", 42),
        (["X-0099", "T-0002"], "T-", 2),
    ],
)
def test_the_highest_behind_a_start(numbers: list[str], start: str, highest: int) -> None:
    assert highest_of(numbers, start) == highest


def test_a_bench_gives_one_more_than_the_highest() -> None:
    class Numbers:
        def highest(self, start: str) -> int:
            return {"T-": 7, "T-van-": 41}.get(start, 0)

    assert next_number(Numbers()) == "T-0008"  # type: ignore[arg-type]
    assert next_number(Numbers(), "van") == "T-van-0042"  # type: ignore[arg-type]
    assert next_number(Numbers(), "old shed!") == "T-old-shed-0001"  # type: ignore[arg-type]

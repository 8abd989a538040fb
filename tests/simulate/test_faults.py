"""The simulated shop finds each planted fault within a stated number of seeds, by the law that it breaks."""

from __future__ import annotations

import pytest
from faults import FAULTS
from hands import drawn
from once import forget
from playing import play


@pytest.mark.parametrize("name", FAULTS)
def test_a_planted_fault_is_found(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    fault = FAULTS[name]
    fault.plant(monkeypatch)
    forget()
    try:
        for seed in range(fault.first, fault.first + fault.within):
            report = play(drawn(seed))
            if report.broken:
                assert report.law.startswith(fault.laws), f"seed {seed}: {report.broken}"
                return
        pytest.fail(f"{fault.within} seeds did not find it")
    finally:
        forget()

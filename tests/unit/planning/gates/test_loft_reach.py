"""How far a head may be off the ordered loft before it is another head: 4 degrees and the tolerance, either way."""

from __future__ import annotations

import tomllib

import pytest

from clubwright.services.answer.club_answer import work_document
from repository import ROOT


@pytest.mark.parametrize(("off_deg", "same"), [(4.4, True), (-4.4, True), (4.6, False), (-4.6, False), (0.0, True)])
def test_four_degrees_and_the_tolerance_are_another_head(off_deg: float, same: bool) -> None:
    document = tomllib.loads((ROOT / "examples" / "wedge-50.toml").read_text(encoding="utf-8"))
    document["target"]["loft"] = "50 deg"
    document["tolerance"] = {**document.get("tolerance", {}), "loft": "1/2 deg"}
    document["head"]["loft"] = f"{50 + off_deg} deg"
    gate = next(item for item in work_document(document).gates if item.step == "glue")
    (loft,) = [check for check in gate.checks if check.key == "loft"]
    assert loft.met is same

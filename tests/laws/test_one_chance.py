"""One chance of one target: what a strip says of the club as it is, the answer says too, for every ticket there is."""

from __future__ import annotations

from importlib.resources import files
from math import radians
from pathlib import Path

import pytest

from clubwright.services.answer.club_answer import work_document
from clubwright.services.answer.strips import strips_of
from repository import ROOT
from shopwork import completed_example

TICKETS = {
    path.stem: path
    for folder in (ROOT / "examples", Path(str(files("clubwright.demo"))))
    for path in sorted(folder.glob("*.toml"))
    if path.name != "shop.toml"
}


@pytest.mark.parametrize("name", TICKETS)
def test_a_strip_says_the_answers_chance_for_every_target(name: str) -> None:
    worked = work_document(completed_example(TICKETS[name]))
    finished = worked.answer()["finished"]
    said = {strip.key: strip.belief.chance for strip in strips_of(worked)}
    assert said
    for key, chance in said.items():
        assert chance == pytest.approx(finished[key]["chance"], abs=1e-9), key
    assert set(said) == {key for key, figure in finished.items() if figure["target"] is not None}


def test_a_belief_too_narrow_to_be_drawn_keeps_its_chance() -> None:
    """A strip draws a curve no narrower than can be seen; its chance is not that of what is drawn."""
    content = completed_example(TICKETS["wedge-54"])
    content["head"]["loft"], content["target"]["loft"] = "54.2495 deg", "54 deg"
    content["tolerance"]["loft"] = "1/4 deg"
    content["instrument"]["still"] = {"resolution": "0.0001 deg"}
    row = {"quantity": "loft", "value": "54.2495 deg", "stage": "finished", "instrument": "still", "keep": "yes"}
    content["reading"] = [row]
    worked = work_document(content)
    strip = next(strip for strip in strips_of(worked) if strip.key == "loft")
    narrow = float(worked.club_state.predict(["loft"]).sd()[0, 0])
    drawn = 2 * radians(0.25) / (strip.window[1] - strip.window[0]) / 400
    assert narrow < drawn
    assert strip.belief.chance == pytest.approx(worked.answer()["finished"]["loft"]["chance"], abs=1e-9)
    assert strip.belief.chance > 0.99

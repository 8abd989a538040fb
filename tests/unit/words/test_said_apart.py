"""What was once cut out of a sentence is handed on: figures, clauses and rules are what the sentences are made of."""

from __future__ import annotations

import pytest

from clubwright.conformity.decision import verdict
from clubwright.errors import Finding, clause_finding
from clubwright.notation import KINDS, UnitsShown, render, render_apart, shown_in
from clubwright.planning.cautions import CAUTIONS, weight_cautions
from clubwright.planning.gates.types import unmet_by
from clubwright.services.shaft.trim_moves import change_text, is_told, size_text
from clubwright.words.say import say


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("units", [None, UnitsShown(length="mm", decimal="comma")])
def test_a_figure_and_its_spread_are_what_is_shown_together(kind: str, units: UnitsShown | None) -> None:
    value, sd = (35.0, 0.25) if kind not in ("count", "swing_weight") else (34.0, 0.5)
    with shown_in(units):
        figure, spread = render_apart(kind, value, sd)
        assert (f"{figure} ± {spread}" if spread else figure) == render(kind, value, sd)
        assert spread or kind == "ratio", "it has none"
        assert render_apart(kind, value, 0.0) == (render(kind, value, 0.0), "")


def test_a_mend_is_a_clause_in_a_reason_and_a_sentence_in_a_finding() -> None:
    finding = clause_finding("[head] mass", "not weighed", "weigh it. Then write 3.5 g")
    assert finding.sentence() == "[head] mass: not weighed. Weigh it. Then write 3.5 g."
    assert say(unmet_by("mix", finding).reason, None) == "not weighed: weigh it. Then write 3.5 g"
    plain = Finding(where="a", what="b", mend="By Ann.")
    assert say(unmet_by("mix", plain).reason, None) == "b: By Ann."


def test_a_rule_is_named_apart_from_its_figures() -> None:
    found = verdict(10.2, 10.0, 0.5, 0.1, "simple", lambda value: f"{value:.1f}. g")
    assert found.rule == f"{found.named} {found.figures}"
    assert "Reading" not in found.named and "10.2" in found.figures, (
        "a figure with a full stop and a space cuts nothing"
    )


def test_lead_is_cautioned_for_first_where_a_name_says_so() -> None:
    said = CAUTIONS["weight"]
    first, *rest = weight_cautions(["Lead tape"], said)
    assert first != said[0] and {first, *rest} == set(said) and len(rest) == len(said) - 1
    assert weight_cautions(["tungsten"], said) == said


@pytest.mark.parametrize(("change", "told"), [(0.0004, False), (0.02, True), (-0.02, True)])
def test_a_change_that_rounds_to_nothing_is_told_as_none(change: float, told: bool) -> None:
    assert is_told("frequency", change) is told
    assert change_text("frequency", change) == ("none" if not told else f"{'+' if change > 0 else '-'}1.2 cpm")
    assert size_text("frequency", -0.02) == "1.2 cpm"

"""Every label of a card's figure has the equation that gives it, or is named as typed."""

from __future__ import annotations

from clubwright.services.why.formulas.labels import LABELS, TYPED
from clubwright.words.english import ENGLISH


def test_every_label_has_its_equation_or_is_typed() -> None:
    known = {key for key in ENGLISH.phrases if key.startswith("label.")}
    assert known == set(LABELS) | TYPED
    assert not set(LABELS) & TYPED

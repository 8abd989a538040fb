"""Findings that are data: the phrases that their sentences are made of stand in them."""

from __future__ import annotations

from clubwright.errors import Finding
from clubwright.planning.said.phrases import Phrase, Value


class SaidFinding(Finding, frozen=True, kw_only=True):
    """A finding with the phrase that says all of it, for whoever shows it in a style.

    Attributes:
        said: The phrase.
    """

    said: Phrase


def sentence_of(finding: Finding) -> Value:
    """Return what says a finding: its phrase, else its sentence, which is English in every language."""
    return finding.said if isinstance(finding, SaidFinding) else finding.sentence()

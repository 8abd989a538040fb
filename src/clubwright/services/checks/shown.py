"""What was shown at a signature, as it is kept: enough of it must be readable again to say whether the signature holds."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.errors import Finding
from clubwright.services.checks.sums import is_number


def shown_findings(shown: Mapping[str, Any]) -> list[Finding]:
    """Say whether what was shown at a signature can be read again: the cut that was signed, and the verdicts."""
    answer = shown.get("answer", {})
    cut, verdicts = (answer.get("cut"), answer.get("verdicts", {})) if isinstance(answer, Mapping) else (0, 0)
    length = cut.get("shaft_length_m") if isinstance(cut, Mapping) else None
    sound = (
        (cut is None or isinstance(cut, Mapping))
        and (length is None or is_number(length))
        and isinstance(verdicts, Mapping)
        and all(isinstance(item, Mapping) and isinstance(item.get("verdict"), str) for item in verdicts.values())
    )
    if sound:
        return []
    return [Finding(where="shown", what="what was signed is no answer of this program", mend="Sign at the bench.")]

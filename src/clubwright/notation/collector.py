"""Read every field of a file before complaining: all findings at once."""

from __future__ import annotations

from collections.abc import Callable

from clubwright.errors import Finding, InputError, Where
from clubwright.notation.reader import Understood, parse, parse_difference


class Collector:
    """Gathers the findings of a whole file while its values are read.

    Attributes:
        findings: What was found so far, in the order of reading.
    """

    def __init__(self) -> None:
        self.findings: list[Finding] = []

    def take(
        self, kind: str, text: object, *, where: Where, base: float | None = None, default_unit: str | None = None
    ) -> Understood | None:
        """Read one value; on a finding keep it and return None. A value that is no text is a finding too."""
        return self._taken(
            text, where, lambda typed: parse(kind, typed, where=where, base=base, default_unit=default_unit)
        )

    def take_difference(
        self, kind: str, text: object, *, where: Where, default_unit: str | None = None
    ) -> Understood | None:
        """Read a tolerance, resolution or bias as ``parse_difference`` does, or keep the finding and return None."""
        return self._taken(
            text, where, lambda typed: parse_difference(kind, typed, where=where, default_unit=default_unit)
        )

    def _taken(self, text: object, where: Where, read: Callable[[str], Understood]) -> Understood | None:
        if not isinstance(text, str):
            mend = "Write the value in quotes, with its unit where it has one."
            self.add(where, f"{text!r} is written without quotes", mend)
            return None
        try:
            return read(text)
        except InputError as refused:
            self.findings.extend(refused.findings)
            return None

    def add(self, where: Where, what: str, mend: str) -> None:
        """Keep a finding of the caller's own."""
        self.findings.append(Finding(where=where, what=what, mend=mend))

    def raise_if_any(self) -> None:
        """Raise every error found so far as one ``InputError``; warnings and notes alone raise nothing."""
        if any(finding.severity == "error" for finding in self.findings):
            raise InputError(self.findings)

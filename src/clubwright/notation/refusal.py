"""A reading that cannot be taken, before it is known where in the input it stands."""

from __future__ import annotations


class Refusal(Exception):
    """What is wrong and how to mend it; ``parse`` adds the place and raises ``InputError``."""

    def __init__(self, what: str, mend: str) -> None:
        self.what = what
        self.mend = mend
        super().__init__(what)


def shown(text: str) -> str:
    """Return a typed text in quotes, cut to what fits a line."""
    short = text if len(text) <= 40 else text[:37] + "..."
    return repr(short)

"""Commas that may part thousands as well as stand for a decimal point."""

from __future__ import annotations

import re

_MAY_BE_THOUSANDS = re.compile(r"(?<![0-9.,])[1-9][0-9]{0,2}(?:,[0-9]{3})+(?![0-9])", re.ASCII)


def may_be_thousands(text: str) -> bool:
    """True for ``1,000`` and ``12,500``, but not for ``0,900`` or ``1,5``."""
    return _MAY_BE_THOUSANDS.search(text) is not None

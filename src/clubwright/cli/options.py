"""Options that many commands share."""

from __future__ import annotations

import getpass
import os
from collections.abc import Iterable
from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

SHOP_VARIABLE, BY_VARIABLE = "CLUBWRIGHT_SHOP", "CLUBWRIGHT_BY"
"""Environment variables that say for all commands whose record, and who works."""

JobId = Annotated[str, Parameter(help="Ticket number; NUMBER@BENCH where two benches gave one number away.")]
Json = Annotated[bool, Parameter(name="--json", negative=(), help="Print JSON for programs.")]
Shop = Annotated[
    str,
    Parameter(
        name="--shop",
        env_var=SHOP_VARIABLE,
        help="Folder of the workshop's record, or a postgresql:// address that several benches share.",
    ),
]
By = Annotated[str | None, Parameter(name="--by", env_var=BY_VARIABLE, help="Who does it; you when left out.")]
Key = Annotated[str | None, Parameter(name="--key", help="Idempotency key: the same key again never records twice.")]

ShopFile = Annotated[
    Path | None,
    Parameter(
        name="--shop-file",
        env_var="CLUBWRIGHT_SHOP_FILE",
        help="The shop's settings (TOML): adhesives, tapes, gauges, tolerances that the ticket need not say.",
    ),
]

WhyKey = Annotated[
    str | None,
    Parameter(
        name="--why", help="Say why one number is what it is, such as finished/swing_weight, in place of the rest."
    ),
]

SHOP = "workshop"
SITE = "CLUBWRIGHT_SITE"
"""Environment variable that names the bench, where several share one record or bring theirs together."""


def named_values(given: Iterable[str], what: str, example: str = "") -> dict[str, str]:
    """Read values given as NAME=VALUE.

    Args:
        given: As typed.
        what: What they are of, for findings.
        example: One of them.

    Raises:
        InputError: for each without =.
    """
    from clubwright.errors import Finding, InputError

    pairs = [(item, item.partition("=")) for item in given]
    bad = [item for item, (_, sign, _) in pairs if not sign]
    if bad:
        mend = f'Write name=value, such as "{example}".' if example else "Write name=value."
        raise InputError([Finding(where=what, what=f'"{item}" has no =', mend=mend) for item in bad])
    return {name.strip(): value.strip() for _, (name, _, value) in pairs}


def person(by: str | None) -> str:
    """Return who works: as said, else the name of the account."""
    if by:
        return by
    return os.environ.get("USER") or getpass.getuser()

"""Options that many commands share."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

if TYPE_CHECKING:
    from clubwright.notation import Typist, UnitsShown
    from clubwright.notation.own import Own
    from clubwright.ticket.shop.settings import ShopSettings

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
OWN_VARIABLES: dict[str, str] = {
    "language": "CLUBWRIGHT_LANGUAGE",
    "decimal": "CLUBWRIGHT_DECIMAL",
    "length": "CLUBWRIGHT_LENGTH",
    "temperature": "CLUBWRIGHT_TEMPERATURE",
    "bare_length": "CLUBWRIGHT_BARE_LENGTH",
}
"""Environment variables that say how whoever works here reads and types, where it is not as the shop says."""


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


def own_here() -> Own:
    """Return how whoever works here reads and types, by what the environment says of it.

    Raises:
        InputError: with a finding for each variable that says none of the words for it.
    """
    from clubwright.notation.own import AS_THE_SHOP, own_of

    said = {key: os.environ[name] for key, name in OWN_VARIABLES.items() if os.environ.get(name)}
    return own_of(said, OWN_VARIABLES) if said else AS_THE_SHOP


def typist_of(settings: ShopSettings) -> Typist:
    """Return how whoever works here types numbers: as they say themselves, else as the shop says."""
    return own_here().typist(settings.typist())


def units_of(settings: ShopSettings) -> UnitsShown:
    """Return how whoever works here is shown figures and words: as they say themselves, else as the shop says."""
    return own_here().units(settings.units())

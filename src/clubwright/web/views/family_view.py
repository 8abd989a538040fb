"""What shafts of one model taught, as the page of a shaft shows it."""

from __future__ import annotations

import msgspec

from clubwright.services.shaft.family import ShaftFamily, factor_text, spread_text
from clubwright.services.shaft.taught import TaughtShaft


class FamilyView(msgspec.Struct, frozen=True, kw_only=True):
    """What shafts of one name and stiffness taught.

    Attributes:
        shafts: Each that counts: job and factor.
        undecided: Each whose reading was set aside, the same way.
        outliers: Each that lies too far off the others, the same way.
        spread: How much one differs from another; empty while there are fewer than two.
        text: The forecast.
        ticket: What the ticket says now.
        why_not: Why the forecast is not to be taken over; empty when it may be.
    """

    name: str
    shafts: tuple[tuple[str, str], ...]
    undecided: tuple[tuple[str, str], ...]
    outliers: tuple[tuple[str, str], ...]
    spread: str
    text: str
    ticket: str
    why_not: str


def family_view(family: ShaftFamily) -> FamilyView:
    """Return what the page shows of a family."""
    return FamilyView(
        name=family.name,
        shafts=_factors(family.shafts),
        undecided=_factors(family.undecided),
        outliers=_factors(family.outliers),
        spread=spread_text(family),
        text=family.text,
        ticket=family.ticket,
        why_not=family.why_not,
    )


def _factors(shafts: tuple[TaughtShaft, ...]) -> tuple[tuple[str, str], ...]:
    return tuple((item.job, factor_text(item.factor, item.sd)) for item in shafts)

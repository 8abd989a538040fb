"""Which of several heads becomes the one ordered with the least bending."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from clubwright.planning.bending.plan import BendPlan, plan_bends
from clubwright.planning.bending.request import BendRequest


class HeadChoice(msgspec.Struct, frozen=True, kw_only=True):
    """One head that was looked at, and what it would take."""

    name: str
    plan: BendPlan


def rank_heads(requests: Mapping[str, BendRequest]) -> tuple[HeadChoice, ...]:
    """Rank heads for one order, best first.

    Heads that may be bent there come before those that may not; then a bounce that fits; then the least bending, loft
    and lie added up; then the name.

    Args:
        requests: By the name of the head, what it is now and what it should become.

    Raises:
        InputError: A request has numbers that cannot be.
    """
    choices = [HeadChoice(name=name, plan=plan_bends(request)) for name, request in requests.items()]
    return tuple(sorted(choices, key=_key))


def _key(choice: HeadChoice) -> tuple[bool, bool, float, str]:
    plan = choice.plan
    bounce_misses = any(finding.where == "bounce" for finding in plan.findings)
    return plan.refused, bounce_misses, round(plan.total_rad, 9), choice.name

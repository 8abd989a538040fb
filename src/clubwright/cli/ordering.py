"""The command that changes an order while its job is open."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.acting import act
from clubwright.cli.options import SHOP, By, JobId, Json, Key, Shop, Why

VALUES_HELP = (
    'One or more TABLE.KEY=value, such as "target.swing_weight=D1.5" or "weight.port 6.mass=6.1 g"; nothing behind the = '
    'takes the figure out. A table of release times: "adhesive.release=20 C: 15 h; 25 C: 12 h".'
)


def order(
    job: JobId,
    values: Annotated[list[str], Parameter(help=VALUES_HELP)],
    /,
    *,
    said_by: Annotated[str, Parameter(help="Who said so: the player or the clubmaker.")] = "",
    reason: Why = "",
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Change the order of an open job, with who said so and why; what was signed for another one is then void."""
    from clubwright.errors import Finding, InputError
    from clubwright.services.actions import bench

    pairs = [item.partition("=") for item in values]
    bad = [item for item, (_, sign, _) in zip(values, pairs, strict=True) if not sign]
    if bad:
        mend = 'Write TABLE.KEY=value, such as "target.swing_weight=D1.5".'
        raise InputError([Finding(where="order", what=f'"{item}" has no =', mend=mend) for item in bad])
    named = {path.strip(): value.strip() for path, _, value in pairs}
    act(
        shop,
        by,
        lambda session: bench.change_order(session, job, named, said_by=said_by, reason=reason, key=key),
        as_json=json,
    )


def pull_again(
    job: JobId,
    /,
    *,
    said_by: Annotated[str, Parameter(help="Who said so: the player or the clubmaker.")] = "",
    reason: Why = "",
    heat: Annotated[bool, Parameter(help="Heat was used; --no-heat where it came off cold.")] = True,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record that a head that was glued on was pulled again: its joint is to be made anew."""
    import sys

    from clubwright.journal.facts import Fact
    from clubwright.services.actions import bench
    from clubwright.services.actions.making.pulling import pull_cautions
    from clubwright.services.record.session import Session

    def pulled(session: Session) -> Fact:
        for text in pull_cautions(session.job(job)):
            print(f"! {text}", file=sys.stderr)
        return bench.pull_head(session, job, said_by=said_by, reason=reason, heat=heat, key=key)

    act(shop, by, pulled, as_json=json)

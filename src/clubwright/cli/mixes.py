"""Commands on a mix of adhesive that serves several joints."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.acting import act, session_at
from clubwright.cli.options import SHOP, By, DoneAt, JobId, Json, Key, Shop

MixName = Annotated[
    str, Parameter(help="The mix, as `clubwright mixes` lists it (bench/12), or the job it was made on.")
]


def mix_from(
    job: JobId,
    mix: MixName,
    /,
    *,
    done_at: DoneAt = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record that a joint is glued from a mix that was made for another one; its pot life goes on running."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.take_from_mix(session, job, mix, key, done_at=done_at), as_json=json)


def bad_mix(
    job: JobId,
    /,
    *,
    reason: Annotated[str, Parameter(help="Why it is bad: whoever has such a joint reads it.")],
    mix: Annotated[str | None, Parameter(help="Which mix, where the job had several (bench/12).")] = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Say that the mix of a joint is bad: every joint glued from it, on whatever job, shows that and is not released."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.call_mix_bad(session, job, reason, mix, key), as_json=json)


Days = Annotated[int | None, Parameter(help="Only those mixed in so many days until now; every one without it.")]


def mixes(*, days: Days = None, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """List the mixes of adhesive, newest first, each with all joints that are glued from it."""
    import msgspec

    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.services.actions.making.mix_list import MixRow
    from clubwright.services.actions.making.mix_list import mixes as listed

    def joints(row: MixRow) -> str:
        return ", ".join(f"{each.job}{' (closed)' if each.finished else ''}" for each in row.joints)

    with session_at(shop, by) as session:
        rows = listed(session, days)
    if json:
        print_json(msgspec.to_builtins(rows))
        return
    lines = [
        (
            row.mix,
            row.mixed_at[:16].replace("T", " ") + " UTC",
            row.weighed,
            joints(row),
            "" if row.bad is None else f"BAD, says {row.bad.by}: {row.bad.reason}",
        )
        for row in rows
    ]
    print_lines(table(lines) or ["Nothing was mixed yet."])

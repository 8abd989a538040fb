"""The command on mixes of adhesive that serve several joints."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.acting import session_at
from clubwright.cli.options import SHOP, By, Json, Shop

Days = Annotated[int | None, Parameter(help="Only those mixed in so many days until now; every one without it.")]


def mixes(*, days: Days = None, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """List the mixes of adhesive, newest first, each with all joints that are glued from it."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.services.actions.making.mix_list import mixes_answer
    from clubwright.services.record.done_at import minute
    from clubwright.services.told.club import MixRow

    def joints(row: MixRow) -> str:
        return ", ".join(f"{each.job}{' (closed)' if each.finished else ''}" for each in row.joints)

    with session_at(shop, by) as session:
        answer = mixes_answer(session, days)
    if json:
        print_json(answer)
        return
    lines = [
        (
            row.mix,
            minute(row.mixed_at),
            row.weighed,
            joints(row),
            "" if row.bad is None else f"BAD, says {row.bad.by}: {row.bad.reason}",
        )
        for row in answer.mixes
    ]
    print_lines(table(lines) or ["Nothing was mixed yet."])

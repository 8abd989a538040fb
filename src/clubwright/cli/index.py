"""Commands about the index of jobs: what touched a thing, and working the index out anew."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.acting import session_at
from clubwright.cli.options import SHOP, By, Json, Shop


def touched(
    *,
    gauge: Annotated[str | None, Parameter(help="Gauge, as the tickets name it.")] = None,
    lot: Annotated[str | None, Parameter(help="Batch of adhesive, as it was typed when it was mixed.")] = None,
    part: Annotated[str | None, Parameter(help="Name of a head, shaft, grip or ferrule.")] = None,
    person: Annotated[str | None, Parameter(help="Who wrote it down.")] = None,
    player: Annotated[str | None, Parameter(help="Whose club it is.")] = None,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """List the jobs that a gauge has read, that a lot or a part is named on, or that a person wrote on."""
    import msgspec

    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.services.record.touched import touched_by

    given = {"gauge": gauge, "lot": lot, "part": part, "person": person, "player": player}
    with session_at(shop, by) as session:
        found = touched_by(session, {kind: name for kind, name in given.items() if name is not None})
    if json:
        print_json([msgspec.to_builtins(item) for item in found])
        return
    rows = [
        (item.job, item.title, f"{item.facts} {'fact' if item.facts == 1 else 'facts'}", f"{item.first} to {item.last}")
        for item in found
    ]
    print_lines(table(rows) or ["No job: nothing that stands names it."])


def rebuild(*, shop: Shop = SHOP, by: By = None, json: Json = False) -> None:
    """Work out anew what lists and searches are asked from; it follows from the facts, which stay as they are."""
    from clubwright.cli.output import print_json, print_lines

    with session_at(shop, by) as session:
        count = session.ledger.rebuild()
    if json:
        print_json({"jobs": count})
    else:
        print_lines([f"The index is worked out anew: {count} {'job' if count == 1 else 'jobs'}."])

"""Commands for what is done to the club, from trims to the grip, and for what is answered for: steps, gates, the end."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.acting import act
from clubwright.cli.options import SHOP, By, DoneAt, JobId, Json, Key, Shop, Why

if TYPE_CHECKING:
    from clubwright.journal.facts import Fact
    from clubwright.services.record.session import Session

BY_NAME = "by its name on the ticket; the usual one when left out."


def trim(
    job: JobId,
    end: Annotated[str, Parameter(help="tip or butt")],
    amount: Annotated[str, Parameter(help='What came off, such as "1/2 in".')],
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record a trim of the tip (or the butt) before the cut to length."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.trim_shaft(session, job, end, amount, key), as_json=json)


def cut(
    job: JobId,
    cut_length: Annotated[str, Parameter(help="Tip end to butt end, as measured after the cut.")],
    /,
    *,
    short: Annotated[bool, Parameter(help="It is far short of its mark, and measured again.", negative=())] = False,
    mass: Annotated[str, Parameter(help="Of the cut shaft, as weighed.")] = "",
    balance: Annotated[str, Parameter(help="Of the cut shaft: its balance point, from the tip.")] = "",
    mass_gauge: Annotated[str | None, Parameter(help=f"What weighed it, {BY_NAME}")] = None,
    balance_gauge: Annotated[str | None, Parameter(help=f"What the balance was measured by, {BY_NAME}")] = None,
    done_at: DoneAt = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record the cut: length of the shaft, tip end to butt end, as measured after it; and what it weighs then."""
    from clubwright.services.actions import bench
    from clubwright.services.checks.usual_gauge import by_kind

    def cut_off(session: Session) -> Fact:
        measured = {"cut_mass": mass, "cut_balance_from_tip": balance}
        gauges = by_kind(mass_gauge, balance_gauge)
        return bench.cut_shaft(session, job, cut_length, key, short=short, **measured, gauge=gauges, done_at=done_at)

    act(shop, by, cut_off, as_json=json)


def bend(
    job: JobId,
    /,
    *,
    loft: Annotated[str | None, Parameter(help="The loft as measured after the bend, in degrees.")] = None,
    lie: Annotated[str | None, Parameter(help="The lie as measured after the bend, in degrees.")] = None,
    bounce: Annotated[str | None, Parameter(help="The bounce as measured after the bend, in degrees.")] = None,
    done_at: DoneAt = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record the angles as measured after a bend."""
    from clubwright.services.actions import bench

    act(
        shop,
        by,
        lambda session: bench.bend_head(session, job, loft=loft, lie=lie, bounce=bounce, key=key, done_at=done_at),
        as_json=json,
    )


def tape(
    job: JobId,
    name: Annotated[str, Parameter(help="Tape, as named on the ticket.")],
    layers: Annotated[str, Parameter(help="How many layers are on now.")],
    mass: Annotated[str, Parameter(help="Of all its layers together, as weighed.")],
    /,
    *,
    gauge: Annotated[str | None, Parameter(help=f"What weighed it, {BY_NAME}")] = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record the tape laid: its name, layers, and their mass together."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.lay_tape(session, job, name, layers, mass, key, gauge=gauge), as_json=json)


def mix(
    job: JobId,
    part_a: Annotated[str, Parameter(help="Mass of part A, as weighed.")],
    part_b: Annotated[str, Parameter(help="Mass of part B, as weighed.")],
    /,
    *,
    temperature: Annotated[str, Parameter(help='At the bench, such as "22 C".')],
    batch: Annotated[str, Parameter(help="Lot number on the packs.")] = "",
    done_at: DoneAt = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record the adhesive mixed, as weighed."""
    from clubwright.services.actions import bench

    act(
        shop,
        by,
        lambda session: bench.mix_adhesive(session, job, part_a, part_b, temperature, batch, key, done_at=done_at),
        as_json=json,
    )


def glue(
    job: JobId,
    /,
    *,
    temperature: Annotated[str, Parameter(help='Where the club cures, such as "22 C".')],
    done_at: DoneAt = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record that the joint is closed; its cure runs from when it was closed, at that temperature."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.glue(session, job, temperature, key, done_at=done_at), as_json=json)


def grip(
    job: JobId,
    /,
    *,
    done_at: DoneAt = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record that the grip is on for good."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.slide_grip(session, job, key, done_at=done_at), as_json=json)


def done(
    job: JobId,
    step: Annotated[str, Parameter(help='Name of the step, such as "dry fit".')],
    /,
    *,
    note: Annotated[str, Parameter(help="Anything worth keeping with it.")] = "",
    skip: Annotated[str | None, Parameter(help="Pass the step over: what is left out.")] = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Record that a step of the plan is done, or passed over."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.do_step(session, job, step, note, key, skipped=skip), as_json=json)


def sign(
    job: JobId,
    gate: Annotated[str, Parameter(help="cut, glue or release")],
    /,
    *,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Sign a gate: cut, glue or release. What you were shown is stored with it."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.sign_gate(session, job, gate, key), as_json=json)


def accept(
    job: JobId,
    quantity: Annotated[str, Parameter(help="The target: length, swing_weight, grip_diameter_2in ...")],
    /,
    *,
    name: Annotated[
        str | None, Parameter(help="Who accepts it, where that is not who writes it down: the player's name.")
    ] = None,
    reason: Why = "",
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Accept by name that a target is outside, cannot be told, or was not read; only for how it stands now."""
    from clubwright.services.actions import bench

    who = name or by or ""
    act(shop, by, lambda session: bench.accept(session, job, quantity, name=who, reason=reason, key=key), as_json=json)


def finish(job: JobId, /, *, shop: Shop = SHOP, by: By = None, key: Key = None, json: Json = False) -> None:
    """Close the job; its verdicts are stored as shown."""
    from clubwright.services.actions import bench

    act(shop, by, lambda session: bench.finish(session, job, key), as_json=json)

"""The command on what the record's other shafts of one name teach about the one in hand."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.options import SHOP, By, JobId, Json, Key, Shop

if TYPE_CHECKING:
    from clubwright.services.shaft.family import ShaftFamily
    from clubwright.services.told.shaft import FamilyFoundAnswer


def family(
    job: JobId,
    /,
    *,
    use: Annotated[bool, Parameter(help="Write it onto the ticket as the stiffness factor.", negative=())] = False,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """What other shafts of the same name and stiffness, read in their clubs, say of this job's shaft."""
    from clubwright.cli.acting import act, session_at
    from clubwright.cli.output import print_json, print_lines
    from clubwright.services.actions.register.payloads_record import FromFamily
    from clubwright.services.shaft.family import family_of, lacking

    if use:
        act(shop, by, "family", FromFamily(job=job), key, as_json=json)
        return
    with session_at(shop, by) as session:
        state = session.job(job)
        found, missing = family_of(session, state), lacking(state)
    if json:
        print_json(_part(found))
    else:
        print_lines(_lines(found, missing))


def _part(found: ShaftFamily | None) -> FamilyFoundAnswer:
    """Return a family for programs."""
    from clubwright.services.answer.answer import rounded
    from clubwright.services.told.shaft import FamilyAnswer, FamilyFoundAnswer, OfFamilyAnswer

    if found is None:
        return FamilyFoundAnswer(family=None)
    forecast = found.forecast
    shafts = (OfFamilyAnswer(factor=rounded(item.factor), job=item.job, sd=rounded(item.sd)) for item in found.shafts)
    family = FamilyAnswer(
        name=found.name,
        parts=tuple(shafts),
        shared_sd=rounded(found.shared_sd),
        spread=None if forecast is None else rounded(forecast.spread),
        stiffness_factor=None if forecast is None else rounded(forecast.mean),
        stiffness_factor_sd=None if forecast is None else rounded(found.sd),
        text=found.text,
        undecided=tuple(item.job for item in found.undecided),
        outliers=tuple(item.job for item in found.outliers),
        why_not=found.why_not,
    )
    return FamilyFoundAnswer(family=family)


def _lines(found: ShaftFamily | None, missing: str) -> list[str]:
    """Say it for a person."""
    from clubwright.cli.output import table, wrapped
    from clubwright.services.shaft.family import factor_text, spread_text

    if missing:
        return wrapped(f"Without them this shaft has no family: {missing}.")
    if found is None:
        return ["No other shaft of this name and stiffness has had the frequency of its club read."]
    rows = [(item.job, factor_text(item.factor, item.sd)) for item in found.shafts]
    rows += [(item.job, f"{factor_text(item.factor, item.sd)}, set aside") for item in found.undecided]
    rows += [
        (item.job, f"{factor_text(item.factor, item.sd)}, too far off the others: left out") for item in found.outliers
    ]
    spread = spread_text(found)
    says = [
        f"{found.name}: the next shaft {found.text}" + (f", one differs from another by {spread}" if spread else "")
    ]
    last = f"Not to be taken over: {found.why_not}." if found.why_not else "With --use it becomes the ticket's own."
    return [*(says if found.text else [found.name]), "", *table(rows), "", *wrapped(last)]

"""The cup on the bench: whether what was weighed keeps the ratio, and whether it may still be used."""

from __future__ import annotations

from datetime import datetime

from clubwright.errors import DocumentPlace, Finding, InputError, clause_finding
from clubwright.journal.mixes import Mix, mix_in_hand, used_mix
from clubwright.journal.reducers.fold import Job
from clubwright.notation import parse, render
from clubwright.planning.joint.adhesive import MixRatio, ratio_by_weight
from clubwright.planning.joint.mix_check import check_mix, pot_life_left
from clubwright.services.record.done_at import minute
from clubwright.services.record.session import moment_of
from clubwright.state.particulars import in_si
from clubwright.state.parts import AdhesivePart
from clubwright.state.ticket import Ticket

WHERE = "adhesive mix"
MIX = "mix of adhesive"


def cup_findings(job: Job, ticket: Ticket, now: datetime) -> tuple[Finding, ...]:
    """Return what is wrong with the last mix, while its joint is not closed; nothing when none was mixed."""
    cup, row = mix_in_hand(job), ticket.club.adhesive
    if cup is None:
        return ()
    seconds = max((now - moment_of(cup.mixed_at)).total_seconds(), 0.0)
    mend = "throw it away, and mix anew"
    return (*_bad_findings(job, cup, mend), *_ratio_findings(cup, row), *_pot_findings(cup, row, seconds))


def joint_findings(job: Job) -> tuple[Finding, ...]:
    """Return what is said against the mix in a closed joint; nothing while it is open, or its mix is sound."""
    mix = None if job.glued_at is None else used_mix(job)
    mend = (
        "nobody plays it. Take the joint apart, clean it, mix anew and glue it again; or, where the mix was sound after "
        "all, undo on the job it was made on that it is bad"
    )
    return () if mix is None else tuple(_bad_findings(job, mix, mend))


def _bad_findings(job: Job, mix: Mix, clause: str) -> list[Finding]:
    bad = job.bad_mixes.get(mix.place)
    if bad is None:
        return []
    said = f"{bad.by} says that this mix is bad" if bad.by else "this mix is not to be relied on"
    made = f"{mix.part_a} + {mix.part_b}, mixed {minute(mix.mixed_at)} on job {mix.of}"
    return [clause_finding(MIX, f"{said}: {bad.reason} ({made})", clause)]


def mix_lacking(row: AdhesivePart) -> tuple[str, ...]:
    """Return the keys of what the ticket lacks before a cup can be held against its ratio; none where it has no ratio.

    Args:
        row: The ticket's adhesive.
    """
    if row.ratio is None:
        return ()
    if row.basis is None:
        return ("basis",)
    return tuple(key for key in _DENSITIES if row.basis == "volume" and row.entry(key) is None)


_DENSITIES = {"density_a": "A", "density_b": "B"}


def mix_lacks(row: AdhesivePart) -> tuple[Finding, ...]:
    """Return what the ticket lacks before a cup can be held against its ratio, as findings."""
    lacking = mix_lacking(row)
    if "basis" in lacking:
        mend = (
            "Read on the data sheet whether the ratio is by weight or by volume, and say it before anything is mixed."
        )
        return (
            Finding(
                where=DocumentPlace("adhesive", ("basis",)), what="a ratio means nothing without its basis", mend=mend
            ),
        )
    mend = "Read it on the data sheet and say it before anything is mixed, or write the sheet's ratio by weight."
    return tuple(
        Finding(
            where=DocumentPlace("adhesive", (key,)),
            what=f"the density of part {_DENSITIES[key]} is not known, and the ratio is by volume",
            mend=mend,
        )
        for key in lacking
    )


def missing_mix(job: Job) -> tuple[Finding, ...]:
    """Say that nothing is mixed for the joint that is to be closed: never, or only for the one that was closed before."""
    if job.finished is not None:  # nothing is glued on it any more, and that is said first
        return ()
    if not job.mixes:
        what = "no adhesive is mixed for this joint"
    elif mix_in_hand(job) is None:
        what = "the last mix was used up by the joint that was closed before"
    else:
        return ()
    mend = "Weigh both parts into one cup, record the mix, and glue within its pot life."
    return (Finding(where=WHERE, what=what, mend=mend),)


def _mass_kg(text: str, part: str) -> float:
    return parse("mass", text, where=part).value


def _ratio_findings(cup: Mix, row: AdhesivePart) -> list[Finding]:
    part_a, basis = in_si(row.ratio), row.basis
    if part_a is None or basis is None:
        return []
    try:
        wanted = ratio_by_weight(
            MixRatio(
                part_a=part_a,
                part_b=1.0,
                basis="volume" if basis == "volume" else "weight",
                density_a_kg_m3=in_si(row.density_a),
                density_b_kg_m3=in_si(row.density_b),
            )
        )
        found = check_mix(_mass_kg(cup.part_a, "part A"), _mass_kg(cup.part_b, "part B"), wanted)
    except InputError as refused:
        return list(refused.findings)
    if found.within:
        return []
    size = "too much" if found.part_b_error > 0 else "too little"
    what = f"{cup.part_a} + {cup.part_b} is {abs(found.part_b_error):.0%} {size} of part B for {wanted:.2f}:1 by weight"
    clause = (
        f"not stirred yet: add {render('mass', found.add_kg)} of part {found.add}, and record the mix again. "
        "Stirred: throw the mix away, and mix anew"
    )
    return [clause_finding(WHERE, what, clause)]


def _pot_findings(cup: Mix, row: AdhesivePart, seconds: float) -> list[Finding]:
    pot_life = in_si(row.pot_life)
    if pot_life is None:
        return []
    batch_kg = _mass_kg(cup.part_a, "part A") + _mass_kg(cup.part_b, "part B")
    left = pot_life_left(
        pot_life,
        seconds,
        sheet_temperature_k=in_si(row.temperature),
        temperature_k=parse("temperature", cup.temperature, where="temperature").value,
        batch_kg=batch_kg,
    )
    return list(left.findings)

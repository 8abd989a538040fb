"""The cup on the bench: whether what was weighed keeps the ratio, and whether it may still be used."""

from __future__ import annotations

from datetime import datetime

from clubwright.errors import DocumentPlace, Finding, InputError, Severity
from clubwright.journal.mixes import Mix, mix_in_hand, used_mix
from clubwright.journal.reducers.fold import Job
from clubwright.notation import parse
from clubwright.planning.joint.adhesive import MixRatio, ratio_by_weight
from clubwright.planning.joint.mix_check import check_mix, pot_life_left
from clubwright.planning.said.phrases import Amount, Value, figure, percent, phrase
from clubwright.services.record.done_at import minute
from clubwright.services.record.session import moment_of
from clubwright.state.particulars import in_si
from clubwright.state.parts import AdhesivePart
from clubwright.state.ticket import Ticket
from clubwright.words.gate import told, told_clause

WHERE = "adhesive mix"
POT_LIFE = "adhesive pot life"
_AFTER: dict[str, tuple[Value, Severity]] = {
    "over": (phrase("pot life.throw away"), "error"),
    "warmer": (phrase("pot life.less time"), "warning"),
    "more": (phrase("pot life.less time"), "warning"),
}
"""What to do after each thing that shortens a pot life, and how much it matters."""
MIX = "mix of adhesive"


def cup_findings(job: Job, ticket: Ticket, now: datetime) -> tuple[Finding, ...]:
    """Return what is wrong with the last mix, while its joint is not closed; nothing when none was mixed."""
    cup, row = mix_in_hand(job), ticket.club.adhesive
    if cup is None:
        return ()
    seconds = max((now - moment_of(cup.mixed_at)).total_seconds(), 0.0)
    mend = phrase("mix.throw away")
    return (*_bad_findings(job, cup, mend), *_ratio_findings(cup, row), *_pot_findings(cup, row, seconds))


def joint_findings(job: Job) -> tuple[Finding, ...]:
    """Return what is said against the mix in a closed joint; nothing while it is open, or its mix is sound."""
    mix = None if job.glued_at is None else used_mix(job)
    return () if mix is None else tuple(_bad_findings(job, mix, phrase("mix.take apart")))


def _bad_findings(job: Job, mix: Mix, clause: Value) -> list[Finding]:
    bad = job.bad_mixes.get(mix.place)
    if bad is None:
        return []
    said = phrase("mix.said bad", who=bad.by) if bad.by else phrase("mix.bad")
    mixed = f"{mix.part_a} + {mix.part_b}"
    what = phrase("mix.bad because", said=said, why=bad.reason, mixed=mixed, at=minute(mix.mixed_at), job=mix.of)
    return [told_clause(MIX, what, clause)]


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
        place = DocumentPlace("adhesive", ("basis",))
        return (told(place, phrase("mix.no basis"), phrase("mix.read basis")),)
    return tuple(
        told(
            DocumentPlace("adhesive", (key,)),
            phrase("mix.no density", part=_DENSITIES[key]),
            phrase("mix.read density"),
        )
        for key in lacking
    )


def missing_mix(job: Job) -> tuple[Finding, ...]:
    """Say that nothing is mixed for the joint that is to be closed: never, or only for the one that was closed before."""
    if job.finished is not None:  # nothing is glued on it any more, and that is said first
        return ()
    if not job.mixes:
        what = phrase("mix.none")
    elif mix_in_hand(job) is None:
        what = phrase("mix.used up")
    else:
        return ()
    return (told(WHERE, what, phrase("mix.weigh and record")),)


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
    what = phrase(
        "mix.too much" if found.part_b_error > 0 else "mix.too little",
        mixed=f"{cup.part_a} + {cup.part_b}",
        off=percent(abs(found.part_b_error)),
        ratio=Amount("number", wanted, form="hundredths"),
    )
    clause = phrase("mix.add", amount=figure("mass", found.add_kg), part=found.add)
    return [told_clause(WHERE, what, clause)]


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
    return [told_clause(POT_LIFE, phrase(f"pot life.{why}"), *_AFTER[why]) for why in left.reasons]

"""What hands do with a mix of adhesive that serves joints of several jobs: take from it, and call it bad."""

from __future__ import annotations

from calls import Call, Scene, on_the_job

from clubwright.journal.facts import AdhesiveMixed
from clubwright.services.actions import bench as actions
from clubwright.services.actions.making.mixes import mix_name


def take_from(at: Scene) -> Call | None:
    """Take from a mix of any job that is there, which may be bad, undone, or too old by now."""
    made = sorted(fact.place for fact in at.bench.kept.values() if isinstance(fact.what, AdhesiveMixed))
    if not made:
        return None
    mix = mix_name(at.chance.choice(made[-4:] if at.chance.random() < 0.7 else made))
    return on_the_job(at, f"take from mix {mix}", actions.take_from_mix, mix)


def call_bad(at: Scene) -> Call | None:
    if at.job is None or not at.job.mixes:
        return None
    mix = mix_name(at.chance.choice(at.job.mixes).place) if at.chance.random() < 0.5 else None
    return on_the_job(at, f"say that mix {mix or 'in hand'} is bad", actions.call_mix_bad, "it stays soft", mix)

"""The plan: numbered steps for one club, each with its own figures, gauge, expectation, cautions and gate.

Which steps there are and in which order stands in their register (`clubwright.state.steps`), which of them one club needs in
`clubwright.planning.steps.order`; how each one reads is in the steps_* modules beside this one.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import msgspec

from clubwright.club.stages import Stage
from clubwright.planning.advice.weights import Choice, choices
from clubwright.planning.club_state import ClubState
from clubwright.planning.cut import Cut
from clubwright.planning.gates.gates import Gate
from clubwright.planning.rule_lines import rule_lines
from clubwright.planning.steps.came import as_it_came, strip_grip
from clubwright.planning.steps.finish import inspect, loft_and_lie, tag
from clubwright.planning.steps.grip import grip
from clubwright.planning.steps.inputs import Bench, Joint
from clubwright.planning.steps.joint import cure, ferrule_finish, glue, mix
from clubwright.planning.steps.order import keys_of
from clubwright.planning.steps.parts import bore_to_ground, clean_bore, head_check, pull, pull_head, weigh
from clubwright.planning.steps.shaft import dry_fit, ferrule, mark_and_cut, tip_prep, tip_trim
from clubwright.planning.steps.types import Expected, Step, StepKey
from clubwright.planning.steps.weight import choose_weight, dry_reading, tape
from clubwright.state.steps import EDITION

MAKERS: dict[StepKey, Callable[[Bench], Step]] = {
    "pull": pull,
    "as it came": as_it_came,
    "strip grip": strip_grip,
    "pull head": pull_head,
    "clean bore": clean_bore,
    "weigh": weigh,
    "head check": head_check,
    "bore to ground": bore_to_ground,
    "loft and lie": loft_and_lie,
    "tip trim": tip_trim,
    "tip prep": tip_prep,
    "ferrule": ferrule,
    "dry fit": dry_fit,
    "mark and cut": mark_and_cut,
    "tape": tape,
    "dry reading": dry_reading,
    "choose weight": choose_weight,
    "mix": mix,
    "glue": glue,
    "cure": cure,
    "ferrule finish": ferrule_finish,
    "grip": grip,
    "inspect": inspect,
    "tag": tag,
}


def plan_of(
    club_state: ClubState,
    cut: Cut | None,
    best: Choice,
    gates: tuple[Gate, ...],
    done: frozenset[str] = frozenset(),
    joint: Joint | None = None,
    edition: int = EDITION,
) -> tuple[Step, ...]:
    """Return the numbered steps of one club's job.

    Args:
        club_state: Where the club stands.
        cut: Its cut; None when there is none.
        best: The set of weights with the best chance.
        gates: The gates as they stand.
        done: Keys of the steps that the record says are done.
        joint: The joint, once it is closed.
        edition: Edition of the plan that the job began with; the newest where it has not begun.
    """
    bench = Bench(club_state=club_state, cut=cut, best=best, gates=gates, done=done, joint=joint, edition=edition)
    steps = [MAKERS[key](bench) for key in keys_of(bench)]
    return tuple(_placed(step, number, gates, done) for number, step in enumerate(steps, start=1))


def expected_at(club_state: ClubState, keys: Sequence[str], stage: Stage) -> tuple[Expected, ...]:
    """Say what the gauges should show of quantities at a stage; those that cannot be predicted there are left out.

    Args:
        club_state: Where the club stands.
        keys: Keys in the register of quantities.
        stage: Stage of the build at which they would be read.
    """
    return Bench(club_state=club_state, cut=None, best=choices(club_state)[0], gates=()).expect_all(keys, stage)


def _placed(step: Step, number: int, gates: tuple[Gate, ...], done: frozenset[str]) -> Step:
    """Number a step, mark it done, and give it the reasons of its gate while that is closed."""
    closed = tuple(gate.why for gate in gates if gate.step == step.gate and not gate.open)
    return msgspec.structs.replace(step, number=number, done=step.key in done, waits=closed)


__all__ = ["MAKERS", "Expected", "Joint", "Step", "StepKey", "expected_at", "plan_of", "rule_lines"]

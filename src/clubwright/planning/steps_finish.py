"""The last steps: bend to loft and lie, inspect, tag."""

from __future__ import annotations

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED
from clubwright.notation import render
from clubwright.planning.bend_advice import bend_advice
from clubwright.planning.step_bench import Bench, Numbers, present
from clubwright.planning.step_order import ANGLES, bends_first_because
from clubwright.planning.step_types import Step
from clubwright.planning.tray import names_of

GUARD_FACTORS = {"guard 2u": 2.0, "guard 95 %": 1.6448536269514722, "simple": 0.0}
"""Guard band over standard uncertainty of each rule a ticket may name; held equal to `clubwright.conformity.rules` by
tests/unit/test_steps.py."""

_REPEATS = range(2, 11)
"""More readings of one club than ten are taken by nobody."""

_WORDS = {"loft": ("stronger", "weaker"), "lie": ("flatter", "more upright"), "bounce": ("less", "more")}


def loft_and_lie(bench: Bench) -> Step:
    """Bend to the ordered angles, or see that nothing is to be bent."""
    situation = bench.situation
    job = situation.ticket.job
    first = bends_first_because(situation)
    glued = not first and job in ("build", "reshaft")
    what = [f"Why now: {reason}." for reason in first]
    what.append("Loft first, lie second, then loft again; support the sole, small pulls, measure after each.")
    if bench.is_wood:
        what.append("A wood is set by its sleeve where it has one, and bent only where the head's maker allows it.")
    if situation.ticket.kind == "putter":
        what.append("Check that neck and insert allow a bend before the first pull.")
    advised: Numbers = tuple((do, f"{why}; chance {chance:.0%}") for do, why, chance, _, _ in bend_advice(situation))
    return Step(
        key="loft and lie",
        title="Bend to loft and lie",
        what=tuple(what),
        numbers=(*_amounts(bench), *advised),
        instrument="loft and lie gauge, bending bar",
        expected=bench.expect_all(ANGLES, FINISHED),
        done_when="Loft, lie and bounce were measured after the last pull and are on the record.",
        cautions=bench.cautions("bend"),
        gate="release" if glued else None,
    )


def _amounts(bench: Bench) -> Numbers:
    """Say for each ordered angle how far it stands from where it should be, in words with a side."""
    numbers = list(bench.goal_numbers(ANGLES))
    club = bench.situation.club
    stands = {"loft": club.head.loft_rad, "lie": club.head.lie_rad, "bounce": club.head.bounce_rad}
    for key in ANGLES:
        goal = bench.situation.goal(key)
        if goal is None:
            continue
        name = QUANTITIES[key].name
        if key not in bench.situation.ticket.row("head").numbers:
            numbers.append((f"{name} to bend", "measure the head first"))
            continue
        off = goal.target - float(stands[key])
        side = _WORDS[key][0 if off < 0 else 1]
        within = " (within tolerance as it stands)" if abs(off) <= goal.half_width else ""
        numbers.append((f"{name} to bend", f"{render('angle', abs(off))} {side}{within}"))
    return tuple(numbers)


def inspect(bench: Bench) -> Step:
    """Read every target on the finished club."""
    situation = bench.situation
    keys = tuple(goal.key for goal in situation.goals)
    bad = [sentence for key in keys if (sentence := cannot_prove(bench, key))]
    what = ["Read every target on the finished club, with the weights that are on it."]
    to_bend = [key for key in ANGLES if key in keys and not _stands_within(bench, key)]
    if to_bend:
        names = " and ".join(QUANTITIES[key].name for key in to_bend)
        what.append(f"No reading is expected of {names} yet: it stands outside its tolerance and waits for the bend.")
    if situation.ticket.job in ("build", "reshaft"):
        what.append("Then twist the head by hand against the witness marks and tap for a rattle.")
    return Step(
        key="inspect",
        title="Inspect the finished club",
        what=(*what, *bad),
        numbers=bench.goal_numbers(keys),
        instrument=", ".join(dict.fromkeys(QUANTITIES[key].read_by for key in keys)) or None,
        expected=bench.expect_all([key for key in keys if key not in to_bend], FINISHED, bench.chosen),
        done_when="Every target has a reading, and every verdict is within or was agreed with the player.",
        gate="release" if situation.ticket.job in ("build", "reshaft") else None,
    )


def _stands_within(bench: Bench, key: str) -> bool:
    """True when a quantity of the finished club is believed to lie within its window as things stand."""
    goal = bench.situation.goal(key)
    return goal is None or goal.low <= bench.mean(key, FINISHED) <= goal.high


def cannot_prove(bench: Bench, key: str) -> str | None:
    """Say that one reading of this gauge can never prove this tolerance, or nothing when it can.

    The guard band is the rule's factor times the gauge's standard uncertainty; when it is wider than the half-width, not
    even a reading at the very middle proves the tolerance. Repeats average the gauge's repeatability and nothing else.
    Derivation: docs/theory/plan.md.
    """
    goal = bench.situation.goal(key)
    factor = GUARD_FACTORS[bench.situation.ticket.rule]
    if goal is None:
        return None
    guard = factor * bench.gauge_uncertainty(key)
    if guard <= goal.half_width:
        return None
    quantity = QUANTITIES[key]
    enough = next((n for n in _REPEATS if factor * bench.gauge_uncertainty(key, n) <= goal.half_width), None)
    mend = "No number of repeats will: check the gauge against a master, or use a finer one."
    if enough is not None:
        mend = f"The mean of {enough} can."
    return (
        f"One reading of the {quantity.read_by} cannot prove {quantity.name} ± {goal.tolerance_typed}: "
        f"its guard band is {render(quantity.tolerance_kind, guard)}. {mend}"
    )


def tag(bench: Bench) -> Step:
    """Label the club and close the ticket."""
    ticket = bench.situation.ticket
    words = ticket.row("ticket").words
    joined = ticket.job in ("build", "reshaft")
    return Step(
        key="tag",
        title="Tag the club and close the ticket",
        what=(
            "Write ticket, player, hand and finals on the tag; fix it where it cannot fall off.",
            *(("While the joint cures, the tag says from when the club may be swung.",) if joined else ()),
        ),
        numbers=present(
            ("ticket", ticket.id),
            ("player", words.get("player")),
            ("club", words.get("label")),
            ("hand", ticket.hand),
            ("promised", words.get("promised")),
            ("weights on it", " + ".join(names_of(ticket, bench.situation.fitted_now[0])) or None),
        ),
        done_when="The tag is on and the ticket is closed in the record.",
        cautions=bench.cautions("tag") if joined else (),
        gate="release" if joined else None,
    )

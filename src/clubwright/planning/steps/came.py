"""Steps on a club that came in: read it as it came, strip the old grip."""

from __future__ import annotations

import math

import msgspec
import numpy as np

from clubwright.club.part_paths import TAPES, came_path, of_each, path_of
from clubwright.club.quantities import offered_at
from clubwright.club.stages import AS_IT_CAME, FINISHED
from clubwright.planning.said.phrases import Amount, Word, phrase, points, tools
from clubwright.planning.steps.inputs import NORMAL_95, Bench, Numbers, present
from clubwright.planning.steps.types import Expected, Step
from clubwright.ticket.gauges import usual_gauge

READ = 3
"""So many readings of the whole club are asked for before anything comes off; others may be taken."""

TOGETHER = "old_grip.mass_with_tape"


def as_it_came(bench: Bench) -> Step:
    """Read the club before anything of it comes off."""
    job = bench.club_state.ticket.job
    before = {"regrip": "as it came.before grip", "reshaft": "as it came.before head"}
    stage = Word("stage", AS_IT_CAME.name)
    what = [phrase(before.get(job, "as it came.before change"), stage=stage)]
    if bench.club_state.prior.club.came is not None:
        what.append(phrase("as it came.old parts"))
    fitted = _fitted(bench)
    return Step(
        key="as it came",
        title=phrase("title.as it came"),
        what=tuple(what),
        numbers=present(
            (phrase("label.weights on it"), bench.weights(fitted) if bench.club_state.ticket.weights else None)
        ),
        instrument=tools("gram scale", "swing-weight scale", "rule"),
        expected=bench.expect_all(offered_at("as it came")[:READ], AS_IT_CAME, fitted),
        done_when=phrase("done.as it came", stage=stage),
    )


def weigh_as_it_came(bench: Bench) -> Step:
    """The same, in work that weighs nothing else first."""
    return msgspec.structs.replace(as_it_came(bench), key="weigh", title=phrase("title.weigh as it came"))


def _fitted(bench: Bench) -> tuple[float, ...]:
    """Weights that were on when it came: those of the readings taken then, else those fitted now."""
    ticket = bench.club_state.ticket
    read = [entry for entry in ticket.readings if entry.stage == AS_IT_CAME.name]
    return ticket.fitted_counts(read[0].weights) if read else bench.fitted


def strip_grip(bench: Bench) -> Step:
    """Cut off the old grip and its tape, and weigh them."""
    lever = bench.club_state.prior.conventions.scale.fulcrum_m - float(bench.club_state.club.grip.cg_from_cap_m)
    grams = bench.club_state.prior.conventions.scale.point_kg_m / lever * 1e3
    new = bench.expect_part("grip.mass")
    return Step(
        key="strip grip",
        title=phrase("title.strip grip"),
        what=(
            phrase("strip grip.cut"),
            phrase("strip grip.together"),
            phrase("strip grip.new"),
            phrase("strip grip.tell"),
            phrase("strip grip.caliper"),
        ),
        numbers=((phrase("label.heavier grip"), Amount("mass", grams / 1e3, form="grams")), *changes(bench)),
        instrument=tools("gram scale", "caliper"),
        expected=(_together(bench), *(() if new is None else (new,))),
        done_when=phrase("done.strip grip"),
        cautions=bench.cautions("grip"),
    )


def changes(bench: Bench) -> Numbers:
    """Say what the new grip and tape change against the old ones; what head and shaft are not known by cancels.

    Nothing is said where more than the grip comes off, or nothing at all.
    """
    if bench.club_state.ticket.job != "regrip":
        return ()
    club_state = bench.club_state
    keys = ("swing_weight", "total_weight")
    before, after = club_state.predict(keys, AS_IT_CAME), club_state.predict(keys, FINISHED)
    change, slope = after.mean[0] - before.mean[0], after.slope[0] - before.slope[0]
    spread = np.sqrt(np.diagonal(slope @ club_state.belief.covariance @ slope.T))
    return (
        (phrase("label.new grip moves"), points(float(change[0]), sd=float(spread[0]))),
        (phrase("label.and total"), Amount("mass", float(change[1]), float(spread[1]), "change of grams")),
    )


def _together(bench: Bench) -> Expected:
    """Say what old grip and old tape should weigh together."""
    belief, gauge = bench.club_state.belief, usual_gauge("grip.mass")
    masses = [came_path(path_of(part, "mass_kg")) for part in ("grip", TAPES)]
    at = [place for place, name in enumerate(belief.names) if of_each(name) in masses]
    mean = float(belief.mean[at].sum())
    sd = math.hypot(float(belief.covariance[np.ix_(at, at)].sum()) ** 0.5, gauge.uncertainty())
    low, high = mean - NORMAL_95 * sd, mean + NORMAL_95 * sd
    return Expected(quantity=TOGETHER, stage="part", mean=mean, sd=sd, low=low, high=high, kind="mass")

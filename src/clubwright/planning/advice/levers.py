"""When no set of weights reaches the targets: what else the shop can turn, with how much of it is wanted.

Another grip, a counterweight under the cap, the length within its tolerance, lead tape, powder in the tip, the other port.
What is wanted of each is the least-squares answer in half-widths of the mass targets, for every set of weights that may
go with it, of equal chances the least change; its chance is that of all targets in the same belief, worked anew at that
amount. Derivation: docs/theory/advice.md; the amounts beside roots of the published statics:
tests/published/test_published_levers.py.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.prediction import predict
from clubwright.club.bounds import Bounds
from clubwright.club.part_paths import WEIGHTS, path_of
from clubwright.club.parts import Club, Seat, Weight
from clubwright.club.stages import FINISHED
from clubwright.notation import parse
from clubwright.planning.advice.set_search import chances, distance
from clubwright.planning.advice.tray import looked_at, names_of
from clubwright.planning.advice.weights import REACHED, Choice, moved_goals, steered_goals
from clubwright.planning.club_state import ClubState
from clubwright.planning.goals import Goal
from clubwright.planning.said.actions import Action, Lever
from clubwright.planning.what_if import shifted
from clubwright.state.particulars import in_si
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import CUT_JOBS, GRIP_JOBS
from clubwright.ticket.plausible.ranges import PARTS

WORTH = 0.05
"""Least gain of chance for which a lever is told (estimate of ours)."""

MOST_SETS = 300
"""Sets of fewest pieces that are tried with each lever."""

TRIED = 6
"""Of those, so many are worked anew at the amount that is wanted with each."""

LENGTHS = 17
"""Lengths tried within the tolerance."""

LEAST_KG = 0.2e-3
"""A change of less mass is none: the lightest piece of a tray (as `clubwright.ticket.plausible.ranges` has it)."""

MOST_ADDED = {"butt": 0.06, "head": 0.012, "tip": 0.01}
"""Heaviest counterweight, lead tape on a head, powder in a tip, kg (common practice, no source)."""

GRAMS_SD = "0.05 g"
"""How well what is weighed out is known (estimate of ours, as for a weight of the tray)."""

Turned = Callable[[float], tuple[Gaussian, Club]]
"""Belief and club with so much of a lever."""


class _Best(NamedTuple):
    """How much of a lever, with which set, and what it brings."""

    amount: float
    counts: NDArray[np.float64]
    chance: float
    finished: dict[str, tuple[float, float]]


def levers(club_state: ClubState, best: Choice) -> Iterator[Action]:
    """Yield each lever that brings the targets nearer, where no set of weights reaches them."""
    goals = moved_goals(club_state)
    if not goals or best.chance >= REACHED:
        return
    sets = looked_at(club_state.ticket, closed=club_state.is_closed).sets[:MOST_SETS]
    for maker in (_grip, _added, _length, _other_port):
        for lever, found in maker(club_state, goals, sets):
            if found.chance - best.chance >= WORTH:
                data = msgspec.structs.replace(
                    lever, weights=tuple(names_of(club_state.ticket, found.counts)), best_now=best.chance
                )
                yield Action(kind=lever.kind, data=data, chance=found.chance, finished=found.finished)


Found = Iterator[tuple[Lever, _Best]]


def _grip(club_state: ClubState, goals: tuple[Goal, ...], sets: NDArray[np.float64]) -> Found:
    """Another grip, its centre where this one's is."""
    if club_state.ticket.job not in GRIP_JOBS:
        return
    now, bounds = float(club_state.club.grip.mass_kg), PARTS["grip.mass"]
    found = _wanted(club_state, goals, sets, lambda kg: shifted(club_state, {"grip.mass_kg": kg}), now, bounds)
    if abs(found.amount - now) >= LEAST_KG:
        yield Lever(kind="grip", amount=found.amount, change=found.amount - now), found


def _added(club_state: ClubState, goals: tuple[Goal, ...], sets: NDArray[np.float64]) -> Found:
    """What is weighed out and put on: under the cap, on the head, in the tip of an open joint."""
    ticket = club_state.ticket
    offered: list[tuple[Literal["counterweight", "lead tape", "powder"], Seat]] = [("lead tape", "head")]
    offered += [("counterweight", "butt")] if ticket.job in GRIP_JOBS else []
    offered += [] if club_state.is_closed else [("powder", "tip")]
    for kind, seat in offered:
        at_seat = np.array([row.seat == seat for row in ticket.weights], dtype=bool)
        free = sets if seat == "head" else sets[sets[:, at_seat].sum(axis=1) == 0]
        if not len(free):
            continue
        place, sd = _place(seat, club_state)
        bounds = Bounds(0.0, 0.0, MOST_ADDED[seat], MOST_ADDED[seat], "")
        one = np.concatenate([free, np.ones((len(free), 1))], axis=1)

        def turned(kg: float, seat: Seat = seat, place: float = place, sd: float = sd) -> tuple[Gaussian, Club]:
            return _with_weight(club_state, Weight(name="", mass_kg=kg, seat=seat, place_m=place), sd)

        found = _wanted(club_state, goals, one, turned, 0.0, bounds)
        found = found._replace(counts=found.counts[:-1])
        by_length = in_si(ticket.shop.lead_tape) if kind == "lead tape" else None
        if found.amount >= LEAST_KG:
            long = found.amount / by_length if by_length else None
            yield Lever(kind=kind, amount=found.amount, change=found.amount, length_m=long, place_m=place), found


def _length(club_state: ClubState, goals: tuple[Goal, ...], sets: NDArray[np.float64]) -> Found:
    """Another length, still within what is ordered: shorter or longer before the cut, shorter after it."""
    ordered, ticket = club_state.goal("length"), club_state.ticket
    if ordered is None or ticket.job not in CUT_JOBS or club_state.is_closed or not club_state.can_predict("length"):
        return
    now = float(club_state.club.shaft.length_m)
    longest = now if ticket.is_cut else float(club_state.club.shaft.raw_length_m - club_state.club.shaft.tip_trim_m)
    wanted = goals if ordered in goals else (*goals, ordered)
    tried = np.linspace(max(ordered.low - ordered.target, -now / 2), ordered.high - ordered.target, LENGTHS)
    found = [
        _worked(club_state, wanted, sets, *shifted(club_state, {"shaft.length_m": now + change}), amount=float(change))
        for change in tried
        if now + change <= longest + 1e-9 and abs(change) > 1e-6
    ]
    if found:
        best = max(found, key=lambda item: (round(item.chance, 2), -abs(item.amount)))
        club_length = best.finished["length"][0]
        yield Lever(kind="length", amount=club_length, change=best.amount, length_m=now + best.amount), best


def _other_port(club_state: ClubState, goals: tuple[Goal, ...], sets: NDArray[np.float64]) -> Found:
    """A port weight in a port of the head where another one of the tray has its place."""
    weights = club_state.club.weights
    ports = [place for place, weight in enumerate(weights) if weight.seat == "port"]
    best: tuple[Lever, _Best] | None = None
    for moved in ports:
        for there in ports:
            to = weights[there]
            if abs(float(to.place_m - weights[moved].place_m)) < 1e-4 or not sets[:, moved].any():
                continue
            numbers = {
                path_of(WEIGHTS, moved, "place_m"): float(to.place_m),
                path_of(WEIGHTS, moved, "off_axis_m"): float(to.off_axis_m),
            }
            with_it = sets[sets[:, moved] > 0]
            found = _worked(club_state, goals, with_it, *shifted(club_state, numbers), amount=float(to.place_m))
            change = float(to.place_m - weights[moved].place_m)
            lever = Lever(
                kind="port",
                amount=float(to.place_m),
                change=change,
                place_m=float(to.place_m),
                moved=weights[moved].name,
            )
            if best is None or found.chance > best[1].chance:
                best = lever, found
    if best is not None:
        yield best


def _wanted(
    club_state: ClubState,
    goals: tuple[Goal, ...],
    sets: NDArray[np.float64],
    turned: Turned,
    now: float,
    bounds: Bounds,
) -> _Best:
    """Return how much mass is wanted, and with which set: each set's own least-squares amount, within what exists."""
    steered, keys = steered_goals(goals), [goal.key for goal in steered_goals(goals)]
    step = 0.01  # of sums over parts the slope is the same at any step
    conventions = club_state.prior.conventions
    here, there = (predict(*turned(kg), conventions, keys, FINISHED, sets) for kg in (now, now + step))
    width = np.array([max(goal.half_width, 1e-12) for goal in steered])
    slope = (there.mean - here.mean) / step / width
    off = (np.array([goal.target for goal in steered]) - here.mean) / width
    amount = np.clip(now + (slope * off).sum(axis=1) / (slope**2).sum(axis=1), bounds.low, bounds.high)
    left = here.mean + slope * width * (amount - now)[:, None]
    likely = chances(msgspec.structs.replace(here, mean=left), steered)
    far = np.abs(amount - now)
    order = np.lexsort((far, np.round(distance(left, steered), 1), -np.round(likely, 2)))[:TRIED]
    found = [
        _worked(club_state, goals, sets[[place]], *turned(float(amount[place])), amount=float(amount[place]))
        for place in order
    ]
    return max(found, key=lambda item: (round(item.chance, 2), -abs(item.amount - now)))


def _worked(
    club_state: ClubState,
    goals: tuple[Goal, ...],
    sets: NDArray[np.float64],
    belief: Gaussian,
    club: Club,
    *,
    amount: float,
) -> _Best:
    """Return the likeliest of some sets with a lever turned so far."""
    prediction = predict(belief, club, club_state.prior.conventions, [goal.key for goal in goals], FINISHED, sets)
    found, spread = chances(prediction, goals), prediction.sd()
    place = int(np.lexsort((sets.sum(axis=1), -np.round(found, 2)))[0])
    finished = {
        goal.key: (float(prediction.mean[place, column]), float(spread[place, column]))
        for column, goal in enumerate(goals)
    }
    return _Best(amount, sets[place], float(found[place]), finished)


def _place(seat: Seat, club_state: ClubState) -> tuple[float, float]:
    """Return where something sits that nobody placed, and how well that is known, in m."""
    default = default_for(f"weight.{seat}", club_state.ticket.kind)
    if default is None:
        raise ValueError(seat)  # every seat has one
    understood = parse("length", default.text, where="defaults")
    return understood.value, understood.sd or 0.0


def _with_weight(club_state: ClubState, weight: Weight, place_sd_m: float) -> tuple[Gaussian, Club]:
    """Return belief and club with one more weight, its mass known as a gram scale tells it, its place as the default is."""
    belief, club = club_state.belief, club_state.prior.club
    place = len(club.weights)
    names = (path_of(WEIGHTS, place, "mass_kg"), path_of(WEIGHTS, place, "place_m"))
    grams_sd = parse("mass", GRAMS_SD, where="defaults").value
    size = len(belief.names)
    covariance = np.zeros((size + 2, size + 2))
    covariance[:size, :size] = belief.covariance
    covariance[size, size], covariance[size + 1, size + 1] = grams_sd**2, place_sd_m**2
    mean = np.concatenate([belief.mean, [weight.mass_kg, weight.place_m]])
    larger = Gaussian(names=(*belief.names, *names), mean=mean, covariance=covariance)
    return larger, msgspec.structs.replace(club, weights=(*club.weights, weight))

"""What every step of the plan asks about the club: its figures as data, and what a gauge should show."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import datetime

import msgspec
import numpy as np

from clubwright.belief.readings import Reading
from clubwright.belief.unknowns import bias_name
from clubwright.belief.update import predict_readings, with_biases
from clubwright.club.build import Build
from clubwright.club.part_figures import PART_FIGURES
from clubwright.club.parts import WOODS
from clubwright.club.quantities import ANGLES, QUANTITIES
from clubwright.club.stages import FINISHED, STAGES, Stage
from clubwright.planning.advice.tray import names_of
from clubwright.planning.advice.weights import Choice
from clubwright.planning.cautions import cautions
from clubwright.planning.club_state import ClubState
from clubwright.planning.cut import Cut
from clubwright.planning.gates.gates import Gate
from clubwright.planning.goals import Goal
from clubwright.planning.said.phrases import Value, in_full, phrase, pieces, quantity
from clubwright.planning.steps.types import Expected, Figures
from clubwright.state.steps import EDITION
from clubwright.ticket.part_readings import part_kind, part_number_path

NORMAL_95 = 1.959963984540054
"""Two-sided normal point for 95 %."""

Numbers = Figures


class Joint(msgspec.Struct, frozen=True, kw_only=True):
    """The joint as it was closed.

    Attributes:
        temperature_k: Temperature of the part, as typed there.
        release_at: When it is cured by the table, as the bench's own clock shows it, to the minute and never early; without
            zone, since equal moments of two zones are not the same text. None where the table does not say.
        zone: Name of the zone of that clock.
    """

    temperature_k: float
    release_at: datetime | None = None
    zone: str = ""


class Bench(msgspec.Struct, frozen=True, kw_only=True):
    """One club, and what was worked out about it, as the steps need it."""

    club_state: ClubState
    cut: Cut | None
    best: Choice
    gates: tuple[Gate, ...]
    done: frozenset[str] = frozenset()
    joint: Joint | None = None
    edition: int = EDITION

    @property
    def is_wood(self) -> bool:
        """True for driver, fairway and hybrid."""
        return self.club_state.ticket.kind in WOODS

    @property
    def has_sleeve(self) -> bool:
        """True when the ticket has an adapter, so that the joint is in a sleeve."""
        return self.club_state.ticket.club.adapter.given

    @property
    def fitted(self) -> tuple[float, ...]:
        """Weights fitted now."""
        return self.club_state.ticket.fitted_now

    @property
    def chosen(self) -> tuple[float, ...]:
        """Weights of the best choice."""
        return tuple(float(count) for count in self.best.counts)

    def names(self, counts: Sequence[float]) -> tuple[str, ...]:
        """Return the names of a set of weights, one for each piece."""
        return tuple(names_of(self.club_state.ticket, np.asarray(counts, dtype=float)))

    def weights(self, counts: Sequence[float]) -> Value:
        """Return a set of weights, to be said."""
        return pieces(self.names(counts))

    def build(self, stage: Stage = FINISHED, fitted: tuple[float, ...] | None = None) -> Build:
        """Return the club at the belief's mean."""
        club_state = self.club_state
        counts = self.fitted if fitted is None else fitted
        return Build(club=club_state.club, stage=stage, fitted=counts, conventions=club_state.prior.conventions)

    def mean(self, key: str, stage: Stage, fitted: tuple[float, ...] | None = None) -> float:
        """Return a quantity of the club at the belief's mean."""
        return float(QUANTITIES[key].of(self.build(stage, fitted)))

    def cautions(self, step: str) -> tuple[Value, ...]:
        """Return the usual cautions at a step, for this shaft and this metal."""
        ticket = self.club_state.ticket
        return cautions(
            step,
            shaft_material=ticket.club.shaft.material,
            head_metal=ticket.club.head.metal,
        )

    def expect(self, key: str, stage: Stage, fitted: tuple[float, ...] | None = None) -> Expected | None:
        """Say what the gauge should show of a quantity at a stage; None when it cannot be predicted.

        The variance is that of the belief plus the gauge's noise, its rounding whole also where the club was read before;
        a bias that earlier readings have narrowed counts as narrowed. Derivation: docs/theory/plan.md.
        """
        return next(iter(self.expect_all([key], stage, fitted)), None)

    def expect_all(
        self, keys: Sequence[str], stage: Stage, fitted: tuple[float, ...] | None = None
    ) -> tuple[Expected, ...]:
        """Say what the gauges should show of several quantities; those that cannot be predicted are left out."""
        can = self.club_state.can_predict
        known = [key for key in keys if QUANTITIES[key].function is not None and can(key, stage)]
        return self._expected([(key, key, QUANTITIES[key].kind) for key in known], stage, stage.name, fitted)

    def expect_part(self, number: str) -> Expected | None:
        """Say what the gauge should show of a part's number such as ``head.mass``; None when nothing is known of it."""
        path, kind = part_number_path(self.club_state.ticket, number), part_kind(number)
        if kind is None or path not in (*self.club_state.belief.names, *PART_FIGURES):
            return None
        return self._expected([(number, path, kind)], STAGES["bare shaft"], "part", None)[0]

    def _expected(
        self,
        wanted: Sequence[tuple[str, str, str]],
        stage: Stage,
        stage_name: str,
        fitted: tuple[float, ...] | None,
    ) -> tuple[Expected, ...]:
        """Work several readings of one build together: quantity, its path among the unknowns, and its kind."""
        club_state = self.club_state
        readings = [
            Reading(
                where="expected",
                quantity=path,
                value=0.0,
                stage=stage,
                fitted=self.fitted if fitted is None else fitted,
                instrument=club_state.gauge(quantity),
            )
            for quantity, path, _ in wanted
        ]
        belief = with_biases(club_state.belief, readings)
        means, slopes = predict_readings(
            club_state.prior.club, club_state.prior.conventions, belief.names, belief.mean, readings
        )
        found = []
        for (name, _, kind), reading, mean, slope in zip(wanted, readings, means, slopes, strict=True):
            sd = float((slope @ belief.covariance @ slope + reading.instrument.noise() ** 2) ** 0.5)
            found.append(_said(name, kind, stage_name, float(mean), sd))
        return tuple(found)

    def expect_value(self, key: str, stage: Stage, mean: float, sd: float) -> Expected:
        """Say what the gauge should show of a quantity that is known to stand at a value, give or take."""
        gauge, belief = self.club_state.gauge(key), self.club_state.belief
        name = bias_name(gauge.name, key)
        bias = belief.sd_of(name) if name in belief.names else gauge.bias
        return _said(key, QUANTITIES[key].kind, stage.name, mean, math.hypot(sd, gauge.noise(), bias))

    def goal_numbers(self, keys: Sequence[str]) -> Numbers:
        """Return the targets among some quantities, as understood; lengths in full."""
        return tuple(
            (
                phrase("label.ordered", what=quantity(key)),
                phrase("figure.ordered", figure=self._ordered(goal), tolerance=goal.tolerance_typed),
            )
            for key in keys
            if (goal := self.club_state.goal(key)) is not None
        )

    def _ordered(self, goal: Goal) -> Value:
        if QUANTITIES[goal.key].kind == "length":
            return in_full(goal.target)
        ordered = self.club_state.ticket.targets[goal.key]
        return ordered.echo if ordered.stepped else goal.typed

    def angles(self) -> tuple[str, ...]:
        """Return the angles of this head that are ordered or were measured."""
        head = self.club_state.ticket.club.head
        return tuple(key for key in ANGLES if head.entry(key) is not None or self.club_state.goal(key) is not None)

    def measured_length(self, section: str, key: str) -> Value | None:
        """Return a length of the ticket in full, or None when it is not given."""
        value = self.club_state.ticket.row(section).value(key)
        return None if value is None else in_full(value)


def _said(quantity: str, kind: str, stage: str, mean: float, sd: float) -> Expected:
    low, high = mean - NORMAL_95 * sd, mean + NORMAL_95 * sd
    return Expected(quantity=quantity, stage=stage, mean=mean, sd=sd, low=low, high=high, kind=kind)


def present(*pairs: tuple[Value, Value | None]) -> Numbers:
    """Return the labelled figures that there are."""
    return tuple((label, text) for label, text in pairs if text)

"""Where one club stands: its ticket, what its parts and readings make us believe, and what is wanted."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import Any

import msgspec
import numpy as np
from numpy.typing import NDArray

from clubwright.belief.causes.explain import Told
from clubwright.belief.gaussian import Gaussian
from clubwright.belief.instruments import Instrument
from clubwright.belief.prediction import Prediction, predict
from clubwright.belief.readings import Reading
from clubwright.belief.unknowns import club_with
from clubwright.belief.update import Judged, Learned, predict_readings
from clubwright.club.build import Build
from clubwright.club.part_paths import at_path
from clubwright.club.parts import Club
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import FINISHED, Stage
from clubwright.errors import NotPossible, Where
from clubwright.planning.goals import Goal, goals_of
from clubwright.planning.learning import learned_of
from clubwright.state.gauge import ReadingEntry
from clubwright.state.steps import ASSEMBLY
from clubwright.state.ticket import Ticket
from clubwright.ticket.gauges import lacking, readings_of, usual_gauge
from clubwright.ticket.part_readings import part_number_path
from clubwright.ticket.priors.prior import Prior, prior_from


class ClubState(msgspec.Struct, frozen=True, kw_only=True):
    """One club as far as it is known.

    Attributes:
        ticket: What is wanted, in hand and read.
        prior: What the parts alone say.
        learned: The belief after the readings, and how each was judged.
        goals: The targets with their half-widths.
        glued: Whether a joint of this job is closed: what sits in the tip cannot be changed, and the head stays on.
        explained: What explains each reading that is kept aside and that nobody has decided to leave out, by its place.
    """

    ticket: Ticket
    prior: Prior
    learned: Learned
    goals: tuple[Goal, ...]
    glued: bool = False
    explained: dict[Where, Told] = {}

    @property
    def is_closed(self) -> bool:
        """True where shaft and head are one: glued in this job, or since the club came in."""
        return self.glued or self.ticket.job not in ASSEMBLY

    @property
    def belief(self) -> Gaussian:
        """The belief after all readings that stand."""
        return self.learned.belief

    @property
    def club(self) -> Club:
        """The club at the belief's mean."""
        belief = self.belief
        return club_with(self.prior.club, belief.names, [float(value) for value in belief.mean])

    @property
    def fitted_now(self) -> NDArray[np.float64]:
        """Counts of the weights fitted now, shape (1, w)."""
        return np.asarray([self.ticket.fitted_now], dtype=float).reshape(1, len(self.ticket.weights))

    def build(self, stage: Stage = FINISHED) -> Build:
        """Return the club at the belief's mean with the weights fitted now."""
        return Build(
            club=self.club,
            stage=stage,
            fitted=tuple(float(count) for count in self.fitted_now[0]),
            conventions=self.prior.conventions,
        )

    def can_predict(self, key: str, stage: Stage = FINISHED) -> bool:
        """True unless the ticket lacks what the quantity needs; of old parts that come off less is known."""
        return not lacking(self.ticket, key, stage.name) if stage.old_parts else key not in self.prior.unknowable

    def shown(self, wanted: Collection[str], stage: Stage = FINISHED) -> tuple[str, ...]:
        """Return which of some quantities can be shown, in the register's order: what is predicted.

        One that nobody ordered is also computed at the belief's mean. Readings far off may bend the belief into a club that
        has no such figure: a shaft longer than its stiffness is known. An order that nothing can compute is refused with its
        reason; a figure that is only shown is left out.
        """
        predicted = [key for key in QUANTITIES if key in wanted and self.can_predict(key, stage)]
        build = self.build(stage)
        return tuple(key for key in predicted if self.goal(key) is not None or _is_possible(key, build))

    @property
    def present(self) -> tuple[Judged, ...]:
        """The readings that tell of the club as it is now, as they were judged: of this job, moved by no change since."""
        others = {entry.where for entry in self.ticket.readings if entry.job}
        return tuple(item for item in self.learned.judged if item.present and item.reading.where not in others)

    @property
    def present_entries(self) -> tuple[ReadingEntry, ...]:
        """The readings of the ticket that tell of the club as it is now, used or not."""
        here = {item.reading.where for item in self.present}
        mine = (entry for entry in self.ticket.readings if not entry.job)
        return tuple(entry for entry in mine if entry.before is None or entry.where in here)

    def gauge(self, quantity: str) -> Instrument:
        """Return the gauge last used for a quantity or a part's number (``head.mass``), else the usual one."""
        path = quantity if quantity in QUANTITIES else part_number_path(self.ticket, quantity)
        for reading in reversed(readings_of(self.ticket)):
            if reading.quantity == path:
                return reading.instrument
        return usual_gauge(quantity)

    def number(self, path: str) -> tuple[float, float]:
        """Return what is believed of a number of a part: mean and standard uncertainty, 0 where it has none."""
        sd = self.belief.sd_of(path) if path in self.belief.names else 0.0
        return float(at_path(self.club, path)), sd

    def as_the_shop_reads(self, reading: Reading) -> tuple[float, float]:
        """Return what a reading would have been by the definitions in use, and the doubt that this adds, in SI.

        A frequency read in another clamp is converted by what is believed of this club in either.
        """
        if reading.meter is None:
            return reading.value, 0.0
        both = [msgspec.structs.replace(reading, meter=None), reading]
        at = self.belief
        values, slopes = predict_readings(self.prior.club, self.prior.conventions, at.names, at.mean, both)
        slope = slopes[0] - slopes[1]
        return reading.value + float(values[0] - values[1]), float(np.sqrt(max(slope @ at.covariance @ slope, 0.0)))

    def goal(self, key: str) -> Goal | None:
        """Return the goal for a quantity, or None."""
        return next((goal for goal in self.goals if goal.key == key), None)

    def predict(self, keys: Sequence[str], stage: Stage = FINISHED, fitted: NDArray[Any] | None = None) -> Prediction:
        """Say what is believed of some quantities at a stage, for sets of fitted weights (default: those fitted now)."""
        sets = self.fitted_now if fitted is None else fitted
        return predict(self.belief, self.prior.club, self.prior.conventions, keys, stage, sets)

    def means(self, keys: Sequence[str], fitted: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the quantities of the finished club at the belief's mean, for C sets of weights, shape (C, q)."""
        counts = tuple(fitted[:, column] for column in range(fitted.shape[1]))
        build = Build(club=self.club, fitted=counts, conventions=self.prior.conventions)
        columns = [np.broadcast_to(QUANTITIES[key].of(build), (len(fitted),)) for key in keys]
        return np.stack(columns, axis=1)


def _is_possible(key: str, build: Build) -> bool:
    try:
        QUANTITIES[key].of(build)
    except NotPossible:
        return False
    return True


def club_state_of(ticket: Ticket, *, glued: bool = False) -> ClubState:
    """Work out where a club stands from its ticket, and whether its joint was glued in this job.

    Raises:
        NotPossible: when readings a person decided to keep contradict the parts.
    """
    prior = prior_from(ticket)
    learned, explained = learned_of(ticket, prior)
    return ClubState(
        ticket=ticket, prior=prior, learned=learned, goals=goals_of(ticket), glued=glued, explained=explained
    )

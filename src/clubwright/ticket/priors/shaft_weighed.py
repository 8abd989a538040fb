"""What a shaft's mass and balance on the ticket are of: the raw shaft, the shaft as cut, or nobody knows which.

The belief's unknowns are the raw shaft's. What was weighed as cut becomes the raw shaft's figure by putting the offcuts back
on; where it is not said which was weighed, both are believed alike. A raw length that is not given is the cut length, the
tip trim and a usual offcut. Derivation: docs/theory/shaft.md; checked in tests/unit/ticket/priors/test_shaft_weighed.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import msgspec
import numpy as np

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.prediction import STEP
from clubwright.club.part_paths import read_path
from clubwright.notation import parse, render
from clubwright.state.particulars import in_si
from clubwright.state.ticket import Ticket
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import CUT_JOBS, SHAFT
from clubwright.ticket.priors.shaft import density_prior
from clubwright.ticket.rows.measured import doubt_of
from clubwright.units import Number

Slopes = dict[str, dict[str, float]]

RAW, AS_CUT, NOT_SAID = (0.0, 0.0), (1.0, 0.0), (0.5, 0.5)
"""How much of the offcuts is to be put back on, mean and uncertainty: either is as likely where it is not said."""

MEASURED_M = 1e-3
"""A raw length with more doubt than this typed behind it is an estimate, not a measurement (estimate of ours)."""

NUMBERS = (
    *("raw_length_m", "mass_kg", "balance_from_tip_m", "tip_trim_m", "tip_density_kg_m", "butt_density_kg_m"),
    "length_m",
)
"""Numbers of a shaft that hang together through its offcuts."""


class Source(NamedTuple):
    """Where a figure of the raw shaft comes from.

    Attributes:
        key: The ticket's key; empty where the ticket has none.
        share: How much of the offcuts is put back on (`RAW`, `AS_CUT`, `NOT_SAID`).
        at_m: Length of the shaft when it was taken, where it was cut again since.
    """

    key: str
    share: tuple[float, float]
    at_m: float | None = None

    @property
    def is_cut_key(self) -> bool:
        """True when it is a figure of the shaft as cut, by the name of its key."""
        return self.key in ("cut_mass", "cut_balance_from_tip")


class Sources(NamedTuple):
    """Where mass and balance come from, and whether the raw length is on the ticket."""

    mass: Source
    balance: Source
    has_raw: bool

    @property
    def is_raw(self) -> bool:
        """True when every figure is the raw shaft's own, as the ticket has them."""
        return self.has_raw and (self.mass.share, self.balance.share) == (RAW, RAW)


class RawShaft(msgspec.Struct, frozen=True, kw_only=True):
    """The raw shaft that the ticket's figures make believe.

    Attributes:
        given: Attribute of the shaft to its mean.
        figures: Path to mean and uncertainty, of the numbers that have one.
        joint: How those hang together; None when each stands by itself.
        slopes: How far each number moves with a figure, by path; nothing when each stands by itself.
        assumed: What had to be taken for it: the ticket's key, the figure as text, its standing.
    """

    given: dict[str, Any]
    figures: dict[str, tuple[float, float]]
    joint: Gaussian | None
    slopes: Slopes
    assumed: tuple[tuple[str, str, str], ...]


def has_length(ticket: Ticket) -> bool:
    """True when the shaft is said to be cut: its cut length is on the ticket, or the club came in finished."""
    return ticket.job not in CUT_JOBS or ticket.club.shaft.cut_length is not None


def is_measured_raw(ticket: Ticket) -> bool:
    """True when the raw length was measured: it is on the ticket, and not as an estimate."""
    entry = ticket.club.shaft.raw_length
    return entry is not None and (entry.sd is None or entry.sd <= MEASURED_M)


def sources_of(ticket: Ticket) -> Sources:
    """Say of what mass and balance on the ticket are.

    What the ticket says of it (``weighed``) counts first. Else they are the raw shaft's where it is not cut yet, where its
    raw length is given, and where ``cut_mass`` stands beside them; of a cut shaft without either nobody knows.
    """
    row = ticket.club.shaft
    said = row.weighed
    has_raw = row.raw_length is not None
    raw = has_raw or not has_length(ticket) or row.cut_mass is not None
    typed = AS_CUT if said == "cut" else RAW if said == "raw" or raw else NOT_SAID
    mass = Source("mass", typed)
    if row.mass is None:
        by_cut = row.cut_mass is not None
        # The usual masses are those of shafts in clubs: as cut, unless the ticket says how long this one was.
        share = RAW if has_raw and not by_cut else AS_CUT
        mass = Source("cut_mass" if by_cut else "", share, in_si(row.cut_mass_length) if by_cut else None)
    balance = Source("balance_from_tip", typed)
    if row.balance_from_tip is None:
        by_cut = row.cut_balance_from_tip is not None
        at_m = in_si(row.cut_balance_length) if by_cut else mass.at_m
        balance = Source("cut_balance_from_tip" if by_cut else "", AS_CUT if by_cut else mass.share, at_m)
    return Sources(mass=mass, balance=balance, has_raw=has_raw)


def raw_shaft(
    ticket: Ticket, sources: Sources, given: dict[str, Any], figures: dict[str, tuple[float, float]]
) -> RawShaft:
    """Fill in what the ticket does not say of a shaft, and tell its figures of the raw shaft.

    Args:
        ticket: The ticket.
        sources: What its figures are of.
        given: Attributes of the shaft as on the ticket, cut length and tip trim among them.
        figures: The same by path, with uncertainty.
    """
    given, figures = dict(given), dict(figures)
    row, assumed = ticket.club.shaft, []
    for source, attribute in ((sources.mass, "mass_kg"), (sources.balance, "balance_from_tip_m")):
        if source.is_cut_key:
            entry, field = row.entry(source.key), SHAFT.field(source.key)
            assert entry is not None and field is not None, source.key  # sources_of names fields of the ticket file
            given[attribute] = entry.value
            figures[f"shaft.{attribute}"] = (entry.value, doubt_of(ticket, row, field, entry))
    if not sources.has_raw:
        default = default_for("shaft.offcut", ticket.kind)
        assert default is not None, ticket.kind  # every kind has one
        usual = parse("length", default.text, where="defaults")
        given["raw_length_m"] = given["length_m"] + given["tip_trim_m"] + usual.value
        figures["shaft.raw_length_m"] = (usual.value, usual.sd or 0.0)
        if sources.mass.share != AS_CUT and row.cut_mass is None:
            assumed.append(("raw_length", _text(given["raw_length_m"], usual.sd or 0.0), default.standing))
    for attribute, figure in density_prior(_as_weighed(sources, given), ticket.material).items():
        given[attribute], figures[f"shaft.{attribute}"] = figure[0], figure
        if attribute == "balance_from_tip_m":
            key = "cut_balance_from_tip" if sources.balance.share == AS_CUT else "balance_from_tip"
            assumed.append((key, _text(*figure), "estimate of ours"))
        elif attribute == "butt_density_kg_m" and sources.has_raw and ticket.job in CUT_JOBS:
            text = render("linear_density", *figure)
            assumed.append(
                ("butt_density", text, "from the shaft's mass and balance, as if it fell straight to the tip")
            )
    joint: Gaussian | None = None
    slopes: Slopes = {}
    if not sources.is_raw:
        joint, slopes = _joint(sources, figures, given)
        for name, mean in zip(joint.names, joint.mean, strict=True):
            given[read_path(name).number] = float(mean)
            figures[name] = (float(mean), joint.sd_of(name))
    return RawShaft(given=given, figures=figures, joint=joint, slopes=slopes, assumed=tuple(assumed))


def joined(belief: Gaussian, joints: Sequence[Gaussian]) -> Gaussian:
    """Return a belief in which the numbers of each joint one hang together as they do there."""
    covariance = belief.covariance.copy()
    for joint in joints:
        names = [name for name in joint.names if name in belief.names]
        here = np.ix_([belief.index(name) for name in names], [belief.index(name) for name in names])
        there = np.ix_([joint.index(name) for name in names], [joint.index(name) for name in names])
        covariance[here] = joint.covariance[there]
    return msgspec.structs.replace(belief, covariance=covariance)


def _text(mean_m: float, sd_m: float) -> str:
    return f"{mean_m * 1e3:.0f} mm ± {sd_m * 1e3:.0f} mm"


def _as_weighed(sources: Sources, given: dict[str, Any]) -> dict[str, Any]:
    """Return the shaft as it was weighed, for its usual balance and densities; a balance as the same share of its length."""
    raw, now = given["raw_length_m"], given["length_m"]

    def length_m(source: Source) -> float:
        return float((1 - source.share[0]) * raw + source.share[0] * (source.at_m or now))

    whole = length_m(sources.mass)
    found = {**given, "raw_length_m": whole}
    if "balance_from_tip_m" in given:
        found["balance_from_tip_m"] = given["balance_from_tip_m"] * (whole / length_m(sources.balance))
    return found


def _joint(sources: Sources, figures: dict[str, tuple[float, float]], given: dict[str, Any]) -> tuple[Gaussian, Slopes]:
    """Tell independent figures of the raw shaft, by first derivatives: what they share hangs together.

    One more unknown stands for how much of the offcuts mass and balance lack.
    """
    known = [figures.get(f"shaft.{name}", (float(given.get(name, 0.0)), 0.0)) for name in NUMBERS]
    unsaid = next((source.share for source in (sources.mass, sources.balance) if source.share[1] > 0), RAW)
    known.append(unsaid)
    mean, sd = (np.array(column) for column in zip(*known, strict=True))
    guesses: list[Number] = list(mean[:, None] + 1j * STEP * np.eye(len(mean)))
    found = np.stack([np.broadcast_to(number, mean.shape) for number in _raw(sources, *guesses)])
    slope = found.imag / STEP
    covariance = (slope * sd**2) @ slope.T
    names = tuple(f"shaft.{name}" for name in NUMBERS)
    slopes = {path: dict(zip(names, map(float, slope[:, place]), strict=True)) for place, path in enumerate(names)}
    return Gaussian(names=names, mean=found[:, 0].real.copy(), covariance=covariance), slopes


def _raw(
    sources: Sources,
    raw_m: Number,
    mass_kg: Number,
    balance_m: Number,
    trim_m: Number,
    tip_kg_m: Number,
    butt_kg_m: Number,
    length_m: Number,
    unsaid: Number,
) -> tuple[Number, ...]:
    """Return `NUMBERS` of the raw shaft; without a raw length `raw_m` is what comes off the butt."""
    if not sources.has_raw:
        raw_m = length_m + trim_m + raw_m

    def offcuts(source: Source) -> tuple[Number, Number]:
        """Mass and moment about the raw tip of what was off when a figure was taken."""
        butt_cut_m = raw_m - trim_m - (length_m if source.at_m is None else source.at_m)
        tip_off, butt_off = tip_kg_m * trim_m, butt_kg_m * butt_cut_m
        return tip_off + butt_off, tip_off * trim_m / 2 + butt_off * (raw_m - butt_cut_m / 2)

    mass_share = unsaid if sources.mass.share[1] > 0 else sources.mass.share[0]
    balance_share = unsaid if sources.balance.share[1] > 0 else sources.balance.share[0]
    whole = mass_kg + mass_share * offcuts(sources.mass)[0]
    off, moment = offcuts(sources.balance)
    as_cut = ((whole - off) * (balance_m + trim_m) + moment) / whole
    balance = balance_m + balance_share * (as_cut - balance_m)
    return raw_m, whole, balance, trim_m, tip_kg_m, butt_kg_m, length_m

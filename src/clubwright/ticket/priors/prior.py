"""From a ticket to the belief that its parts alone give: weighed figures, else documented defaults.

The order is the design's: what is weighed or measured, then what the ticket says of a lot, last the default by kind of
club, each default announced as a finding.
"""

from __future__ import annotations

from typing import Any

import msgspec

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.instruments import Instrument
from clubwright.belief.shared_errors import hung_together
from clubwright.club.build import SWING_WEIGHT_SCALES, Build, Conventions
from clubwright.club.part_figures import CUT_BALANCE, CUT_MASS
from clubwright.club.part_paths import TAPES, WEIGHTS, path_of
from clubwright.club.parts import Adapter, Adhesive, Club, Ferrule, Grip, Head, Shaft, Tape, Weight
from clubwright.errors import Finding
from clubwright.notation import parse
from clubwright.state.particulars import Particulars, in_si, whole_number
from clubwright.state.parts import TapePart, WeightPart
from clubwright.state.ticket import Ticket
from clubwright.ticket.announced import how_to_mend, is_announced
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import ADAPTER, ADHESIVE, FERRULE, GRIP, HEAD, SHAFT, TAPE, WEIGHT, Field, Section
from clubwright.ticket.fields.figures import laid_mass, meter_of, meter_taken, no_tape, seat_of
from clubwright.ticket.gauges import lacking, meters_of, readings_of, unknowable, unused_findings
from clubwright.ticket.priors.bent_head import bent_now, with_bends
from clubwright.ticket.priors.came import came_of
from clubwright.ticket.priors.earlier import earlier_of
from clubwright.ticket.priors.shaft import check_clamped, covering, cut_prior
from clubwright.ticket.priors.shaft_cut_figures import not_said, with_cut_figures
from clubwright.ticket.priors.shaft_weighed import joined, raw_shaft, sources_of
from clubwright.ticket.rows.measured import Gauged, doubt_of, gauge_of_figure

CUT_SD_M = 0.4e-3
"""How true a shaft is cut to its mark: a sixty-fourth of an inch (estimate of ours)."""


class Prior(msgspec.Struct, frozen=True, kw_only=True):
    """What the parts alone say.

    Attributes:
        club: The parts at their most likely figures.
        belief: Joint Gaussian over their uncertain figures, by path.
        conventions: Definitions in use.
        assumed: The figures (``head.cg_from_ground``) that are defaults.
        measured: What measured each figure of a part that stands in its table, by what a reading of it is of.
        unknowable: Quantities that cannot be predicted from what the ticket gives, and why.
        findings: One for each default that matters.
    """

    club: Club
    belief: Gaussian
    conventions: Conventions
    assumed: frozenset[str]
    measured: dict[str, Instrument]
    unknowable: dict[str, str]
    findings: tuple[Finding, ...]


def prior_from(ticket: Ticket, *, every: bool = False) -> Prior:
    """Build the club and the belief that a ticket's parts give; with `every` each default is said, the quiet ones too.

    Raises:
        InputError: when a stiffness is given and a clamp that leaves too little of the shaft free.
    """
    return _Maker(ticket, every=every).prior()


class _Maker:
    """Gathers means and standard deviations by path, and what had to be assumed."""

    def __init__(self, ticket: Ticket, *, every: bool) -> None:
        self.ticket, self.every = ticket, every
        self.figures: dict[str, tuple[float, float]] = {}
        self.assumed: set[str] = set()
        self.findings: list[Finding] = [*no_tape(ticket, every=every), *meter_taken(ticket)]
        self.joints: list[Gaussian] = []
        self.gauged = Gauged()

    def prior(self) -> Prior:
        ticket = self.ticket
        shop = ticket.shop
        conventions = Conventions(
            scale=SWING_WEIGHT_SCALES[(shop.swing_weight_point or "1.75 in oz")],
            length_method=ticket.length_method,
            meter=meter_of(shop),
        )
        head = Head(**self.part(HEAD, ticket.club.head, "head", "head"))
        grip = Grip(**self.part(GRIP, ticket.club.grip, "grip", "grip"))
        ferrule = Ferrule(mass_kg=0.0)
        if ticket.fits_ferrule:
            ferrule = Ferrule(**self.part(FERRULE, ticket.club.ferrule, "ferrule", "ferrule"))
        adhesive = Adhesive(**self.part(ADHESIVE, ticket.club.adhesive, "adhesive", "adhesive"))
        adapter = None
        if ticket.club.adapter.given:
            adapter = Adapter(**self.part(ADAPTER, ticket.club.adapter, "adapter", "adapter"))
        tapes = tuple(self.tape(row, place) for place, row in enumerate(ticket.tapes))
        weights = tuple(self.weight(row, place) for place, row in enumerate(ticket.weights))
        club = Club(
            kind=ticket.kind,
            head=head,
            shaft=Shaft(raw_length_m=1.0, mass_kg=0.1, balance_from_tip_m=0.5, length_m=1.0),
            grip=grip,
            ferrule=ferrule,
            adhesive=adhesive,
            tapes=tapes,
            adapter=adapter,
            weights=weights,
        )
        shaft = self.shaft(msgspec.structs.replace(club, head=bent_now(ticket, head)), conventions)
        club = msgspec.structs.replace(club, shaft=shaft, came=came_of(self, club, conventions))
        club = msgspec.structs.replace(club, earlier=earlier_of(self, club, conventions))
        uncertain = {path: figure for path, figure in self.figures.items() if figure[1] > 0}
        belief = joined(Gaussian.independent(uncertain), self.joints)
        readings = readings_of(ticket)
        if self.gauged:
            belief = hung_together(belief, self.gauged.errors(readings))
        club, belief = with_bends(ticket, club, belief)
        club, belief, cut = with_cut_figures(self.ticket, club, belief, conventions, readings)
        return Prior(
            club=club,
            belief=belief,
            conventions=conventions,
            assumed=frozenset(self.assumed),
            measured=self.gauged.gauges() | cut.measured,
            unknowable=unknowable(ticket),
            findings=(*self.findings, *not_said(self.ticket), *cut.findings, *unused_findings(self.ticket)),
        )

    def like(self, ticket: Ticket) -> _Maker:
        return _Maker(ticket, every=self.every)

    def part(
        self, section: Section, row: Particulars, path: str, default_name: str, leave: tuple[str, ...] = ()
    ) -> dict[str, Any]:
        """Return a part's numbers, each given or assumed; figures without either are left to the part's own default.

        Those in `leave` stay at that default too: nothing on the ticket depends on them.
        """
        found: dict[str, Any] = {}
        for field in section.fields:
            if field.number is None or field.number in found or field.number in leave:
                continue
            figure = self.figure(field, row, f"{default_name}.{field.key}")
            if figure is not None:
                found[field.number] = figure[0]
                self.figures[f"{path}.{field.number}"] = figure
                self.gauged.note(gauge_of_figure(self.ticket, row, field.key), f"{path}.{field.number}")
        return found

    def figure(self, field: Field, row: Particulars, name: str) -> tuple[float, float] | None:
        entry = row.entry(field.key)
        if entry is not None:
            return entry.value, doubt_of(self.ticket, row, field, entry)
        default = default_for(name, self.ticket.kind)
        if default is None or (name == "grip.core_taper" and lacking(self.ticket, "grip_diameter_6in")):
            return None
        understood = parse(field.kind, default.text, where="defaults")
        self.assume(row, field.key, name, default.text, default.standing)
        return understood.value, understood.sd or 0.0

    def assume(self, row: Particulars, key: str, name: str, text: str, standing: str) -> None:
        self.assumed.add(name)
        if not (self.every or is_announced(name, self.ticket)):
            return
        self.findings.append(
            Finding(
                where=row.where.at(key),
                what=f"not given: taken as {text} ({standing})",
                mend=how_to_mend(name),
                severity="note",
            )
        )

    def tape(self, row: TapePart, place: int) -> Tape:
        path, layers = path_of(TAPES, place), whole_number(row.layers, 1)
        weighed = row.mass is not None
        layer_gauge = gauge_of_figure(self.ticket, row, "layer_mass")
        laid = None if weighed else laid_mass(row, layers, layer_gauge.uncertainty() if layer_gauge else None)
        found = self.part(TAPE, row, path, "tape", leave=() if laid is None else ("mass_kg",))
        if not weighed:
            self.gauged.note(layer_gauge, f"{path}.mass_kg", layers)
            mean, sd = laid or (layers * each for each in self.figures[f"{path}.mass_kg"])
            found["mass_kg"], self.figures[f"{path}.mass_kg"] = mean, (mean, sd)
        thickness = in_si(row.thickness) or 0.0
        found["build_up_6in_m"] = thickness * layers
        found["build_up_2in_m"] = 0.0 if row.covers == "lower" else thickness * layers
        return Tape(**found)

    def weight(self, row: WeightPart, place: int) -> Weight:
        path, seat = path_of(WEIGHTS, place), row.seat
        found = self.part(WEIGHT, row, path, "weight")
        if "place_m" not in found:
            default = default_for(f"weight.{seat}", self.ticket.kind)
            assert default is not None, seat  # every seat has one
            understood = parse("length", default.text, where="defaults")
            self.figures[f"{path}.place_m"] = (understood.value, understood.sd or 0.0)
            found["place_m"] = understood.value
            key = "from_cap" if seat == "butt" else "from_ground"
            self.assume(row, key, f"weight.{key}", default.text, default.standing)
        if not self.ticket.is_cut and "lifts_shaft_m" in found:
            # The shaft will be cut for the weight that goes under it, so that fitting it changes no length.
            found |= {"cut_allows_m": found["lifts_shaft_m"], "cut_for": self.ticket.fitted_now[place]}
        return Weight(name=row.name, seat=seat_of(seat), **found)

    def shaft(self, club: Club, conventions: Conventions) -> Shaft:
        row = self.ticket.club.shaft
        profile = self.ticket.club.stiffness
        sources = sources_of(self.ticket)
        leave = (
            *(("stiffness_factor",) if profile is None else ()),
            *(("mass_kg",) if sources.mass.is_cut_key else ()),
        )
        given = self.part(SHAFT, row, "shaft", "shaft", leave=leave)
        lift = Build(club=club, fitted=self.ticket.fitted_now).lift_m
        if "length_m" not in given:
            length, sd, assumed = cut_prior(self.ticket, club, conventions, float(lift), CUT_SD_M)
            given["length_m"], self.figures["shaft.length_m"] = length, (length, sd)
            if assumed:
                self.assume(
                    row, "cut_length", "shaft.cut_length", f"{length * 1e3:.0f} mm ± {sd * 1e3:.0f} mm", assumed
                )
        if self.ticket.taper_trim:
            given["tip_trim_m"], _ = 0.0, self.figures.pop("shaft.tip_trim_m")
        given.setdefault("tip_trim_m", 0.0)
        raw = raw_shaft(self.ticket, sources, given, self.figures)
        given, self.figures = raw.given, raw.figures
        self.joints += [] if raw.joint is None else [raw.joint]
        for source, path, figure in (
            (sources.mass, "shaft.mass_kg", CUT_MASS),
            (sources.balance, "shaft.balance_from_tip_m", CUT_BALANCE),
        ):
            gauge = gauge_of_figure(self.ticket, row, source.key) if source.is_cut_key else None
            # of a shaft that was cut again since, what is measured now is no further measuring of that figure
            self.gauged.note(gauge, path, figure=figure if source.at_m is None else "")
        self.gauged.depend(raw.slopes)
        for key, text, standing in raw.assumed:
            self.assume(row, key, f"shaft.{key}", text, standing)
        if profile is not None:
            spread = self.figures["shaft.length_m"][1]
            held = max(meter.clamp_length_m for meter in (conventions.meter, *meters_of(self.ticket)))
            check_clamped(self.ticket, given, spread, float(club.head.bore_depth_m), held)
            given["stiffness"] = covering(profile, given, spread)
        return Shaft(**given)

"""What is believed of the parts that a club came in with and that come off: each an unknown of its own.

Nobody knows them as well as new parts. What was weighed once they were off counts; else wide defaults do, each with its
standing (`clubwright.ticket.fields.defaults`). Derivation: docs/theory/belief.md.
"""

from __future__ import annotations

import math
from typing import Protocol

import msgspec

from clubwright.club.build import Conventions
from clubwright.club.part_paths import came_path, path_of
from clubwright.club.parts import Adhesive, Came, Club, Ferrule, Grip, Shaft, Tape
from clubwright.errors import DocumentPlace
from clubwright.notation import parse
from clubwright.state.old_parts import OldTape
from clubwright.state.particulars import Particulars, in_si, whole_number
from clubwright.state.parts import AdhesivePart
from clubwright.ticket.fields.defaults import default_for
from clubwright.ticket.fields.fields import ADHESIVE, OLD_FERRULE, OLD_GRIP, OLD_SHAFT, OLD_TAPE
from clubwright.ticket.part_paths import REPLACED
from clubwright.ticket.priors.came_known import came_known
from clubwright.ticket.priors.earlier import EarlierMaker
from clubwright.ticket.priors.shaft import cut_prior
from clubwright.units import INCH_M

OLD_LENGTH_SD_M = INCH_M / 2
"""How far the club that came in may differ from the length that is ordered (estimate of ours)."""

OLD_BALANCE_SHARE = (0.525, 0.02)
"""Balance point of a cut shaft of unknown make from its tip, as a share of its length (estimate of ours)."""

TOGETHER_SD_KG = 0.5e-3
"""Old grip and tape weighed together: glue and solvent come off with them, or stay on the shaft (estimate of ours)."""


class PartMaker(EarlierMaker, Protocol):
    """What gathers the figures of parts: `clubwright.ticket.priors.prior`."""

    def assume(self, row: Particulars, key: str, name: str, text: str, standing: str) -> None:
        """Announce a default."""
        ...  # pragma: no cover - says a shape, is never run


def came_of(maker: PartMaker, club: Club, conventions: Conventions) -> Came | None:
    """Return the parts that come off in this job, their figures kept as unknowns; None where none does."""
    replaced = REPLACED.get(maker.ticket.job)
    if replaced is None:
        return None
    known = next((place for place, change in enumerate(maker.ticket.changes) if change.came), None)
    if known is not None:
        return came_known(maker, known, club, conventions, TOGETHER_SD_KG)
    grip, tapes = _grip_and_tapes(maker)
    if "shaft" not in replaced:
        return Came(grip=grip, tapes=tapes)
    row = AdhesivePart(where=DocumentPlace("old_adhesive", source=maker.ticket.source), given=False)
    return Came(
        grip=grip,
        tapes=tapes,
        shaft=_shaft(maker, msgspec.structs.replace(club, grip=grip), conventions),
        ferrule=_ferrule(maker),
        adhesive=Adhesive(**maker.part(ADHESIVE, row, came_path(ADHESIVE.part), "old_adhesive")),
    )


def _grip_and_tapes(maker: PartMaker) -> tuple[Grip, tuple[Tape, ...]]:
    """Take apart what was weighed: the grip alone, the tape alone, or both together as they came off."""
    ticket, row = maker.ticket, maker.ticket.club.came.grip
    both = row.mass_with_tape
    alone = row.mass is not None
    weighed = bool(ticket.club.came.tapes) and all(tape.mass is not None for tape in ticket.club.came.tapes)
    if both is not None and not alone and not weighed:
        # One body: the tape lies so near the grip's own centre that this is far within its uncertainty.
        grip = maker.part(OLD_GRIP, row, OLD_GRIP.part, OLD_GRIP.name, leave=("mass_kg",))
        mass = maker.figures[path_of(OLD_GRIP.part, "mass_kg")] = (both.value, both.sd or TOGETHER_SD_KG)
        return Grip(**grip, mass_kg=mass[0]), ()
    rows = ticket.club.came.tapes or (
        OldTape(where=DocumentPlace("old_tape", row=0, many=True, source=ticket.source), given=False),
    )
    tapes = tuple(_tape(maker, tape, place) for place, tape in enumerate(rows))
    each = [path_of(OLD_TAPE.part, place) for place in range(len(tapes))]
    whole = (0.0, 0.0) if both is None else (both.value, both.sd or TOGETHER_SD_KG)
    grip = maker.part(OLD_GRIP, row, OLD_GRIP.part, OLD_GRIP.name, leave=() if alone or both is None else ("mass_kg",))
    if both is not None and not alone:
        grip["mass_kg"] = _rest(maker, OLD_GRIP.part, whole, *each)
    elif both is not None and not ticket.club.came.tapes:
        left = _rest(maker, each[0], whole, OLD_GRIP.part)
        tapes = (msgspec.structs.replace(tapes[0], mass_kg=left),)
    return Grip(**grip), tapes


def _rest(maker: PartMaker, path: str, whole: tuple[float, float], *others: str) -> float:
    """Keep what is left of a mass that was weighed together, and return it."""
    figures = [maker.figures[path_of(other, "mass_kg")] for other in others]
    mean = whole[0] - sum(mass for mass, _ in figures)
    maker.figures[path_of(path, "mass_kg")] = (mean, math.hypot(whole[1], *(sd for _, sd in figures)))
    return mean


def _tape(maker: PartMaker, row: OldTape, place: int) -> Tape:
    path = path_of(OLD_TAPE.part, place)
    found = maker.part(OLD_TAPE, row, path, OLD_TAPE.name)
    if row.mass is None and row.layers is not None:
        default = default_for("tape.mass", maker.ticket.kind)
        assert default is not None  # one layer has one
        layer, layers = parse("mass", default.text, where="defaults"), whole_number(row.layers, 1)
        found["mass_kg"] = layers * layer.value
        maker.figures[path_of(path, "mass_kg")] = (layers * layer.value, layers * (layer.sd or 0.0))
    return Tape(**found)


def _ferrule(maker: PartMaker) -> Ferrule:
    row = maker.ticket.club.came.ferrule
    if in_si(row.mass) == 0.0 or not (maker.ticket.club.came.ferrule.given or maker.ticket.fits_ferrule):
        return Ferrule(mass_kg=0.0)
    return Ferrule(**maker.part(OLD_FERRULE, row, OLD_FERRULE.part, OLD_FERRULE.name))


def _shaft(maker: PartMaker, club: Club, conventions: Conventions) -> Shaft:
    """Make the old shaft of what it weighs as it was cut: nothing was ever known of its offcuts."""
    row = maker.ticket.club.came.shaft
    found = maker.part(OLD_SHAFT, row, OLD_SHAFT.part, OLD_SHAFT.name)
    if "length_m" not in found:
        length, sd, _ = cut_prior(maker.ticket, club, conventions, 0.0, OLD_LENGTH_SD_M)
        _assumed(maker, row, "length", (length, sd))
        found["length_m"] = length
    length = float(found["length_m"])
    if "balance_from_tip_m" not in found:
        share, spread = OLD_BALANCE_SHARE
        _assumed(maker, row, "balance_from_tip", (share * length, spread * length))
        found["balance_from_tip_m"] = share * length
    return Shaft(raw_length_m=length, **found)


def _assumed(maker: PartMaker, row: Particulars, key: str, figure: tuple[float, float]) -> None:
    mean, sd = figure
    maker.figures[path_of(OLD_SHAFT.part, f"{key}_m")] = figure
    text = f"{mean * 1e3:.0f} mm ± {sd * 1e3:.0f} mm"
    maker.assume(row, key, f"{OLD_SHAFT.name}.{key}", text, "estimate of ours")

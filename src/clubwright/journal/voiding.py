"""Which earlier readings a piece of work makes void: those of what it moves, by the slope of the quantity at its stage.

A cut changes numbers of the parts. What is read of a club after it depends on them or it does not, whatever the figures of
that club are; so a reference club is asked, every part of which has a mass, a place and a size. The slope is by complex
step (see docs/theory/belief.md), and exactly 0 where nothing moves.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import Any, Literal, TypeAlias

import msgspec
import numpy as np

from clubwright.belief.prediction import STEP
from clubwright.club.beam.stiffness import StiffnessPiece, StiffnessProfile
from clubwright.club.build import Build, Conventions
from clubwright.club.head_cg import head_after_lie_bend
from clubwright.club.parts import Adapter, Adhesive, Club, Ferrule, Grip, Head, Shaft, Tape, Weight
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import AS_IT_CAME, FINISHED, STAGES
from clubwright.journal.draft import Draft
from clubwright.ticket.reading_entries import part_number_kind, part_number_path
from clubwright.units import Number

Work: TypeAlias = Literal["cut", "tip trim", "lie bend", "head.loft", "head.lie", "head.bounce"]
"""What was done to the club; an angle of the head stands for that number alone, as it was measured anew."""

ANGLE: dict[str, Work] = {"loft": "head.loft", "lie": "head.lie", "bounce": "head.bounce"}
AXIS = "axis to ground"
"""How a ticket measures length when it does not say."""

NOTHING = 1e-12
"""Slopes below this share of the quantity, for a metre or a radian, are round-off."""

REFERENCE = Club(
    kind="iron",
    head=Head(
        mass_kg=0.26,
        cg_from_ground_m=-0.004,
        cg_off_axis_m=0.036,
        own_inertia_kg_m2=2.7e-4,
        loft_rad=0.55,
        lie_rad=1.09,
        bounce_rad=0.08,
        bore_to_ground_m=0.028,
        bore_depth_m=0.032,
    ),
    shaft=Shaft(
        raw_length_m=1.0,
        mass_kg=0.12,
        balance_from_tip_m=0.52,
        length_m=0.92,
        tip_trim_m=0.02,
        tip_density_kg_m=0.12,
        butt_density_kg_m=0.11,
        butt_diameter_m=0.0152,
        lower_diameter_m=0.0146,
        stiffness=StiffnessProfile(pieces=(StiffnessPiece(0.0, 1.0, 30.0, 70.0),)),
    ),
    grip=Grip(
        mass_kg=0.05, cg_from_cap_m=0.104, cap_m=0.003, core_m=0.0150, nominal_2in_m=0.0229, nominal_6in_m=0.0203
    ),
    ferrule=Ferrule(mass_kg=0.0007),
    adhesive=Adhesive(mass_kg=0.00075),
    tapes=(Tape(mass_kg=0.0015, cg_from_cap_m=0.13, build_up_2in_m=0.0001, build_up_6in_m=0.0001),),
    adapter=Adapter(mass_kg=0.006, from_ground_m=0.04),
    weights=(Weight(name="port", mass_kg=0.004, seat="port", place_m=0.01, off_axis_m=0.03),),
)
"""An invented club with every part on it; its figures do not matter, only that none of them hides what depends on it."""


def _angle(name: str) -> Callable[[Number], Club]:
    head = REFERENCE.head
    return lambda step: _with(head=msgspec.structs.replace(head, **{name: getattr(head, name) + step}))


def _cut(step: Number) -> Club:
    shaft = REFERENCE.shaft
    return _with(shaft=msgspec.structs.replace(shaft, length_m=shaft.length_m - step))


def _tip_trimmed(step: Number) -> Club:
    shaft = REFERENCE.shaft
    shorter = msgspec.structs.replace(shaft, length_m=shaft.length_m - step, tip_trim_m=shaft.tip_trim_m + step)
    return _with(shaft=shorter)


def _lie_bent(step: Number) -> Club:
    return _with(head=head_after_lie_bend(REFERENCE.head, step))


def _with(**parts: Head | Shaft) -> Club:
    return msgspec.structs.replace(REFERENCE, **parts)


_AFTER: dict[Work, Callable[[Number], Club]] = {
    "cut": _cut,
    "tip trim": _tip_trimmed,
    "lie bend": _lie_bent,
    "head.loft": _angle("loft_rad"),
    "head.lie": _angle("lie_rad"),
    "head.bounce": _angle("bounce_rad"),
}


@lru_cache(maxsize=1024)
def moves(work: Work, quantity: str, stage: str = FINISHED.name, length_method: str = "axis to ground") -> bool:
    """Say whether some work moves what a gauge reads.

    Args:
        work: What was done.
        quantity: Key in the register, or a part's number such as ``shaft.cut_length``; false for anything else.
        stage: Stage of the reading; one that is not known counts as finished.
        length_method: How the ticket measures length.
    """
    club = _AFTER[work](np.array(1j * STEP))
    entry = QUANTITIES.get(quantity)
    if entry is None:
        return _part_moves(club, quantity)
    if entry.function is None:
        return False
    conventions = Conventions(length_method=length_method)
    build = Build(club=club, stage=STAGES.get(stage, FINISHED), fitted=(1.0,), conventions=conventions)
    value = complex(np.asarray(entry.of(build)).reshape(()))
    return abs(value.imag / STEP) > NOTHING * abs(value.real)


def void(draft: Draft, work: Work, stages: tuple[str, ...] | None = None) -> None:
    """Take out of the document what was read before some work moved it.

    Args:
        draft: The job; in a re-shaft the club as it came had another shaft, and keeps its readings.
        work: What was done.
        stages: Only readings of the whole club at these stages; what was read at any of them when None.
    """
    target = draft.document.get("target")
    method = target.get("length_method") if isinstance(target, dict) else None
    spared = AS_IT_CAME.name if work in ("cut", "tip trim", "lie bend") and not draft.keeps_its_shaft else ""

    def old(row: dict[str, Any]) -> bool:
        quantity, stage = str(row.get("quantity")), str(row.get("stage", FINISHED.name))
        entry = QUANTITIES.get(quantity)
        # of the club as a whole: which of the head's angles a bend changed, its own measurements say
        whole = entry is not None and entry.steered_by != "bends"
        asked = stages is None or (whole and stage in stages)
        return asked and stage != spared and moves(work, quantity, stage, str(method or AXIS))

    draft.supersede(old)


def void_with(draft: Draft, part: str) -> None:
    """Take out of the document what was read of a part that another one took the place of, and of the club with it on.

    Args:
        draft: The job. What a club read as it came stays, unless the head is another one.
        part: ``head``, ``shaft`` or ``grip``.
    """

    def old(row: dict[str, Any]) -> bool:
        quantity, stage = str(row.get("quantity")), str(row.get("stage", FINISHED.name))
        entry = QUANTITIES.get(quantity)
        if entry is None:
            return quantity.partition(".")[0] == part
        if stage == AS_IT_CAME.name and part != "head":
            return False
        return {"bends": part == "head", "tape": part != "head"}.get(entry.steered_by, True)

    draft.supersede(old)


def _part_moves(club: Club, number: str) -> bool:
    if part_number_kind(number) is None:
        return False
    part, _, field = part_number_path(number).partition(".")
    value: Any = getattr(getattr(club, part), field)
    return bool(np.imag(value) != 0)

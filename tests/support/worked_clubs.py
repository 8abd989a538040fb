"""The three worked clubs that the outside checks share, and the steel blank that two of their shafts are cut from.

Their figures come from an independent calculation (numpy, places counted from the grip cap) made before the code under
test was written. Every part name is invented.
"""

from __future__ import annotations

from itertools import pairwise
from math import pi

import msgspec
import numpy as np

from clubwright.club.build import Build
from clubwright.club.parts import Adhesive, Club, Ferrule, Grip, Head, Kind, Shaft, Tape, Weight
from clubwright.club.shaft import DensityPiece
from clubwright.club.stages import FINISHED, Stage

IN, GRAM, KG_CM2 = 0.0254, 1e-3, 1e-4
CAP_IN = 0.125
OFFSET_IN = 1.5
HEAD_OWN_KG_CM2 = 2.694
"""What the published 6.41 kg cm2 for offset and head leaves for the head of the 5-iron; the same for the other two."""
STEEL_KG_M3 = 7850.0


class ClubAnswer(msgspec.Struct, frozen=True, kw_only=True):
    """Inputs of one worked club: inches from the cap, grams."""

    name: str
    kind: Kind
    length: float
    head: float
    head_at: float
    shaft: float
    shaft_at: float
    adhesive_at: float
    ferrule: float
    ferrule_at: float
    bore_to_ground: float
    bore_depth: float
    tip_trim: float


WEDGE = ClubAnswer(
    name="wedge 35.5 in", kind="wedge", length=35.5, head=300, head_at=35.8, shaft=106.15, shaft_at=16.411,
    adhesive_at=33.875, ferrule=0.7, ferrule_at=32.85, bore_to_ground=1.0, bore_depth=1.25, tip_trim=2.505,
)  # fmt: skip
IRON = ClubAnswer(
    name="5-iron 38 in", kind="iron", length=38.0, head=256, head_at=38.3, shaft=113.224, shaft_at=17.619,
    adhesive_at=36.375, ferrule=0.7, ferrule_at=35.35, bore_to_ground=1.0, bore_depth=1.25, tip_trim=0.0068,
)  # fmt: skip
DRIVER = ClubAnswer(
    name="driver 45 in", kind="driver", length=45.0, head=200, head_at=45.1, shaft=62.353, shaft_at=22.188,
    adhesive_at=43.5, ferrule=0.5, ferrule_at=42.35, bore_to_ground=0.75, bore_depth=1.5, tip_trim=0.0,
)  # fmt: skip
WORKED = {item.name: item for item in (WEDGE, IRON, DRIVER)}


def shaft_length_in(worked: ClubAnswer) -> float:
    return worked.length - CAP_IN - worked.bore_to_ground


def club_of(worked: ClubAnswer, *, weights: tuple[Weight, ...] = ()) -> Club:
    """Build the club from parts as a clubmaker measures them: from the ground, from the tip, from the cap."""
    length = shaft_length_in(worked)
    hosel_top = worked.bore_to_ground + worked.bore_depth
    return Club(
        kind=worked.kind,
        head=Head(
            mass_kg=worked.head * GRAM,
            cg_from_ground_m=(worked.length - worked.head_at) * IN,
            cg_off_axis_m=OFFSET_IN * IN,
            own_inertia_kg_m2=HEAD_OWN_KG_CM2 * KG_CM2,
            bore_to_ground_m=worked.bore_to_ground * IN,
            bore_depth_m=worked.bore_depth * IN,
        ),
        shaft=Shaft(
            raw_length_m=length * IN,
            mass_kg=worked.shaft * GRAM,
            balance_from_tip_m=(CAP_IN + length - worked.shaft_at) * IN,
            length_m=length * IN,
            tip_density_kg_m=2.83 * GRAM / IN,
            butt_density_kg_m=3.78 * GRAM / IN if worked.kind != "driver" else worked.shaft * GRAM / (length * IN),
        ),
        grip=Grip(mass_kg=50 * GRAM, cg_from_cap_m=4.1 * IN, cap_m=CAP_IN * IN, length_m=9.7 * IN),
        ferrule=Ferrule(
            mass_kg=worked.ferrule * GRAM, length_m=2 * (worked.length - worked.ferrule_at - hosel_top) * IN
        ),
        adhesive=Adhesive(mass_kg=1.0 * GRAM),
        tapes=(Tape(mass_kg=2.5 * GRAM, cg_from_cap_m=5.125 * IN, length_m=10 * IN),),
        weights=weights,
    )


def build_of(worked: ClubAnswer, stage: Stage = FINISHED) -> Build:
    return Build(club=club_of(worked), stage=stage)


def steel_blank(stepped_in: float = 16.5, butt_in: float = 6.0) -> list[DensityPiece]:
    """Step-taper tube from .370 to .600 in, its walls and zones those of a US patent's claims; tip first.

    10 in of tip, 15 equal diameter steps in zones of 29.5, 41 and 29.5 % of the stepped length, with a plain 3 in after
    the first and the second, then the butt. Walls .020 in at the tip, .014 in the middle and .016 at the butt of the
    stepped part. 38.5 in long as it comes.
    """
    steps: list[float] = []
    start = 10.0
    for share in (0.295, 0.41, 0.295):
        zone = share * stepped_in
        steps += [start + place * zone / 5 for place in range(5)]
        start += zone + 3.0
    end = 16.0 + stepped_in
    walls_at = [10.0, (10.0 + end) / 2, end]
    edges = [0.0, *steps, end, end + butt_in]
    pieces = []
    for place, (low, high) in enumerate(pairwise(edges)):
        outside = (0.370 + 0.230 / 15 * min(place, 15)) * IN
        inside = outside - 2 * IN * float(np.interp((low + high) / 2, walls_at, [0.020, 0.014, 0.016]))
        density = pi / 4 * (outside**2 - inside**2) * STEEL_KG_M3
        pieces.append(DensityPiece(low * IN, high * IN, density, density))
    return pieces

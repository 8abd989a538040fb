"""The worked clubs with a known shaft: the step-taper steel blank of `worked_clubs`, with its stiffness.

The geometry is that of a US patent's claims; every part name is invented.
"""

from __future__ import annotations

import msgspec
import numpy as np

from clubwright.club.beam.section import STEEL, step_taper
from clubwright.club.beam.stiffness import StiffnessProfile
from clubwright.club.build import Build, Conventions, FrequencyMeter
from clubwright.club.parts import Adhesive, Ferrule, Grip, Head, Shaft
from clubwright.club.stages import FINISHED, Stage
from worked_clubs import CAP_IN, GRAM, IN, IRON, ClubAnswer, club_of, shaft_length_in, steel_blank


def steel_profile(tip_in: float = 10.0, butt_in: float = 6.0) -> StiffnessProfile:
    """The blank, 38.5 in long as it comes; with a longer tip or butt it is another blank, stepped the same."""
    edges = np.array([0.0, *(piece.end_m / IN for piece in steel_blank(butt_in=butt_in))])
    walls = np.interp((edges[:-1] + edges[1:]) / 2, [10.0, 21.25, 32.5], [0.020, 0.014, 0.016])
    outside = 0.370 + 0.230 / 15 * np.minimum(np.arange(len(walls)), 15)
    edges[1:] += tip_in - 10.0
    return step_taper((edges * IN).tolist(), (outside * IN).tolist(), (walls * IN).tolist(), STEEL)


def shaft_of(profile: StiffnessProfile, length_in: float, tip_trim_in: float = 0.0) -> Shaft:
    """A shaft cut from a profile that holds its density: mass and balance before the tip trim are the tube's own."""
    mass = moment = 0.0
    end = (tip_trim_in + length_in) * IN
    for piece in profile.pieces:
        low, high = piece.start_m, min(piece.end_m, end)
        if high > low:
            assert piece.start_density_kg_m == piece.end_density_kg_m
            mass += piece.start_density_kg_m * (high - low)
            moment += piece.start_density_kg_m * (high**2 - low**2) / 2
    return Shaft(
        raw_length_m=end,
        mass_kg=mass,
        balance_from_tip_m=moment / mass,
        length_m=length_in * IN,
        tip_trim_m=tip_trim_in * IN,
        tip_density_kg_m=profile.pieces[0].start_density_kg_m,
        stiffness=profile,
    )


def steel_club(worked: ClubAnswer = IRON, stage: Stage = FINISHED, meter: FrequencyMeter | None = None) -> Build:
    """A worked club on the steel blank, with its grip, tape, ferrule and adhesive."""
    shaft = shaft_of(steel_profile(butt_in=12.0), shaft_length_in(worked), worked.tip_trim)
    club = msgspec.structs.replace(club_of(worked), shaft=shaft)
    return Build(club=club, stage=stage, conventions=Conventions(meter=meter or FrequencyMeter()))


def head_on_shaft(
    *,
    length_in: float = 38.0,
    head_g: float = 256.0,
    clamp_in: float = 5.0,
    tip_trim_in: float = 0.0,
    insertion_in: float = 1.25,
    tip_short_in: float = 1.0,
    cg_short_in: float = 0.0,
    off_axis_in: float = 0.0,
    head_kg_m2: float = 0.0,
    profile: StiffnessProfile | None = None,
    shaft: Shaft | None = None,
    meter: FrequencyMeter | None = None,
) -> Build:
    """Nothing but a head on a shaft, cap 0.125 in, as the independent frequencies were worked.

    Their clamp counts from the end of the shaft, ours from what the stop touches: one cap thickness more.
    """
    bare_in = length_in - CAP_IN - tip_short_in
    club = msgspec.structs.replace(
        club_of(IRON),
        shaft=shaft or shaft_of(profile or steel_profile(), bare_in, tip_trim_in),
        head=Head(
            mass_kg=head_g * GRAM,
            cg_from_ground_m=cg_short_in * IN,
            cg_off_axis_m=off_axis_in * IN,
            own_inertia_kg_m2=head_kg_m2,
            bore_to_ground_m=tip_short_in * IN,
            bore_depth_m=insertion_in * IN,
        ),
        grip=Grip(mass_kg=0.0, cg_from_cap_m=4.1 * IN, cap_m=CAP_IN * IN),
        ferrule=Ferrule(mass_kg=0.0),
        adhesive=Adhesive(mass_kg=0.0),
        tapes=(),
    )
    held = msgspec.structs.replace(meter or FrequencyMeter(), clamp_length_m=(CAP_IN + clamp_in) * IN)
    return Build(club=club, conventions=Conventions(meter=held))

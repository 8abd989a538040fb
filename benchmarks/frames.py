"""The same club in a general-purpose frame program, Pynite: prismatic members, consistent mass, two lumps for the head.

It comes with no tools of ours: `uv pip install PyniteFEA`. A member has one density, so the shaft's is taken at its middle;
the head is two equal masses on stiff links, at the places that give its mass, its centre and its inertia about the end.
"""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

import numpy as np

from clubwright.club.beam.first_mode import Rows
from clubwright.club.beam.stiffness import StiffnessProfile

MODULUS_PA = 2e11
AREA_M2 = 1e-4
STIFF_M4 = 1e-5
"""Second moment of the links: some ten thousand times that of a shaft."""

CUTS = (1, 2, 4, 8)
"""Members for each stretch of the shaft; with more than four, rounding takes more than they give."""


def by_frames(profile: StiffnessProfile, rows: Rows, cuts: int) -> float:
    """Return the frequency of one club in Hz.

    Args:
        profile: Of the raw shaft; stepwise constant.
        rows: One row.
        cuts: Members for each stretch.
    """
    from Pynite import FEModel3D

    end, clamp = float(rows.free_m[0]), float(rows.clamp_m[0])
    steps = [end, *(piece.end_m for piece in profile.pieces if end < piece.end_m < clamp), clamp]
    places = np.unique([np.linspace(low, high, cuts + 1) for low, high in pairwise(steps)])
    model = FEModel3D()
    for number, place in enumerate(places):
        model.add_node(f"N{number}", float(place), 0, 0)
    for number, middle in enumerate((places[:-1] + places[1:]) / 2):
        stiffness, _, density = profile.piece_at(middle).at(middle)
        scale = float(rows.density[0] + rows.density_s[0] * middle)
        second_m4 = float(rows.factor[0]) * stiffness / MODULUS_PA
        model.add_material(f"M{number}", MODULUS_PA, 8e10, 0.3, scale * density / AREA_M2)
        model.add_section(f"S{number}", AREA_M2, second_m4, second_m4, 2 * second_m4)
        model.add_member(f"B{number}", f"N{number}", f"N{number + 1}", f"M{number}", f"S{number}")
    kg, kg_m, kg_m2 = (float(column[0]) for column in (rows.body_kg, rows.body_kg_m, rows.body_kg_m2))
    centre, apart = kg_m / kg, sqrt(kg_m2 / kg - (kg_m / kg) ** 2)
    model.add_material("link", MODULUS_PA, 8e10, 0.3, 1e-9)
    model.add_section("link", 100 * AREA_M2, STIFF_M4, STIFF_M4, 2 * STIFF_M4)
    for name, place in (("near", end - centre + apart), ("far", end - centre - apart)):
        model.add_node(name, place, 0, 0)
        model.add_member(f"to {name}", name, "N0", "link", "link")
        model.add_node_load(name, "FY", -kg / 2, "mass")
    model.def_support(f"N{len(places) - 1}", *(True,) * 6)
    model.add_member_self_weight("FY", -1, "mass")
    model.add_load_combo("mass", {"mass": 1.0})
    model.analyze_modal(num_modes=1, mass_combo_name="mass", check_stability=False)
    return float(model.frequencies[0])

"""Statics of one gripped club, summed by hand from the grip cap with numpy: no mechanics of the package in it.

Formulas: mass and its first and second moment are sums over the parts (statics of any textbook of mechanics); the swing
weight is the moment about a fulcrum 14 in from the cap, over 1.75 in oz a point from 161 in oz on. The shaft is cut into
slices of a density that runs straight along it. All in SI.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

IN, OZ = 0.0254, 28.349523125e-3
SLICES = 4000


def by_hand(part: Mapping[str, float]) -> dict[str, float]:
    """Return total weight, swing weight, balance point, MOI and length of a club.

    Args:
        part: The numbers of its parts by the names of the package's unknowns; one tape, one number for each.
    """
    length = part["shaft.length_m"]
    butt = part["head.bore_to_ground_m"] + length
    cap = butt + part["grip.cap_m"]
    middle = (np.arange(SLICES) + 0.5) / SLICES
    skew = 6 * (part["shaft.balance_from_tip_m"] / length - 0.5)
    slices = part["shaft.mass_kg"] / SLICES * (1 + skew * (2 * middle - 1))
    hosel = part["head.bore_to_ground_m"] + part["head.bore_depth_m"]
    lumps = [
        (part["head.mass_kg"], cap - part["head.cg_from_ground_m"], 0.0),
        (part["ferrule.mass_kg"], cap - hosel - part["ferrule.length_m"] / 2, part["ferrule.length_m"]),
        (
            part["adhesive.mass_kg"],
            cap - part["head.bore_to_ground_m"] - part["head.bore_depth_m"] / 2,
            part["head.bore_depth_m"],
        ),
        (part["grip.mass_kg"], part["grip.cg_from_cap_m"], part["grip.length_m"]),
        (part["tapes.0.mass_kg"], part["tapes.0.cg_from_cap_m"], part["tapes.0.length_m"]),
    ]
    masses = np.concatenate([slices, [mass for mass, _, _ in lumps]])
    places = np.concatenate([cap - part["head.bore_to_ground_m"] - middle * length, [place for _, place, _ in lumps]])
    second = float(masses @ places**2) + sum(mass * extent**2 / 12 for mass, _, extent in lumps)
    second += part["head.own_inertia_kg_m2"] + part["head.mass_kg"] * part["head.cg_off_axis_m"] ** 2
    mass, first = float(masses.sum()), float(masses @ places)
    return {
        "total_weight": mass,
        "swing_weight": ((first - mass * 14 * IN) / (OZ * IN) - 161) / 1.75,
        "balance_point": first / mass,
        "moi": second,
        "length": cap,
    }


def as_cut(part: Mapping[str, float]) -> dict[str, float]:
    """Return the same numbers with mass and balance of the shaft as it was cut: the raw one's less what its offcut has."""
    off = part["shaft.raw_length_m"] - part["shaft.length_m"] - part["shaft.tip_trim_m"]
    offcut = off * part["shaft.butt_density_kg_m"]
    mass = part["shaft.mass_kg"] - offcut
    first = part["shaft.mass_kg"] * part["shaft.balance_from_tip_m"] - offcut * (part["shaft.raw_length_m"] - off / 2)
    return {**part, "shaft.mass_kg": mass, "shaft.balance_from_tip_m": first / mass}


def came_with(part: Mapping[str, float]) -> dict[str, float]:
    """Return the same numbers with those of the old parts (``came.grip.mass_kg``) in the place of the new ones."""
    old = {name.removeprefix("came."): value for name, value in part.items() if name.startswith("came.")}
    return {name: value for name, value in part.items() if not name.startswith("came.")} | old

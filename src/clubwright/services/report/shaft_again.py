"""The shaft of a club that is made again: what such a shaft will be, so that no offcut is counted into the new club.

Where the first one was known raw, its raw figures are carried with the spread of a lot; where it was known as cut only, what
it weighed and where it balanced at that length. Checked in tests/unit/services/report/test_shaft_again.py.
"""

from __future__ import annotations

import math

from clubwright.club.part_figures import CUT_BALANCE, CUT_MASS
from clubwright.club.part_paths import at_path
from clubwright.club.stages import BARE_SHAFT
from clubwright.notation import parse, render
from clubwright.planning.club_state import ClubState
from clubwright.ticket.priors.shaft_weighed import RAW, sources_of
from clubwright.units import INCH_M

LOT_LENGTH_M = INCH_M / 8
LOT_BALANCE_M = 3e-3
"""Spread of raw length and balance point within a lot (estimates of ours)."""


def lot_text(club_state: ClubState, path: str, lot: str) -> str:
    """Return what is believed of a part's mass, with the spread of its lot, as a ticket has it."""
    return _mass(*_believed(club_state, path), parse("mass", lot, where="lot").value)


def shaft_again(club_state: ClubState, lot: str) -> dict[str, str]:
    """Return keys of ``[shaft]`` for a new shaft like the one of a club.

    Args:
        club_state: The club that was built.
        lot: Spread of a shaft's mass within a lot.
    """
    shaft, sources = club_state.ticket.club.shaft, sources_of(club_state.ticket)
    lot_kg = parse("mass", lot, where="lot").value
    balanced = shaft.balance_from_tip is not None or shaft.cut_balance_from_tip is not None
    if sources.has_raw and shaft.mass is not None and sources.mass.share == RAW:
        found = {
            "raw_length": _length(*_believed(club_state, "shaft.raw_length_m"), LOT_LENGTH_M),
            "mass": _mass(*_believed(club_state, "shaft.mass_kg"), lot_kg),
        }
        if balanced:
            balance = _believed(club_state, "shaft.balance_from_tip_m")
            found["balance_from_tip"] = _length(*balance, LOT_BALANCE_M)
        if shaft.cut_mass is not None:
            # Weighed raw and cut, the shaft has told what its offcut weighs.
            mean, sd = _believed(club_state, "shaft.butt_density_kg_m")
            found["butt_density"] = f"{mean * 1e3:.2f} g/m ± {max(sd * 1e3, 0.01):.2f} g/m"
        return found
    if shaft.mass is None and shaft.cut_mass is None:
        return {}
    length = render("length", float(club_state.club.shaft.length_m))
    found = {"mass": "", "cut_mass": _mass(*_figure(club_state, CUT_MASS), lot_kg), "cut_mass_length": length}
    if balanced:
        found["cut_balance_from_tip"] = _length(*_figure(club_state, CUT_BALANCE), LOT_BALANCE_M)
        found["cut_balance_length"] = length
    return found


def _believed(club_state: ClubState, path: str) -> tuple[float, float]:
    """Mean and uncertainty of a number of a part; no uncertainty where it is taken as certain."""
    if path in club_state.belief.names:
        return club_state.belief.mean_of(path), club_state.belief.sd_of(path)
    return float(at_path(club_state.club, path)), 0.0


def _figure(club_state: ClubState, path: str) -> tuple[float, float]:
    found = club_state.predict([path], BARE_SHAFT)
    return float(found.mean[0, 0]), float(found.sd()[0, 0])


def _mass(mean_kg: float, sd_kg: float, lot_kg: float) -> str:
    return f"{render('mass', mean_kg)} ± {render('mass', math.hypot(sd_kg, lot_kg))}"


def _length(mean_m: float, sd_m: float, lot_m: float) -> str:
    return f"{render('length', mean_m)} ± {math.hypot(sd_m, lot_m) / INCH_M:.2f} in"

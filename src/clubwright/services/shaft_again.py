"""The shaft of a club that is made again: what such a shaft will be, so that no offcut is counted into the new club.

Where the first one was known raw, its raw figures are carried with the spread of a lot; where it was known as cut only, what
it weighed and where it balanced at that length. Checked in tests/unit/test_shaft_again.py.
"""

from __future__ import annotations

import math

from clubwright.club.part_figures import CUT_BALANCE, CUT_MASS
from clubwright.club.part_paths import at_path
from clubwright.club.stages import BARE_SHAFT
from clubwright.notation import parse, render
from clubwright.planning.situation import Situation
from clubwright.ticket.shaft_weighed import RAW, sources_of
from clubwright.units import INCH_M

LOT_LENGTH_M = INCH_M / 8
LOT_BALANCE_M = 3e-3
"""Spread of raw length and balance point within a lot (estimates of ours)."""


def lot_text(situation: Situation, path: str, lot: str) -> str:
    """Return what is believed of a part's mass, with the spread of its lot, as a ticket has it."""
    return _mass(*_believed(situation, path), parse("mass", lot, where="lot").value)


def shaft_again(situation: Situation, lot: str) -> dict[str, str]:
    """Return keys of ``[shaft]`` for a new shaft like the one of a club.

    Args:
        situation: The club that was built.
        lot: Spread of a shaft's mass within a lot.
    """
    shaft, sources = situation.ticket.club.shaft, sources_of(situation.ticket)
    lot_kg = parse("mass", lot, where="lot").value
    balanced = shaft.balance_from_tip is not None or shaft.cut_balance_from_tip is not None
    if sources.has_raw and shaft.mass is not None and sources.mass.share == RAW:
        found = {
            "raw_length": _length(*_believed(situation, "shaft.raw_length_m"), LOT_LENGTH_M),
            "mass": _mass(*_believed(situation, "shaft.mass_kg"), lot_kg),
        }
        if balanced:
            balance = _believed(situation, "shaft.balance_from_tip_m")
            found["balance_from_tip"] = _length(*balance, LOT_BALANCE_M)
        if shaft.cut_mass is not None:
            # Weighed raw and cut, the shaft has told what its offcut weighs.
            mean, sd = _believed(situation, "shaft.butt_density_kg_m")
            found["butt_density"] = f"{mean * 1e3:.2f} g/m ± {max(sd * 1e3, 0.01):.2f} g/m"
        return found
    if shaft.mass is None and shaft.cut_mass is None:
        return {}
    length = render("length", float(situation.club.shaft.length_m))
    found = {"mass": "", "cut_mass": _mass(*_figure(situation, CUT_MASS), lot_kg), "cut_mass_length": length}
    if balanced:
        found["cut_balance_from_tip"] = _length(*_figure(situation, CUT_BALANCE), LOT_BALANCE_M)
        found["cut_balance_length"] = length
    return found


def _believed(situation: Situation, path: str) -> tuple[float, float]:
    """Mean and uncertainty of a number of a part; no uncertainty where it is taken as certain."""
    if path in situation.belief.names:
        return situation.belief.mean_of(path), situation.belief.sd_of(path)
    return float(at_path(situation.club, path)), 0.0


def _figure(situation: Situation, path: str) -> tuple[float, float]:
    found = situation.predict([path], BARE_SHAFT)
    return float(found.mean[0, 0]), float(found.sd()[0, 0])


def _mass(mean_kg: float, sd_kg: float, lot_kg: float) -> str:
    return f"{render('mass', mean_kg)} ± {render('mass', math.hypot(sd_kg, lot_kg))}"


def _length(mean_m: float, sd_m: float, lot_m: float) -> str:
    return f"{render('length', mean_m)} ± {math.hypot(sd_m, lot_m) / INCH_M:.2f} in"

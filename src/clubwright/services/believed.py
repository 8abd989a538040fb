"""What is believed of every part and every gauge: mean and standard uncertainty, in SI and in trade notation."""

from __future__ import annotations

import math

from clubwright.belief.unknowns import BIAS
from clubwright.notation import render
from clubwright.planning.situation import Situation
from clubwright.services.answer import Plain, rounded
from clubwright.ticket.fields import ADHESIVE, FERRULE, GRIP, HEAD, SHAFT, TAPE, WEIGHT
from clubwright.ticket.model import Row
from clubwright.ticket.reading_entries import half_width_kind

_SECTIONS = {
    "head": HEAD,
    "shaft": SHAFT,
    "grip": GRIP,
    "ferrule": FERRULE,
    "adhesive": ADHESIVE,
    "tapes": TAPE,
    "weights": WEIGHT,
}
_RENDERED_AS = {"grip_core": "diameter", "lie": "angle"}


def belief_part(situation: Situation) -> list[Plain]:
    """Return every unknown: its path as ``name``, what it is in words, mean and sd in SI, and both in trade notation."""
    belief = situation.belief
    variances = belief.covariance.diagonal()
    found = []
    for name, mean, variance in zip(belief.names, belief.mean, variances, strict=True):
        sd = math.sqrt(max(float(variance), 0.0))
        kind, words = _told(situation, name)
        text = render(kind, float(mean), sd)
        found.append({"mean": rounded(float(mean)), "name": name, "sd": rounded(sd), "text": text, "what": words})
    return found


def _told(situation: Situation, name: str) -> tuple[str, str]:
    """Kind of notation of an unknown, and its words."""
    if name.startswith(BIAS):
        gauge, _, quantity = name.removeprefix(BIAS).rpartition(":")
        return half_width_kind(quantity), f"{gauge}: reads {quantity.replace('_', ' ')} too high by"
    path, _, number = name.rpartition(".")
    section, _, place = path.partition(".")
    field = next(field for field in _SECTIONS[section].fields if field.number == number)
    rows: dict[str, tuple[Row, ...]] = {"tapes": situation.ticket.tapes, "weights": situation.ticket.weights}
    part = rows[section][int(place)].words.get("name", f"{section} {int(place) + 1}") if place else section
    return _RENDERED_AS.get(field.kind, field.kind), f"{part}: {field.key.replace('_', ' ')}"

"""What hands do with a gauge: a figure of a part is measured, and again, by the usual one, another one, or none."""

from __future__ import annotations

from typing import Any

from calls import Call, Scene, on_the_job

from clubwright.services.actions import bench as actions

MEASURED: tuple[tuple[str, dict[str, tuple[str, ...]], tuple[str | None, ...]], ...] = (
    ("head", {"mass": ("262.4 g", "262.5 g", "268 g")}, (None, None, "gram scale", "kitchen scale", "")),
    ("grip", {"mass": ("50.2 g", "50.3 g")}, (None, "kitchen scale", "rule")),
    ("shaft", {"mass": ("118 g", "118.2 g")}, (None, None, "kitchen scale")),
    ("head", {"loft": ("34 deg", "34.2 deg")}, (None, None, "angle gauge", "")),
    ("shaft", {"raw_length": ("39 in", "39 1/64 in")}, (None, None, "rule")),
    ("shaft", {"tip_diameter": ("0.355 in", "0.3552 in")}, (None, "caliper", "caliper")),
    ("head", {"bore_diameter": ("0.359 in", "0.3595 in")}, (None, "caliper", "caliper")),
    ("shaft", {"cut_mass": ("110 g", "110.2 g")}, (None, None, "kitchen scale")),
    ("weight", {"mass": ("4 g", "4.1 g")}, (None, None, "kitchen scale", "")),
)
"""Figures with what may be shown of them, and by which gauge: None is the usual one, an empty name none."""

REAMED = {"bore_diameter": "0.361 in", "bore_reamed": "yes"}
TAPE = ("1.6 g", "1.7 g")
OTHER_LAYERS = 0.2
REAMS = 0.1


def measure(at: Scene) -> Call:
    """Measure one figure of a part; half of the time one that a gauge measured before."""
    if at.chance.random() < 0.15:
        return _tape(at)
    if at.chance.random() < REAMS:
        return on_the_job(at, "ream the bore", actions.change_part, "head", REAMED, gauge="caliper")
    section, figures, gauges = at.chance.choice(_again(at) or MEASURED if at.chance.random() < 0.5 else MEASURED)
    ((key, shown),) = figures.items()
    values: dict[str, str] = {key: at.chance.choice(shown)}
    if section == "weight":
        values |= {"name": "port 4", "seat": "port"}
    gauge = at.chance.choice(gauges)
    label = f"measure {section} {key} {values[key]} by {'the usual gauge' if gauge is None else gauge or 'nothing'}"
    return on_the_job(at, label, actions.change_part, section, values, gauge=gauge)


def _again(at: Scene) -> tuple[Any, ...]:
    """Return the figures that a gauge measured on this job."""
    found = []
    for item in MEASURED:
        section, (key,) = item[0], item[1]
        content = {} if at.job is None else at.job.document.get(section, {})
        rows = content if isinstance(content, list) else [content]
        found += [item] if any(key in row.get("gauges", {}) for row in rows) else []
    return tuple(found)


def _tape(at: Scene) -> Call:
    layers, mass = ("2", "3.2 g") if at.chance.random() < OTHER_LAYERS else ("1", at.chance.choice(TAPE))
    gauge = at.chance.choice((None, None, "kitchen scale", ""))
    return on_the_job(at, f"weigh {layers} of base, {mass}", actions.lay_tape, "base", layers, mass, gauge=gauge)

"""The step that puts the grip on; the old one comes off in `clubwright.planning.steps.came`."""

from __future__ import annotations

from clubwright.club.stages import FINISHED
from clubwright.planning.said.phrases import figure, phrase, tools
from clubwright.planning.steps.came import changes
from clubwright.planning.steps.inputs import Bench, present
from clubwright.planning.steps.types import Step
from clubwright.planning.steps.weight import build_up_numbers
from clubwright.state.particulars import in_si

_DIAMETERS = ("grip_diameter_2in", "grip_diameter_6in")


def grip(bench: Bench) -> Step:
    """Put the grip on for good."""
    on, shaft = bench.club_state.ticket.club.grip, bench.club_state.ticket.club.shaft
    core, butt, lower = in_si(on.core), in_si(shaft.butt_diameter), in_si(shaft.lower_diameter)
    what = [
        phrase("grip.clamp"),
        phrase("grip.flood"),
        phrase("grip.free length"),
    ]
    if on.shape == "ribbed":
        what.append(phrase("grip.rib"))
    if bench.club_state.ticket.kind == "putter":
        what.append(phrase("grip.putter"))
    if bench.expect_all(_DIAMETERS, FINISHED):
        what.append(phrase("grip.caliper"))
    numbers = present(
        (phrase("label.grip"), on.name),
        (phrase("label.core"), None if core is None else figure("diameter", core)),
        (phrase("label.butt at 2 in"), None if butt is None else figure("diameter", butt)),
        (phrase("label.butt at 6 in"), None if lower is None else figure("diameter", lower)),
        (phrase("label.free length"), bench.measured_length("grip", "length")),
        (phrase("label.logo"), on.logo),
    )
    return Step(
        key="grip",
        title=phrase("title.grip"),
        what=tuple(what),
        act_on=changes(bench)[:1],
        numbers=(*numbers, *bench.goal_numbers(_DIAMETERS), *build_up_numbers(bench), *changes(bench)),
        instrument=tools("caliper"),
        expected=bench.expect_all(_DIAMETERS, FINISHED, bench.chosen),
        done_when=phrase("done.grip"),
        cautions=bench.cautions("grip"),
    )

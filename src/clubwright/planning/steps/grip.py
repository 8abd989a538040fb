"""The step that puts the grip on; the old one comes off in `clubwright.planning.steps.came`."""

from __future__ import annotations

from clubwright.club.stages import FINISHED
from clubwright.notation import render
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
        "Clamp the club with the leading edge square first; the grip is set by it.",
        "Flood grip and tape with solvent, push on in one stroke until the cap meets the butt, then set the logo.",
        "Push it to its free length and no further: a stretched grip is thinner.",
    ]
    if on.shape == "ribbed":
        what.append("The rib goes to its clock position, usually underneath: it cannot be turned to hide a logo.")
    if bench.club_state.ticket.kind == "putter":
        what.append("Set the flat of the grip square to the face: the player aims by it.")
    if bench.expect_all(_DIAMETERS, FINISHED):
        what.append("What the caliper is expected to read counts the tape that is on the ticket.")
    numbers = present(
        ("grip", on.name),
        ("core", None if core is None else render("diameter", core)),
        ("butt at 2 in", None if butt is None else render("diameter", butt)),
        ("butt at 6 in", None if lower is None else render("diameter", lower)),
        ("free length", bench.measured_length("grip", "length")),
        ("logo", on.logo),
    )
    return Step(
        key="grip",
        title="Put the grip on",
        what=tuple(what),
        act_on=changes(bench)[:1],
        numbers=(*numbers, *bench.goal_numbers(_DIAMETERS), *build_up_numbers(bench), *changes(bench)),
        instrument="caliper",
        expected=bench.expect_all(_DIAMETERS, FINISHED, bench.chosen),
        done_when="The cap sits on the butt, the logo is square, it does not twist by hand, and the diameters were read.",
        cautions=bench.cautions("grip"),
    )

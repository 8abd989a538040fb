"""Steps on the grip: strip the old one, put the new one on."""

from __future__ import annotations

from clubwright.club.stages import FINISHED
from clubwright.notation import render
from clubwright.planning.step_bench import Bench, present
from clubwright.planning.step_types import Step
from clubwright.planning.steps_weight import build_up_numbers

_DIAMETERS = ("grip_diameter_2in", "grip_diameter_6in")


def strip_grip(bench: Bench) -> Step:
    """Cut off the old grip and its tape, and weigh them."""
    lever = bench.situation.prior.conventions.scale.fulcrum_m - float(bench.situation.club.grip.cg_from_cap_m)
    grams = bench.situation.prior.conventions.scale.point_kg_m / lever * 1e3
    return Step(
        key="strip grip",
        title="Strip the old grip",
        what=(
            "Cut along the underside, away from you; peel grip and tape off and clean the shaft.",
            "Weigh old grip and old tape together: what the new ones weigh more comes off the swing weight.",
            "Tell the player before the new grip goes on when it moves by more than the tolerance.",
            "Caliper the bare butt 2 in and 6 in below where the cap will be.",
        ),
        numbers=(("a heavier grip lowers the swing weight: grams for one point", f"{grams:.1f} g"),),
        instrument="gram scale, caliper",
        done_when="The shaft is bare and clean, and old grip and tape were weighed.",
        cautions=bench.cautions("grip"),
    )


def grip(bench: Bench) -> Step:
    """Put the grip on for good."""
    row = bench.situation.ticket.row
    core, butt, lower = (
        row("grip").value("core"),
        row("shaft").value("butt_diameter"),
        row("shaft").value("lower_diameter"),
    )
    what = [
        "Clamp the club with the leading edge square first; the grip is set by it.",
        "Flood grip and tape with solvent, push on in one stroke until the cap meets the butt, then set the logo.",
        "Push it to its free length and no further: a stretched grip is thinner.",
    ]
    if row("grip").words.get("shape") == "ribbed":
        what.append("The rib goes to its clock position, usually underneath: it cannot be turned to hide a logo.")
    if bench.situation.ticket.kind == "putter":
        what.append("Set the flat of the grip square to the face: the player aims by it.")
    if bench.expect_all(_DIAMETERS, FINISHED):
        what.append("What the caliper is expected to read counts the tape that is on the ticket.")
    numbers = present(
        ("grip", row("grip").words.get("name")),
        ("core", None if core is None else render("diameter", core)),
        ("butt at 2 in", None if butt is None else render("diameter", butt)),
        ("butt at 6 in", None if lower is None else render("diameter", lower)),
        ("free length", bench.measured_length("grip", "length")),
        ("logo", row("grip").words.get("logo")),
    )
    return Step(
        key="grip",
        title="Put the grip on",
        what=tuple(what),
        numbers=(*numbers, *bench.goal_numbers(_DIAMETERS), *build_up_numbers(bench)),
        instrument="caliper",
        expected=bench.expect_all(_DIAMETERS, FINISHED, bench.chosen),
        done_when="The cap sits on the butt, the logo is square, it does not twist by hand, and the diameters were read.",
        cautions=bench.cautions("grip"),
    )

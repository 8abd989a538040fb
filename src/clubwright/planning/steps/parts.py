"""Steps on the parts before anything is cut: pull, weigh, check the head, measure the bore; and taking a club apart."""

from __future__ import annotations

from clubwright.club.quantities import ANGLES
from clubwright.notation import length_in_full, render
from clubwright.planning.bending.lie_lines import lie_lines
from clubwright.planning.cut import CUT_JOBS
from clubwright.planning.joint.fit import BORE, TIP, shown
from clubwright.planning.steps.came import weigh_as_it_came
from clubwright.planning.steps.inputs import Bench, present
from clubwright.planning.steps.types import Expected, Step
from clubwright.state.particulars import Entry, in_si
from clubwright.state.ticket import Ticket
from clubwright.ticket.priors.shaft_weighed import has_length, is_measured_raw

_WEIGHED = ("head.mass", "shaft.mass", "grip.mass", "ferrule.mass")


def pull(bench: Bench) -> Step:
    """Gather the parts and look at them."""
    ticket, job = bench.club_state.ticket, bench.club_state.ticket.job
    head, shaft, grip = ticket.club.head, ticket.club.shaft, ticket.club.grip
    looked = head.hand
    loft = bench.club_state.goal("loft")
    core, butt = in_si(grip.core), in_si(shaft.butt_diameter)
    what = ["Look at the head: read its hand and its loft aloud against the ticket."]
    if job in ("build", "reshaft"):
        what.insert(0, "Lay head, shaft, ferrule, grip and weights in one tray with the ticket.")
        what.append("Hold the grip's core against the butt: they should be one size.")
    elif job == "regrip":
        what = ["Lay the club and the new grip in one tray with the ticket.", "Read hand and loft aloud."]
    numbers = present(
        ("hand ordered", ticket.hand),
        ("hand of the head, as looked at", looked or "not looked at yet"),
        ("loft ordered", None if loft is None else loft.typed),
        ("head", head.name),
        ("shaft", shaft.name),
        ("grip", grip.name),
        ("grip core", None if core is None else render("diameter", core)),
        ("butt of the shaft", None if butt is None else render("diameter", butt)),
        ("tip of the shaft", shaft.tip),
    )
    done = "Every part is in the tray, its name is the ticket's, and the hand was looked at."
    return Step(
        key="pull", title="Pull the parts and read them aloud", what=tuple(what), numbers=numbers, done_when=done
    )


def weigh(bench: Bench) -> Step:
    """Weigh parts, or the whole club when it came in finished."""
    ticket = bench.club_state.ticket
    if ticket.job in ("weight", "regrip"):
        return weigh_as_it_came(bench)
    weighed = _WEIGHED if ticket.fits_ferrule else _WEIGHED[:-1]
    tray = tuple((f"weight {row.name}", row.mass.typed) for row in ticket.weights if row.mass is not None)
    # A mass of the raw shaft says little of the club while nobody knows how long that shaft was.
    uncut, raw = not has_length(ticket), ticket.club.shaft.raw_length
    length = () if not uncut else (("raw length of the shaft", raw_words(ticket, raw) if raw else "not measured yet"),)
    return Step(
        key="weigh",
        title="Weigh every part",
        what=(
            "Weigh head, shaft, grip and ferrule to 0.1 g, each by itself.",
            *(("Measure the raw shaft, tip end to butt end: what is cut off it is not in the club.",) if uncut else ()),
            *(("The shaft is cut: what it weighs now is its mass as cut.",) if not uncut else ()),
            "A part outside its range is another part or a slip of the scale: find out now, not after gluing.",
        ),
        numbers=(*length, *tray),
        instrument="gram scale and rule" if uncut else "gram scale",
        expected=_parts(bench, (*weighed, *(("shaft.raw_length",) if uncut else ("shaft.cut_mass",)))),
        done_when="Every part was weighed and lies in its range, or its new mass is on the ticket"
        + ("; the raw length is on it too." if uncut else "."),
    )


def raw_words(ticket: Ticket, raw: Entry) -> str:
    """Say the raw length on the ticket: as measured, or that it is an estimate."""
    return length_in_full(raw.value) if is_measured_raw(ticket) else f"{raw.typed}, an estimate: measure it"


def _parts(bench: Bench, numbers: tuple[str, ...]) -> tuple[Expected, ...]:
    found = (bench.expect_part(number) for number in numbers)
    return tuple(item for item in found if item is not None)


def _diameter(bench: Bench, path: str, measured: Entry | None) -> float | None:
    """Return a diameter of the joint by all that was measured of it; None while nothing was."""
    return None if measured is None else bench.club_state.number(path)[0]


def head_check(bench: Bench) -> Step:
    """Measure the head as it is."""
    head, shaft = bench.club_state.ticket.club.head, bench.club_state.ticket.club.shaft
    depth, bore = in_si(head.bore_depth), _diameter(bench, BORE, head.bore_diameter)
    what = [
        "Measure loft, lie and bounce as the head stands now.",
        "Look over face, grooves and hosel for damage: a head with a cracked hosel is out.",
    ]
    if bench.club_state.ticket.job != "loft-lie":
        what.append("Try the bore with a plug gauge and the shaft's tip: snug, no force, no wobble; blow out debris.")
    if bench.is_wood:
        what.append("State the sole position, and the setting of the sleeve if it has one; note the face angle there.")
    if bench.club_state.ticket.kind == "putter":
        what.append("Set the sole flat and note whether neck or insert forbids a bend.")
    numbers = (
        *bench.goal_numbers(ANGLES),
        *lie_lines(bench.club_state),
        *present(
            ("depth of the bore", None if depth is None else length_in_full(depth)),
            ("bore", "not measured yet" if bore is None and bench.club_state.ticket.job in CUT_JOBS else shown(bore)),
            ("tip of the shaft", shown(_diameter(bench, TIP, shaft.tip_diameter))),
            ("metal", head.metal),
        ),
    )
    return Step(
        key="head check",
        title="Check the head",
        what=tuple(what),
        numbers=numbers,
        instrument="loft and lie gauge, plug gauge, depth gauge",
        expected=_parts(bench, tuple(f"head.{key}" for key in bench.angles())),
        done_when="Loft, lie, bounce and bore are on the ticket as measured.",
    )


def bore_to_ground(bench: Bench) -> Step:
    """Measure from the bottom of the bore to the ground, by a straight test shaft."""
    club = bench.club_state.ticket.club
    bore = bench.club_state.club.head.bore_to_ground_m
    given, raw = in_si(club.head.bore_to_ground), in_si(club.shaft.raw_length)
    said = "bore to ground on the ticket" if given is not None else "bore to ground, assumed until it is measured"
    reads = None if raw is None else length_in_full(raw + (float(bore) if given is None else given))
    what = [
        "Seat a straight test shaft of known length T on the bottom of the bore.",
        "Stand the head on its sole at its lie; read R along the shaft, from its end to the ground.",
        "Bore to ground is R - T; a number off by 1/8 in makes the club 1/8 in wrong.",
    ]
    if bench.has_sleeve:
        what.append("Measure head and sleeve together: the bottom of the bore is inside the sleeve.")
    numbers = (
        (said, length_in_full(float(bore) if given is None else given)),
        *present(("R, with the uncut shaft of this ticket as test shaft", reads)),
        *present(("T, that shaft", None if raw is None else length_in_full(raw))),
    )
    return Step(
        key="bore to ground",
        title="Measure bore to ground",
        what=tuple(what),
        numbers=numbers,
        instrument="straight test shaft and rule",
        expected=_parts(bench, ("head.bore_to_ground",)),
        done_when="R - T is on the ticket as bore_to_ground.",
    )


def pull_head(bench: Bench) -> Step:
    """Take the head off the old shaft with heat and a straight pull."""
    graphite = bench.club_state.ticket.material == "graphite"
    return Step(
        key="pull head",
        title="Pull the head off the old shaft",
        what=(
            "Take the old ferrule off first, and any weight or powder that heat could harm.",
            "Warm the hosel, try often, and pull straight along the shaft: a twist tears fibre and opens the hosel.",
            "Weigh the pulled head bare: its old mass on paper is not the mass in hand.",
            *(("Write each heating on the record of a graphite shaft that is kept.",) if graphite else ()),
        ),
        instrument="shaft puller",
        done_when="The head is off, cool, undamaged, and lies by its ticket.",
        cautions=bench.cautions("heat removal"),
    )


def clean_bore(bench: Bench) -> Step:
    """Take the old adhesive out of the bore."""
    return Step(
        key="clean bore",
        title="Clean the bore",
        what=(
            "Take out old adhesive and rust down to the bottom with a reamer or a wire brush of the bore's size.",
            "Blow or brush it out, wipe with solvent, let it dry; look for an old weight or a plug at the bottom.",
        ),
        numbers=present(
            ("depth of the bore", bench.measured_length("head", "bore_depth")),
            ("bore", shown(_diameter(bench, BORE, bench.club_state.ticket.club.head.bore_diameter))),
        ),
        instrument="depth gauge",
        done_when="A fresh wipe comes out clean, and the depth is what the ticket says.",
        cautions=bench.cautions("tip prep"),
    )

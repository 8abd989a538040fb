"""Steps on the parts before anything is cut: pull, weigh, check the head, measure the bore; and taking a club apart."""

from __future__ import annotations

from clubwright.club.quantities import ANGLES
from clubwright.planning.bending.lie_lines import lie_lines
from clubwright.planning.cut import CUT_JOBS
from clubwright.planning.joint.fit import BORE, TIP, shown
from clubwright.planning.said.phrases import Value, Word, figure, in_full, phrase, tools
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
    what = [phrase("pull.look")]
    if job in ("build", "reshaft"):
        what.insert(0, phrase("pull.tray"))
        what.append(phrase("pull.core"))
    elif job == "regrip":
        what = [phrase("pull.club"), phrase("pull.aloud")]
    numbers = present(
        (phrase("label.hand ordered"), Word("side", ticket.hand)),
        (phrase("label.hand of the head"), Word("side", looked) if looked else phrase("figure.not looked at")),
        (phrase("label.loft ordered"), None if loft is None else loft.typed),
        (phrase("label.head"), head.name),
        (phrase("label.shaft"), shaft.name),
        (phrase("label.grip"), grip.name),
        (phrase("label.grip core"), None if core is None else figure("diameter", core)),
        (phrase("label.butt"), None if butt is None else figure("diameter", butt)),
        (phrase("label.tip"), Word("tip", shaft.tip) if shaft.tip else None),
    )
    done = phrase("done.pull")
    return Step(key="pull", title=phrase("title.pull"), what=tuple(what), numbers=numbers, done_when=done)


def weigh(bench: Bench) -> Step:
    """Weigh parts, or the whole club when it came in finished."""
    ticket = bench.club_state.ticket
    if ticket.job in ("weight", "regrip"):
        return weigh_as_it_came(bench)
    weighed = _WEIGHED if ticket.fits_ferrule else _WEIGHED[:-1]
    tray = tuple(
        (phrase("label.weight", name=row.name), row.mass.typed) for row in ticket.weights if row.mass is not None
    )
    # A mass of the raw shaft says little of the club while nobody knows how long that shaft was.
    uncut, raw = not has_length(ticket), ticket.club.shaft.raw_length
    length = (
        ()
        if not uncut
        else ((phrase("label.raw length"), raw_said(ticket, raw) if raw else phrase("figure.not measured")),)
    )
    return Step(
        key="weigh",
        title=phrase("title.weigh"),
        what=(
            phrase("weigh.each"),
            *((phrase("weigh.raw"),) if uncut else ()),
            *((phrase("weigh.cut"),) if not uncut else ()),
            phrase("weigh.range"),
        ),
        numbers=(*length, *tray),
        instrument=tools("gram scale and rule" if uncut else "gram scale"),
        expected=_parts(bench, (*weighed, *(("shaft.raw_length",) if uncut else ("shaft.cut_mass",)))),
        done_when=phrase("done.weigh raw" if uncut else "done.weigh"),
    )


def raw_said(ticket: Ticket, raw: Entry) -> Value:
    """Return the raw length on the ticket: as measured, or that it is an estimate."""
    return in_full(raw.value) if is_measured_raw(ticket) else phrase("figure.estimate", typed=raw.typed)


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
        phrase("head check.angles"),
        phrase("head check.damage"),
    ]
    if bench.club_state.ticket.job != "loft-lie":
        what.append(phrase("head check.bore"))
    if bench.is_wood:
        what.append(phrase("head check.sole"))
    if bench.club_state.ticket.kind == "putter":
        what.append(phrase("head check.putter"))
    numbers = (
        *bench.goal_numbers(ANGLES),
        *lie_lines(bench.club_state),
        *present(
            (phrase("label.bore depth"), None if depth is None else in_full(depth)),
            (
                phrase("label.bore"),
                phrase("figure.not measured")
                if bore is None and bench.club_state.ticket.job in CUT_JOBS
                else shown(bore),
            ),
            (phrase("label.tip"), shown(_diameter(bench, TIP, shaft.tip_diameter))),
            (phrase("label.metal"), head.metal),
        ),
    )
    return Step(
        key="head check",
        title=phrase("title.head check"),
        what=tuple(what),
        numbers=numbers,
        instrument=tools("loft and lie gauge", "plug gauge", "depth gauge"),
        expected=_parts(bench, tuple(f"head.{key}" for key in bench.angles())),
        done_when=phrase("done.head check"),
    )


def bore_to_ground(bench: Bench) -> Step:
    """Measure from the bottom of the bore to the ground, by a straight test shaft."""
    club = bench.club_state.ticket.club
    bore = bench.club_state.club.head.bore_to_ground_m
    given, raw = in_si(club.head.bore_to_ground), in_si(club.shaft.raw_length)
    said = phrase("label.bore to ground" if given is not None else "label.bore to ground assumed")
    reads = None if raw is None else in_full(raw + (float(bore) if given is None else given))
    what = [
        phrase("bore to ground.seat"),
        phrase("bore to ground.stand"),
        phrase("bore to ground.wrong"),
    ]
    if bench.has_sleeve:
        what.append(phrase("bore to ground.sleeve"))
    numbers = (
        (said, in_full(float(bore) if given is None else given)),
        *present((phrase("label.R"), reads)),
        *present((phrase("label.T"), None if raw is None else in_full(raw))),
    )
    return Step(
        key="bore to ground",
        title=phrase("title.bore to ground"),
        what=tuple(what),
        numbers=numbers,
        instrument=tools("straight test shaft and rule"),
        expected=_parts(bench, ("head.bore_to_ground",)),
        done_when=phrase("done.bore to ground"),
    )


def pull_head(bench: Bench) -> Step:
    """Take the head off the old shaft with heat and a straight pull."""
    graphite = bench.club_state.ticket.material == "graphite"
    return Step(
        key="pull head",
        title=phrase("title.pull head"),
        what=(
            phrase("pull head.ferrule"),
            phrase("pull head.straight"),
            phrase("pull head.weigh"),
            *((phrase("pull head.record"),) if graphite else ()),
        ),
        instrument=tools("shaft puller"),
        done_when=phrase("done.pull head"),
        cautions=bench.cautions("heat removal"),
    )


def clean_bore(bench: Bench) -> Step:
    """Take the old adhesive out of the bore."""
    return Step(
        key="clean bore",
        title=phrase("title.clean bore"),
        what=(
            phrase("clean bore.out"),
            phrase("clean bore.wipe"),
        ),
        numbers=present(
            (phrase("label.bore depth"), bench.measured_length("head", "bore_depth")),
            (phrase("label.bore"), shown(_diameter(bench, BORE, bench.club_state.ticket.club.head.bore_diameter))),
        ),
        instrument=tools("depth gauge"),
        done_when=phrase("done.clean bore"),
        cautions=bench.cautions("tip prep"),
    )

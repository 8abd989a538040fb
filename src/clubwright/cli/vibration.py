"""Commands on the frequency of ticket files: what a tip trim would do, and the slope of a set. Nothing is kept."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.files import Ticket
from clubwright.cli.options import Json, ShopFile

if TYPE_CHECKING:
    from clubwright.planning.advice.trim_planner import TrimPlan


def trims(ticket: Ticket, /, *, shop_file: ShopFile = None, json: Json = False) -> None:
    """Before the cut: what each tip trim within the sheet's limit would make of the finished club."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.tickets import completed_ticket
    from clubwright.services.shaft.vibration import trims_of, trims_part

    plan = trims_of(completed_ticket(ticket, shop_file), ticket.name)
    if json:
        print_json(trims_part(plan))
    else:
        print_lines(_trim_lines(plan))


def what_if(
    ticket: Ticket,
    /,
    *,
    butt: Annotated[str, Parameter(help='Off the butt, such as "1/4 in".')] = "",
    head: Annotated[str, Parameter(help='Another weight of the head, such as "262 g".')] = "",
    shaft: Annotated[Path | None, Parameter(help="Ticket file (TOML) of a club whose shaft is thought of.")] = None,
    shop_file: ShopFile = None,
    json: Json = False,
) -> None:
    """What a cut of the butt, another head weight or another shaft would make of the finished club, before and after."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.cli.tickets import completed_ticket
    from clubwright.importers.ticket_file import load_ticket
    from clubwright.services.shaft.what_if import OtherShaft, Wish, what_if_part
    from clubwright.services.shaft.what_if import what_if as thought_of
    from clubwright.ticket.read import read_shaft, read_ticket

    other = None
    if shaft is not None:
        known, findings = read_shaft(load_ticket(shaft), shaft.name)
        other = OtherShaft(name=f"of {shaft.name}", known=known, findings=findings)
    read = read_ticket(completed_ticket(ticket, shop_file), ticket.name)
    found = thought_of(read, Wish(butt=butt, head=head, shaft=other))
    if json:
        print_json(what_if_part(found))
        return
    rows = [("finished", "as it is", "then", "moves by")]
    rows += [(move.name, move.before, move.after, move.by) for move in found.moves]
    left = (
        ["", "What was read of the club is left out of what another shaft would do."] if found.without_readings else []
    )
    only = ["", *found.notes, "Only thought of. What is cut off does not come back."]
    print_lines([f"{found.said}:", "", *table(rows), *only, *left])


def planes(ticket: Ticket, /, *, shop_file: ShopFile = None, json: Json = False) -> None:
    """Both planes a club swings in: what the head makes of their difference, and what is left for the shaft."""
    from clubwright.cli.output import print_json, print_lines, table, wrapped
    from clubwright.cli.tickets import completed_ticket
    from clubwright.club.planes import ORIENTATION_NOTE
    from clubwright.services.shaft.two_planes import planes_lines, planes_of, planes_part

    found = planes_of(completed_ticket(ticket, shop_file), ticket.name)
    if json:
        print_json(planes_part(found))
    else:
        print_lines([*table(list(planes_lines(found))), "", *wrapped(ORIENTATION_NOTE)])


def slope(
    *tickets: Annotated[Path, Parameter(help="Ticket files (TOML) of the clubs of a set.")],
    step: Annotated[
        str | None, Parameter(help='Plan the set: climb by this for each half inch, such as "4.5 cpm"; with --through.')
    ] = None,
    through: Annotated[Path | None, Parameter(help="Ticket file of the club that keeps its frequency.")] = None,
    shop_file: ShopFile = None,
    json: Json = False,
) -> None:
    """How the frequency of a set climbs as its clubs get shorter, and who lies off the line; or how it shall climb."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.cli.tickets import completed_ticket
    from clubwright.notation import render
    from clubwright.services.shaft.vibration import set_of, slope_part, slope_text
    from clubwright.units import CPM_HZ

    if step is not None or through is not None:
        _plan_slope(tickets, step, through, shop_file, as_json=json)
        return
    clubs, line = set_of([(path.name, completed_ticket(path, shop_file)) for path in tickets])
    if json:
        print_json(slope_part(clubs, line))
        return
    rows = [
        (
            club.name,
            render("length", club.length_m),
            render("frequency", club.frequency_hz, club.frequency_sd_hz),
            f"{off / CPM_HZ:+.1f} cpm off the line",
        )
        for club, off in zip(clubs, line.residuals_hz, strict=True)
    ]
    print_lines([slope_text(line), "", *table(rows)])


def _plan_slope(
    tickets: tuple[Path, ...], step: str | None, through: Path | None, shop_file: Path | None, *, as_json: bool
) -> None:
    """Print target and trim of each club of a set that shall climb evenly."""
    from clubwright.cli.output import print_json, print_lines, table
    from clubwright.cli.tickets import completed_ticket
    from clubwright.errors import Finding, InputError
    from clubwright.notation import render, units_shown
    from clubwright.services.shaft.slope_plan import slope_plan, slope_plan_part
    from clubwright.words.advice import say_trim
    from clubwright.words.say import percent

    if step is None or through is None:
        mend = 'Write both, such as --step "4.5 cpm" --through 7-IRON.toml.'
        raise InputError([Finding(where="slope", what="one of --step and --through is given alone", mend=mend)])
    found = slope_plan([(path.name, completed_ticket(path, shop_file)) for path in tickets], step, through.name)
    if as_json:
        print_json(slope_plan_part(found))
        return
    rows = []
    for club in found:
        told = club.why_not
        if club.trim is not None:
            told = f"{say_trim(club.trim, units_shown())}; {percent(club.trim.chance)}"
        rows.append((club.name, render("length", club.length_m), render("frequency", club.target_hz), told))
    print_lines(
        [*table(rows), "", "Nothing is kept. Write each target into its ticket; what is trimmed does not come back."]
    )


def _trim_lines(plan: TrimPlan) -> list[str]:
    """What each trim would do, for a person; the best one marked."""
    from clubwright.cli.output import table, wrapped
    from clubwright.notation import units_shown
    from clubwright.words.advice import say_trim, say_trimmed
    from clubwright.words.say import percent

    rows = []
    for place, option in enumerate(plan.options):
        mark = "best: " if place == plan.best != plan.own else "ticket: " if place == plan.own else ""
        fitted = " + ".join(option.weights) or "no weight"
        told = say_trimmed(option, units_shown())
        chance = f"; {percent(option.chance)}" if "frequency" in plan.keys else ""
        rows.append((f"{mark}{say_trim(option, units_shown())}", f"{told}; {fitted}{chance}"))
    return [*table(rows), "", *wrapped(plan.irreversible)]

"""The command on a shaft read at several clamp positions: its stiffness, what stays unknown, and the ticket lines."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.options import Json

if TYPE_CHECKING:
    from clubwright.belief.stiffness.fit import StiffnessFit
    from clubwright.club.parts import Shaft
    from clubwright.services.told.calibration import StiffnessAnswer

Readings = Annotated[Path, Parameter(help="CSV file: clamp (butt end to its edge),mass,frequency,deflection.")]


def stiffness(
    readings: Readings,
    /,
    *,
    length: Annotated[str, Parameter(help='Length of the raw shaft, such as "41 in".')],
    mass: Annotated[str, Parameter(help='Weight of the raw shaft, such as "112.5 g".')],
    balance: Annotated[str, Parameter(help='Its balance point from the tip end, such as "21 1/4 in".')],
    insertion: Annotated[str, Parameter(help="How far the tip sits in the test weight.")] = "1 in",
    json: Json = False,
) -> None:
    """Find the stiffness along a raw shaft from frequencies or tip deflections at several clamp positions.

    The clamp column is the distance from the butt end to the clamp's edge that faces the tip. Each line has the mass on the
    tip and one of frequency and deflection; a gauge's uncertainty may follow the value, as in "255 cpm ± 0.5".
    """
    from clubwright.belief.stiffness.fit import fit_stiffness
    from clubwright.cli.output import print_json, print_lines
    from clubwright.importers.stiffness_readings import load_stiffness_readings

    shaft, insertion_m = _shaft(length, mass, balance, insertion)
    fit = fit_stiffness(shaft, load_stiffness_readings(readings, insertion_m=insertion_m))
    if json:
        print_json(_part(fit))
    else:
        print_lines(_lines(fit))


def _shaft(length: str, mass: str, balance: str, insertion: str) -> tuple[Shaft, float]:
    """Understand what was typed of the shaft; every finding at once."""
    from clubwright.club.parts import Shaft
    from clubwright.notation import Collector

    notes = Collector()
    typed = {"length": length, "mass": mass, "balance": balance, "insertion": insertion}
    read = {
        name: notes.take("mass" if name == "mass" else "length", text, where=f"--{name}")
        for name, text in typed.items()
    }
    notes.raise_if_any()
    values = {name: item.value for name, item in read.items() if item is not None}
    raw = Shaft(
        raw_length_m=values["length"],
        mass_kg=values["mass"],
        balance_from_tip_m=values["balance"],
        length_m=values["length"],
    )
    return raw, values["insertion"]


def _part(fit: StiffnessFit) -> StiffnessAnswer:
    """Return the answer for programs, in SI."""
    from clubwright.belief.stiffness.words import felt_by_third, learned_by_third, statements, ticket_lines
    from clubwright.services.answer.answer import findings_part, rounded
    from clubwright.services.told.calibration import FittedAnswer, NodeAnswer, StiffnessAnswer

    nodes = zip(fit.prior.nodes_m, fit.ei_n_m2, fit.relative_sd, fit.learned, strict=True)
    return StiffnessAnswer(
        felt={third: rounded(moved) for third, moved in felt_by_third(fit).items()},
        findings=findings_part(fit.findings),
        learned={third: rounded(share) for third, share in learned_by_third(fit).items()},
        nodes=tuple(
            NodeAnswer(at_m=rounded(at), ei_n_m2=rounded(ei), learned=rounded(share), relative_sd=rounded(sd))
            for at, ei, sd, share in nodes
        ),
        readings=tuple(
            FittedAnswer(fitted=rounded(fitted), kind=read.kind, read=rounded(read.value), where=str(read.where))
            for read, fitted in zip(fit.readings, fit.predicted, strict=True)
        ),
        section="shaft",
        statement=tuple(statements(fit)),
        ticket_lines=tuple(ticket_lines(fit)),
    )


def _lines(fit: StiffnessFit) -> list[str]:
    """Say the answer to a person."""
    from clubwright.belief.stiffness.checks import shown
    from clubwright.belief.stiffness.words import statements, ticket_lines
    from clubwright.cli.output import table
    from clubwright.cli.words import finding_lines
    from clubwright.notation import render

    rows = [("from tip", "EI, N m2", "sd", "learned")]
    for at, ei, sd, share in zip(fit.prior.nodes_m, fit.ei_n_m2, fit.relative_sd, fit.learned, strict=True):
        rows.append((render("length", at), f"{ei:.1f}", f"{100 * sd:.0f} %", f"{100 * share:.0f} %"))
    pairs = [("reading", "read", "fitted")]
    pairs += [
        (str(read.where), shown(read, read.value), shown(read, fitted))
        for read, fitted in zip(fit.readings, fit.predicted, strict=True)
    ]
    return [
        *table(rows),
        "",
        *table(pairs),
        "",
        *statements(fit),
        *finding_lines(fit.findings),
        "Write into the [shaft] table of a ticket with this shaft:",
        *(f"  {line}" for line in ticket_lines(fit)),
    ]

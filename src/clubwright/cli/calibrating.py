"""Commands that turn the shop's own measurements into figures for its tickets; nothing is kept."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.options import Json

Grips = Annotated[Path, Parameter(help="CSV file with the columns core,nominal,butt,tape,measured.")]


def calibrate_grips(grips: Grips, /, *, json: Json = False) -> None:
    """Find where the shop's grips lie between the two models of build-up, and the line for the ticket."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.cli.words import finding_lines
    from clubwright.importers.grip_readings import load_grip_readings
    from clubwright.planning.grip.calibration import calibrate_blend, ticket_line
    from clubwright.services.answer.answer import findings_part, rounded
    from clubwright.services.told.calibration import BlendAnswer

    fit = calibrate_blend(load_grip_readings(grips))
    line = ticket_line(fit)
    if json:
        print_json(
            BlendAnswer(
                blend=rounded(fit.blend),
                findings=findings_part(fit.findings),
                readings=fit.readings,
                sd=rounded(fit.sd),
                section="grip",
                ticket_line=line,
            )
        )
        return
    found = f"Blend {fit.blend:.2f} ± {fit.sd:.2f} from {fit.readings} measured grips"
    print_lines(
        [
            f"{found} (0 is constant volume, 1 is additive).",
            *finding_lines(fit.findings),
            "Write into the [grip] table of a ticket with this kind of grip:",
            f"  {line}",
        ]
    )

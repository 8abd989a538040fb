"""Commands that print on paper: pencil cards, and the workshop's own printer."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

from cyclopts import Parameter

from clubwright.cli.acting import session_at
from clubwright.cli.options import SHOP, By, JobId, Json, Shop, ShopFile
from clubwright.cli.papers import JobOrFile, Out, say_written, units_here, worked_of

Step = Annotated[str, Parameter(name="--step", help="One step by its name, such as mix; all still to do without it.")]


def cards(
    job: JobOrFile,
    /,
    *,
    step: Step = "",
    out: Out = None,
    paper: Annotated[Literal["a4", "us-letter"], Parameter(help="Size of the page.")] = "a4",
    shop_file: ShopFile = None,
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Print pencil cards (PDF): each step with its figures, its cautions and places to write, for when there is no power."""
    from clubwright.labels.cards.cards import pencil_cards
    from clubwright.labels.cards.from_work import cards_data
    from clubwright.labels.printable import unprintable
    from clubwright.notation import shown_in

    with shown_in(units_here(job, shop, by, shop_file)):
        worked, _, day, seal = worked_of(job, shop, by, shop_file)
        data = cards_data(worked, day, seal, step=step)
        path = out or Path(f"{worked.club_state.ticket.id}-cards.pdf")
        path.write_bytes(pencil_cards(data, paper=paper))
    say_written(path, unprintable(data), as_json=json)


def print(  # noqa: A001 - the word a person types
    job: JobId,
    paper: Annotated[Literal["sheet", "tag", "cards"], Parameter(help="Which paper.")] = "sheet",
    /,
    *,
    step: Step = "",
    shop: Shop = SHOP,
    by: By = None,
    json: Json = False,
) -> None:
    """Print a paper of a job on the workshop's printer, by the command in the shop's settings."""
    from clubwright.cli.output import print_json, print_lines
    from clubwright.printing import print_paper

    with session_at(shop, by) as session:
        sent = print_paper(session, job, paper, step=step)
    if json:
        print_json(sent)
    else:
        print_lines(
            [f"Sent to the printer: {sent.paper} of {sent.job}." + (f" It said: {sent.said}" if sent.said else "")]
        )

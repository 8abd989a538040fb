"""The user's page about the shop's settings, written from the lists by which the file is read, so that it stays true."""

from __future__ import annotations

from clubwright.ticket.fields.fields import RELEASE
from clubwright.ticket.fields.page import section_text
from clubwright.ticket.fields.shop import SHOP_SECTIONS

EXAMPLE = """\
# Invented demo data: write the figures of the data sheets on your own bench.
[usual]
adhesive = "two-part"
tape = "double-sided"

[adhesive."two-part"]
in_joint = "0.8 g"
ratio = "2:1"
basis = "weight"
per_joint = "1.2 g"
scale_error = "0.1 g"
pot_life = "30 min"
release_times = [["20 C", "15 h"], ["25 C", "12 h"]]

[tape."double-sided"]
layer_mass = "1.6 g"
cg_from_cap = "5.1 in"

[tolerance]
length = "1/16 in"
swing_weight = "1/2 pt"

[instrument."swing scale"]
resolution = "0.1 pt"
repeatability = "0.05 pt"

[shop]
kerf = "1/32 in"

[minutes]
mark_and_cut = "12 min"

[units]
length = "mm"
"""

OPENING = """\
# The shop's settings

What the workshop uses on every club stands once in a file `shop.toml`: adhesives with their data sheets, tapes, gauges,
usual tolerances, the saw's kerf, the frequency meter. A ticket then needs 8 to 12 lines. The values are written as on a
ticket, in quotes ([what you may type](notation.md)).

    clubwright shop shop.toml                                  every finding at once, every value as understood
    clubwright work TICKET.toml --shop-file shop.toml          also check, plan, sheet, tag, trims, what-if, planes, slope
    clubwright new "54 mid bounce, 35 1/4 to the cap, D4" --shop-file shop.toml > ticket.toml

From Python: `clubwright.work("ticket.toml", shop_file="shop.toml")` and `clubwright.new_ticket("54 mid bounce, D4")`.
The file's JSON Schema: `clubwright schema shop`."""

USE = """\
## Where the file lies, and when it counts

- **The record** (`take`, the bench page, `/api`) uses the `shop.toml` in the workshop's folder, the one that `--shop`
  names. It is read anew each time, so that a change counts from the next ticket on. Where several benches share a
  database, and for another file, name it: `--shop-file`, or the environment variable `CLUBWRIGHT_SHOP_FILE`, which stands
  before the folder's own.
- **Commands on ticket files** keep nothing, and use only a file that is named, by `--shop-file` or by that variable. None
  is looked for beside the ticket: the same command on the same ticket must not answer differently because of where it
  lies.

The ticket's own figure stands first, then the shop's, last the documented default. Each figure of the shop is announced
as a default is: `not given: taken as ratio 2:1, basis weight (shop setting)`.

- A ticket names an adhesive, a tape or a gauge by its name here: `[adhesive]` with `name = "two-part"`, `[[tape]]` with
  `name = "build-up"`, a reading with `instrument = "swing scale"`. A name that is all the ticket says, and that nobody
  knows here, is a warning.
- Where the ticket names no adhesive and the club is glued here, the `[usual]` one is taken; where it says nothing of tape
  and a grip is put on here, one layer of the usual tape. `tape = []` on the ticket says that there is none.
- Figures that belong together are never mixed from two sheets: a ticket with a ratio or a basis of its own gets neither
  from here, and one that has a data sheet's figures without a name gets nothing of the usual adhesive. A gauge that the
  ticket describes is the ticket's own, whole. A tape that was weighed on the ticket keeps that weight.
- **An adhesive that is named otherwise has nothing of the one before.** A ticket file that the record wrote says in
  `[from_shop]` of which sheet its figures are: with another `name` they are left out, said with a warning, and the sheet of
  the new name comes from here. A figure that the ticket says itself and that the shop's sheet of that name denies is a
  warning too.

`[units]` says which unit comes first on page, sheet, tag and screen: `870.58 mm (34 9/32 in less 0.006 in, 34.275 in)`.
The others follow where they are shown; `--json` and `/api` are the same with every choice. That alone changes nothing
of what may be typed. With `decimal = "comma"` figures are shown with a decimal comma, and a form of the page, a command
and the words of an order take `35,5 in` for 35.5 in; with `bare_length = "mm"` a length typed without a unit is in
millimetres (a fraction is always in inches). Kept is `35.5 in`, the text that everybody reads alike; a point is a
decimal point as ever, and a comma before a space parts a list. Where a comma may part thousands as well, `1,000 g`, the
figure is refused, since it may be 1 g to one and 1000 g to another; `34,275 in` can be read one way only. With
`language = "de"` the bench page and its cards, their cautions, gates, advice and what is said of a reading that does not
fit are German, and so is the build sheet; names, what a person typed, units and the lines of the record stay as they are.
Still English are the pages of tickets and records, of the shaft and of a number's reasons, what would settle an open
verdict, findings about a ticket file, what refuses a form, and headings of the command line's screens.
**A person says for themselves what the shop says here** (language, decimal mark, units first, `bare_length`), and that
stands before the shop's word: on the page under *My settings* (kept with their name where people sign in, else on that
tablet), by `clubwright person NAME --language de --decimal comma --length mm`, which also holds for commands with
`--by NAME`, and at the command line by the environment variables `CLUBWRIGHT_LANGUAGE`, `CLUBWRIGHT_DECIMAL`,
`CLUBWRIGHT_LENGTH`, `CLUBWRIGHT_TEMPERATURE` and `CLUBWRIGHT_BARE_LENGTH`, which stand before both.
Ticket files, `shop.toml` and `/api` are read as they are written, with a point.

`[minutes]` says how long each operation takes here: `clubwright plan`, the bench page and the list of tickets then say how
long a job takes, hands at work and waiting for the cure apart, and `clubwright minutes` (`/api/minutes`) what is left on
every open job. The cure waits as long as the adhesive's sheet says at the temperature of the bench; `cure` counts only where
it gives no time. What the shop leaves out is an estimate (common practice, no source). These times plan a day: they open no
gate and release no joint. They are no part of a ticket, so a change counts at once for every open job.

`[printer]` names the command that prints each paper, so that one tap prints ([sheet and label](sheet-and-label.md)). Only
this file says it, and no ticket does: whoever can write this file can have the bench's computer run a command.

When a ticket is taken into the record, what the shop says on that day is kept with it. **A later change of the file
changes no job that is there**: `show`, the ticket's page and `/api` say what is otherwise now, and `clubwright order`
writes in what holds for that job too. A file that cannot be read stops the next ticket, with every finding, and no job.

The work itself goes by the product's own safety data sheet and by the rules of your workshop; copy ratio, pot life and
release times from the sheet of the very product on the bench."""

KEYS = """\
## The tables and their keys

The keys are those of [the ticket file](ticket.md), and mean the same. A key marked * is needed."""


def shop_page() -> str:
    """Return the page as Markdown."""
    tables = [section_text(section, listed=section is RELEASE) for section in SHOP_SECTIONS]
    return "\n\n".join([OPENING, "## An example", f"```toml\n{EXAMPLE}```", USE, KEYS, *tables]) + "\n"

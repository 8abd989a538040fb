"""The command line: one command for each thing a clubmaker does. Heavy libraries load inside the commands."""

from __future__ import annotations

import sys

import cyclopts

from clubwright.cli.errors import exit_code
from clubwright.services.actions.register.actions import ACTIONS

HELP = """Bench software for the golf clubmaker: from the ticket and the parts in hand to a club that reads what was ordered,
and a record that re-makes it.

Start with `clubwright demo`, or write a ticket file and `clubwright plan TICKET.toml`. Every command takes --json."""

# Plain text, since rendering Markdown would load a parser before a word of help is shown.
app = cyclopts.App(
    name="clubwright", help=HELP, help_format="plaintext", version_flags=["--version"], help_flags=["--help", "-h"]
)

FILES = cyclopts.Group("Ticket files (nothing is kept)", sort_key=1)
BENCH = cyclopts.Group("At the bench (kept in the workshop's record)", sort_key=2)
RECORD = cyclopts.Group("Record, sheets and labels", sort_key=3)

_COMMANDS: tuple[tuple[cyclopts.Group, str, dict[str, str]], ...] = (
    (
        FILES,
        "clubwright.cli.files",
        {
            "check": "Check a ticket file: every finding at once, every value as understood.",
            "work": "Work a ticket file to its answer.",
            "plan": "Plan a ticket file: every step with numbers and cautions.",
            "words": "Read an order in words: what is understood, what is asked.",
            "schema": "Print the JSON Schema of the ticket, the answer or the shop's settings.",
            "notation": "Say what a value in trade notation is understood as.",
        },
    ),
    (
        FILES,
        "clubwright.cli.shop",
        {
            "shop": "Check the shop's settings, which tickets count on.",
            "new": "Print a ticket file from words.",
        },
    ),
    (
        FILES,
        "clubwright.cli.calibrating",
        {
            "calibrate-grips": "Find the shop's grip build-up from measured grips.",
        },
    ),
    (FILES, "clubwright.cli.why", {"why": "Say why a number of a ticket file or a job is what it is."}),
    (FILES, "clubwright.cli.stiffness", {"stiffness": "Find the stiffness along a shaft from a few readings of it."}),
    (
        FILES,
        "clubwright.cli.vibration",
        {
            "trims": "Show what each tip trim within the sheet's limit would do.",
            "what-if": "Show what a cut of the butt, another head weight or another shaft would do.",
            "planes": "Show both planes a club swings in, and whose their difference is.",
            "slope": "Show how the frequency of a set climbs with its lengths.",
        },
    ),
    (
        BENCH,
        "clubwright.cli.bench",
        {
            "take": ACTIONS["take"].says,
            "jobs": "List the jobs.",
            "show": "Show belief, advice, gates and the next step of a job.",
        },
    ),
    (BENCH, "clubwright.cli.actions", {key: action.says for key, action in ACTIONS.items() if action.command}),
    (BENCH, "clubwright.cli.mixes", {"mixes": "List the mixes of adhesive with their joints."}),
    (BENCH, "clubwright.cli.minutes", {"minutes": "Show how long the work takes that is left, of a job or of all."}),
    (
        BENCH,
        "clubwright.cli.tracing",
        {
            "trace": ACTIONS["trace"].says,
        },
    ),
    (BENCH, "clubwright.cli.family", {"family": "Show what like shafts of the record say of this one, and use it."}),
    (
        BENCH,
        "clubwright.cli.serving",
        {
            "serve": "Serve the bench page to a browser or a tablet.",
        },
    ),
    (
        BENCH,
        "clubwright.cli.people",
        {
            "person": "Let a person in over the workshop's network, or take them out.",
            "people": "List who may come in over the workshop's network.",
        },
    ),
    (
        RECORD,
        "clubwright.cli.record",
        {
            "trail": "Show what was done, newest first.",
            "built": "Show the as-built record.",
            "again": "Write the ticket that makes a club again.",
        },
    ),
    (RECORD, "clubwright.cli.clubs", {"club": "List the jobs on a club."}),
    (RECORD, "clubwright.cli.exporting", {"export": "Write a job's ticket as a ticket file."}),
    (RECORD, "clubwright.cli.forgetting", {"forget": ACTIONS["forget"].says}),
    (
        RECORD,
        "clubwright.cli.papers",
        {
            "sheet": "Print the build sheet (PDF).",
            "tag": "Print the tag label, 62 x 29 mm.",
        },
    ),
    (
        RECORD,
        "clubwright.cli.printing",
        {
            "cards": "Print pencil cards of the steps (PDF), for when there is no power.",
            "print": "Print a paper of a job on the workshop's printer.",
        },
    ),
    (
        RECORD,
        "clubwright.cli.record",
        {
            "verify": "Check that the record is whole.",
            "backup": "Copy the record while it is in use.",
            "merge": "Take in what another bench wrote into its own record.",
            "demo": "Make an invented workshop and work one ticket to its end.",
        },
    ),
    (
        RECORD,
        "clubwright.cli.index",
        {
            "touched": "List the jobs that a gauge has read, or on which a lot, a part or a person is named.",
            "rebuild": "Work out anew what lists and searches are asked from.",
        },
    ),
)

for _place, (_group, _module, _commands) in enumerate(_COMMANDS):
    for _line, (_name, _help) in enumerate(_commands.items()):
        _function = _name.replace("-", "_")
        app.command(f"{_module}:{_function}", name=_name, group=_group, help=_help, sort_key=100 * _place + _line)


def run(arguments: list[str] | None = None) -> None:
    """Run one command and leave with its exit code: 0 done, 1 refused, 2 the input cannot be taken."""
    given = sys.argv[1:] if arguments is None else arguments
    sys.exit(exit_code(lambda: app(given, exit_on_error=True), as_json="--json" in given))

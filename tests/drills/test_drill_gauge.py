"""A gauge with its line grammar is added as CONTRIBUTING.md says: what it writes is a reading by that gauge.

Invented for the drill: a timer of the pendulum stand that writes its period in milliseconds.
"""

from __future__ import annotations

from typing import Any

import pytest

from altered import Altered
from clubwright.devices.grammars import GRAMMARS
from repository import ROOT

ROW = """GRAMMARS = (
    Grammar(
        gauge="pendulum timer",
        kind="duration",
        pattern=rf"T\\\\s*=\\\\s*{FIGURE}\\\\s*(?P<unit>ms){MOVING}\\\\s*",
    ),
""".replace("\\\\", "\\")
BEFORE = 'gauge=UsualGauge("0.1 ms", "0.3 ms", "0.3 ms")'

GO = """
from pathlib import Path
from clubwright.bootstrap import open_session
from clubwright.devices.gauges import ports_of
from clubwright.devices.grammars import grammar_of
from clubwright.devices.line_reader import LineReader
from clubwright.importers.ticket_file import load_ticket
from clubwright.services.actions import bench

class Wire:
    def __init__(self, *lines):
        self.lines = [line.encode("ascii") for line in lines]

    def readline(self):
        return self.lines.pop(0) if self.lines else b""

example, folder = sys.argv[1:]
grammar = grammar_of("pendulum timer")
said = ["half a li", "T = 1653.2 ms ?\\n", "T = 1653.2 kg\\n", *["T = 1653.2 ms\\n"] * 3]
reader = LineReader(Wire(*said), grammar)
heard = [reader.read() for _ in said]
document = load_ticket(Path(example))
document["instrument"]["pendulum timer"] = {"resolution": "0.1 ms", "repeatability": "0.1 ms"}
with open_session(folder, by="Ann") as session:
    bench.take_ticket(session, document, "drill")
    last = next(line for line in reversed(heard) if line is not None)
    fact = bench.note_reading(session, "X-1054", grammar.quantities[0], last.text, stage="dry, gripped")
    print(json.dumps({
        "ports": ports_of(["pendulum timer=/dev/null"]),
        "reads": grammar.quantities,
        "heard": [None if line is None else [line.text, line.stable] for line in heard],
        "kept": [fact.what.quantity, fact.what.value, fact.what.instrument],
    }))
"""


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Any:
    program = Altered(tmp_path_factory.mktemp("program"))
    program.edit("devices/grammars.py", "GRAMMARS = (\n", ROW)
    program.edit("club/quantities.py", BEFORE, BEFORE.replace(")", ', "pendulum timer")'))
    return program.run(GO, str(ROOT / "examples" / "wedge-54.toml"), str(tmp_path_factory.mktemp("shop")))


def test_the_program_as_it_is_has_no_such_gauge() -> None:
    assert "pendulum timer" not in {grammar.gauge for grammar in GRAMMARS}


def test_it_is_asked_for_by_its_name_and_reads_what_names_it(told: dict[str, Any]) -> None:
    assert told["ports"] == {"pendulum timer": "/dev/null"}
    assert told["reads"] == ["pendulum_period"]


def test_its_lines_are_read_whole_or_not_at_all(told: dict[str, Any]) -> None:
    torn, moving, wrong, *steady = told["heard"]
    assert torn is None and wrong is None
    assert moving is None or not moving[1]
    assert steady[-1] == ["1653.2 ms", True]


def test_its_reading_is_kept_with_that_gauge(told: dict[str, Any]) -> None:
    assert told["kept"] == ["pendulum_period", "1653.2 ms", "pendulum timer"]

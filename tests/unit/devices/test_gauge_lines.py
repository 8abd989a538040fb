"""Gauges on a cable: a torn, a moving or a foreign line never passes for a reading."""

from __future__ import annotations

import os
import pty
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from clubwright.club.quantities import QUANTITIES
from clubwright.devices.gauges import Gauges, Shown, ports_of, serial_opener
from clubwright.devices.grammars import GRAMMARS, grammar_of, read_line
from clubwright.devices.line_reader import Line, LineReader, LineSource
from clubwright.errors import InputError
from clubwright.notation import parse

SCALE = grammar_of("gram scale")


class Wire:
    """Gives what came, piece by piece, as a port with a time-out does."""

    def __init__(self, *pieces: bytes) -> None:
        self.pieces = list(pieces)

    def readline(self) -> bytes:
        return self.pieces.pop(0) if self.pieces else b""

    def close(self) -> None:
        self.pieces.clear()


def lines(*pieces: bytes) -> tuple[list[Line | None], LineReader]:
    reader = LineReader(Wire(*pieces), SCALE)
    return [reader.read() for _ in pieces], reader


@pytest.mark.parametrize(
    ("gauge", "line", "text"),
    [
        ("gram scale", "  472.3 g", "472.3 g"),
        ("gram scale", "+0.4723kg ", "0.4723 kg"),
        ("swing scale", "D3.5", "D3.5"),
        ("angle gauge", "54.0 deg", "54.0 deg"),
        ("caliper", "23.24 mm", "23.24 mm"),
        ("rule", "35.25 in", "35.25 in"),
        ("frequency meter", "254 cpm", "254 cpm"),
    ],
)
def test_a_whole_line_is_understood(gauge: str, line: str, text: str) -> None:
    grammar = grammar_of(gauge)
    figure = read_line(grammar, line)
    assert figure is not None
    assert (figure.text, figure.moving) == (text, False)
    assert parse(grammar.kind, figure.text, where=gauge).value > 0


@pytest.mark.parametrize(
    "line",
    ["", "472,3 g", "472.3", "472.3 g 1", "x472.3 g", "4 72.3 g", "472.3 mg", "472.3 G", "nan g", "-- g", "٤٧٢ g"],
)
def test_any_other_line_is_dropped(line: str) -> None:
    assert read_line(SCALE, line) is None


def test_a_figure_is_steady_after_three_equal_lines_in_a_row() -> None:
    found, reader = lines(b"0.0 g\r\n", b"472.2 g\r\n", b"472.3 g\r\n", b"472.3 g\r\n", b"472.3 g\r\n", b"472.3 g\n")
    assert found[0] is None, "nobody knows whether the beginning of the first line was heard"
    assert [line and line.stable for line in found] == [None, False, False, False, True, True]
    assert reader.dropped == 1


def test_a_moving_figure_is_never_steady() -> None:
    found, _ = lines(b"\n", *[b"472.3 g ?\n"] * 5)
    assert [line and (line.text, line.stable) for line in found] == [None] + [("472.3 g", False)] * 5


def test_both_pieces_of_a_torn_line_are_dropped_and_counted_once() -> None:
    """The second piece of 149.6 g reads 9.6 g: a figure like any other, and wrong by 140 g."""
    found, reader = lines(
        b"\n", b"149.6 g\n", b"149.6 g\n", b"14", b"9.6 g\n", b"149.6 g\n", b"149.6 g\n", b"149.6 g\n"
    )
    texts = [line.text if line else None for line in found]
    assert texts == [None, "149.6 g", "149.6 g", None, None, "149.6 g", "149.6 g", "149.6 g"]
    assert [bool(line and line.stable) for line in found] == [False] * 7 + [True]
    assert reader.dropped == 2, "the first line, and the torn one"


def test_noise_starts_the_count_anew() -> None:
    found, reader = lines(b"\n", b"472.3 g\n", b"472.3 g\n", b"\xff\xfe\n", b"472.3 g\n", b"472.3 g\n", b"472.3 g\n")
    assert [bool(line and line.stable) for line in found] == [False] * 6 + [True]
    assert reader.dropped == 2


def test_silence_is_no_line() -> None:
    found, reader = lines(b"\n", b"", b"472.3 g\n")
    assert found[1] is None
    assert found[2] is not None
    assert reader.dropped == 1


def test_every_grammar_reads_quantities_of_the_register_in_their_own_notation() -> None:
    kinds = {"angle": {"angle", "loft", "lie"}, "diameter": {"diameter"}}
    for grammar in GRAMMARS:
        for quantity in grammar.quantities:
            assert QUANTITIES[quantity].kind in kinds.get(grammar.kind, {grammar.kind}), quantity


def test_every_gauge_that_writes_lines_reads_something() -> None:
    assert [grammar.gauge for grammar in GRAMMARS if not grammar.quantities] == []


def test_what_is_asked_for_is_checked_as_a_whole() -> None:
    assert ports_of(["gram scale=/dev/ttyUSB0"]) == {"gram scale": "/dev/ttyUSB0"}
    with pytest.raises(InputError) as refused:
        ports_of(["gram scale", "bathroom scale=/dev/ttyUSB1", "rule=a", "rule=b"])
    said = [finding.sentence() for finding in refused.value.findings]
    assert len(said) == 3
    assert "names no gauge and port" in said[0]
    assert "gram scale, swing scale" in said[1]
    assert "named twice" in said[2]


@pytest.fixture
def cable() -> Iterator[tuple[int, str]]:
    """A pseudo-terminal: what is written to its one end is read at the other, as on a cable."""
    ours, theirs = pty.openpty()
    yield ours, os.ttyname(theirs)
    os.close(ours)
    os.close(theirs)


def waited(gauges: Gauges, *, stable: bool) -> Shown:
    for _ in range(200):
        shown = gauges.shown()
        if shown and shown[0].stable == stable:
            return shown[0]
        time.sleep(0.01)
    raise AssertionError(f"nothing heard, last: {gauges.shown()}")


def test_a_gauge_is_followed_on_a_cable(cable: tuple[int, str]) -> None:
    ours, port = cable
    opened = []

    def opener(name: str) -> LineSource:
        opened.append(name)
        return Path(name).open("rb", buffering=0)

    gauges = Gauges({"gram scale": port}, opener)
    gauges.start()
    os.write(ours, b"2.3 g\n" + b"472.3 g\n" * 2)
    assert waited(gauges, stable=False).text == "472.3 g"
    os.write(ours, b"472.3 g\n" * 3)
    shown = waited(gauges, stable=True)
    assert (shown.gauge, shown.quantities, shown.dropped) == ("gram scale", ("total_weight",), 1)
    assert opened == [port]
    gauges._stop.set()
    os.write(ours, b"\n")
    gauges.stop()


def test_without_pyserial_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "serial", None)
    with pytest.raises(InputError, match=r"clubwright\[serial\]"):
        serial_opener()

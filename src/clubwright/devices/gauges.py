"""The gauges on this bench's cables: one thread for each, the latest line of each kept for the page."""

from __future__ import annotations

import importlib
import threading
import time
from collections.abc import Callable, Mapping, Sequence
from contextlib import closing

import msgspec

from clubwright.devices.grammars import grammar_of
from clubwright.devices.line_reader import Line, LineReader, LineSource
from clubwright.errors import Finding, InputError

QUIET_S = 2.0
"""A gauge that has said nothing for so long shows nothing: a frozen figure is no reading."""

AGAIN_S = 2.0
"""After a port was lost (a plug pulled), it is tried again this often."""

Opener = Callable[[str], LineSource]


class Shown(msgspec.Struct, frozen=True, kw_only=True):
    """What one gauge shows now, as the page gets it."""

    gauge: str
    quantities: tuple[str, ...]
    kind: str
    text: str
    stable: bool
    dropped: int


class Gauges:
    """Reads every gauge until it is stopped."""

    def __init__(self, ports: Mapping[str, str], opener: Opener | None = None) -> None:
        """Check the names; nothing is opened before `start`.

        Args:
            ports: Kind of gauge to its port, such as ``{"gram scale": "/dev/ttyUSB0"}``.
            opener: Opens a port; a serial one by default.

        Raises:
            InputError: for a gauge of no known grammar, or when a port is asked for and pyserial is not installed.
        """
        self.grammars = {gauge: grammar_of(gauge) for gauge in ports}
        self.ports = dict(ports)
        self._open = opener or (serial_opener() if ports else _no_port)
        self._latest: dict[str, tuple[float, Line]] = {}
        self._stop = threading.Event()
        self._threads: list[threading.Thread] = []

    def start(self) -> None:
        """Begin to read."""
        self._stop.clear()
        self._threads = [threading.Thread(target=self._follow, args=(gauge,), daemon=True) for gauge in self.ports]
        for thread in self._threads:
            thread.start()

    def stop(self) -> None:
        """Stop reading."""
        self._stop.set()
        for thread in self._threads:
            thread.join(2)

    def shown(self) -> tuple[Shown, ...]:
        """Return what each gauge shows now; one that has fallen silent is not there."""
        now = time.monotonic()
        found = []
        for gauge, (heard, line) in sorted(self._latest.items()):
            if now - heard <= QUIET_S:
                grammar = self.grammars[gauge]
                found.append(
                    Shown(
                        gauge=gauge,
                        quantities=grammar.quantities,
                        kind=grammar.kind,
                        text=line.text,
                        stable=line.stable,
                        dropped=line.dropped,
                    )
                )
        return tuple(found)

    def _follow(self, gauge: str) -> None:
        while not self._stop.is_set():
            try:
                with closing(self._open(self.ports[gauge])) as source:
                    reader = LineReader(source, self.grammars[gauge])
                    while not self._stop.is_set():
                        line = reader.read()
                        if line is not None:
                            self._latest[gauge] = (time.monotonic(), line)
            except OSError:  # the plug was pulled, or the port is not there yet; pyserial's errors are of this kind
                self._stop.wait(AGAIN_S)


def ports_of(texts: Sequence[str]) -> dict[str, str]:
    """Read what was asked for, each as ``gram scale=/dev/ttyUSB0``.

    Raises:
        InputError: with every finding.
    """
    findings, ports = [], {}
    for text in texts:
        gauge, equals, port = (part.strip() for part in text.partition("="))
        if not (gauge and equals and port):
            mend = 'Write the gauge and its port, such as "gram scale=/dev/ttyUSB0".'
            findings.append(Finding(where="gauge", what=f'"{text}" names no gauge and port', mend=mend))
            continue
        try:
            grammar_of(gauge)
        except InputError as refused:
            findings += refused.findings
        if gauge in ports:
            findings.append(Finding(where="gauge", what=f'"{gauge}" is named twice', mend="Name each gauge once."))
        ports[gauge] = port
    if findings:
        raise InputError(findings)
    return ports


def serial_opener() -> Opener:
    """Return what opens a serial port.

    Raises:
        InputError: when pyserial is not installed.
    """
    try:
        serial = importlib.import_module("serial")
    except ModuleNotFoundError:
        mend = "Install it: pip install 'clubwright[serial]'."
        raise InputError([Finding(where="gauge", what="a gauge's cable needs pyserial", mend=mend)]) from None

    def opened(port: str) -> LineSource:
        source: LineSource = serial.Serial(port, baudrate=9600, timeout=1)
        return source

    return opened


def _no_port(port: str) -> LineSource:
    raise OSError(port)

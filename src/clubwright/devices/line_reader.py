"""Read a gauge line by line: torn lines are dropped and counted, and a figure is steady only after equal lines in a row."""

from __future__ import annotations

from typing import Protocol

import msgspec

from clubwright.devices.grammars import Grammar, read_line

END = b"\n"


class LineSource(Protocol):
    """Anything with lines: a serial port, a pseudo-terminal, a file of bytes."""

    def readline(self) -> bytes:
        """Return a line with its end; what came so far when waiting has taken too long; nothing when nothing came."""
        ...

    def close(self) -> None:
        """Let it go."""
        ...


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """What a gauge shows.

    Attributes:
        text: The figure in trade notation.
        stable: Whether it may be taken: the gauge does not say that it moves, and enough lines in a row were equal.
        dropped: How many lines were dropped so far: torn, or not of this gauge's grammar.
    """

    text: str
    stable: bool
    dropped: int


class LineReader:
    """Reads one gauge.

    The first line after opening is always dropped: nobody knows whether its beginning was heard. When a line comes in two
    pieces, both are dropped, since the second piece of "149.6 g" can read "9.6 g".
    """

    def __init__(self, source: LineSource, grammar: Grammar) -> None:
        self.source, self.grammar = source, grammar
        self.dropped = 0
        self._torn = True
        self._last = ""
        self._alike = 0

    def read(self) -> Line | None:
        """Wait for one line; None when nothing came that can be used."""
        heard = self.source.readline()
        if not heard:
            return None
        whole = heard.endswith(END)
        torn, self._torn = self._torn, not whole
        if torn or not whole:
            self._drop(counted=whole)
            return None
        try:
            figure = read_line(self.grammar, heard.decode("ascii").rstrip("\r\n"))
        except UnicodeDecodeError:
            figure = None
        if figure is None:
            self._drop(counted=True)
            return None
        self._alike = 1 if figure.moving or figure.text != self._last else self._alike + 1
        self._last = "" if figure.moving else figure.text
        return Line(
            text=figure.text, stable=not figure.moving and self._alike >= self.grammar.alike, dropped=self.dropped
        )

    def _drop(self, *, counted: bool) -> None:
        """Forget the run of equal lines; a line in pieces is counted once, at its end."""
        self.dropped += counted
        self._last, self._alike = "", 0

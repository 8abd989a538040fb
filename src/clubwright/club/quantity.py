"""One measured quantity of a club: everything that any part of the program has to know about it.

The quantities themselves are listed in `clubwright.club.quantities`; lists that other modules need are made there.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import msgspec

from clubwright.club.bounds import Bounds
from clubwright.club.build import Build
from clubwright.club.stages import PartName
from clubwright.errors import NotPossible
from clubwright.units import Number

Steered = Literal["weights", "bends", "tapes", "shaft"]
Offered = Literal["as it came", "dry"]


class UsualGauge(msgspec.Struct, frozen=True):
    """The gauge taken when a reading names none; its figures are estimates of ours, in the notation of a half-width.

    Attributes:
        resolution: Smallest step it shows.
        repeatability: Standard deviation of one reading.
        bias: Standard uncertainty of its constant error.
        name: Usual name of such a gauge on a ticket and of its line grammar (names of ours); empty where there is none.
    """

    resolution: str
    repeatability: str
    bias: str
    name: str = ""


class Asked(msgspec.Struct, frozen=True, kw_only=True):
    """How a ticket asks for it; the texts are those of the fields of [target], [tolerance] and [base].

    Attributes:
        meaning: What the target is, in one line.
        example: A target that is understood.
        half_width: Likewise a half-width.
        base: A figure that a relative target (``+1/4``, ``1/2 flat``) may be counted from; empty where none is.
        base_meaning: What that figure is.
        bounds: What a target can be and usually is, in SI; None where that goes by the kind of club, or by nothing.
        rank: Its place among the figures of a tag: what a player asks for first (a choice of ours).
    """

    meaning: str
    example: str
    half_width: str
    base: str = ""
    base_meaning: str = ""
    bounds: Bounds | None = None
    rank: int = 100


class Change(msgspec.Struct, frozen=True):
    """How a change of it is told where a cut, a trim, another head or another shaft is looked at.

    Attributes:
        size: The unit, in SI.
        unit: Its name.
        decimals: Decimals shown.
        rank: Its place among the quantities shown.
    """

    size: float
    unit: str
    decimals: int
    rank: int


class Quantity(msgspec.Struct, frozen=True, kw_only=True):
    """One measured quantity of a club.

    Attributes:
        key: Its name in tickets and answers.
        name: Its name in a sentence.
        short: Its name where room is scarce, such as a label; empty where `name` is short enough.
        symbol: For formulas and sheets.
        unit: SI unit of the answer (``pt`` for points above A0).
        kind: Kind of notation it is written in.
        shown: Kind of notation it is shown in; empty where that is `kind`.
        tolerance: The shop's default half-width, in trade notation, with its standing in `tolerance_source`.
        tolerance_kind: Kind of notation of the half-width.
        steered_by: What at the bench moves it.
        moved_by_weights: Whether a loose weight moves it all the same.
        read_by: What reads it, in words.
        gauge: The gauge taken when a reading names none.
        theory: Page with its derivation.
        function: Computes it from a build; None while the program cannot.
        equation: In one line, with the symbols of its page; empty sends the reader to the page.
        section: Heading of that page where it stands, as in the page's addresses.
        checks: Files of the tests that hold it against something outside.
        asked: How a ticket asks for it; None where no ticket can.
        always_shown: Whether every prediction of a club shows it where the ticket gives what it needs, ordered or not.
        told: How a change of it is told; None where no change of it is.
        parts: Parts that must be on the club for it to be read.
        needs: Figures of a ticket, table and key, without which it cannot be predicted; nobody measures that of the first
            one's part when it comes off.
        positive: Whether only a value above zero can be.
        of_inertia: Whether it rests on how far off the axis the mass lies.
        adds_up: Whether it is a sum over the parts: a gram at one place adds as much, however many there are.
        weighs: Whether reading it tells what the parts weigh, so that it is read again before weights are chosen.
        offered: Where it is offered to be read whatever is ordered, with its place there.
    """

    key: str
    name: str
    symbol: str
    unit: str
    kind: str
    tolerance: str
    tolerance_kind: str
    tolerance_source: str = "estimate of ours for a careful custom shop; replace with the shop's own"
    steered_by: Steered
    read_by: str
    gauge: UsualGauge
    theory: str
    function: Callable[[Build], Number] | None
    short: str = ""
    shown: str = ""
    asked: Asked | None = None
    always_shown: bool = False
    told: Change | None = None
    parts: frozenset[PartName] = frozenset()
    needs: tuple[tuple[str, str], ...] = ()
    positive: bool = False
    of_inertia: bool = False
    adds_up: bool = False
    weighs: bool = False
    moved_by_weights: bool = False
    offered: dict[Offered, int] = {}
    equation: str = ""
    section: str = ""
    checks: tuple[str, ...] = ()

    @property
    def shown_kind(self) -> str:
        """Kind of notation it is shown in."""
        return self.shown or self.kind

    @property
    def weights_move_it(self) -> bool:
        """True where a loose weight moves it, whether it is for that or not."""
        return self.steered_by == "weights" or self.moved_by_weights

    def of(self, build: Build) -> Number:
        """Compute it for a build, in SI.

        Raises:
            NotPossible: for a quantity that this version cannot compute.
        """
        if self.function is None:
            raise NotPossible(f"{self.name} is not computed by this version", "Leave it out of the ticket for now.")
        return self.function(build)

"""What stands behind a number: its equation, the theory page with its derivation, its source, and the tests that check it.

A quantity says it in the register of quantities; what else is shown says it here. Keys, pages, headings, functions and
tests are compared with what there is in tests/architecture/test_why_register.py.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from typing import Any

import msgspec

from clubwright.belief.instruments import Instrument
from clubwright.belief.probability import box_probability
from clubwright.belief.update import learn
from clubwright.club.cut import shaft_length_m
from clubwright.club.quantities import QUANTITIES
from clubwright.club.quantity import Quantity
from clubwright.conformity.decision import verdict
from clubwright.conformity.risk import specific_consumer_risk
from clubwright.planning.advice.weights import choices
from clubwright.services.told.base import Told

Wanted = tuple[tuple[str, str], ...]
"""Figures of the ticket: table and key. An empty key stands for all rows of that table."""


class Formula(msgspec.Struct, frozen=True, kw_only=True):
    """One equation behind a number.

    Attributes:
        name: What it gives.
        equation: In one line, with the symbols of its page.
        page: Its theory page.
        section: Heading there, as in the page's addresses.
        function: Computes it.
        checks: Files of the tests that hold it against something outside.
        inputs: Figures of the ticket that it takes.
    """

    name: str
    equation: str
    page: str
    section: str
    function: Callable[..., Any]
    checks: tuple[str, ...]
    inputs: Wanted = ()


class WhyFormula(Told, frozen=True, kw_only=True):
    """A formula as data: what it says, and where it, its source and its tests are read.

    Attributes:
        name: What it gives.
        equation: It, written out.
        page, section: Where its derivation is read: page of the theory, and heading on it.
        source: File of the package, from its root.
        line: Where the function begins in it.
        function: Its full name.
        checks: Tests that hold it against something else.
    """

    name: str
    equation: str
    page: str
    section: str
    source: str
    line: int
    function: str
    checks: tuple[str, ...]


def shown(formula: Formula) -> WhyFormula:
    """Return a formula with the place of its function."""
    _, line = inspect.getsourcelines(formula.function)
    module = formula.function.__module__
    return WhyFormula(
        name=formula.name,
        equation=formula.equation,
        page=formula.page,
        section=formula.section,
        source=module.replace(".", "/") + ".py",
        line=line,
        function=f"{module}.{formula.function.__qualname__}",
        checks=formula.checks,
    )


def formula_of(quantity: Quantity) -> Formula:
    """Return the formula of a quantity; one that its entry does not say leads to its page."""
    return Formula(
        name=quantity.name,
        equation=quantity.equation or f"{quantity.symbol}: see its page",
        page=quantity.theory,
        section=quantity.section,
        function=quantity.function or Quantity.of,
        checks=quantity.checks,
    )


def quantity_formula(key: str) -> Formula:
    """Return the formula of the quantity of that key."""
    return formula_of(QUANTITIES[key])


OUTSIDE = "tests/published"
"""Folder of the tests that compare with something outside."""


def outside(*names: str) -> tuple[str, ...]:
    """Return the files of outside checks of these names."""
    return tuple(f"{OUTSIDE}/test_published_{name}.py" for name in names)


LEARNT = Formula(
    name="what is believed after the readings",
    equation="x = mu + K (z - h(x) - H (mu - x)), K = P H' S^-1, S = H P H' + R",
    page="belief.md",
    section="taking-readings-in",
    function=learn,
    checks=outside("belief", "nist", "budget"),
)
CHANCE = Formula(
    name="chance of ending in spec",
    equation="chance = Phi((target + tolerance - mean) / sd) - Phi((target - tolerance - mean) / sd)",
    page="advice.md",
    section="the-chance",
    function=box_probability,
    checks=outside("belief", "advice"),
)
BOX = Formula(
    name="chance that every target it moves ends in spec",
    equation="chance = integral of N(m, C) over the box target +- tolerance, C the targets' joint covariance",
    page="advice.md",
    section="the-chance",
    function=box_probability,
    checks=outside("belief", "advice"),
)
RANK = Formula(
    name="which comes first",
    equation="by chance to a whole percent, then by distance from the middle of the windows, then by fewer pieces",
    page="advice.md",
    section="weights",
    function=choices,
    checks=outside("advice"),
)
GAUGE = Formula(
    name="standard uncertainty of the mean of n readings",
    equation="u^2 = shared^2 + own^2 / n + bias^2",
    page="belief.md",
    section="a-gauge",
    function=Instrument.uncertainty,
    checks=outside("rounding", "gum"),
)
VERDICT = Formula(
    name="in spec, out of spec or cannot tell",
    equation="m = tolerance - |read - target|; in spec: m >= k u; out of spec: m <= -k u; else cannot tell",
    page="conformity.md",
    section="three-answers",
    function=verdict,
    checks=outside("jcgm106", "bench_figures"),
)
RISK = Formula(
    name="chance that it is out of spec all the same",
    equation="risk = Phi((low - y) / u) + Phi((y - high) / u)",
    page="conformity.md",
    section="the-rules-and-the-risk-they-carry",
    function=specific_consumer_risk,
    checks=outside("jcgm106"),
)
CUT = Formula(
    name="where to cut the shaft",
    equation="S = target length - bore to ground - lift - cap (target along the axis; on the 60 degree plane less D)",
    page="length.md",
    section="the-head-against-the-plane",
    function=shaft_length_m,
    checks=outside("length", "bench_examples", "bench_figures"),
    inputs=(
        ("target", "length"),
        ("head", "bore_to_ground"),
        ("head", "lie"),
        ("grip", "cap"),
        ("shaft", "raw_length"),
        ("shaft", "tip_trim"),
        ("shop", "kerf"),
    ),
)
EVERY: tuple[Formula, ...] = (LEARNT, CHANCE, BOX, RANK, GAUGE, VERDICT, RISK, CUT)
"""Formulas that more than one number, or a number of no step, leads to."""

"""Which equation gives the figure that stands beside a label of a card; none where it is the ticket's own, as typed."""

from __future__ import annotations

from clubwright.planning.said.phrases import Phrase, Value
from clubwright.services.why.formulas.formulas import CUT, RANK, Formula, quantity_formula
from clubwright.services.why.formulas.joint import BATCH, FILLED, FIT, RATIO, RELEASE, SMALLEST, STRENGTH
from clubwright.services.why.formulas.steps import BEND, DIAMETER, LAYERS, LIMIT, MISS, TRIMMED, WITHOUT

_SWING, _TOTAL = quantity_formula("swing_weight"), quantity_formula("total_weight")

LABELS: dict[str, Formula] = {
    "label.part A": RATIO,
    "label.part B": RATIO,
    "label.both": RATIO,
    "label.ratio by weight": RATIO,
    "label.joints need": BATCH,
    "label.smallest batch": SMALLEST,
    "label.release after": RELEASE,
    "label.release from": RELEASE,
    "label.that is after": RELEASE,
    "label.colder row": RELEASE,
    "label.bond area": STRENGTH,
    "label.pull of the head": STRENGTH,
    "label.pull that meets": STRENGTH,
    "label.reserve": STRENGTH,
    "label.bond line": FIT,
    "label.bond line verdict": FIT,
    "label.clearance": FIT,
    "label.tip in bore": FIT,
    "label.least from": FIT,
    "label.most from": FIT,
    "label.fills": FILLED,
    "label.lie does": MISS,
    "label.as it stands": BEND,
    "label.bend the": BEND,
    "label.limit": LIMIT,
    "label.left": TRIMMED,
    "label.trim frequency": quantity_formula("frequency"),
    "label.R": CUT,
    "label.glued length": CUT,
    "label.glued length from the tip": CUT,
    "label.mark along": CUT,
    "label.mark along fitted": CUT,
    "label.mark from the tip": CUT,
    "label.mark from the ground": CUT,
    "label.mark lifted": CUT,
    "label.offcut": CUT,
    "label.too short": CUT,
    "label.all tape": WITHOUT,
    "label.tape": WITHOUT,
    "label.grip and tape": WITHOUT,
    "label.cap fulcrum": WITHOUT,
    "label.too high": WITHOUT,
    "label.layers": LAYERS,
    "label.one layer": LAYERS,
    "label.diameter with layers": DIAMETER,
    "label.best": RANK,
    "label.alternative": RANK,
    "label.at the head": _SWING,
    "label.adhesive to come": _SWING,
    "label.heavier grip": _SWING,
    "label.new grip moves": _SWING,
    "label.and total": _TOTAL,
}
"""Of every label with a computed figure, the equation that gives it."""

TYPED: frozenset[str] = frozenset(
    f"label.{name}"
    for name in (
        "bond line allowed",
        "bore",
        "bore depth",
        "bore to ground",
        "bore to ground assumed",
        "butt",
        "butt at 2 in",
        "butt at 6 in",
        "cabinet",
        "cap off",
        "checked",
        "club",
        "core",
        "ferrule length",
        "fitted now",
        "free length",
        "grip",
        "grip core",
        "hand",
        "hand of the head",
        "hand ordered",
        "head",
        "joint tip",
        "kerf",
        "loft ordered",
        "logo",
        "lower edge",
        "metal",
        "off before",
        "off the tip",
        "ordered",
        "player",
        "pot life",
        "product",
        "promised",
        "ratio",
        "raw length",
        "read",
        "setting",
        "shaft",
        "shim",
        "T",
        "table row",
        "ticket",
        "tip",
        "torque",
        "under the tip",
        "weight",
        "weights on it",
    )
)
"""Labels whose figure or word is as typed on the ticket, measured, or a default of the program with its own standing."""


def formula_for(label: Value) -> Formula | None:
    """Return the equation that gives the figure beside a label; None where it is as typed."""
    return LABELS.get(label.key) if isinstance(label, Phrase) else None

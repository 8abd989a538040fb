"""What an action of the advice is about, by its kind: plain numbers in SI, to be said in `clubwright.words`."""

from __future__ import annotations

from typing import Literal

import msgspec

from clubwright.errors import Finding

LeverKind = Literal["grip", "counterweight", "length", "lead tape", "powder", "port"]
"""What a shop can turn beside its tray: another grip, a weight under the cap, the length within its tolerance, lead tape on
the head, powder in the tip, the other port."""

AdviceKind = Literal["fit", "leave", "read", "pull", "head", "trim", "bend", "tape"] | LeverKind
"""Fit weights, or leave them; read again first; pull the head; take another head; trim the tip; bend; tape;
a lever."""

Finished = dict[str, tuple[float, float]]
"""What the finished club would read, quantity to (mean, sd) in SI."""


class Weights(msgspec.Struct, frozen=True, kw_only=True, tag="weights"):
    """A set of weights (kinds ``fit`` and ``leave``).

    Attributes:
        moves: What the finished club would read for the targets that the weights move.
        taken_out: Whether weights that are on come out, and none goes in.
        equal: Other sets that put the same grams at the same places, by the names of their pieces, fewest pieces first.
        looked: Up to how many pieces sets were looked at, where larger ones might be better; else 0.
        left_out: Where sets that were not looked at might be better, what none of them can exceed; else 0.
    """

    moves: Finished
    taken_out: bool = False
    equal: tuple[tuple[str, ...], ...] = ()
    looked: int = 0
    left_out: float = 0.0


class Reading(msgspec.Struct, frozen=True, kw_only=True, tag="reading"):
    """One more reading: of what, at which stage of the build, and the best chance without it."""

    quantity: str
    stage: str
    best_now: float


class Head(msgspec.Struct, frozen=True, kw_only=True, tag="head"):
    """Another head: its mass, how much more than this one's, and the best chance with this one."""

    mass_kg: float
    change_kg: float
    best_now: float


class Lever(msgspec.Struct, frozen=True, kw_only=True, tag="lever"):
    """What reaches the targets where no set of weights does.

    Attributes:
        kind: Which lever.
        amount: What is wanted of it: mass of the grip, of the counterweight, of the tape, of the powder, in kg; length of
            the club, in m; of a port its place from the ground point, in m.
        change: How much that is more than now.
        length_m: Length of the tape, where the shop says what it weighs by length; length of the cut shaft.
        place_m: Where it sits, as a weight of that seat has it.
        moved: Name of the weight that goes into the other port.
        weights: Names of the weights of the tray that go with it, a name for each piece.
        best_now: The best chance of all without it.
    """

    kind: LeverKind
    amount: float
    change: float
    length_m: float | None = None
    place_m: float | None = None
    moved: str = ""
    weights: tuple[str, ...] = ()
    best_now: float = 0.0


class Pull(msgspec.Struct, frozen=True, kw_only=True, tag="pull"):
    """The head comes off a closed joint, and goes on anew.

    Attributes:
        weights: Names of the weights that go on then, a name for each piece.
        best_now: The best chance with the joint as it is.
        hands_on_s: Usual time of all that is to do again, hands at work, s; the cure is not in it.
        steps: What is to do again, by the keys of the plan.
        shaft_material, head_metal: What the cautions about heat depend on; None where nobody said it.
    """

    weights: tuple[str, ...]
    best_now: float
    hands_on_s: float
    steps: tuple[str, ...]
    shaft_material: str | None
    head_metal: str | None


class Trim(msgspec.Struct, frozen=True, kw_only=True, tag="trim"):
    """A tip trim.

    Attributes:
        tip_trim_m: Off the tip in all.
        more: Whether that is more than the ticket's.
        weights: Names of the weights that suit it, a name for each piece.
    """

    tip_trim_m: float
    more: bool
    weights: tuple[str, ...]


class Bends(msgspec.Struct, frozen=True, kw_only=True, tag="bends"):
    """Bends, none where no angle is off.

    Attributes:
        bends: Angle and amount of each, weak and upright positive.
        refused: Why nothing may be bent, and what to do instead.
        angles: The angles that are said, where they end.
        length_change_m: What they do to the length of a shaft that is not cut again.
        points_change: And to the swing weight.
    """

    bends: tuple[tuple[str, float], ...]
    refused: tuple[Finding, ...]
    angles: tuple[str, ...]
    length_change_m: float
    points_change: float


class TapeForecast(msgspec.Struct, frozen=True, kw_only=True, tag="forecast"):
    """The diameter at one place of the grip with some layers, and what the two models say of it."""

    diameter_m: float
    additive_m: float
    constant_volume_m: float


class Tape(msgspec.Struct, frozen=True, kw_only=True, tag="tape"):
    """Layers of build-up tape; whether they are those on the ticket, and what the grip would measure."""

    full_layers: int
    lower_hand_layers: int
    is_laid: bool
    forecasts: tuple[TapeForecast, ...]


AdviceData = Weights | Reading | Pull | Head | Lever | Trim | Bends | Tape


class Action(msgspec.Struct, frozen=True, kw_only=True):
    """One action.

    Attributes:
        kind: What it is.
        data: What it is about.
        chance: Chance that the targets it moves end within tolerance.
        finished: What the finished club would read.
        irreversible: Whether it cannot be taken back.
        weights: Names of the weights on the club after it, a name for each piece.
    """

    kind: AdviceKind
    data: AdviceData
    chance: float
    finished: Finished
    irreversible: bool = False
    weights: tuple[str, ...] = ()

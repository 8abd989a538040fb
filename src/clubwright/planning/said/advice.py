"""An action of the advice as phrases: what to do, and why."""

from __future__ import annotations

from clubwright.planning.said.actions import Action, Bends, Finished, Head, Lever, Pull, Reading, Tape, Trim, Weights
from clubwright.planning.said.bends import bend_amount
from clubwright.planning.said.phrases import (
    Amount,
    Listed,
    Phrase,
    Value,
    Word,
    at_mark,
    length,
    phrase,
    pieces,
    quantity,
    reads,
)

LEAST_LENGTH_M = 5e-5
LEAST_POINTS = 0.05
"""Changes below these are not said: no rule and no scale shows them (estimates of ours)."""


def advice_phrases(item: Action) -> tuple[Phrase, Value]:
    """Return what an action does, and why, as data."""
    match item.data:
        case Weights() as data:
            return _weights_do(item.kind, data, item.weights), _weights_why(data)
        case Reading() as data:
            why = phrase("advice.read why", chance=_chance(item.chance), now=_chance(data.best_now))
            return phrase("advice.read", what=quantity(data.quantity), stage=Word("stage", data.stage)), why
        case Pull() as data:
            return _pull_do(data), _pull_why(data)
        case Lever() as data:
            return _lever_do(data), phrase(
                "advice.lever why", figures=_figures(item.finished), now=_chance(data.best_now)
            )
        case Head() as data:
            key = "advice.head heavier" if data.change_kg > 0 else "advice.head lighter"
            why = phrase(key, change=Amount("mass", abs(data.change_kg)), now=_chance(data.best_now))
            return phrase("advice.head", mass=Amount("mass", data.mass_kg)), why
        case Trim() as data:
            return trim_phrase(data.tip_trim_m), _trim_why(item, data)
        case Bends() as data:
            return _bends_do(data), _bends_why(item, data)
        case Tape() as data:
            return _tape_do(data), _tape_why(data)


def trim_phrase(tip_trim_m: float) -> Phrase:
    """Return a tip trim as data: how much comes off, or that nothing does."""
    off = length(tip_trim_m) if tip_trim_m > 0 else phrase("nothing")
    return phrase("advice.trim", off=off)


def trim_figures(finished: Finished) -> Listed:
    """Return what the club finished with a trim would read, of what a trim is for and what it takes along."""
    return Listed(tuple(reads(key, *finished[key]) for key in ("frequency", "swing_weight")))


def _chance(chance: float) -> Amount:
    return Amount("number", chance, form="percent")


def _weights_do(kind: str, data: Weights, weights: tuple[str, ...]) -> Phrase:
    if kind == "leave":
        return phrase("advice.leave")
    if not weights:
        return phrase("advice.take out" if data.taken_out else "advice.fit nothing")
    if data.equal:
        others = Listed(tuple(pieces(names) for names in data.equal), "or")
        return phrase("advice.fit or", weights=pieces(weights), others=others)
    return phrase("advice.fit", weights=pieces(weights))


def _weights_why(data: Weights) -> Phrase:
    if not data.moves:
        return phrase("advice.no target")
    if data.left_out:
        most = _chance(data.left_out)
        if data.looked:
            return phrase("advice.finished of few", figures=figures_of(data), count=data.looked, most=most)
        return phrase("advice.finished of likeliest", figures=figures_of(data), most=most)
    return phrase("advice.finished", figures=figures_of(data))


def figures_of(data: Weights) -> Listed:
    """Return what the finished club would read with a set of weights."""
    return _figures(data.moves)


def _figures(finished: Finished) -> Listed:
    return Listed(tuple(reads(key, *figure) for key, figure in finished.items()))


def _lever_do(data: Lever) -> Phrase:
    weights = phrase("advice.and fit", weights=pieces(data.weights)) if data.weights else ""
    match data.kind:
        case "length":
            key = "advice.longer club" if data.change > 0 else "advice.shorter club"
            change, amount = length(abs(data.change)), length(data.amount)
            return phrase(key, change=change, length=amount, weights=weights)
        case "port":
            return phrase("advice.other port", moved=data.moved, place=length(data.amount), weights=weights)
        case "lead tape" if data.length_m is not None:
            tape = at_mark(data.length_m)
            return phrase("advice.tape by length", mass=Amount("mass", data.amount), length=tape, weights=weights)
        case _:
            return phrase(f"advice.{data.kind}", mass=Amount("mass", data.amount), weights=weights)


def _pull_do(data: Pull) -> Phrase:
    weights = pieces(data.weights) if data.weights else phrase("no weight")
    return phrase("advice.pull", weights=weights)


def _pull_why(data: Pull) -> Phrase:
    time = Amount("duration", data.hands_on_s, form="whole minutes")
    return phrase("advice.pull why", now=_chance(data.best_now), time=time)


def _trim_why(item: Action, data: Trim) -> Phrase:
    told = trim_figures(item.finished)
    weights = Listed(data.weights, "plus") if data.weights else phrase("no weight")
    return phrase("advice.trim more" if data.more else "advice.trim less", weights=weights, figures=told)


def _bends_do(data: Bends) -> Phrase:
    if data.refused:
        return phrase("advice.no bend")
    if not data.bends:
        return phrase("advice.leave angles")
    bends = tuple(
        phrase("advice.one bend", angle=quantity(angle), amount=bend_amount(angle, amount))
        for angle, amount in data.bends
    )
    return phrase("advice.bend", bends=Listed(bends, "then"))


def _bends_why(item: Action, data: Bends) -> Value:
    if data.refused:
        return Listed(tuple(f"{finding.what}. {finding.mend}" for finding in data.refused), "semicolon")
    if not data.bends:
        return phrase("advice.no angle off")
    moved: list[Value] = [
        phrase("angle ends", angle=quantity(key), amount=Amount("angle", item.finished[key][0])) for key in data.angles
    ]
    if abs(data.length_change_m) > LEAST_LENGTH_M:
        longer = data.length_change_m > 0
        moved.append(phrase("advice.longer" if longer else "advice.shorter", amount=length(abs(data.length_change_m))))
    if abs(data.points_change) >= LEAST_POINTS:
        points = Amount("points", data.points_change, form="tenths of points")
        moved.append(phrase("advice.points", amount=points))
    return phrase("advice.bend why", moved=Listed(tuple(moved)))


def _tape_do(data: Tape) -> Phrase:
    if data.is_laid:
        return phrase("advice.leave tape")
    lower = phrase("advice.lower hand", count=data.lower_hand_layers) if data.lower_hand_layers else ""
    return phrase("advice.tape", count=data.full_layers, lower=lower)


def _tape_why(data: Tape) -> Listed:
    return Listed(
        tuple(
            phrase(
                "advice.forecast",
                diameter=Amount("diameter", item.diameter_m),
                additive=Amount("diameter", item.additive_m),
                volume=Amount("diameter", item.constant_volume_m),
            )
            for item in data.forecasts
        ),
        "semicolon",
    )

"""A reading that does not fit in words: how far off it is, what could have gone wrong, and how a person decides."""

from __future__ import annotations

from clubwright.club.part_paths import TAPES
from clubwright.errors import Finding
from clubwright.notation import UnitsShown
from clubwright.planning.misfits import Misfit, MisfitCause, ReadingSaid, notation_of
from clubwright.planning.said.phrases import Amount, Listed, Phrase, Value, Word, phrase
from clubwright.ticket.part_paths import place_of
from clubwright.words.say import say


def say_reading(reading: ReadingSaid, style: UnitsShown | None) -> str:
    """Say a reading: ``total weight 477.2 g (finished)``."""
    return say(_reading(reading), style)


def say_off(misfit: Misfit, style: UnitsShown | None) -> str:
    """Say how far off a reading is."""
    return say(_off(misfit), style)


def say_causes(misfit: Misfit, style: UnitsShown | None) -> tuple[str, ...]:
    """Say what could have gone wrong, likeliest first."""
    return tuple(say(_cause(cause), style) for cause in misfit.causes)


def misfit_finding(misfit: Misfit, style: UnitsShown | None) -> Finding:
    """Return the finding about a reading that is kept aside; a note where somebody decided to leave it out."""
    if misfit.left_out:
        what = say(phrase("misfit.left out", off=_off(misfit)), style)
        return Finding(where=misfit.where, what=what, mend=say(phrase("misfit.decided"), style), severity="note")
    ranked = Listed(tuple(_cause(cause) for cause in misfit.causes), "or")
    what = say(phrase("misfit.aside", off=_off(misfit), causes=ranked), style)
    mend = phrase("misfit.decide", way=_choice(misfit))
    return Finding(where=misfit.where, what=what, mend=say(mend, style), severity="warning")


def _choice(misfit: Misfit) -> Phrase:
    """How a person decides: by a command where the reading is a fact of the record, else in the ticket file."""
    if misfit.fact is None:
        return phrase("misfit.in the file")
    return phrase("misfit.by command", job=misfit.job, fact=misfit.fact)


def _reading(reading: ReadingSaid) -> Phrase:
    what, stage = Word("read", reading.quantity), Word("stage", reading.stage)
    return phrase("reading", what=what, typed=reading.typed, stage=stage)


def _off(misfit: Misfit) -> Phrase:
    beside: Value = ""
    if misfit.beside is not None:
        there = misfit.beside
        beside = phrase("misfit.beside", where=str(there.where), typed=there.typed, gauge=there.gauge)
    return phrase(
        "misfit.off",
        seen=Amount(misfit.notation, misfit.value),
        expected=Amount(misfit.notation, misfit.expected, misfit.expected_sd),
        deviations=Amount("number", abs(misfit.off_by_sd), form="tenths"),
        beside=beside,
    )


def _cause(cause: MisfitCause) -> Phrase:
    one = _one(cause)
    return one if cause.also is None else phrase("cause.both", one=one, other=_one(cause.also))


def _one(cause: MisfitCause) -> Phrase:
    reading: Value = "" if cause.reading is None else _reading(cause.reading)
    match cause.kind:
        case "stage":
            key = "cause.stages" if cause.several else "cause.other stage" if reading else "cause.stage"
            return phrase(key, stage=Word("stage", cause.detail), reading=reading)
        case "weights":
            key = "cause.weights of all" if cause.several else "cause.other weights" if reading else "cause.weights"
            return phrase(key, weights=cause.detail or phrase("no weight"), reading=reading)
        case "to the butt":
            key = "cause.other to the butt" if reading and not cause.several else "cause.to the butt"
            return phrase(key, reading=reading)
        case "letter":
            letter = "cause.letter less" if cause.change > 0 else "cause.letter more"
            return phrase("cause.other letter", reading=reading, cause=phrase(letter)) if reading else phrase(letter)
        case "another reading":
            return phrase("cause.earlier", reading=reading)
        case "reading" | "gauge":
            key = "cause.gauge always" if cause.kind == "gauge" else "cause.gauge"
            return phrase(key, gauge=cause.detail)
        case "scale":
            key = "cause.scale more" if cause.change > 0 else "cause.scale less"
            return phrase(key, size=Amount("mass", abs(cause.change)))
        case "layer":
            key = "cause.layers more" if cause.change > 0 else "cause.layers less"
            return phrase(key, name=cause.name or Word("part", TAPES), count=round(abs(cause.change)))
        case "typed":
            entered, meant = Amount("mass", cause.stands), Amount("mass", cause.stands + cause.change)
            return phrase("cause.typed", part=Word("part", place_of(cause.path).part), entered=entered, meant=meant)
    return _part(cause)


_OWN_WORDS = ("mass_kg", "cap_m", "length_m")
"""Numbers of a part that have words of their own for more and less."""

_FIGURES = (
    "loft_rad",
    "lie_rad",
    "bounce_rad",
    "cg_from_ground_m",
    "bore_to_ground_m",
    "balance_from_tip_m",
    "cg_from_cap_m",
    "butt_diameter_m",
)
"""Numbers of a part that are called by a name."""


def _part(cause: MisfitCause) -> Phrase:
    found = place_of(cause.path)
    number = found.field.number or ""
    size, side = Amount(notation_of(cause.path), abs(cause.change)), "more" if cause.change > 0 else "less"
    part: Value = Word("part", found.part)
    if cause.name:
        part = phrase("weight of the tray", name=cause.name)
    elif found.then is not None:
        part = phrase("part before change", part=part, change=found.then + 1)
    if number in _FIGURES:
        return phrase(f"cause.figure {side}", figure=Word("figure", number), part=part, size=size)
    key = number if number in _OWN_WORDS else "other"
    said = phrase(f"cause.{key} {side}", part=part, size=size)
    if key == "other":
        said = phrase(f"cause.{key} {side}", part=part, size=size, meaning=Word("meaning", cause.path))
    if cause.path == "grip.mass_kg":
        return phrase("cause.another core" if cause.has_core else "cause.another grip", cause=said)
    return said

"""Readings and gauges of a ticket: their texts are understood by the quantity they are of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from functools import lru_cache
from typing import Any

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import SAID_SHORT, STAGES
from clubwright.errors import DocumentPlace, Finding
from clubwright.notation import Collector
from clubwright.state.gauge import Gauge, ReadingEntry
from clubwright.state.particulars import Entry
from clubwright.ticket.fields.fields import INSTRUMENT, METER_FIELDS
from clubwright.ticket.part_readings import part_kind
from clubwright.ticket.rows.rows import Row

HELD = {field.key: field for field in METER_FIELDS}
"""How a frequency is read, by key."""

_OF_A_FREQUENCY = {"second_plane": "has a second plane", **dict.fromkeys(HELD, "is read in a clamp")}
_CALLED = {"instrument": "gauge", "before": "change of the club"}
MOST_DIGITS = 18
"""Of the number of a fact."""

_KINDS_TRIED = ("points", "mass", "length", "angle", "moi", "frequency", "duration", "number")


class RawInstruments(msgspec.Struct, frozen=True, kw_only=True):
    """Gauges as typed; a gauge's figures are in the notation of what it reads, so they wait for the readings."""

    texts: dict[str, dict[str, str]]
    source: str

    def understood(
        self, readings: Sequence[ReadingEntry], notes: Collector, measured: Mapping[str, set[str]] | None = None
    ) -> dict[str, Gauge]:
        """Parse every gauge by what it reads; a gauge that read nothing by whatever notation fits.

        Args:
            readings: Of the ticket.
            notes: Gathers the findings.
            measured: The kinds of figures of parts that each gauge measured, by its name.
        """
        found: dict[str, Gauge] = {}
        for name, texts in self.texts.items():
            kinds = {half_width_kind(reading.quantity) for reading in readings if reading.instrument == name}
            kinds |= (measured or {}).get(name, set())
            if kinds == {"length", "diameter"}:
                kinds = {"diameter"}  # a length all the same, as a caliper measures both
            place = DocumentPlace(f"{INSTRUMENT.name}.{name}", source=self.source)
            if len(kinds) > 1:
                what = "this gauge reads quantities of different kinds: " + ", ".join(sorted(kinds))
                notes.findings.append(Finding(where=place, what=what, mend="Give each kind of reading its own gauge."))
                continue
            own = {key: text for key, text in texts.items() if key not in HELD}
            kind = kinds.pop() if kinds else _fitting_kind(tuple(own.values()))
            figures, held = {}, _held(texts, place, notes)
            for key, text in own.items():
                entry = notes.take_difference(kind, text, where=place.at(key))
                if entry is not None and entry.value < 0:
                    what = f'"{text}" is negative'
                    notes.findings.append(Finding(where=place.at(key), what=what, mend="Write the size of the figure."))
                elif entry is not None:
                    figures[key] = entry.value
            if len(figures) == len(own):
                if figures.get("repeatability", 0.0) == 0.0 and figures.get("resolution", 0.0) == 0.0:
                    what = "neither resolution nor repeatability is given, so its readings would count as perfect"
                    notes.findings.append(Finding(where=place, what=what, mend="Add the smallest step it shows."))
                found[name] = Gauge(
                    name=name,
                    resolution=figures.get("resolution", 0.0),
                    repeatability=figures.get("repeatability", 0.0),
                    bias=figures.get("bias", 0.0),
                    typed=texts,
                    held=held,
                )
        return found


def _held(texts: Mapping[str, str], place: DocumentPlace, notes: Collector) -> dict[str, Entry]:
    """Understand how a frequency meter holds a club."""
    found = {}
    for key, text in texts.items():
        read = notes.take(HELD[key].kind, text, where=place.at(key)) if key in HELD else None
        if read is not None:
            found[key] = Entry(where=place.at(key), typed=text, value=read.value, sd=read.sd, echo=read.echo)
    return found


def half_width_kind(quantity: str) -> str:
    """Kind of notation of differences of a quantity: ``points`` for swing weight, ``angle`` for loft."""
    if quantity in QUANTITIES:
        return QUANTITIES[quantity].tolerance_kind
    kind = part_kind(quantity)
    return {"grip_core": "diameter"}.get(kind or "", kind or "number")


def read_instruments(document: Mapping[str, Any], source: str, notes: Collector) -> RawInstruments:
    """Collect the gauges' texts."""
    content = document.get("instrument", {})
    texts: dict[str, dict[str, str]] = {}
    known = [field.key for field in INSTRUMENT.fields]
    if not isinstance(content, Mapping):
        what, mend = "gauges are tables by name", "Write [instrument.NAME] for each."
        notes.findings.append(Finding(where=DocumentPlace(INSTRUMENT.name, source=source), what=what, mend=mend))
        return RawInstruments(texts={}, source=source)
    for name, table in content.items():
        place = DocumentPlace(f"{INSTRUMENT.name}.{name}", source=source)
        if not isinstance(table, Mapping):
            mend = f"Write [instrument.{name}] and its keys."
            notes.findings.append(Finding(where=place, what="a gauge is a table of keys and strings", mend=mend))
            continue
        if not name.strip() or not table:
            mend = "Name it, and write at least the smallest step it shows."
            notes.findings.append(Finding(where=place, what="a gauge needs a name and its figures", mend=mend))
        texts[name] = {}
        for key, text in table.items():
            if key not in known or not isinstance(text, str):
                mend = "Keys are " + ", ".join(known) + "; values are strings."
                notes.findings.append(Finding(where=place.at(key), what=f"{text!r} cannot be used here", mend=mend))
            else:
                texts[name][key] = text
    return RawInstruments(texts=texts, source=source)


def read_readings(
    rows: Sequence[Row],
    weights: Sequence[str],
    instruments: RawInstruments,
    notes: Collector,
    changes: Sequence[str] = (),
) -> tuple[ReadingEntry, ...]:
    """Understand each reading's value by its quantity, and check the names it uses: of weights, gauges and changes."""
    found = [_reading(row, weights, instruments, notes, changes) for row in rows]
    return tuple(reading for reading in found if reading is not None)


def _reading(
    row: Row, weights: Sequence[str], instruments: RawInstruments, notes: Collector, changes: Sequence[str]
) -> ReadingEntry | None:
    def complain(key: str, what: str, mend: str) -> None:
        notes.findings.append(Finding(where=row.where.at(key), what=what, mend=mend))

    noted = len(notes.findings)
    quantity = row.words.get("quantity", "")
    kind = QUANTITIES[quantity].kind if quantity in QUANTITIES else part_kind(quantity)
    if quantity and (kind is None or (quantity in QUANTITIES and QUANTITIES[quantity].function is None)):
        readable = [key for key, entry in QUANTITIES.items() if entry.function is not None]
        complain("quantity", f'"{quantity}" cannot be read', _near(quantity, [*readable, "head.mass", "grip.mass"]))
    stage = row.words.get("stage", "finished")
    if stage not in STAGES:
        meant = [f'"{each.name}"' for each in SAID_SHORT.get(stage.lower().strip(" ,"), ())]
        mend = f"Write {' or '.join(meant)}." if meant else "Stages: " + ", ".join(STAGES) + "."
        complain("stage", f'"{stage}" leaves open which' if len(meant) > 1 else f'no stage is called "{stage}"', mend)
    names = tuple(filter(None, row.names))
    for name in names:
        if name not in weights:
            complain("weights", f'no weight in the tray is called "{name}"', _near(name, list(weights)))
    for key, text, mend in _unknown_names(row, {"instrument": list(instruments.texts), "before": list(changes)}):
        complain(key, text, mend)
    repeats = row.count("repeats", 1)
    if repeats < 1:
        complain("repeats", "a reading is the mean of at least one", "Write how often it was read.")
    for key in _OF_A_FREQUENCY.keys() & row.numbers.keys() if quantity != "frequency" else ():
        complain(key, f"only a frequency {_OF_A_FREQUENCY[key]}", "Leave it out.")
    value = None
    if kind is not None and "value" in row.words:
        text = row.words["value"]
        understood = notes.take(kind, text, where=row.where.at("value"))
        if understood is not None:
            value = Entry(
                where=row.where.at("value"),
                typed=text,
                value=understood.value,
                sd=understood.sd,
                echo=understood.echo,
            )
    if value is None or len(notes.findings) > noted:
        return None
    fact = row.words.get("fact", "")
    return ReadingEntry(
        where=row.where,
        quantity=quantity,
        entry=value,
        stage=stage,
        weights=names,
        instrument=row.words.get("instrument"),
        repeats=repeats,
        keep={"yes": True, "no": False}.get(row.words.get("keep", "")),
        fact=int(fact) if fact.isascii() and fact.isdecimal() and len(fact) <= MOST_DIGITS else None,
        second_plane=row.numbers.get("second_plane"),
        held={key: row.numbers[key] for key in HELD if key in row.numbers},
        job=row.words.get("job", ""),
        before=list(changes).index(row.words["before"]) if "before" in row.words else None,
    )


def _unknown_names(row: Row, known: Mapping[str, list[str]]) -> list[tuple[str, str, str]]:
    """Return key, finding and mend for each name of a reading that nothing on the ticket has."""
    return [
        (key, f'no {_CALLED[key]} is called "{row.words[key]}"', _near(row.words[key], names))
        for key, names in known.items()
        if key in row.words and row.words[key] not in names
    ]


@lru_cache(maxsize=256)
def _fitting_kind(texts: tuple[str, ...]) -> str:
    for kind in _KINDS_TRIED:
        trial = Collector()
        for text in texts:
            trial.take_difference(kind, text, where="gauge")
        if not trial.findings:
            return kind
    return "points"


def _near(word: str, known: list[str]) -> str:
    close = get_close_matches(word, known, n=1)
    return f"Did you mean {close[0]}?" if close else "Known: " + (", ".join(known) or "none") + "."

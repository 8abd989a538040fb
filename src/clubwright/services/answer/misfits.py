"""A reading that does not fit, in words: how far off it is and what could have gone wrong, likeliest first."""

from __future__ import annotations

from clubwright.belief.explain import Cause, causes
from clubwright.belief.update import Judged
from clubwright.club.part_paths import WEIGHTS
from clubwright.club.quantities import QUANTITIES
from clubwright.errors import Finding
from clubwright.notation import render
from clubwright.planning.club_state import ClubState
from clubwright.state.gauge import ReadingEntry
from clubwright.ticket.part_paths import place_of
from clubwright.ticket.rows.measured import named_gauge

SHOWN = 3
EXPLAINS = 0.75
"""A cause that leaves more than this share of the misfit's chi-square explains nothing (estimate of ours)."""


def misfit_findings(club_state: ClubState) -> tuple[Finding, ...]:
    """Return one finding for each reading kept aside, with its likeliest causes ranked."""
    found = []
    taken = [item.reading for item in club_state.learned.judged if item.taken]
    for item in club_state.learned.set_aside:
        reading = item.reading
        if reading.keep is False:
            what, mend = f"{_off(club_state, item)}; left out by decision", "Nothing to do."
            found.append(Finding(where=reading.where, what=what, mend=mend, severity="note"))
            continue
        earlier = [other for other in taken if other is not reading]
        ranked = causes(
            club_state.prior.belief, club_state.prior.club, club_state.prior.conventions, earlier, reading, most=SHOWN
        )
        ranked = [cause for cause in ranked if cause.left_over < EXPLAINS * item.off_by_sd**2] or ranked[:1]
        why = "; or ".join(cause_text(club_state, cause) for cause in ranked)
        found.append(
            Finding(
                where=reading.where,
                what=f"{_off(club_state, item)}, and is kept aside. Likeliest first: {why}",
                mend="Check that and read again, or decide: " + _choice(club_state, reading.where),
                severity="warning",
            )
        )
    return tuple(found)


def _choice(club_state: ClubState, where: str) -> str:
    """How a person decides: by a command where the reading is a fact of the record, else in the ticket file."""
    entry = _entry(club_state, where)
    if entry.fact is None:
        return 'keep = "yes" to use it, keep = "no" to leave it out.'
    command = f"clubwright decide {club_state.ticket.id} {entry.fact}"
    return f"`{command} keep` to use it, `{command} leave` to leave it out."


def _reading_words(club_state: ClubState, where: str) -> str:
    """An earlier reading, such as "total weight 465.4 g (dry, gripped)"."""
    entry = _entry(club_state, where)
    name = QUANTITIES[entry.quantity].name if entry.quantity in QUANTITIES else entry.quantity
    return f"{name.replace('.', ' ')} {entry.entry.typed} ({entry.stage})"


def _off(club_state: ClubState, item: Judged) -> str:
    reading = item.reading
    kind = QUANTITIES[reading.quantity].kind if reading.quantity in QUANTITIES else _part_kind(reading.quantity)
    beside = _beside(club_state, _entry(club_state, reading.where))
    seen, expected = render(kind, reading.value), render(kind, item.expected, item.expected_sd)
    return f"reads {seen}, expected {expected}: {abs(item.off_by_sd):.1f} standard deviations off{beside}"


def _entry(club_state: ClubState, where: str) -> ReadingEntry:
    return next(entry for entry in club_state.ticket.readings if entry.where == where)


def _beside(club_state: ClubState, reading: ReadingEntry) -> str:
    """Name the figure of a part that a further measuring of it stands beside; nothing where no gauge is known for it."""
    section, _, key = reading.quantity.partition(".")
    if not key:
        return ""
    row = club_state.ticket.row(section)
    entry, gauge = row.entry(key), named_gauge(row, key)
    return "" if entry is None or not gauge else f" ({row.where} {key} is {entry.typed} by the {gauge})"


def _part_kind(path: str) -> str:
    """Kind of notation of a part's number by its path, such as ``grip.cap_m``."""
    kind = place_of(path).field.kind
    return "diameter" if kind == "grip_core" else kind


def cause_text(club_state: ClubState, cause: Cause) -> str:
    """Say one cause in words, such as "the grip is 4.0 g heavier than entered, or it is another grip"."""
    if cause.unknown == "stage":
        return f'it was read at the stage "{cause.detail}"'
    if cause.unknown == "weights":
        return f"{cause.detail} was fitted at the time"
    if cause.unknown == "earlier reading":
        return f"the earlier reading of {_reading_words(club_state, cause.detail)} is wrong"
    if cause.unknown == "gauge":
        return f"the gauge ({cause.detail}) was misread or is out of adjustment"
    return _part_text(club_state, cause)


_WORDS = {
    "mass_kg": ("heavier", "lighter", "entered"),
    "cap_m": ("thicker in the cap", "thinner in the cap", "entered"),
    "length_m": ("longer", "shorter", "planned"),
}

_NAMES = {
    "loft_rad": "loft",
    "lie_rad": "lie",
    "bounce_rad": "bounce",
    "cg_from_ground_m": "centre of gravity's height along the axis",
    "bore_to_ground_m": "distance from bore to ground",
    "balance_from_tip_m": "balance point from the tip",
    "cg_from_cap_m": "centre of gravity's distance from the cap",
    "butt_diameter_m": "butt diameter",
}


def _part_text(club_state: ClubState, cause: Cause) -> str:
    found = place_of(cause.unknown)
    part, place, field = found.part, found.place, found.field
    number = field.number or ""
    size = render(_part_kind(cause.unknown), abs(cause.change))
    what = found.words
    if part == WEIGHTS and place is not None:
        what = f"weight {club_state.ticket.weights[place].name}"
    if number in _NAMES:
        return f"the {_NAMES[number]} of the {what} is {size} {'more' if cause.change > 0 else 'less'} than entered"
    more, less, basis = _WORDS.get(number, ("more in " + field.meaning, "less in " + field.meaning, "entered"))
    words = f"the {what} is {size} {more if cause.change > 0 else less} than {basis}"
    core = club_state.ticket.club.grip.core
    if cause.unknown == "grip.mass_kg":
        words += ", or it has another core" if core is not None else ", or it is another grip"
    return words

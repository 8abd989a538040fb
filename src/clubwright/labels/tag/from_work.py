"""From a worked ticket to the data of its tag."""

from __future__ import annotations

from clubwright.club.quantities import QUANTITIES, TARGETS
from clubwright.journal.reducers.fold import Job
from clubwright.journal.times import day_of
from clubwright.labels.tag.data import Final, TagData
from clubwright.notation import render, squeezed
from clubwright.planning.club_state import ClubState
from clubwright.planning.goals import Goal
from clubwright.services.jobs.closing import finished_readings
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.signatures import signature_reasons
from clubwright.services.report.reading_states import reading_states
from clubwright.state.particulars import Entry, whole_number

NOT_RELEASED = "NOT RELEASED - DO NOT SWING"

DONE_WORD = {"build": "built", "reshaft": "reshafted", "regrip": "regripped", "loft-lie": "bent", "weight": "weighted"}
LONGEST_TYPED = 16
"""Characters of the longest figure that is printed as it was typed; a longer one is written anew."""


def tag_data(worked: JobAnswer, job: Job | None, date: str) -> TagData:
    """Return what the tag shows: each figure as read on the finished club, else as believed, and marked so.

    Args:
        worked: The ticket, worked.
        job: What the record knows of it; None for a ticket file.
        date: Day of printing; a job that is finished shows the day it was finished instead.
    """
    club_state, said = worked.club_state, worked.club_state.ticket.order
    release = next((gate for gate in worked.gates if gate.step == "release"), None)
    finished = None if job is None else job.finished
    signed = job is None or not signature_reasons(job, worked, "release")
    held = release is not None and finished is None and not (release.open and signed)
    goals = sorted(club_state.goals, key=lambda goal: TARGETS[goal.key].rank)
    return TagData(
        ticket_id=club_state.ticket.id,
        player=said.player.name or "",
        label=said.label or "",
        hand=club_state.ticket.hand,
        date=f"printed {date}" if finished is None else f"{DONE_WORD[club_state.ticket.job]} {day_of(finished.at)}",
        finals=tuple(_final(worked, goal) for goal in goals),
        grip=_grip_words(club_state, job),
        caution=NOT_RELEASED if held else "",
        invented=club_state.ticket.invented,
    )


def _final(worked: JobAnswer, goal: Goal) -> Final:
    club_state = worked.club_state
    quantity = QUANTITIES[goal.key]
    name = quantity.short or quantity.name
    states, ticket = reading_states(worked), club_state.ticket
    read = [
        entry.entry
        for entry in finished_readings(worked, goal.key)
        if states[entry.where].state != "aside"
        and (_at_any_weight(goal.key) or ticket.fitted_counts(entry.weights) == ticket.fitted_now)
    ]
    if read:
        return Final(name=name, text=_as_typed(quantity.kind, read[-1]))
    if club_state.can_predict(goal.key):
        prediction = club_state.predict([goal.key])
        mean, sd = float(prediction.mean[0, 0]), float(prediction.sd()[0, 0])
        return Final(
            name=name,
            text=render(quantity.kind, mean),
            with_spread=render(quantity.kind, mean, sd),
            standing="believed",
        )
    return Final(name=name, text=render(quantity.kind, goal.target), standing="ordered")


def _at_any_weight(key: str) -> bool:
    """True when a reading stays true whatever weights are fitted; else only one with those of now is of this club."""
    return key == "length" or QUANTITIES[key].steered_by in ("bends", "tapes")


def _as_typed(kind: str, entry: Entry) -> str:
    """Return a reading as it was typed where that is short, names its unit and has no ±; else written anew."""
    text = squeezed(entry.typed)
    has_unit = kind == "swing_weight" or text[-1:].isalpha() or text[-1:] in tuple("°\"'″")
    return text if has_unit and entry.sd is None and len(text) <= LONGEST_TYPED else render(kind, entry.value)


def _grip_words(club_state: ClubState, job: Job | None) -> tuple[str, ...]:
    """Say which way the logo looks and what tape is under the grip, the longest way first."""
    ticket = club_state.ticket
    logo = ticket.club.grip.logo or ""
    logo = f"logo {logo}" if logo and "logo" not in logo.lower() else logo
    layers = [(whole_number(row.layers, 1), row) for row in ticket.tapes]
    laid = [(count, row) for count, row in layers if count > 0]
    names = ", ".join(f"{count} {row.name or 'plain'}" for count, row in laid)
    lower = sum(count for count, row in laid if row.covers == "lower")
    whole = sum(count for count, _ in laid) - lower
    places = f"{whole} + {lower} lower hand" if lower else f"{whole}"
    ways = [f"tape {names}", f"tape wraps {places}", f"tape wraps {whole + lower}"]
    if layers and not laid:
        ways = ["no tape"]
    elif laid and not _tape_is_on(club_state, job):
        ways = [f"{way}, to lay" for way in ways]
    elif not layers:
        ways = [""]
    shortest = logo if len(logo) <= LONGEST_TYPED else ""
    said = [", ".join(part for part in (first, way) if part) for first in (logo, shortest) for way in ways]
    return tuple(dict.fromkeys(words for words in said if words))


def _tape_is_on(club_state: ClubState, job: Job | None) -> bool:
    if job is None:
        return club_state.ticket.job not in ("build", "reshaft", "regrip")
    return job.finished is not None or job.gripped or bool({"tape", "grip"} & set(job.steps_done))

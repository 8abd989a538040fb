"""From a worked ticket to the data of its build sheet."""

from __future__ import annotations

from typing import Literal

from clubwright.journal.reducers.fold import Job
from clubwright.labels.sheet.data import FindingLine, Line, PartLine, SheetData, SheetRow
from clubwright.labels.sheet.drawing_from_work import drawing_of
from clubwright.labels.sheet_deeds import cut_deeds, deed, reading_lines, sheet_steps
from clubwright.labels.sheet_signed import gate_lines, signed_lines, signed_marks
from clubwright.notation import length_in_full, render, units_shown
from clubwright.planning.advice.tray import names_of
from clubwright.planning.club_state import ClubState
from clubwright.planning.cut import Cut
from clubwright.planning.gates.fit_checks import fit_numbers
from clubwright.planning.joint.fit import fit_of
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.report.as_built import AsBuiltRow, as_built_rows
from clubwright.services.report.done_work import DoneWork, did, done_work
from clubwright.state.particulars import Particulars, whole_number
from clubwright.state.parts import GripPart, HeadPart
from clubwright.ticket.fields.fields import WHICH_PART
from clubwright.words.advice import say_advice
from clubwright.words.gate import said_at
from clubwright.words.say import say, spoken, words_here
from clubwright.words.step import say_step


def sheet_data(worked: JobAnswer, job: Job | None, date: str, record_hash: str = "") -> SheetData:
    """Return what a build sheet shows.

    Args:
        worked: The ticket, worked.
        job: What the record knows of it (who did what, when); None for a ticket file.
        date: Day of printing, as it is to be printed.
        record_hash: Hash of the record's last fact, which dates the sheet against the record.
    """
    club_state, said = worked.club_state, worked.club_state.ticket.order
    # the sheet of a closed job says what was done; that of an open one, what is planned, and beside it what was done
    deeds = () if job is None else done_work(job, worked)
    done = deeds if job is not None and job.finished is not None else None
    marks = () if job is None else signed_marks(job)
    return SheetData(
        ticket_id=club_state.ticket.id,
        player=said.player.name or "",
        label=said.label or "",
        kind=club_state.ticket.kind,
        hand=club_state.ticket.hand,
        job=club_state.ticket.job,
        date=date,
        asked=said.asked or "",
        closed=done is not None,
        drawing=drawing_of(worked, job),
        invented=club_state.ticket.invented,
        rows=_rows(worked, job),
        cut=_cut_lines(worked.cut) if job is None or not did(job, "shaft cut") else (*marks, *cut_deeds(deeds)),
        parts=_part_lines(club_state),
        steps=sheet_steps(worked, worked.steps, job, "; ".join(f"{line.name}: {line.text}" for line in marks)),
        weights=_weight_lines(worked) if done is None else _done_texts(done, "weights"),
        adhesive=_fit_lines(worked) + (_adhesive_lines(worked, job) if done is None else _done_texts(done, "adhesive")),
        bends=_numbers_of(worked, "loft and lie") if done is None else _done_texts(done, "head"),
        gates=gate_lines(worked, job),
        findings=tuple(
            FindingLine(text=said_at(item), severity=item.severity)
            for item in worked.findings
            if item.severity != "note"
        ),
        cautions=(),
        readings=reading_lines(worked, job),
        signed_by=() if job is None else signed_lines(job, worked),
        record_hash=record_hash,
        words=words_here("sheet"),
    )


def _rows(worked: JobAnswer, job: Job | None) -> tuple[SheetRow, ...]:
    return tuple(
        SheetRow(
            name=spoken("quantity", row.key),
            target=row.ordered,
            tolerance=row.tolerance,
            predicted=row.believed,
            as_built=row.read,
            verdict=_verdict(row),
            sign=_SIGNS.get(row.verdict, ""),
        )
        for row in as_built_rows(worked, job)
    )


_SIGNS: dict[str, Literal["good", "bad", "open"]] = {"within": "good", "outside": "bad", "cannot tell": "open"}


def _verdict(row: AsBuiltRow) -> str:
    """Say the verdict, and that it was accepted by name where it was; by whom is said beside the signatures."""
    found = spoken("verdict", row.verdict or ("not used" if row.read else "not read" if row.accepted_by else ""))
    return f"{found}, {spoken('sheet', 'accepted')}" if row.accepted_by else found


def _done_texts(done: tuple[DoneWork, ...], part: str) -> tuple[str, ...]:
    return tuple(deed(item) for item in done if item.part == part)


def _cut_lines(cut: Cut | None) -> tuple[Line, ...]:
    if cut is None:
        return ()
    lines = []
    if cut.tip_trim_m > 0:
        lines.append(Line(name=spoken("sheet", "tip trim, first"), text=length_in_full(cut.tip_trim_m)))
    lines += [
        Line(name=spoken("sheet", "mark from tip"), text=length_in_full(cut.mark_from_tip_m)),
        Line(name=spoken("sheet", "mark from ground"), text=length_in_full(cut.mark_from_ground_m)),
    ]
    if cut.short_by_m > 0:
        lines.append(Line(name=spoken("sheet", "STOP, too short by"), text=length_in_full(cut.short_by_m)))
    elif cut.butt_cut_m is not None:
        lines.append(Line(name=spoken("sheet", "offcut (waste, butt side)"), text=length_in_full(cut.butt_cut_m)))
        lines.append(Line(name=spoken("sheet", "kerf, all on the waste side"), text=length_in_full(cut.kerf_m)))
    return (*lines, *(Line(name=f"{spoken('sheet', 'with')} {item.weight}", text=item.text) for item in cut.lifted))


_PART_KEYS = {
    "head": ("mass", "loft", "lie", "bounce", "bore_to_ground", "bore_diameter"),
    "shaft": (
        "raw_length",
        "mass",
        "balance_from_tip",
        "cut_length",
        "cut_mass",
        "cut_balance_from_tip",
        "tip_diameter",
    ),
    "grip": ("mass", "core", "cap"),
    "ferrule": ("mass", "length"),
    "shim": ("thickness",),
    "adapter": ("mass",),
}


def _part_lines(club_state: ClubState) -> tuple[PartLine, ...]:
    found = []
    for section, keys in _PART_KEYS.items():
        row = club_state.ticket.row(section)
        if row.given:
            logo = row.logo if isinstance(row, GripPart) else None
            which = [f"{spoken('key', key)} {word}" for key in WHICH_PART if (word := row.word(key))]
            said = ", ".join(
                filter(
                    None, (_typed(row, keys), *which, *_said(row), f"{spoken('key', 'logo')} {logo}" if logo else "")
                )
            )
            found.append(PartLine(part=section, name=row.word("name"), text=said))
    for tape in club_state.ticket.tapes:
        layers = f"{whole_number(tape.layers, 1)} x "
        found.append(
            PartLine(part="tape", name=layers + (tape.name or spoken("part", "tapes")), text=_typed(tape, ("mass",)))
        )
    return tuple(found)


def _said(row: Particulars) -> tuple[str, ...]:
    """What was found or done at the bore, where it was said."""
    if not isinstance(row, HeadPart):
        return ()
    hosel = row.hosel
    return (
        f"{spoken('key', 'hosel')} {spoken('choice', hosel)}" if hosel else "",
        spoken("sheet", "bore reamed") if row.bore_reamed == "yes" else "",
    )


def _typed(row: Particulars, keys: tuple[str, ...]) -> str:
    known = [(key, entry) for key in keys if (entry := row.entry(key)) is not None]
    return ", ".join(f"{spoken('key', key)} {entry.typed}" for key, entry in known)


def _weight_lines(worked: JobAnswer) -> tuple[str, ...]:
    club_state = worked.club_state
    now = names_of(club_state.ticket, club_state.fitted_now[0])
    lines = [f"{spoken('sheet', 'fitted now')}: " + (" + ".join(now) or spoken("sheet", "none"))]
    best = worked.advice[0] if worked.advice else None
    if best is not None and list(best.weights) != now:
        said = say_advice(best, units_shown())
        lines.append(f"{spoken('sheet', 'advised')}: {said.do} ({best.chance:.0%}); {said.why}")
    for row in club_state.ticket.weights:
        mass = row.mass
        assert mass is not None  # no weight is taken in without one
        lines.append(f"{row.name}: {render('mass', mass.value)} {spoken('sheet', f'at the {row.seat}')}")
    return tuple(lines)


def _numbers_of(worked: JobAnswer, key: str) -> tuple[str, ...]:
    step = next((step for step in worked.steps if step.key == key), None)
    return () if step is None else tuple(f"{name}: {text}" for name, text in say_step(step, units_shown()).numbers)


def _adhesive_lines(worked: JobAnswer, job: Job | None) -> tuple[str, ...]:
    """The mix that was used, once there is one; the plan of it before."""
    mixed = () if job is None else _done_texts(done_work(job, worked), "adhesive")
    return (mixed or _numbers_of(worked, "mix")) + _numbers_of(worked, "cure")


def _fit_lines(worked: JobAnswer) -> tuple[str, ...]:
    """Tip, bore and bond line; nothing for work without a joint, or while they are not measured."""
    if not worked.gates or fit_of(worked.club_state) is None:
        return ()
    numbers, _ = fit_numbers(worked.club_state)
    return tuple(f"{say(name, units_shown())}: {say(text, units_shown())}" for name, text in numbers[:-3])

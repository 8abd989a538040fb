"""Forms of the first steps: pull, weigh, check the head, trim, cut, tape."""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import ANGLES, QUANTITIES
from clubwright.journal.job import Job
from clubwright.planning.cut import CUT_JOBS
from clubwright.services.actions.making.cutting import SHORT_CUT
from clubwright.services.checks.order_findings import WHO, WHY
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.signatures import signature_reasons
from clubwright.state.particulars import Particulars, whole_number
from clubwright.ticket.field_names import read_field_name
from clubwright.ticket.fields.fields import SHAFT
from clubwright.ticket.priors.shaft_weighed import has_length
from clubwright.web.typed import BORE_FIELDS, TAPE_FIELD
from clubwright.web.views.forms import FieldView, Form, typed

_MATERIAL = SHAFT.field("material")
MATERIALS = () if _MATERIAL is None else _MATERIAL.choices


def pull(worked: JobAnswer, _job: Job) -> Form:
    """Scan the parts or look at them; the hand is always looked at."""
    ticket = worked.club_state.ticket
    parts = tuple(
        (section, name) for section in ("head", "shaft", "grip") if (name := ticket.row(section).word("name"))
    )
    return Form(kind="pull", action="pull", button="Parts are right", hidden=(("ordered", ticket.hand),), parts=parts)


def _measure(button: str, *fields: FieldView) -> Form:
    return Form(kind="fields", action="measure", button=button, fields=fields)


def weigh(worked: JobAnswer, _job: Job) -> Form:
    """Masses of the parts; of a shaft that will be cut its raw length, of one that is cut what it weighs as cut."""
    ticket = worked.club_state.ticket
    cut = has_length(ticket)
    wanted = (
        ("head.mass", "head"),
        ("shaft.cut_mass", "shaft as cut") if cut else ("shaft.mass", "raw shaft"),
        ("grip.mass", "grip"),
        ("ferrule.mass", "ferrule"),
    )
    masses = [_figure(worked, name, label, "mass") for name, label in wanted]
    length = _figure(worked, "shaft.raw_length", "raw shaft, tip to butt", "length")
    length = msgspec.structs.replace(length, needed=not length.now)
    shaft = ticket.club.shaft
    asked = () if shaft.material else (_choice("shaft.material", "the shaft is", shaft, MATERIALS),)
    return _measure("Keep the masses", *masses[:2], *(() if cut else (length,)), *masses[2:], *asked)


def strip_grip(worked: JobAnswer, _job: Job) -> Form:
    """Old grip and tape as they came off, the new grip, and the bare butt."""
    return _measure(
        "Old grip is off",
        _figure(worked, "old_grip.mass_with_tape", "old grip with its tape", "mass"),
        _figure(worked, "old_grip.cap", "cap of the old grip", "length"),
        _figure(worked, "grip.mass", "new grip", "mass"),
        _figure(worked, "grip.cap", "cap of the new grip", "length"),
        _figure(worked, "shaft.butt_diameter", "butt, 2 in below the cap", "diameter"),
        _figure(worked, "shaft.lower_diameter", "butt, 6 in below the cap", "diameter"),
    )


def pull_head(worked: JobAnswer, _job: Job) -> Form:
    """The old shaft as it was cut, once its grip is off too; what is not measured stays empty."""
    return _measure(
        "Head is off",
        _figure(worked, "old_shaft.mass", "old shaft, its grip off", "mass"),
        _figure(worked, "old_shaft.length", "its length, tip to butt", "length"),
        _figure(worked, "old_shaft.balance_from_tip", "its balance point, from the tip", "length"),
        _figure(worked, "old_grip.mass_with_tape", "old grip with its tape", "mass"),
    )


def _figure(worked: JobAnswer, name: str, label: str, kind: str) -> FieldView:
    """Return the field of a part's figure, such as ``grip.mass``."""
    section, key, _ = read_field_name(name)
    return FieldView(name=name, label=label, now=typed(worked.club_state.ticket.row(section), key), kind=kind)


def head_check(worked: JobAnswer, _job: Job) -> Form:
    """Angles and bore of the head as they came."""
    kinds = {key: QUANTITIES[key].shown_kind for key in ANGLES}
    if worked.club_state.ticket.job in CUT_JOBS:
        kinds |= {"bore_depth": "length", "bore_diameter": "diameter"}
    fields = (_figure(worked, f"head.{key}", key.replace("_", " "), kind) for key, kind in kinds.items())
    return _measure("Keep the angles", *fields)


def dry_fit(worked: JobAnswer, _job: Job) -> Form:
    """Tip, bore and shim as measured, and what a look at the hosel found; a cracked one leaves another head to pull."""
    ticket = worked.club_state.ticket
    head, shim = ticket.club.head, ticket.club.shim
    form = _measure(
        "Keep the fit",
        _figure(worked, "shaft.tip_diameter", "tip, prepared", "diameter"),
        _figure(worked, "head.bore_diameter", "bore, where the tip sits", "diameter"),
        _choice("head.bore_reamed", "bore reamed here", head, ("yes", "no")),
        _choice("head.hosel", "hosel, as looked at", head, ("sound", "cracked")),
        _figure(worked, "shim.thickness", "wall of the shim", "diameter"),
        FieldView(name="shim.name", label="shim", how="what it is called", now=(shim.name or "")),
    )
    if head.hosel != "cracked":
        return form
    said = (
        FieldView(name="said_by", label=WHO, how="a name"),
        FieldView(name="reason", label=WHY, how="in your words"),
    )
    done = "Another head is pulled: measure it anew"
    return msgspec.structs.replace(form, fields=(*said, *form.fields), done=done, second="another head")


def _choice(name: str, label: str, row: Particulars, choices: tuple[str, ...]) -> FieldView:
    return FieldView(name=name, label=label, now=row.word(read_field_name(name).key), choices=choices)


def bore(worked: JobAnswer, _job: Job) -> Form:
    """The two lengths that the cut rests on."""
    ticket = worked.club_state.ticket
    r, t = BORE_FIELDS
    return _measure(
        "Keep the lengths",
        FieldView(name=r, label="R, the rule reads", kind="length"),
        FieldView(name=t, label="T, the test shaft", kind="length"),
        FieldView(
            name="head.bore_to_ground",
            label="or R - T itself",
            now=typed(ticket.club.head, "bore_to_ground"),
            kind="length",
        ),
        FieldView(
            name="grip.cap",
            label="cap of this grip",
            now=typed(ticket.club.grip, "cap"),
            kind="length",
        ),
    )


def trim(worked: JobAnswer, _job: Job) -> Form:
    """What comes off the tip; where something is off already, what more does."""
    off = worked.club_state.ticket.club.shaft.tip_trimmed == "yes"
    label = "cut off the tip, besides what is off" if off else "cut off the tip"
    field = FieldView(name="amount", label=label, kind="length", needed=True)
    done = "It is off: step done" if off else ""
    return Form(kind="fields", action="trim", button="Tip is trimmed", fields=(field,), done=done)


def cut(worked: JobAnswer, job: Job) -> Form:
    """First the signature, then the length as it was cut, and what the cut shaft weighs and where it balances."""
    again = "mark and cut" not in job.steps_done and signature_reasons(job, worked, "cut")
    if "cut" not in job.gates_signed or again:
        return Form(kind="gate", action="sign", button="Sign: the marks agree", hidden=(("gate", "cut"),))
    figures = worked.club_state.ticket.club.shaft
    known = figures.cut_length is not None
    fields = (
        FieldView(
            name="cut_length",
            label="cut shaft, tip to butt",
            now=typed(figures, "cut_length"),
            kind="length",
            needed=True,
        ),
        FieldView(name="cut_mass", label="its mass now", kind="mass", figure="shaft.cut_mass"),
        FieldView(
            name="cut_balance_from_tip",
            label="balance, from its tip",
            kind="length",
            figure="shaft.cut_balance_from_tip",
        ),
        FieldView(name="short", label="it is cut so short", choices=("yes",), asked=SHORT_CUT),
    )
    button = "Keep these figures" if known else "Cut: keep this length"
    return Form(kind="fields", action="cut", button=button, fields=fields)


def tape(worked: JobAnswer, _job: Job) -> Form:
    """Masses of the tape, each kind as it is laid."""
    fields = []
    for row in worked.club_state.ticket.tapes:
        name, layers = (row.name or "tape"), whole_number(row.layers, 1)
        said = "1 wrap" if layers == 1 else f"{layers} wraps together"
        fields.append(
            FieldView(
                name=f"{TAPE_FIELD}{name}",
                label=f"{name}, {said}",
                now=typed(row, "mass"),
                kind="mass",
                figure=f"tape.{name}.mass",
            )
        )
    return Form(kind="fields", action="tape", button="Tape is laid", fields=tuple(fields))

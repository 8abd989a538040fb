"""Forms of the first steps: pull, weigh, check the head, trim, cut, tape."""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import ANGLES, QUANTITIES
from clubwright.journal.job import Job
from clubwright.notation import units_shown
from clubwright.planning.cut import CUT_JOBS
from clubwright.planning.said.phrases import phrase
from clubwright.services.actions.making.cutting import SHORT_CUT
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.signatures import signature_reasons
from clubwright.state.particulars import Particulars, whole_number
from clubwright.ticket.field_names import read_field_name
from clubwright.ticket.fields.fields import SHAFT
from clubwright.ticket.priors.shaft_weighed import has_length
from clubwright.web.typed import BORE_FIELDS, TAPE_FIELD
from clubwright.web.views.forms import FieldView, Form, typed
from clubwright.words import on_page, say, spoken

_MATERIAL = SHAFT.field("material")
MATERIALS = () if _MATERIAL is None else _MATERIAL.choices


def pull(worked: JobAnswer, _job: Job) -> Form:
    """Scan the parts or look at them; the hand is always looked at."""
    ticket = worked.club_state.ticket
    parts = tuple(
        (section, name) for section in ("head", "shaft", "grip") if (name := ticket.row(section).word("name"))
    )
    return Form(
        kind="pull",
        action="pull",
        button=on_page("button parts right"),
        hidden=(("ordered", ticket.hand),),
        parts=parts,
    )


def _measure(button: str, *fields: FieldView) -> Form:
    return Form(kind="fields", action="measure", button=button, fields=fields)


def weigh(worked: JobAnswer, _job: Job) -> Form:
    """Masses of the parts; of a shaft that will be cut its raw length, of one that is cut what it weighs as cut."""
    ticket = worked.club_state.ticket
    cut = has_length(ticket)
    wanted = (
        ("head.mass", spoken("part", "head")),
        ("shaft.cut_mass", on_page("shaft as cut")) if cut else ("shaft.mass", on_page("raw shaft")),
        ("grip.mass", spoken("part", "grip")),
        ("ferrule.mass", spoken("part", "ferrule")),
    )
    masses = [_figure(worked, name, label, "mass") for name, label in wanted]
    length = _figure(worked, "shaft.raw_length", on_page("raw shaft length"), "length")
    length = msgspec.structs.replace(length, needed=not length.now)
    shaft = ticket.club.shaft
    asked = () if shaft.material else (_choice("shaft.material", on_page("shaft is"), shaft, MATERIALS),)
    return _measure(on_page("button weights"), *masses[:2], *(() if cut else (length,)), *masses[2:], *asked)


def strip_grip(worked: JobAnswer, _job: Job) -> Form:
    """Old grip and tape as they came off, the new grip, and the bare butt."""
    return _measure(
        on_page("button old grip off"),
        _figure(worked, "old_grip.mass_with_tape", on_page("old grip"), "mass"),
        _figure(worked, "old_grip.cap", on_page("grip cap old"), "length"),
        _figure(worked, "grip.mass", spoken("part", "grip"), "mass"),
        _figure(worked, "grip.cap", on_page("grip cap new"), "length"),
        _figure(worked, "shaft.butt_diameter", on_page("under cap", place="2 in"), "diameter"),
        _figure(worked, "shaft.lower_diameter", on_page("under cap", place="6 in"), "diameter"),
    )


def pull_head(worked: JobAnswer, _job: Job) -> Form:
    """The old shaft as it was cut, once its grip is off too; what is not measured stays empty."""
    return _measure(
        on_page("button head off"),
        _figure(worked, "old_shaft.mass", on_page("old shaft"), "mass"),
        _figure(worked, "old_shaft.length", on_page("old shaft length"), "length"),
        _figure(worked, "old_shaft.balance_from_tip", on_page("old shaft balance"), "length"),
        _figure(worked, "old_grip.mass_with_tape", on_page("old grip"), "mass"),
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
    fields = (_figure(worked, f"head.{key}", spoken("key", key), kind) for key, kind in kinds.items())
    return _measure(on_page("button angles"), *fields)


def dry_fit(worked: JobAnswer, _job: Job) -> Form:
    """Tip, bore and shim as measured, and what a look at the hosel found; a cracked one leaves another head to pull."""
    ticket = worked.club_state.ticket
    head, shim = ticket.club.head, ticket.club.shim
    form = _measure(
        on_page("button fit"),
        _figure(worked, "shaft.tip_diameter", on_page("tip prepared"), "diameter"),
        _figure(worked, "head.bore_diameter", on_page("bore where"), "diameter"),
        _choice("head.bore_reamed", on_page("bore reamed here"), head, ("yes", "no")),
        _choice("head.hosel", on_page("hosel by eye"), head, ("sound", "cracked")),
        _figure(worked, "shim.thickness", on_page("shim wall"), "diameter"),
        FieldView(name="shim.name", label=on_page("shim"), how=on_page("shim called"), now=(shim.name or "")),
    )
    if head.hosel != "cracked":
        return form
    said = (
        FieldView(name="said_by", label=on_page("who said"), how=on_page("a name")),
        FieldView(name="reason", label=on_page("why changed"), how=on_page("your words")),
    )
    done = on_page("another head anew")
    return msgspec.structs.replace(form, fields=(*said, *form.fields), done=done, second="another head")


def _choice(name: str, label: str, row: Particulars, choices: tuple[str, ...]) -> FieldView:
    return FieldView(name=name, label=label, now=row.word(read_field_name(name).key), choices=choices)


def bore(worked: JobAnswer, _job: Job) -> Form:
    """The two lengths that the cut rests on."""
    ticket = worked.club_state.ticket
    r, t = BORE_FIELDS
    return _measure(
        on_page("button lengths"),
        FieldView(name=r, label=on_page("rule reads"), kind="length"),
        FieldView(name=t, label=on_page("test shaft reads"), kind="length"),
        FieldView(
            name="head.bore_to_ground",
            label=on_page("bottom of bore itself"),
            now=typed(ticket.club.head, "bore_to_ground"),
            kind="length",
        ),
        FieldView(
            name="grip.cap",
            label=on_page("cap of this grip"),
            now=typed(ticket.club.grip, "cap"),
            kind="length",
        ),
    )


def trim(worked: JobAnswer, _job: Job) -> Form:
    """What comes off the tip; where something is off already, what more does."""
    off = worked.club_state.ticket.club.shaft.tip_trimmed == "yes"
    label = on_page("off besides") if off else on_page("off tip")
    field = FieldView(name="amount", label=label, kind="length", needed=True)
    done = on_page("is off") if off else ""
    return Form(kind="fields", action="trim", button=on_page("button trimmed"), fields=(field,), done=done)


def cut(worked: JobAnswer, job: Job) -> Form:
    """First the signature, then the length as it was cut, and what the cut shaft weighs and where it balances."""
    again = "mark and cut" not in job.steps_done and signature_reasons(job, worked, "cut")
    if "cut" not in job.gates_signed or again:
        return Form(kind="gate", action="sign", button=on_page("button sign marks"), hidden=(("gate", "cut"),))
    figures = worked.club_state.ticket.club.shaft
    known = figures.cut_length is not None
    fields = (
        FieldView(
            name="cut_length",
            label=on_page("cut shaft"),
            now=typed(figures, "cut_length"),
            kind="length",
            needed=True,
        ),
        FieldView(name="cut_mass", label=on_page("weight now"), kind="mass", figure="shaft.cut_mass"),
        FieldView(
            name="cut_balance_from_tip",
            label=on_page("balance from tip"),
            kind="length",
            figure="shaft.cut_balance_from_tip",
        ),
        FieldView(name="short", label=on_page("cut is short"), choices=("yes",), asked=SHORT_CUT),
    )
    button = on_page("button cut again") if known else on_page("button cut")
    return Form(kind="fields", action="cut", button=button, fields=fields)


def tape(worked: JobAnswer, _job: Job) -> Form:
    """Masses of the tape, each kind as it is laid."""
    fields = []
    for row in worked.club_state.ticket.tapes:
        name, layers = (row.name or "tape"), whole_number(row.layers, 1)
        wraps = say(phrase("count.layers", count=layers), units_shown())
        label = f"{name}, {wraps}" if layers == 1 else on_page("tape laid", name=name, wraps=wraps)
        fields.append(
            FieldView(
                name=f"{TAPE_FIELD}{name}",
                label=label,
                now=typed(row, "mass"),
                kind="mass",
                figure=f"tape.{name}.mass",
            )
        )
    return Form(kind="fields", action="tape", button=on_page("button tape"), fields=tuple(fields))

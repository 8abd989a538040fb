"""Forms of the first steps: pull, weigh, check the head, trim, cut, tape."""

from __future__ import annotations

import msgspec

from clubwright.journal.job import Job
from clubwright.planning.cut import CUT_JOBS
from clubwright.services.job_work import WorkedJob
from clubwright.ticket.model import Row
from clubwright.ticket.shaft_weighed import has_length
from clubwright.web.views.forms import FieldView, Form, typed


def pull(worked: WorkedJob, _job: Job) -> Form:
    """Scan the parts or look at them; the hand is always looked at."""
    ticket = worked.situation.ticket
    parts = tuple(
        (section, name) for section in ("head", "shaft", "grip") if (name := ticket.row(section).words.get("name", ""))
    )
    return Form(kind="pull", action="pull", button="Parts are right", hidden=(("ordered", ticket.hand),), parts=parts)


def _measure(button: str, *fields: FieldView) -> Form:
    return Form(kind="fields", action="measure", button=button, fields=fields)


def weigh(worked: WorkedJob, _job: Job) -> Form:
    """Masses of the parts; of a shaft that will be cut its raw length, of one that is cut what it weighs as cut."""
    ticket = worked.situation.ticket
    shaft = ticket.row("shaft")
    cut = has_length(ticket)
    wanted = (
        ("head", "mass", "head"),
        ("shaft", "cut_mass", "shaft as cut") if cut else ("shaft", "mass", "raw shaft"),
        ("grip", "mass", "grip"),
        ("ferrule", "mass", "ferrule"),
    )
    masses = [
        FieldView(
            name=f"{section}.{key}",
            label=label,
            example="49.6 g",
            value=typed(ticket.row(section), key),
            kind="mass",
        )
        for section, key, label in wanted
    ]
    length = FieldView(
        name="shaft.raw_length",
        label="raw shaft, tip to butt",
        example="37 in",
        value=typed(shaft, "raw_length"),
        kind="length",
        needed=True,
    )
    return _measure("Keep the masses", *masses[:2], *(() if cut else (length,)), *masses[2:])


def strip_grip(worked: WorkedJob, _job: Job) -> Form:
    """Old grip and tape as they came off, the new grip, and the bare butt."""
    return _figures(
        worked,
        "Old grip is off",
        ("old_grip.mass_with_tape", "old grip with its tape", "53.0 g", "mass"),
        ("old_grip.cap", "cap of the old grip", "1/8 in", "length"),
        ("grip.mass", "new grip", "49.6 g", "mass"),
        ("grip.cap", "cap of the new grip", "1/8 in", "length"),
        ("shaft.butt_diameter", "butt, 2 in below the cap", "0.600 in", "diameter"),
        ("shaft.lower_diameter", "butt, 6 in below the cap", "0.560 in", "diameter"),
    )


def pull_head(worked: WorkedJob, _job: Job) -> Form:
    """The old shaft as it was cut, once its grip is off too; what is not measured stays empty."""
    return _figures(
        worked,
        "Head is off",
        ("old_shaft.mass", "old shaft, its grip off", "104.5 g", "mass"),
        ("old_shaft.length", "its length, tip to butt", "36.4 in", "length"),
        ("old_shaft.balance_from_tip", "its balance point, from the tip", "19 in", "length"),
        ("old_grip.mass_with_tape", "old grip with its tape", "53.0 g", "mass"),
    )


def _figures(worked: WorkedJob, button: str, *wanted: tuple[str, str, str, str]) -> Form:
    """Return a form of figures of parts: name, label, example, kind of notation."""
    fields = []
    for name, label, example, kind in wanted:
        section, _, key = name.partition(".")
        value = typed(worked.situation.ticket.row(section), key)
        fields.append(FieldView(name=name, label=label, example=example, value=value, kind=kind))
    return _measure(button, *fields)


def head_check(worked: WorkedJob, _job: Job) -> Form:
    """Angles and bore of the head as they came."""
    row = worked.situation.ticket.row("head")
    kinds = {"bore_depth": "length", "bore_diameter": "diameter"}
    wanted = [("loft", "54.25 deg"), ("lie", "64 deg"), ("bounce", "10 deg")]
    if worked.situation.ticket.job in CUT_JOBS:
        wanted += [("bore_depth", "1.25 in"), ("bore_diameter", "0.359 in")]
    return _measure(
        "Keep the angles",
        *(
            FieldView(
                name=f"head.{key}",
                label=key.replace("_", " "),
                example=example,
                value=typed(row, key),
                kind=kinds.get(key, "angle"),
            )
            for key, example in wanted
        ),
    )


def dry_fit(worked: WorkedJob, _job: Job) -> Form:
    """Tip, bore and shim as measured, and what a look at the hosel found; a cracked one leaves another head to pull."""
    ticket = worked.situation.ticket
    head, shim = ticket.row("head"), ticket.row("shim")
    form = _measure(
        "Keep the fit",
        _diameter("shaft.tip_diameter", "tip, prepared", "0.3545 in", typed(ticket.row("shaft"), "tip_diameter")),
        _diameter("head.bore_diameter", "bore, where the tip sits", "0.359 in", typed(head, "bore_diameter")),
        _choice("head.bore_reamed", "bore reamed here", head, ("yes", "no")),
        _choice("head.hosel", "hosel, as looked at", head, ("sound", "cracked")),
        _diameter("shim.thickness", "wall of the shim", "0.005 in", typed(shim, "thickness")),
        FieldView(name="shim.name", label="shim", example="brass sleeve", value=shim.words.get("name", "")),
    )
    if head.words.get("hosel") != "cracked":
        return form
    return msgspec.structs.replace(form, done="Another head is pulled: measure it anew", second="another head")


def _diameter(name: str, label: str, example: str, value: str) -> FieldView:
    return FieldView(name=name, label=label, example=example, value=value, kind="diameter")


def _choice(name: str, label: str, row: Row, choices: tuple[str, ...]) -> FieldView:
    value = row.words.get(name.rpartition(".")[2], "")
    return FieldView(name=name, label=label, value=value, choices=choices)


def bore(worked: WorkedJob, _job: Job) -> Form:
    """The two lengths that the cut rests on."""
    ticket = worked.situation.ticket
    return _measure(
        "Keep the lengths",
        FieldView(
            name="head.bore_to_ground",
            label="bore to ground, R - T",
            example="1.10 in",
            value=typed(ticket.row("head"), "bore_to_ground"),
            kind="length",
        ),
        FieldView(
            name="grip.cap",
            label="cap of this grip",
            example="1/8 in",
            value=typed(ticket.row("grip"), "cap"),
            kind="length",
        ),
    )


def trim(worked: WorkedJob, _job: Job) -> Form:
    """What comes off the tip; where something is off already, what more does."""
    off = worked.situation.ticket.row("shaft").words.get("tip_trimmed") == "yes"
    label = "cut off the tip, besides what is off" if off else "cut off the tip"
    field = FieldView(name="amount", label=label, example="1/2 in", kind="length", needed=True)
    done = "It is off: step done" if off else ""
    return Form(kind="fields", action="trim", button="Tip is trimmed", fields=(field,), done=done)


def cut(worked: WorkedJob, job: Job) -> Form:
    """First the signature, then the length as it was cut, and what the cut shaft weighs and where it balances."""
    if "cut" not in job.gates_signed:
        return Form(kind="gate", action="sign", button="Sign: the marks agree", hidden=(("gate", "cut"),))
    shaft = worked.situation.ticket.row("shaft")
    fields = (
        FieldView(
            name="cut_length",
            label="cut shaft, tip to butt",
            example="34.01 in",
            value=typed(shaft, "cut_length"),
            kind="length",
            needed=True,
        ),
        FieldView(name="cut_mass", label="its mass now", example="114.6 g", kind="mass"),
        FieldView(name="cut_balance_from_tip", label="balance, from its tip", example="17.8 in", kind="length"),
    )
    button = "Keep these figures" if "cut_length" in shaft.numbers else "Cut: keep this length"
    return Form(kind="fields", action="cut", button=button, fields=fields)


def tape(worked: WorkedJob, _job: Job) -> Form:
    """Masses of the tape, each kind as it is laid."""
    fields = []
    for row in worked.situation.ticket.tapes:
        name, layers = row.words.get("name", "tape"), row.count("layers", 1)
        said = "1 layer" if layers == 1 else f"{layers} layers together"
        fields.append(
            FieldView(
                name=f"tape:{name}", label=f"{name}, {said}", example="1.6 g", value=typed(row, "mass"), kind="mass"
            )
        )
    return Form(kind="fields", action="tape", button="Tape is laid", fields=tuple(fields))

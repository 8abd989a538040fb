"""What each step's card asks for: fields in trade notation, and the one action its button takes."""

from __future__ import annotations

from datetime import timedelta

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.errors import ClubwrightError
from clubwright.journal.job import Job
from clubwright.notation import parse
from clubwright.planning.cure import release_time
from clubwright.planning.steps import Step
from clubwright.services.desk import moment_of, utc_text
from clubwright.services.job_work import WorkedJob


class FieldView(msgspec.Struct, frozen=True, kw_only=True):
    """One field: its name in the form, its label, an example, what is there already, and its kind of notation."""

    name: str
    label: str
    example: str = ""
    value: str = ""
    kind: str = ""
    needed: bool = False


class Form(msgspec.Struct, frozen=True, kw_only=True):
    """The form of a card.

    Attributes:
        kind: Which partial draws it.
        action: What the button does.
        button: Its words.
        fields: What is typed.
        hidden: What goes along.
        quantities: What may be read, (key, name), for a reading.
        stages: Stages a reading may be of.
        stage: The likeliest one.
        gauges: Gauges on the ticket.
        until: When a clock runs out, UTC ISO 8601; empty when there is none.
        since: When it began.
        blocked: Whether the button waits for a gate.
    """

    kind: str
    action: str
    button: str
    fields: tuple[FieldView, ...] = ()
    hidden: tuple[tuple[str, str], ...] = ()
    quantities: tuple[tuple[str, str], ...] = ()
    stages: tuple[str, ...] = ()
    stage: str = ""
    gauges: tuple[str, ...] = ()
    until: str = ""
    since: str = ""
    blocked: bool = False


def form_of(step: Step, worked: WorkedJob, job: Job, *, now: str, closed: bool) -> Form:
    """Return the form of a step."""
    maker = _MAKERS.get(step.key)
    if maker is None:
        return Form(kind="step", action="step", button="Done")
    form = maker(worked, job, now)
    return msgspec.structs.replace(form, blocked=closed)


def _pull(worked: WorkedJob, _job: Job, _now: str) -> Form:
    return Form(
        kind="pull", action="pull", button="Parts are right", hidden=(("ordered", worked.situation.ticket.hand),)
    )


def _measured(button: str, *wanted: tuple[str, str, str, str]) -> Form:
    fields = tuple(
        FieldView(name=name, label=label, example=example, kind=kind) for name, label, example, kind in wanted
    )
    return Form(kind="fields", action="measure", button=button, fields=fields)


def _weigh(worked: WorkedJob, _job: Job, _now: str) -> Form:
    ticket = worked.situation.ticket
    sections = [("head", "head"), ("shaft", "raw shaft"), ("grip", "grip"), ("ferrule", "ferrule")]
    fields = []
    for section, label in sections:
        entry = ticket.row(section).numbers.get("mass")
        fields.append(
            FieldView(
                name=f"{section}.mass",
                label=label,
                example="49.6 g",
                value="" if entry is None else entry.typed,
                kind="mass",
            )
        )
    return Form(kind="fields", action="measure", button="Keep the masses", fields=tuple(fields))


def _head(worked: WorkedJob, _job: Job, _now: str) -> Form:
    row = worked.situation.ticket.row("head")
    wanted = (("loft", "54.25 deg"), ("lie", "64 deg"), ("bounce", "10 deg"), ("bore_depth", "1.25 in"))
    fields = tuple(
        FieldView(
            name=f"head.{key}",
            label=key.replace("_", " "),
            example=example,
            value=row.numbers[key].typed if key in row.numbers else "",
            kind="length" if key == "bore_depth" else "angle",
        )
        for key, example in wanted
    )
    return Form(kind="fields", action="measure", button="Keep the angles", fields=fields)


def _bore(worked: WorkedJob, _job: Job, _now: str) -> Form:
    head, grip = worked.situation.ticket.row("head"), worked.situation.ticket.row("grip")
    bore, cap = head.numbers.get("bore_to_ground"), grip.numbers.get("cap")
    fields = (
        FieldView(
            name="head.bore_to_ground",
            label="bore to ground, R - T",
            example="1.10 in",
            value="" if bore is None else bore.typed,
            kind="length",
        ),
        FieldView(
            name="grip.cap",
            label="cap of this grip",
            example="1/8 in",
            value="" if cap is None else cap.typed,
            kind="length",
        ),
    )
    return Form(kind="fields", action="measure", button="Keep the lengths", fields=fields)


def _trim(_worked: WorkedJob, _job: Job, _now: str) -> Form:
    field = FieldView(name="amount", label="cut off the tip", example="1/2 in", kind="length", needed=True)
    return Form(kind="fields", action="trim", button="Tip is trimmed", fields=(field,))


def _cut(_worked: WorkedJob, job: Job, _now: str) -> Form:
    if "cut" not in job.gates_signed:
        return Form(kind="gate", action="sign", button="Sign: the marks agree", hidden=(("gate", "cut"),))
    field = FieldView(
        name="cut_length", label="shaft after the cut, tip to butt", example="34.01 in", kind="length", needed=True
    )
    return Form(kind="fields", action="cut", button="Cut: keep this length", fields=(field,))


def _tape(worked: WorkedJob, _job: Job, _now: str) -> Form:
    fields = []
    for row in worked.situation.ticket.tapes:
        name = row.words.get("name", "tape")
        mass = row.numbers.get("mass")
        fields.append(
            FieldView(
                name=f"tape:{name}",
                label=f"{name}, {row.count('layers', 1)} layer(s) together",
                example="1.6 g",
                value="" if mass is None else mass.typed,
                kind="mass",
            )
        )
    return Form(kind="fields", action="tape", button="Tape is laid", fields=tuple(fields))


def _reading(worked: WorkedJob, stage: str, button: str) -> Form:
    wanted = [goal.key for goal in worked.situation.goals] + ["swing_weight", "total_weight", "balance_point", "length"]
    keys = [key for key in dict.fromkeys(wanted) if QUANTITIES[key].function is not None]
    keys.sort(key=lambda key: key not in ("swing_weight", "total_weight"))
    return Form(
        kind="reading",
        action="read",
        button=button,
        quantities=tuple((key, QUANTITIES[key].name) for key in keys),
        stages=tuple(STAGES),
        stage=stage,
        gauges=tuple(worked.situation.ticket.instruments),
    )


def _dry(worked: WorkedJob, _job: Job, _now: str) -> Form:
    return _reading(worked, "dry, gripped", "Keep the reading")


def _inspect(worked: WorkedJob, _job: Job, _now: str) -> Form:
    return _reading(worked, "finished", "Keep the reading")


def _weights(_worked: WorkedJob, _job: Job, _now: str) -> Form:
    return Form(kind="weights", action="fit", button="It is fitted")


def _mix(worked: WorkedJob, _job: Job, _now: str) -> Form:
    temperature = worked.situation.ticket.row("adhesive").numbers.get("temperature")
    fields = (
        FieldView(name="part_a", label="part A in the cup", example="4.0 g", kind="mass", needed=True),
        FieldView(name="part_b", label="part B in the cup", example="2.0 g", kind="mass", needed=True),
        FieldView(
            name="temperature",
            label="bench",
            example="22 C",
            value="" if temperature is None else temperature.typed,
            kind="temperature",
            needed=True,
        ),
        FieldView(name="batch", label="lot", example="lot 7"),
    )
    return Form(kind="fields", action="mix", button="Mixed", fields=fields)


def _glue(worked: WorkedJob, job: Job, _now: str) -> Form:
    life = worked.situation.ticket.row("adhesive").value("pot_life")
    since = next((line.at for line in reversed(job.trail) if line.kind == "adhesive mixed" and not line.undone), "")
    until = "" if life is None or not since else utc_text(moment_of(since) + timedelta(seconds=life))
    if "glue" not in job.gates_signed:
        return Form(
            kind="gate",
            action="sign",
            button="Sign: hand, loft, grip, length, reading agree",
            hidden=(("gate", "glue"),),
            until=until,
            since=since,
        )
    temperature = worked.situation.ticket.row("adhesive").numbers.get("temperature")
    field = FieldView(
        name="temperature",
        label="temperature of the part",
        example="22 C",
        value="" if temperature is None else temperature.typed,
        kind="temperature",
        needed=True,
    )
    return Form(kind="fields", action="glue", button="Joint is closed", fields=(field,), until=until, since=since)


def _cure(worked: WorkedJob, job: Job, _now: str) -> Form:
    until = ""
    if job.glued_at is not None and job.glued_temperature is not None:
        table = [(row.value("temperature") or 0.0, row.value("time") or 0.0) for row in worked.situation.ticket.release]
        try:
            kelvin = parse("temperature", job.glued_temperature).value
            until = utc_text(moment_of(job.glued_at) + timedelta(seconds=release_time(table, kelvin).time_s))
        except ClubwrightError:
            until = ""
    gate = next((gate for gate in worked.gates if gate.step == "release"), None)
    cured = gate is not None and gate.open
    form = Form(
        kind="clock", action="step", button="Cured", hidden=(("step", "cure"),), until=until, since=job.glued_at or ""
    )
    return msgspec.structs.replace(form, blocked=not cured)


def _grip(_worked: WorkedJob, _job: Job, _now: str) -> Form:
    return Form(kind="step", action="grip", button="Grip is on")


def _bend(_worked: WorkedJob, _job: Job, _now: str) -> Form:
    wanted = (("loft", "54 deg"), ("lie", "63.5 deg"), ("bounce", "9.75 deg"))
    fields = tuple(
        FieldView(name=key, label=f"{key} after the bend", example=example, kind="angle") for key, example in wanted
    )
    return Form(kind="fields", action="bend", button="Keep the angles", fields=fields)


def _tag(worked: WorkedJob, job: Job, _now: str) -> Form:
    release = any(gate.step == "release" for gate in worked.gates)
    if release and "release" not in job.gates_signed:
        return Form(kind="gate", action="sign", button="Sign: released to play", hidden=(("gate", "release"),))
    return Form(kind="tag", action="finish", button="Close the job")


_MAKERS = {
    "pull": _pull,
    "weigh": _weigh,
    "head check": _head,
    "bore to ground": _bore,
    "tip trim": _trim,
    "mark and cut": _cut,
    "tape": _tape,
    "dry reading": _dry,
    "choose weight": _weights,
    "mix": _mix,
    "glue": _glue,
    "cure": _cure,
    "grip": _grip,
    "loft and lie": _bend,
    "inspect": _inspect,
    "tag": _tag,
}

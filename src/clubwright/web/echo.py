"""Say what a typed reading was understood as, and what was expected, before it is kept."""

from __future__ import annotations

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.errors import Finding, InputError
from clubwright.notation import parse, render
from clubwright.services.desk import Desk
from clubwright.services.job_work import work_job
from clubwright.web.actions import Sent, one


class Echo(msgspec.Struct, frozen=True, kw_only=True):
    """What was understood.

    Attributes:
        text: In words, such as ``35 1/2 in = 901.70 mm``.
        expected: What is expected at this stage.
        far: Whether it lies far from that: look again before keeping it.
        confirmed: Whether the person has seen this echo of this very text.
        findings: Why it was not understood.
        value: The text, which the next form sends back as seen.
    """

    text: str
    expected: str
    far: bool
    confirmed: bool
    findings: tuple[Finding, ...]
    value: str


FAR = 3.0


def echo_of(desk: Desk, job: str, sent: Sent) -> Echo | None:
    """Return the echo of a reading's form; None for other actions."""
    if one(sent, "action") != "read":
        return None
    return echo(desk, job, one(sent, "quantity"), one(sent, "value"), one(sent, "stage"), one(sent, "confirmed"))


def echo(desk: Desk, job: str, quantity: str, value: str, stage: str, confirmed: str = "") -> Echo:
    """Read a value as the services will, and hold it against what is believed."""
    if quantity not in QUANTITIES or stage not in STAGES:
        finding = Finding(where="reading", what="not a quantity or stage of this page", mend="Choose from the lists.")
        return Echo(text="", expected="", far=False, confirmed=False, findings=(finding,), value=value)
    try:
        understood = parse(QUANTITIES[quantity].kind, value, where=QUANTITIES[quantity].name)
    except InputError as refused:
        return Echo(text="", expected="", far=False, confirmed=False, findings=refused.findings, value=value)
    situation = work_job(desk.job(job), desk.now()).situation
    if not situation.can_predict(quantity):
        return Echo(
            text=understood.echo, expected="", far=False, confirmed=confirmed == value, findings=(), value=value
        )
    prediction = situation.predict([quantity], STAGES[stage])
    mean, sd = float(prediction.mean[0, 0]), float(prediction.sd()[0, 0])
    return Echo(
        text=understood.echo,
        expected=render(QUANTITIES[quantity].kind, mean, sd),
        far=abs(understood.value - mean) > FAR * max(sd, 1e-12),
        confirmed=confirmed == value,
        findings=(),
        value=value,
    )

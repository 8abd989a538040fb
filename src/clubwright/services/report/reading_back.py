"""Say what a typed reading is understood as, and what was expected of it, before anything is kept."""

from __future__ import annotations

import math

import msgspec

from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.errors import Finding, InputError
from clubwright.notation import parse, render
from clubwright.services.answer.club_answer import ClubAnswer

FAR_SD = 3.0
"""So many standard deviations off, the gauge's uncertainty counted, a reading is worth a second look before it is kept
(estimate of ours)."""


class Echo(msgspec.Struct, frozen=True, kw_only=True):
    """What was understood.

    Attributes:
        value: The text as typed.
        text: In words, such as ``35 1/2 in = 901.70 mm``; empty when it was not understood.
        expected: What the gauge should show at this stage, its own uncertainty in it, as on the card; empty when that
            cannot be predicted.
        why: Key of what stands behind that.
        far: Whether it lies far from that, for this gauge: look again before keeping it.
        findings: Why it was not understood.
    """

    value: str
    text: str = ""
    expected: str = ""
    why: str = ""
    far: bool = False
    findings: tuple[Finding, ...] = ()


def is_understood(quantity: str, value: str, stage: str) -> bool:
    """True when a reading can be read back at all, the club aside."""
    if quantity not in QUANTITIES or stage not in STAGES:
        return False
    try:
        parse(QUANTITIES[quantity].kind, value, where=QUANTITIES[quantity].name)
    except InputError:
        return False
    return True


def read_back(worked: ClubAnswer, quantity: str, value: str, stage: str, *, typed: str | None = None) -> Echo:
    """Read a value as the bench action will, and hold it against what is believed at that stage.

    Args:
        worked: The job, worked.
        quantity: Key in the register of quantities.
        value: In trade notation.
        stage: Name of a stage of the build.
        typed: The same as typed, where a unit was added to it.
    """
    seen = value if typed is None else typed
    if quantity not in QUANTITIES or stage not in STAGES:
        finding = Finding(where="reading", what="not a quantity or stage of this page", mend="Choose from the lists.")
        return Echo(value=seen, findings=(finding,))
    kind = QUANTITIES[quantity].kind
    try:
        understood = parse(kind, value, where=QUANTITIES[quantity].name)
    except InputError as refused:
        return Echo(value=seen, findings=refused.findings)
    if not worked.club_state.can_predict(quantity, STAGES[stage]):
        return Echo(value=seen, text=understood.echo)
    prediction = worked.club_state.predict([quantity], STAGES[stage])
    mean, sd = float(prediction.mean[0, 0]), float(prediction.sd()[0, 0])
    spread = math.hypot(sd, worked.club_state.gauge(quantity).uncertainty())
    return Echo(
        value=seen,
        text=understood.echo,
        expected=render(QUANTITIES[quantity].shown_kind, mean, spread),
        why=f"stages/{stage}/{quantity}",
        far=abs(understood.value - mean) > FAR_SD * spread,
    )

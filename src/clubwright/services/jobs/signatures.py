"""Whether a signature still holds: what it was given for is compared with what is so now, and only that voids it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import msgspec

from clubwright.errors import Finding
from clubwright.journal.facts import Place
from clubwright.journal.job import Job, Signed
from clubwright.notation import render
from clubwright.state.steps import USED_UP_BY

if TYPE_CHECKING:
    from clubwright.services.jobs.job_answer import JobAnswer

SAME_CUT_M = 0.0001
"""A cut that moved by less than this since it was signed is the same cut: a saw does not do better (estimate of ours)."""

CLOSED_AT = "closed_at"
"""What a release signature shows of a joint that was closed earlier than that was written."""


class VoidSignature(msgspec.Struct, frozen=True, kw_only=True):
    """A signature that no longer holds, and was not given again.

    Attributes:
        gate: What was signed.
        signed: By whom, and when.
        why: What is no longer so, and what to do.
        short: Only what is no longer so.
    """

    gate: str
    signed: Signed
    why: str
    short: str

    @property
    def place(self) -> Place:
        """Its fact."""
        return (self.signed.site, self.signed.sequence)

    @property
    def sentence(self) -> str:
        """Say it in a line."""
        return f"the signature of {self.signed.by} for the {self.gate} no longer holds: {self.why}"

    @property
    def in_short(self) -> str:
        """Say it where there is little room."""
        return f"{self.gate} signed by {self.signed.by}, void now: {self.short}"


def signature_reasons(state: Job, worked: JobAnswer, step: str) -> list[str]:
    """Say why a signature does not count: there is none, or what it was given for is no longer so."""
    signature = state.gates_signed.get(step)
    if signature is None:
        was = state.voided.get(step)
        return [f'nobody has signed the gate "{step}"' + (f" since {was.why}" if was is not None else "")]
    moved = _cut_moved(worked, signature) if step == "cut" else ""
    if moved:
        return [f"the cut has changed since it was signed ({moved}): look at it, and sign again"]
    if step == "release" and (signature.site, signature.sequence) not in {
        (line.site, line.sequence) for line in state.since_glued()
    }:
        return ["the joint was glued again after the release was signed: let it cure, and sign again"]
    if step == "release" and signature.shown.get(CLOSED_AT) != closed_at(state):
        return ["the release was not signed with the time at which the joint was closed: look at it, and sign again"]
    if step in worked.order_moved:
        return ["the order has changed since it was signed, and with it what was checked: look at it, and sign again"]
    return []


def _cut_moved(worked: JobAnswer, signature: Signed) -> str:
    """Say from where to where the cut moved since it was signed; empty where it is the same one."""
    if worked.cut is None:
        return ""
    shown = (signature.shown.get("answer", {}).get("cut") or {}).get("shaft_length_m")
    then = None if shown is None else float(shown)
    if then is not None and abs(then - worked.cut.shaft_length_m) <= SAME_CUT_M:
        return ""
    words = "no cut" if then is None else render("length", then)
    return f"{words} then, {render('length', worked.cut.shaft_length_m)} now"


def void_signatures(state: Job, worked: JobAnswer) -> tuple[VoidSignature, ...]:
    """Return the signatures that no longer hold and were not given again; one that has served is none of them."""
    found = [
        VoidSignature(gate=gate, signed=item.signed, why=item.why, short=item.why)
        for gate, item in state.voided.items()
    ]
    for gate, signature in state.gates_signed.items():
        served = USED_UP_BY.get(gate) in state.steps_done or state.finished is not None
        reasons = () if served else signature_reasons(state, worked, gate)
        short = _cut_moved(worked, signature) if gate == "cut" else "what was checked is not the same"
        found += [VoidSignature(gate=gate, signed=signature, why=why, short=short) for why in reasons]
    return tuple(found)


def void_findings(state: Job, worked: JobAnswer) -> tuple[Finding, ...]:
    """Tell them with the answer of a job."""
    return tuple(
        Finding(where=f"gate {item.gate}", what=item.sentence, mend="Have it signed anew.", severity="warning")
        for item in void_signatures(state, worked)
    )


def closed_at(state: Job) -> dict[str, str] | None:
    """Return when a joint was closed, when that was written and by whom, where the two differ; else None."""
    if not state.closed_earlier or state.glued is None or state.glued_at is None:
        return None
    return {"done_at": state.glued_at, "written_at": state.glued.at, "written_by": state.glued.by}

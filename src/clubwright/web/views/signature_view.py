"""Signatures as the page of a record shows them: what for, by whom, when, and what was shown."""

from __future__ import annotations

import msgspec

from clubwright.journal.job import Job, Signed
from clubwright.journal.times import to_the_minute
from clubwright.words import spoken


class SignatureView(msgspec.Struct, frozen=True, kw_only=True):
    """One signature: what for, by whom, when, and what was shown."""

    what: str
    by: str
    at: str
    shown: str


def signatures_of(job: Job) -> tuple[SignatureView, ...]:
    """Lay out the signatures of a job, the end of it last."""
    found = [_signature(step, signature) for step, signature in job.gates_signed.items()]
    if job.finished is not None:
        found.append(_signature("closed", job.finished))
    return tuple(found)


def _signature(what: str, signature: Signed) -> SignatureView:
    answer = signature.shown.get("answer", {})
    shown = ""
    if what == "cut":
        shown = str((answer.get("cut") or {}).get("text", ""))
    elif what in ("release", "closed"):
        accepted = {item["quantity"]: item for item in signature.shown.get("accepted", ())}
        told = {key: item["verdict"] for key, item in (*answer.get("verdicts", {}).items(), *accepted.items())}
        by = {key: f", accepted by {item['accepted_by']}" for key, item in accepted.items()}
        shown = ", ".join(
            f"{spoken('read', key)} {spoken('verdict', verdict)}{by.get(key, '')}" for key, verdict in told.items()
        )
    return SignatureView(what=what, by=signature.by, at=to_the_minute(signature.at), shown=shown)

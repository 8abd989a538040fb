"""What a signature at the end of a job answers for."""

from __future__ import annotations

from clubwright.journal.job import Job


def answered_for(job: Job) -> tuple[object, ...]:
    """Return all that a signature at a job's end answers for, to be compared; its number is a label, and may be changed."""
    ticket = job.document.get("ticket")
    words = {key: text for key, text in ticket.items() if key != "id"} if isinstance(ticket, dict) else ticket
    return (
        {**job.document, "ticket": words},
        job.gates_signed,
        job.glued_at,
        job.mixes,
        job.butt_trims,
        job.gripped,
        job.accepted,
        job.finished,
    )

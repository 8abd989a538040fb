"""A recorded oscillation at the bench: what it says in trade notation, and the reading it makes."""

from __future__ import annotations

from clubwright.club.oscillation import Oscillation
from clubwright.journal.facts import Fact
from clubwright.services.actions.bench import note_reading
from clubwright.services.answer.answer import findings_part, rounded
from clubwright.services.record.session import Session
from clubwright.services.told.shaft import SecondModeAnswer, TraceAnswer
from clubwright.units import CPM_HZ

DECIMALS = 2
"""Of a cpm; the uncertainty is never typed as less than one step."""


def cpm_text(frequency_hz: float, sd_hz: float) -> str:
    """Return a frequency with its standard uncertainty as it is typed, such as ``302.40 cpm ± 0.02 cpm``."""
    step = 10.0**-DECIMALS
    return f"{frequency_hz / CPM_HZ:.{DECIMALS}f} cpm ± {max(sd_hz / CPM_HZ, step):.{DECIMALS}f} cpm"


def trace_part(found: Oscillation) -> TraceAnswer:
    """Return what a record says, for programs: SI, with the trade's text beside it."""
    return TraceAnswer(
        frequency_hz=rounded(found.frequency_hz),
        frequency_sd_hz=rounded(found.frequency_sd_hz),
        damping_ratio=rounded(found.damping_ratio),
        cycles=rounded(found.cycles),
        start_s=rounded(found.start_s),
        length_s=rounded(found.length_s),
        signal_to_noise=rounded(found.signal_to_noise),
        cramer_rao_sd_hz=rounded(found.cramer_rao_sd_hz),
        whiteness=rounded(found.whiteness),
        findings=findings_part(found.findings),
        second=_second(found),
        text=cpm_text(found.frequency_hz, found.frequency_sd_hz),
    )


def _second(found: Oscillation) -> SecondModeAnswer | None:
    """Return the weaker mode; None where one is enough."""
    if found.second_frequency_hz is None or found.second_frequency_sd_hz is None:
        return None
    return SecondModeAnswer(
        damping_ratio=rounded(found.second_damping_ratio or 0.0),
        frequency_hz=rounded(found.second_frequency_hz),
        frequency_sd_hz=rounded(found.second_frequency_sd_hz),
        share=rounded(found.second_share or 0.0),
        text=cpm_text(found.second_frequency_hz, found.second_frequency_sd_hz),
    )


def texts_of(found: Oscillation) -> tuple[str, str | None]:
    """Return the frequency of a record as it is kept, and the second plane's where it has one."""
    second = None
    if found.second_frequency_hz is not None and found.second_frequency_sd_hz is not None:
        second = cpm_text(found.second_frequency_hz, found.second_frequency_sd_hz)
    return cpm_text(found.frequency_hz, found.frequency_sd_hz), second


def keep_frequency(
    session: Session,
    job: str,
    frequency: str,
    *,
    second_plane: str | None = None,
    stage: str = "finished",
    clamp: str | None = None,
    key: str | None = None,
) -> Fact:
    """Keep the frequency of a record as a reading of a job, its uncertainty behind it, and the second plane's if it has one.

    Args:
        session: Who and where.
        job: Ticket number.
        frequency: What the record says (`texts_of`).
        second_plane: The weaker of two close frequencies.
        stage: Stage of the build when it was recorded.
        clamp: What the clamp held, such as ``5 in``; one that is not the shop's is converted.
        key: Idempotency key.

    Raises:
        InputError: when the reading cannot be understood; nothing is kept.
    """
    return note_reading(
        session,
        job,
        "frequency",
        frequency,
        stage=stage,
        second_plane=second_plane,
        clamp=clamp,
        usual=False,
        key=key,
    )

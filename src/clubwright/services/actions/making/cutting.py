"""Cutting the shaft to length: what came off, what the cut shaft weighs, and a cut far short of its mark is asked about."""

from __future__ import annotations

import msgspec

from clubwright.errors import Finding, InputError
from clubwright.journal.facts import Fact, PartChanged, ShaftCut, What
from clubwright.journal.reducers.fold import Job
from clubwright.journal.reducers.measured import gauges_of
from clubwright.notation import parse, render
from clubwright.services.checks.job_ticket import ticket_of
from clubwright.services.checks.payloads import require_payload
from clubwright.services.checks.usual_gauge import GaugeSaid, gauge_text, measured_by, without_gauges
from clubwright.services.jobs.signatures import SAME_CUT_M
from clubwright.services.record.done_at import done_moment, done_text, read_done_at
from clubwright.services.record.session import Session
from clubwright.services.recording.possible import GATE_OF
from clubwright.services.recording.recording import keep, require_gate, require_open
from clubwright.state.ticket import Ticket


def cut_shaft(
    session: Session,
    job: str,
    cut_length: str,
    key: str | None = None,
    *,
    short: bool = False,
    cut_mass: str | None = None,
    cut_balance_from_tip: str | None = None,
    gauge: GaugeSaid = None,
    done_at: str | None = None,
) -> Fact:
    """Record the cut, with the length of the shaft as measured after it, and its mass and balance then where they were.

    The same length again with one of those is no other cut: the shaft was weighed or balanced since, and that is kept of it;
    a second figure adds to the first, and `gauge` says what measured it, both as in `change_part`.

    Raises:
        GateClosed: while bore, cap or lie are not known.
        InputError: when the shaft would be longer than it was cut before, or nothing came off and nothing was measured; when
            it is far short of its mark and `short` does not say that it is.
    """
    named = (("cut_mass", cut_mass), ("cut_balance_from_tip", cut_balance_from_tip))
    measured = {name: text for name, text in named if text}
    done = read_done_at(session, done_at)
    cut = ShaftCut(
        job=job,
        done_at=done,
        cut_length=cut_length,
        cut_mass=cut_mass or msgspec.UNSET,
        cut_balance_from_tip=cut_balance_from_tip or msgspec.UNSET,
    )
    require_payload(cut)
    since = PartChanged(job=job, section="shaft", values=measured)
    words = [f"{name} {text}" for name, text in measured.items()]

    def gauged(what: ShaftCut | PartChanged, ticket: Ticket | None) -> What:
        by = measured_by(ticket, "shaft", measured, gauge)
        return msgspec.structs.replace(what, gauges=by or msgspec.UNSET)

    def make(state: Job | None) -> What:
        standing = require_open(state, job)
        change_m = _change_m(standing, cut_length)
        if change_m is not None and abs(change_m) <= SAME_CUT_M:
            if not measured:
                mend = "Type its length after the new cut; or what the cut shaft weighs, or where it balances."
                raise InputError([Finding(where="cut", what=f"it is cut to {cut_length} already", mend=mend)])
            return gauged(since, ticket_of(standing))
        worked = require_gate(session, standing, GATE_OF[ShaftCut], when=done_moment(session, done))
        if not short and worked.cut is not None:
            _refuse_short(cut_length, worked.cut.shaft_length_m)
        return gauged(cut, worked.club_state.ticket)

    def typed(what: What) -> str:
        assert isinstance(what, ShaftCut | PartChanged)  # what is made above
        by = gauge_text(gauges_of(what), gauge)
        if isinstance(what, PartChanged):
            return "shaft: " + ", ".join(words) + by
        return ", ".join([f"cut to {cut_length}", *words]) + by + done_text(done)

    def same(what: What) -> bool:
        if isinstance(gauge, str):
            return what in (gauged(cut, None), gauged(since, None))
        return without_gauges(what) in (cut, since)

    return keep(session, job, make, typed=typed, same=same, key=key)


def _refuse_short(cut_length: str, mark_m: float) -> None:
    """Ask about a cut that is far short of the mark that was signed: it is more often a slip of the tape or of a finger.

    Raises:
        InputError: when it is.
    """
    short_m = mark_m - parse("length", cut_length, where="cut").value
    if short_m > MOST_SHORT_M:
        mark = render("length", mark_m)
        what = f"{cut_length} is {render('length', short_m)} short of the mark that was signed, {mark}"
        mend = (
            "Measure again, tip end to butt end. If it is cut so short, say that it is: on the card, or by "
            "`clubwright cut ... --short`."
        )
        raise InputError([Finding(where=SHORT_CUT, what=what, mend=mend)])


SHORT_CUT = "short cut"
"""Place of the finding that asks whether a shaft is cut so short indeed."""

MOST_SHORT_M = 0.25 * 0.0254
"""A saw and a rule miss a mark by far less than a quarter of an inch (common practice, no source)."""


def _change_m(state: Job, cut_length: str) -> float | None:
    """Return how much longer the shaft would be than it was cut before; None for the first cut.

    Raises:
        InputError: when it would be longer.
    """
    before = ticket_of(state).club.shaft.cut_length
    if before is None:
        return None
    change_m = parse("length", cut_length, where="cut").value - before.value
    if change_m > LEAST_GROWTH_M:
        mend = "Measure again; if the first figure was wrong, undo that cut and record it anew."
        raise InputError(
            [Finding(where="cut", what=f"{cut_length}, and it was cut to {before.typed} before", mend=mend)]
        )
    return change_m


LEAST_GROWTH_M = 0.001
"""A second measurement may come out this much longer than the first (estimate of ours)."""

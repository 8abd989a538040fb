"""What the joint asks of tip, bore and hosel before it is closed: the checks of the gates, and the figures of the cards."""

from __future__ import annotations

from clubwright.planning.club_state import ClubState
from clubwright.planning.gates.types import Check, met, unmet
from clubwright.planning.joint.fit import STARVED_M, JointFit, fine, fit_of
from clubwright.planning.said.phrases import Value, Word, phrase
from clubwright.planning.said.phrases import fine as fine_said
from clubwright.state.ticket import Ticket

Numbers = tuple[tuple[Value, Value], ...]

FINER = (
    "measure the bore with plug gauges and the tip with a micrometer, and write what they are good for behind the figure, "
    'such as "0.3575 in ± 0.0002 in"'
)


_CRACKED = phrase("gate.cracked short")

_SHORT = {"too loose": "it does not fit", "too tight": "it does not fit", "cannot tell": "the fit is not sure"}
"""What a verdict keeps from, in a few words."""


def fit_checks(club_state: ClubState) -> tuple[Check, ...]:
    """Return the checks of tip, bore and hosel for the glue gate."""
    return (*hosel_checks(club_state.ticket), *_fit_checks(club_state))


def hosel_checks(ticket: Ticket) -> tuple[Check, ...]:
    """Return what a look at the hosel found; nothing where nobody said so."""
    said = ticket.club.head.hosel
    if said is None:
        return ()
    if said != "cracked":
        return (met("hosel", ("", Word("hosel", said))),)
    mend = phrase("gate.mark cracked")
    what = phrase("gate.cracked")
    return (unmet("hosel", what, mend, ("", Word("hosel", said)), short=_CRACKED),)


def _fit_checks(club_state: ClubState) -> tuple[Check, ...]:
    ticket, found = club_state.ticket, fit_of(club_state)
    if found is None:
        return (
            *_unmeasured(
                ticket,
                "shaft",
                "tip_diameter",
                phrase("gate.no tip"),
                phrase("gate.measure tip"),
            ),
            *_unmeasured(
                ticket,
                "head",
                "bore_diameter",
                phrase("gate.no bore"),
                phrase("gate.measure bore"),
            ),
        )
    figures: Numbers = (
        (phrase("label.joint tip"), fine_said(found.tip_m)),
        (phrase("label.bore"), fine_said(found.bore_m)),
        (phrase("label.bond line"), fine_said(found.line_m)),
    )
    if found.verdict == "fits":
        return (met("fit", *figures),)
    what, mend = _REFUSED[found.verdict](found)
    return (unmet("fit", what, mend, *figures, short=_SHORT[found.verdict]),)


def _unmeasured(ticket: Ticket, section: str, key: str, what: Value, mend: Value) -> tuple[Check, ...]:
    return () if ticket.row(section).entry(key) is not None else (unmet("fit", what, mend),)


def _shim(found: JointFit) -> str:
    walls = found.shim_range_m()
    if walls is None:
        return ""
    return f"a shim over the full glued length, its wall {fine(walls[0])} to {fine(walls[1])} ([shim] thickness), "


def _loose(found: JointFit) -> tuple[str, str]:
    of = "" if found.lines == 1 else " with this shim"
    what = (
        f"a tip of {fine(found.tip_m)} in a bore of {fine(found.bore_m)}{of} leaves a bond line of {fine(found.line_m)} "
        f"a side, and {fine(found.allowed.high_m)} is the most ({found.allowed.high_from})"
    )
    return what, f"take the right shaft, {_shim(found)}or another head"


def _tight(found: JointFit) -> tuple[str, str]:
    if found.shim_m > 0:
        left = fine(found.clearance_m)
        what = f"the shim of {fine(found.shim_m)} is too thick: it leaves {left} of the diameter for adhesive"
        return what, f"take {_shim(found)}or leave it out" if _shim(found) else "leave it out"
    what = (
        f"a tip of {fine(found.tip_m)} is too big for a bore of {fine(found.bore_m)}: "
        f"it leaves {fine(found.clearance_m)}, and {fine(found.low_m)} is the least ({found.allowed.low_from})"
    )
    mend = (
        "take the right shaft or another head; never drive it in. A bore is reamed only where the head's maker and the wall "
        "of the hosel allow it: over the full depth, then measured again (bore_diameter with bore_reamed)"
    )
    return what, mend


def _open(found: JointFit) -> tuple[str, str]:
    what = (
        f"a clearance of {fine(found.clearance_m)} ± {fine(found.u_m)} cannot be told from one outside "
        f"{fine(found.low_m)} to {fine(found.high_m)}"
    )
    return what, FINER


_REFUSED = {"too loose": _loose, "too tight": _tight, "cannot tell": _open}


def fit_numbers(club_state: ClubState) -> tuple[Numbers, tuple[Value, ...]]:
    """Return the figures of tip and bore for a card, and what to know about them; what is not measured says so."""
    ticket, found = club_state.ticket, fit_of(club_state)
    if found is None:
        numbers: Numbers = tuple(
            (
                label,
                fine_said(entry.value) if (entry := ticket.row(section).entry(key)) else phrase("figure.not measured"),
            )
            for label, section, key in (
                (phrase("label.joint tip"), "shaft", "tip_diameter"),
                (phrase("label.bore"), "head", "bore_diameter"),
            )
        )
        return numbers, ()
    shim = ticket.club.shim.name or phrase("label.shim")
    allowed = phrase("figure.to", low=fine_said(found.allowed.low_m), high=fine_said(found.allowed.high_m))
    numbers = (
        (phrase("label.bond line verdict", verdict=Word("fit", found.verdict)), fine_said(found.line_m)),
        (phrase("label.tip in bore"), phrase("figure.in", tip=fine_said(found.tip_m), bore=fine_said(found.bore_m))),
        *(((shim, phrase("figure.a side", wall=fine_said(found.shim_m))),) if found.lines == 2 else ()),
        (
            phrase("label.clearance"),
            phrase("figure.give or take", figure=fine_said(found.clearance_m), spread=fine_said(found.u_m)),
        ),
        (phrase("label.bond line allowed"), allowed),
        (phrase("label.least from"), Word("standing", found.allowed.low_from)),
        (phrase("label.most from"), Word("standing", found.allowed.high_from)),
    )
    said: list[Value] = []
    if found.verdict == "fits" and found.line_m < STARVED_M:
        said.append(phrase("dry fit.starved", least=fine_said(STARVED_M)))
    return numbers, tuple(said)

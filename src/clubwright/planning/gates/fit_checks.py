"""What the joint asks of tip, bore and hosel before it is closed: the checks of the gates, and the figures of the cards."""

from __future__ import annotations

from clubwright.planning.club_state import ClubState
from clubwright.planning.gates.types import Check, met, unmet
from clubwright.planning.joint.fit import STARVED_M, JointFit, fit_of
from clubwright.planning.said.phrases import Value, Word, phrase
from clubwright.planning.said.phrases import fine as fine_said
from clubwright.state.ticket import Ticket

Numbers = tuple[tuple[Value, Value], ...]

_CRACKED = phrase("gate.cracked short")

_SHORT = {
    "too loose": phrase("fit.does not"),
    "too tight": phrase("fit.does not"),
    "cannot tell": phrase("fit.not sure"),
}
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


def _shim(found: JointFit) -> Value:
    walls = found.shim_range_m()
    return "" if walls is None else phrase("fit.shim", thin=fine_said(walls[0]), thick=fine_said(walls[1]))


def _loose(found: JointFit) -> tuple[Value, Value]:
    what = phrase(
        "fit.loose" if found.lines == 1 else "fit.loose with shim",
        tip=fine_said(found.tip_m),
        bore=fine_said(found.bore_m),
        line=fine_said(found.line_m),
        most=fine_said(found.allowed.high_m),
        source=Word("standing", found.allowed.high_from),
    )
    return what, phrase("fit.mend loose", shim=_shim(found))


def _tight(found: JointFit) -> tuple[Value, Value]:
    if found.shim_m > 0:
        what = phrase("fit.thick shim", shim=fine_said(found.shim_m), left=fine_said(found.clearance_m))
        shim = _shim(found)
        return what, phrase("fit.mend shim", shim=shim) if shim else phrase("fit.leave shim out")
    what = phrase(
        "fit.tight",
        tip=fine_said(found.tip_m),
        bore=fine_said(found.bore_m),
        left=fine_said(found.clearance_m),
        least=fine_said(found.low_m),
        source=Word("standing", found.allowed.low_from),
    )
    return what, phrase("fit.mend tight")


def _open(found: JointFit) -> tuple[Value, Value]:
    what = phrase(
        "fit.open",
        clearance=fine_said(found.clearance_m),
        spread=fine_said(found.u_m),
        low=fine_said(found.low_m),
        high=fine_said(found.high_m),
    )
    return what, phrase("fit.finer")


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

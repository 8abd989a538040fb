"""A second tap does nothing: a card that was just drawn rests, and what cannot be undone is held, or ticked as looked at.

A hand in a glove taps twice. The page's scripts and its style sheet keep a card's buttons still for `REST_S` after it was
drawn (static/rest.js, static/bench.css); here the same is asked once more, for a browser whose scripts are off and for a
request that overtakes another. The same form sent twice is one action (`clubwright.services.recording.recording`).
"""

from __future__ import annotations

from clubwright.errors import Finding, InputError
from clubwright.web.actions import Sent, one
from clubwright.web.guard.limits import whole_number

REST_S = 1.0
"""How long the buttons of a card rest after it was drawn: second taps come 0.15 to 0.7 s after the first (seen)."""

HOLD_S = 1.0
"""How long a button is held that signs what cannot be undone: longer than any tap (estimate of ours)."""

HELD = frozenset({"sign", "cut", "trim", "glue", "finish"})
"""Actions after which something is cut, glued, or in play: an undo takes back the line, never the thing itself."""

NEVER_RESTS = frozenset({"read", "scan"})
"""A reading may come from a gauge and a code from a scanner, faster than any hand: neither is refused for it."""

LOOKED = "looked"
"""Name of the field that says so; a held button fills it in."""


_ROUND_MS = 10**9
"""The stamp begins anew after eleven days, so that it stays a number that a form may carry."""


def stamp(stopwatch_s: float) -> int:
    """Return what a form carries of the moment it was drawn: milliseconds of the computer's stopwatch."""
    return round(stopwatch_s * 1000) % _ROUND_MS


def require_rest(sent: Sent, stopwatch_s: float) -> None:
    """Refuse a form that comes back sooner after it was drawn than anybody reads.

    Args:
        sent: The form; one without the moment it was drawn (a program's, an old page's) passes.
        stopwatch_s: The computer's stopwatch now, in seconds. It may have begun anew since: then nothing is known.

    Raises:
        InputError: when it does.
    """
    drawn = whole_number(one(sent, "drawn"))
    if drawn is None or one(sent, "action") in NEVER_RESTS:
        return
    passed_ms = (stamp(stopwatch_s) - drawn) % _ROUND_MS
    if passed_ms < REST_S * 1000:
        what = (
            f"it was tapped {passed_ms / 1000:.1f} s after this card was shown, as a second tap is, so nothing was kept"
        )
        raise InputError([Finding(where="second tap", what=what, mend="Look at the card, then tap again.")])


def require_look(sent: Sent) -> None:
    """Refuse what cannot be undone unless the person says that they have looked: by holding the button, or by the tick.

    Raises:
        InputError: when they do not.
    """
    if one(sent, "action") in HELD and one(sent, LOOKED) != "yes" and one(sent, "choose") != "theirs":
        what, mend = "this cannot be undone, and nobody said so", "Hold the button for a second; or tick it, then tap."
        raise InputError([Finding(where="I have looked", what=what, mend=mend)])

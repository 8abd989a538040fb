"""What keeps a gate closed in words."""

from __future__ import annotations

from clubwright.notation import UnitsShown
from clubwright.planning.gates.types import Check, Lack
from clubwright.planning.said.phrases import Word
from clubwright.words.say import say, sentence


def lack_of(check: Check, style: UnitsShown | None) -> Lack:
    """Say what is wrong by a check that is not met, for whom it keeps from going on."""
    return Lack(
        where=say(Word("check", check.key), style),
        what=say(check.what, style),
        mend=sentence(say(check.mend, style)),
        short=say(check.short, style),
    )

"""The trade's rules of thumb beside the exact figures of one club: shown, never used."""

from __future__ import annotations

from clubwright.club.swing_weight import Sensitivity, sensitivities
from clubwright.planning.club_state import ClubState
from clubwright.planning.said.phrases import Amount, Phrase, Word, phrase, points
from clubwright.units import GRAM_KG


def rule_lines(club_state: ClubState) -> tuple[Phrase, ...]:
    """Set each rule of thumb beside this club's own figure, one line each.

    ``"head weight for one point: the rule says 2.0 g, this club 2.35 g (two trade lists of swing-weight factors)"``. The
    figures are those of the finished club with the weights fitted now; `clubwright.club.swing_weight` derives them.
    """
    return tuple(
        phrase(
            f"rule.{row.key}",
            rule=_size(row, row.rule, exactly=False),
            exact=_size(row, row.exact, exactly=True),
            source=Word("rule of thumb", row.source),
        )
        for row in sensitivities(club_state.build())
    )


def _size(row: Sensitivity, value: float, *, exactly: bool) -> Amount:
    if row.unit != "g":
        return points(value, "points")
    return Amount("mass", value * GRAM_KG, form="hundredths of grams" if exactly else "grams")

"""The trade's rules of thumb beside the exact figures of one club: shown, never used."""

from __future__ import annotations

from clubwright.club.swing_weight import sensitivities
from clubwright.planning.club_state import ClubState


def rule_lines(club_state: ClubState) -> tuple[str, ...]:
    """Set each rule of thumb beside this club's own figure, one line each.

    ``"head mass for one point: the rule says 2.0 g, this club 2.35 g (two trade lists of swing-weight factors)"``. The
    figures are those of the finished club with the weights fitted now; `clubwright.club.swing_weight` derives them.
    """
    return tuple(
        f"{row.change}: the rule says {row.rule:.1f} {row.unit}, this club {row.exact:.2f} {row.unit} ({row.source})"
        for row in sensitivities(club_state.build())
    )

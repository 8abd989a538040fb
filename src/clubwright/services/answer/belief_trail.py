"""How the belief about the finished club went: before any reading, and after each that stands."""

from __future__ import annotations

import msgspec

from clubwright.belief.update import learn
from clubwright.club.quantities import QUANTITIES
from clubwright.errors import Where
from clubwright.notation import render
from clubwright.services.answer.club_answer import ClubAnswer
from clubwright.words import spoken


class BeliefPoint(msgspec.Struct, frozen=True, kw_only=True):
    """The belief about one quantity of the finished club, with the weights that are fitted now.

    Attributes:
        after: The reading it follows; "parts only" for the first.
        mean, sd: In SI (points for swing weight).
        text: Both in trade notation.
    """

    after: str
    mean: float
    sd: float
    text: str


def belief_trail(worked: ClubAnswer, quantity: str) -> tuple[BeliefPoint, ...]:
    """Return the belief after each reading that stands, all seen with the parts and weights of now.

    So a step in the line is what a reading taught, never a weight that was fitted in between.

    Args:
        worked: The job, worked.
        quantity: Key in the register of quantities; nothing is returned when it cannot be predicted.
    """
    club_state = worked.club_state
    if not club_state.can_predict(quantity):
        return ()
    prior = club_state.prior
    typed: dict[Where, str] = {
        entry.where: f"{spoken('read', entry.quantity)} {entry.entry.typed}" for entry in club_state.ticket.readings
    }
    readings = [item.reading for item in club_state.learned.judged if item.taken]
    points = []
    for count in range(len(readings) + 1):
        learned = learn(prior.belief, prior.club, prior.conventions, readings[:count], limit=float("inf"))
        prediction = msgspec.structs.replace(club_state, learned=learned).predict([quantity])
        mean, sd = float(prediction.mean[0, 0]), float(prediction.sd()[0, 0])
        points.append(
            BeliefPoint(
                after=typed[readings[count - 1].where] if count else "parts only",
                mean=mean,
                sd=sd,
                text=render(QUANTITIES[quantity].kind, mean, sd),
            )
        )
    return tuple(points)

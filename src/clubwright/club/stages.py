"""The stages of a build: which parts are on the club, and what the butt stop of a gauge touches.

The stop of a swing-weight scale and the clamp of a frequency meter sit on what is there: the outer face of the grip cap
when a grip is on, else the bare butt. A dry reading that forgets this is off by one cap thickness, about a point.
"""

from __future__ import annotations

from typing import Literal

import msgspec

PartName = Literal["shaft", "head", "ferrule", "weights", "adapter", "tapes", "grip", "adhesive"]


class Stage(msgspec.Struct, frozen=True):
    """One stage of the build.

    Attributes:
        name: As written in a ticket's reading.
        parts: The parts present.
        meaning: One line for the person at the bench.
        old_parts: Whether the parts that the club came in with are on, instead of those that replace them.
    """

    name: str
    parts: frozenset[PartName]
    meaning: str
    old_parts: bool = False

    @property
    def stop_on_cap(self) -> bool:
        """True when a gauge's butt stop touches the grip cap, false when it touches the bare butt."""
        return "grip" in self.parts


_DRY: frozenset[PartName] = frozenset({"shaft", "head", "ferrule", "weights", "adapter"})

BARE_SHAFT = Stage("bare shaft", frozenset({"shaft"}), "the shaft alone, as trimmed so far")
DRY_NO_GRIP = Stage("dry, no grip", _DRY, "head and ferrule on, no tape, no grip, no adhesive")
DRY_TAPED = Stage("dry, taped", _DRY | {"tapes"}, "tape on, no grip, no adhesive")
DRY_GRIPPED = Stage("dry, gripped", _DRY | {"tapes", "grip"}, "grip slid on over the tape, no adhesive")
GLUED_NO_GRIP = Stage("glued, no grip", _DRY | {"adhesive"}, "joint glued, no tape, no grip")
FINISHED = Stage("finished", _DRY | {"adhesive", "tapes", "grip"}, "everything on and cured")
AS_IT_CAME = Stage(
    "as it came",
    FINISHED.parts,
    "the whole club before anything of it came off: its old grip and tape, in a re-shaft its old shaft too",
    old_parts=True,
)

STAGES: dict[str, Stage] = {
    stage.name: stage
    for stage in (AS_IT_CAME, BARE_SHAFT, DRY_NO_GRIP, DRY_TAPED, DRY_GRIPPED, GLUED_NO_GRIP, FINISHED)
}

SAID_SHORT: dict[str, tuple[Stage, ...]] = {
    "bare": (BARE_SHAFT,),
    "shaft": (BARE_SHAFT,),
    "dry": (DRY_NO_GRIP, DRY_TAPED, DRY_GRIPPED),
    "no grip": (DRY_NO_GRIP, GLUED_NO_GRIP),
    "taped": (DRY_TAPED,),
    "gripped": (DRY_GRIPPED, FINISHED),
    "glued": (GLUED_NO_GRIP, FINISHED),
    "done": (FINISHED,),
    "came": (AS_IT_CAME,),
}
"""What somebody says for short at the bench, and the stages that it may mean; even where that is one, it is asked about."""

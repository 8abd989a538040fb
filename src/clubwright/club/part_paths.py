"""How a part and a number of it are called: by the path to it from a club, spelt here and nowhere else.

``grip`` is the grip that is on, ``tapes.0`` the lowest tape, ``came.tapes.0`` the lowest one that the club came in with, and
``earlier.1.head`` the head before the second change; ``tapes.0.mass_kg`` is a number. The club of the mechanics and the club
as it is known (`clubwright.state.club.KnownClub`) have their parts under the same paths.
"""

from __future__ import annotations

from typing import Any, NamedTuple

TAPES = "tapes"
WEIGHTS = "weights"
CAME = "came"
EARLIER = "earlier"


def path_of(*steps: str | int) -> str:
    """Return a path of its steps: ``path_of(TAPES, 0, "mass_kg")`` is ``tapes.0.mass_kg``."""
    return ".".join(map(str, steps))


def came_path(path: str) -> str:
    """Return the path of the like part that the club came in with."""
    return path_of(CAME, path)


def is_came(path: str) -> bool:
    """True for a part that the club came in with, and for a number of one."""
    return path.startswith(f"{CAME}.")


def without_came(path: str) -> str:
    """Return the path of the like part that is on; of a part that is on, its own."""
    return path.removeprefix(f"{CAME}.")


def earlier_path(place: int, path: str) -> str:
    """Return the path of the like part, or figure, from before a change of the club, 0 the first."""
    return path_of(EARLIER, place, path)


def without_earlier(path: str) -> tuple[int | None, str]:
    """Return before which change a path tells of the club, None for the club as it is now, and the like path of now."""
    if not path.startswith(f"{EARLIER}."):
        return None, path
    _, place, rest = path.split(".", 2)
    return int(place), rest


class PartPath(NamedTuple):
    """What a path says.

    Attributes:
        then: Before which change of the club, 0 the first; None for the club as it is now.
        part: Path of the part, without the place in a list; empty for a figure that a change kept by itself.
        place: Which of several; None where there is one.
        number: The number of the part.
    """

    then: int | None
    part: str
    place: int | None
    number: str


def read_path(path: str) -> PartPath:
    """Read the path of a number of a part."""
    then, here = without_earlier(path)
    *steps, number = steps_of(here)
    place = int(steps[-1]) if steps and steps[-1].isdigit() else None
    return PartPath(then, of_each(path_of(*steps)), place, number)


def steps_of(path: str) -> list[str]:
    """Return the steps that a path is made of."""
    return path.split(".")


def is_of_a_part(name: str) -> bool:
    """True for the path of a number of a part, false for the key of a quantity."""
    return "." in name


def of_each(path: str) -> str:
    """Return a path without the places in lists, for what holds of each in one: ``tapes.mass_kg``."""
    return ".".join(step for step in steps_of(path) if not step.isdigit())


def at_path(club: Any, path: str) -> Any:
    """Return what stands at a path of a club: a part, all parts of a kind, or a number of one."""
    found: Any = club
    for step in steps_of(path):
        found = found[int(step)] if step.isdigit() else getattr(found, step)
    return found

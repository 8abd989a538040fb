"""Asked the other way round: which jobs a gauge has read, and on which a lot, a part, a person or a player is named."""

from __future__ import annotations

from collections.abc import Mapping

from clubwright.errors import Finding, InputError
from clubwright.journal.touches import TOUCH_KINDS
from clubwright.services.record.job_index import TouchedJob
from clubwright.services.record.session import Session


def touched_by(session: Session, given: Mapping[str, str]) -> list[TouchedJob]:
    """Return the jobs on which a fact that stands touches a thing, as they came in.

    Args:
        session: Who and where.
        given: One thing: its kind (`TOUCH_KINDS`), and its name; small letters and outer spaces do not matter.

    Raises:
        InputError: when it is not one thing.
    """
    kinds = ", ".join(TOUCH_KINDS)
    named = [(kind, given[kind]) for kind in TOUCH_KINDS if given.get(kind, "").strip()]
    if len(given) != 1 or len(named) != 1:
        what = "nothing is named" if not given else "one thing is asked for at a time, by its name"
        raise InputError([Finding(where="touched", what=what, mend=f"Name one of: {kinds}.")])
    [(kind, name)] = named
    return session.ask(lambda index: index.touched(kind, name))

"""The register of bench actions: page, command line, `/api` and Python look up here what there is and who does it.

An entry is data: nothing heavy is loaded before an action is done (`clubwright.services.actions.door`). What follows from
the facts that an action writes (its role, its gate, its step) is asked of them, in the module `facets` beside this one.
"""

from __future__ import annotations

from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.of_the_record import OF_THE_RECORD
from clubwright.services.actions.register.on_the_club import ON_THE_CLUB

ACTIONS: dict[str, Action] = {action.key: action for action in (*ON_THE_CLUB, *OF_THE_RECORD)}
"""Every bench action, by its key."""

"""The bench actions, gathered: each checks what it is given against the job as it stands, then writes one fact.

Every action takes an idempotency key: sent again with the same key, it gives the fact that is already there. Every action
raises `RecordError` for a ticket that the record does not have, and for a change to a job that is finished.
"""

from __future__ import annotations

from clubwright.services.actions.accepting import accept
from clubwright.services.actions.forgetting import forget
from clubwright.services.actions.making.cutting import cut_shaft
from clubwright.services.actions.making.making import (
    bend_head,
    fit_weights,
    glue,
    lay_tape,
    mix_adhesive,
    slide_grip,
    trim_shaft,
)
from clubwright.services.actions.making.mixes import call_mix_bad, take_from_mix
from clubwright.services.actions.making.pulling import pull_head
from clubwright.services.actions.orders.changing import change_part, change_parts
from clubwright.services.actions.orders.clubs import say_club
from clubwright.services.actions.orders.ordering import change_order
from clubwright.services.actions.orders.renumbering import renumber
from clubwright.services.actions.orders.ticket_taking import take_ticket
from clubwright.services.actions.readings import decide_reading, note_reading
from clubwright.services.actions.signing import do_step, finish, reopen, sign_gate
from clubwright.services.actions.undoing import undo

__all__ = [
    "accept",
    "bend_head",
    "call_mix_bad",
    "change_order",
    "change_part",
    "change_parts",
    "cut_shaft",
    "decide_reading",
    "do_step",
    "finish",
    "fit_weights",
    "forget",
    "glue",
    "lay_tape",
    "mix_adhesive",
    "note_reading",
    "pull_head",
    "renumber",
    "reopen",
    "say_club",
    "sign_gate",
    "slide_grip",
    "take_from_mix",
    "take_ticket",
    "trim_shaft",
    "undo",
]

"""The hand that is killed: writes random actions and says so on stdout, honestly or as one of two saboteurs.

    python crash_writer.py RECORD honest|torn|early ROUND SEED

honest  one transaction for each action, said after it is committed
torn    every fact by itself, without a transaction around the action
early   said before it is committed
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Callable

from sqlalchemy import insert

from clubwright.journal.chain import GENESIS, heads, seal
from clubwright.journal.facts import Fact, StepDone, TicketTaken, What
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.rows import row_of
from clubwright.store.tables import fact_table

AT = "2026-03-02T08:00:00.000Z"
WINDOW_S = 0.002
"""How long a saboteur stands where it does harm; an honest hand is never there at all."""


def say(key: str, facts: list[Fact]) -> None:
    print(key, len(facts), facts[-1].hash, flush=True)


def honest(ledger: Ledger, key: str, payloads: list[What]) -> None:
    say(key, ledger.append("van", payloads, by="Ann", at=AT, typed="", key=key))


def torn(ledger: Ledger, key: str, payloads: list[What]) -> None:
    facts = sealed(ledger, key, payloads)
    for fact in facts:
        with ledger.engine.begin() as connection:
            connection.execute(insert(fact_table), row_of(fact))
        time.sleep(WINDOW_S)
    say(key, facts)


def early(ledger: Ledger, key: str, payloads: list[What]) -> None:
    facts = sealed(ledger, key, payloads)
    with ledger.engine.begin() as connection:
        connection.execute(insert(fact_table), [row_of(fact) for fact in facts])
        say(key, facts)
        time.sleep(WINDOW_S)


def sealed(ledger: Ledger, key: str, payloads: list[What]) -> list[Fact]:
    sequence, previous = heads(ledger.facts()).get("van", (0, GENESIS))
    facts: list[Fact] = []
    for number, what in enumerate(payloads, start=1):
        facts.append(
            seal(
                what,
                site="van",
                sequence=sequence + number,
                at=AT,
                by="Ann",
                typed="",
                key=key if number == 1 else f"{key}#{number}",
                previous_hash=facts[-1].hash if facts else previous,
            )
        )
    return facts


HANDS: dict[str, Callable[[Ledger, str, list[What]], None]] = {"honest": honest, "torn": torn, "early": early}


def main(record: str, hand: str, round_number: str, seed: str) -> None:
    chance = random.Random(f"{seed} {round_number}")
    ledger = Ledger(open_engine(f"sqlite:///{record}"))
    job = f"T-{round_number}"
    action = 0
    while True:
        size = chance.randint(2, 4)
        first: list[What] = [TicketTaken(job=job, document={}, source=f"1/{size}")] if action == 0 else []
        # every fact says how many were written with it, so that a torn group shows
        steps = [StepDone(job=job, step="x" * chance.randint(1, 900), note=f"{size}") for _ in range(size - len(first))]
        HANDS[hand](ledger, f"{round_number}-{action}", [*first, *steps])
        action += 1


if __name__ == "__main__":
    main(*sys.argv[1:])

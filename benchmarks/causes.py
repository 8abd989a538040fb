"""Mistakes put into simulated clubs: how often the right cause is named first, and how often an honest club is accused.

    python benchmarks/causes.py --clubs 40 --seed 11
    python benchmarks/causes.py --honest 1000 --seed 11

What is simulated, and what that cannot show: benchmarks/README.md.
"""

from __future__ import annotations

import argparse
from time import process_time
from typing import Any

import numpy as np
from virtual.mistakes import MISTAKES, VISITS, Club, Shop, club_of, read, wrong_stage

from clubwright.belief.causes.explain import explain
from clubwright.belief.update import learn
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.learning import known_of
from clubwright.planning.misfits import MisfitCause, misfits_of
from clubwright.ticket.gauges import readings_of
from clubwright.ticket.read import read_ticket


def told(club: Club, shop: Shop, random: np.random.Generator) -> ClubState:
    """Take the readings of a club, and work it."""
    ticket, findings = read_ticket({**club.document, "reading": read(club, shop, random)})
    assert ticket is not None, findings
    return club_state_of(ticket)


def causes_of(club_state: ClubState) -> tuple[MisfitCause, ...]:
    """Return the causes of the first reading that is kept aside, likeliest first; none where all fit."""
    misfits = misfits_of(club_state)
    return misfits[0].causes if misfits else ()


def lasting(club_state: ClubState) -> tuple[float, float]:
    """Return the milliseconds of processor time that learning the readings takes, and explaining what does not fit."""
    prior, readings = club_state.prior, readings_of(club_state.ticket)
    start = process_time()
    learned = learn(prior.belief, prior.club, prior.conventions, readings)
    between = process_time()
    aside = [item.reading.where for item in learned.set_aside]
    explain(prior.belief, prior.club, prior.conventions, readings, aside, known_of(club_state.ticket, prior))
    return (between - start) * 1e3, (process_time() - between) * 1e3


def mistakes(clubs: int, seed: int, *, shared: bool) -> list[list[Any]]:
    """Return for each mistake how many clubs, in how many something was set aside, and how often it was named in time."""
    rows = []
    for number, (name, mistake) in enumerate(MISTAKES.items()):
        seen, first, second, lasted = 0, 0, 0, []
        for each in range(clubs):
            random = np.random.default_rng([seed, number, each])
            shop = Shop.drawn(random) if shared else Shop()
            club = club_of(shop, random)
            if mistake is wrong_stage and "dry, gripped" not in club.visits:
                club.visits = VISITS[0]
            is_it = mistake(club, random)
            club_state = told(club, shop, random)
            causes = causes_of(club_state)
            lasted += [lasting(club_state)] if causes else []
            seen += bool(causes)
            first += any(map(is_it, causes[:1]))
            second += any(map(is_it, causes[:2]))
        rows.append([name, clubs, seen, first, second, *np.median(lasted or [(0.0, 0.0)], axis=0)])
    return rows


def honest(clubs: int, seed: int, *, shared: bool) -> tuple[int, int]:
    """Return in how many of so many honest clubs a reading lay beyond the limit, and was set aside: 20 clubs to a shop."""
    beyond, alarms = 0, 0
    for each in range(clubs):
        shop = Shop.drawn(np.random.default_rng([seed, 98, each // 20])) if shared else Shop()
        random = np.random.default_rng([seed, 99, each])
        club_state = told(club_of(shop, random), shop, random)
        prior, readings = club_state.prior, readings_of(club_state.ticket)
        beyond += bool(learn(prior.belief, prior.club, prior.conventions, readings).set_aside)
        alarms += bool(club_state.learned.set_aside)
    return beyond, alarms


def main() -> None:
    """Print the tables that were asked for."""
    parser = argparse.ArgumentParser(description="Mistakes put into simulated clubs, and honest clubs beside them.")
    parser.add_argument("--clubs", type=int, default=40, help="clubs with each mistake")
    parser.add_argument("--honest", type=int, default=1000, help="clubs without one")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    for shared in (False, True):
        print(f"\n{'Errors shared by the clubs of a shop' if shared else 'Errors of each club by itself'}:\n")
        print("| mistake | clubs | a reading set aside | named first | first or second | ms to learn | ms to explain |")
        print("|---|---|---|---|---|---|---|")
        for name, clubs, seen, first, second, learning, explaining in mistakes(asked.clubs, asked.seed, shared=shared):
            print(f"| {name} | {clubs} | {seen} | {first} | {second} | {learning:.1f} | {explaining:.1f} |")
        if asked.honest:
            beyond, alarms = honest(asked.honest, asked.seed, shared=shared)
            print(f"\nHonest clubs: {asked.honest}. A reading beyond the limit: {beyond}; set aside: {alarms}.")


if __name__ == "__main__":
    main()

"""How soon the bench page answers, beside an empty route, and whether eight tablets lose or double a reading.

    python benchmarks/web.py [--rounds 4] [--json]

Needs Chromium (`CHROMIUM` names another one). Server, clients and browser run on this machine, over loopback. Times are the
clock's, so other work on the machine counts; the ratio to the empty route is taken request by request beside it.
"""

from __future__ import annotations

import argparse
import itertools
import json
import os
import platform
import re
import statistics
import time
from concurrent.futures import ThreadPoolExecutor

import httpx
from web_workshop import JOB, OTHER_CLUBS, Client, Plain, Tablet, chromium, empty_route, workshop

from clubwright.journal.facts import ReadingTaken
from clubwright.services.record.session import Session
from clubwright.web.rendering import STATIC

NUMBERS = itertools.count()
PER_ROUND = 10
"""Readings taken on one club before the next round begins a new one: as many as a careful bench takes."""

TABLETS = (JOB,) * 4 + OTHER_CLUBS * 2
"""The club on each of the eight tablets: four quarrel over one, two and two over two others."""

YEARS = 20_000
"""Facts in the record of a workshop that has built some five hundred clubs."""

MOST = 20
"""Times that one reading is sent before it counts as lost."""

EACH = 5
"""Readings taken at each tablet; every one is sent twice at once and once more afterwards."""

KEPT = 303
"""A reading that was kept leads to the next page."""

WATCH = """() => {
  window.taken = [];
  const facts = () => document.querySelector("#bench").dataset.facts;
  document.addEventListener("pointerdown", () => { window.pressed = performance.now(); window.facts = facts(); }, true);
  document.addEventListener("htmx:after:swap", () => requestAnimationFrame(() => setTimeout(() => {
    const drawn = document.querySelector("#bench .strip") && facts() !== window.facts;
    if (window.pressed && drawn) { window.taken.push(performance.now() - window.pressed); window.pressed = 0; }
  })));
}"""
"""From the finger on the button to the frame after the new strips are in the page."""


def value() -> str:
    """Return a reading that fits, and that no club before had: what was worked once is kept by the program."""
    return f"D1.{200 + 7 * next(NUMBERS) % 199}"


def posts(rounds: int, others: int = 0) -> Plain:
    """Time a reading's request until it is kept, the page that follows, and beside each an empty FastAPI route.

    The first reading after the program started is counted apart: the empty route has been asked before, too.
    """
    first: list[float] = []
    reading: list[float] = []
    empty: list[float] = []
    shown: list[float] = []
    with empty_route() as bare, httpx.Client(base_url=bare) as nothing:
        nothing.post("/")
        for _ in range(rounds):
            with workshop(others) as (address, _session):
                client = Client(address)
                for number in range(PER_ROUND):
                    form = client.form(f"post-{number}", value())
                    start = time.perf_counter()
                    nothing.post("/")
                    between = time.perf_counter()
                    status = client.post(form)
                    (reading if number else first).append(time.perf_counter() - between)
                    empty.append(between - start)
                    assert status == KEPT
                    start = time.perf_counter()
                    client.next_page()
                    shown.append(time.perf_counter() - start)
    return {
        "post_first_ms": statistics.median(first) * 1e3,
        "post_median_ms": statistics.median(reading) * 1e3,
        "post_p95_ms": p95(reading) * 1e3,
        "empty_median_ms": statistics.median(empty) * 1e3,
        "empty_p95_ms": p95(empty) * 1e3,
        "post_p95_to_empty": p95(reading) / p95(empty),
        "post_median_to_empty": statistics.median(reading) / statistics.median(empty),
        "page_median_ms": statistics.median(shown) * 1e3,
        "page_p95_ms": p95(shown) * 1e3,
        "posts": len(reading),
    }


def p95(seconds: list[float]) -> float:
    return statistics.quantiles(seconds, n=20)[-1]


def redrawn(rounds: int) -> Plain:
    """Time a tap on "Keep the reading" in a browser of a tablet's size, until the strips are drawn anew."""
    taken: list[float] = []
    with chromium() as browser:
        for _ in range(rounds):
            with workshop() as (address, _session):
                tablet = Tablet(browser, address, (1280, 800), still=False)
                tablet.open(f"/bench/{JOB}")
                page = tablet.page
                page.evaluate(WATCH)
                for number in range(PER_ROUND):
                    page.locator("#bench .chip:has(input[value='swing_weight'])").tap()
                    page.locator("#bench input[name=value]").fill(value())
                    page.locator("#echo .understood").wait_for()
                    page.locator("#bench button.primary", has_text="Keep the reading").tap()
                    page.wait_for_function("number => window.taken.length > number", arg=number)
                taken += page.evaluate("() => window.taken")
                tablet.close()
    return {"redrawn_median_ms": statistics.median(taken), "redrawn_p95_ms": p95(taken), "redrawn": len(taken)}


def eight_tablets() -> Plain:
    """Eight tablets take readings in one shop, each sent three times; says how many facts were lost or doubled."""
    with workshop() as (address, session):

        def at_one(tablet: int) -> list[int]:
            return [
                status for number in range(EACH) for status in sent(Client(address, TABLETS[tablet]), tablet, number)
            ]

        before = keys_of(session)
        start = time.perf_counter()
        with ThreadPoolExecutor(len(TABLETS)) as pool:
            statuses = [status for found in pool.map(at_one, range(len(TABLETS))) for status in found]
        seconds = time.perf_counter() - start
        kept = keys_of(session)
        damage = session.ledger.verify()
    wanted = {key_of(tablet, number) for tablet in range(len(TABLETS)) for number in range(EACH)}
    lost, doubled = lost_and_doubled(before, kept, wanted)
    return {
        "tablets": len(TABLETS),
        "readings": len(wanted),
        "sent": len(statuses),
        "seconds": seconds,
        "asked_which": statuses.count(409),
        "refused": sum(status >= 500 for status in statuses),
        "lost": lost,
        "doubled": doubled,
        "damage": len(damage),
    }


def keys_of(session: Session) -> list[str]:
    """Keys of the readings in the record, one for each fact."""
    return [fact.key for fact in session.ledger.facts() if isinstance(fact.what, ReadingTaken)]


def lost_and_doubled(before: list[str], after: list[str], wanted: set[str]) -> tuple[int, int]:
    """How many of the wanted readings were not kept, and how many were kept beyond them.

    What the record held before anybody tapped (the demo brings readings of its own) is none of the tablets'.
    """
    return len(wanted - set(after)), len(after) - len(before) - len(wanted & set(after))


def key_of(tablet: int, number: int) -> str:
    return f"tablet-{tablet}-{number}"


def sent(client: Client, tablet: int, number: int) -> list[int]:
    """Send one reading twice at once, again until it is kept (asked about another's: keep both), and once more."""
    form = client.form(key_of(tablet, number), value())
    with ThreadPoolExecutor(2) as both:
        statuses = list(both.map(client.post, (form, form)))
    while KEPT not in statuses and len(statuses) < MOST:
        statuses.append(client.post({**form, "choose": "both"}))
    return [*statuses, client.post({**form, "choose": "both"})]


def sizes() -> Plain:
    """Return the bytes of the bench's page, and of everything that it loads."""
    with workshop() as (address, _session), httpx.Client(base_url=address) as client:
        text = client.get(f"/bench/{JOB}").text
    names = sorted(set(re.findall(r'(?:src|href)="/static/([^"?]+)', text)))
    return {
        "page_bytes": len(text.encode()),
        "assets": {name: (STATIC / name).stat().st_size for name in names},
        "assets_bytes": sum((STATIC / name).stat().st_size for name in names),
    }


def main() -> None:
    parser = argparse.ArgumentParser(
        description="How soon the bench page answers, and whether a reading is lost or doubled."
    )
    parser.add_argument("--rounds", type=int, default=4, help=f"clubs, each with {PER_ROUND} readings")
    parser.add_argument("--json", action="store_true")
    given = parser.parse_args()
    load = os.getloadavg()[0]
    found = {**sizes(), **posts(given.rounds), **redrawn(given.rounds), **eight_tablets(), "load": load}
    found["old_record_median_ms"] = posts(1, YEARS)["post_median_ms"]
    if given.json:
        print(json.dumps(found, indent=1, sort_keys=True))
        return
    print(
        f"{os.cpu_count()} processors ({platform.machine()}), Python {platform.python_version()}, "
        f"load average {load:.1f}\n\n"
        "| what | seen | wanted |\n|---|---|---|\n"
        f"| reading to redrawn strips in the browser, median of {found['redrawn']} "
        f"| {found['redrawn_median_ms']:.0f} ms (p95 {found['redrawn_p95_ms']:.0f} ms) | under 100 ms |\n"
        f"| a reading's request, until it is kept, p95 of {found['posts']} "
        f"| {found['post_p95_ms']:.1f} ms (median {found['post_median_ms']:.1f} ms) | |\n"
        f"| the same, the first after the program started, median | {found['post_first_ms']:.1f} ms | |\n"
        f"| an empty FastAPI route beside it, p95 "
        f"| {found['empty_p95_ms']:.1f} ms (median {found['empty_median_ms']:.1f} ms) | |\n"
        f"| ratio of the two, p95 (medians) "
        f"| {found['post_p95_to_empty']:.1f} ({found['post_median_to_empty']:.1f}) | under 5 |\n"
        f"| the page that follows it, p95 | {found['page_p95_ms']:.0f} ms (median {found['page_median_ms']:.0f} ms) | |\n"
        f"| a reading in a record of {YEARS} facts, median | {found['old_record_median_ms']:.0f} ms | |\n"
        f"| {found['tablets']} tablets, {found['readings']} readings sent {found['sent']} times: lost, doubled, damaged "
        f"| {found['lost']}, {found['doubled']}, {found['damage']} | 0, 0, 0 |\n"
        f"| the same: answers that failed, asked to choose, time "
        f"| {found['refused']}, {found['asked_which']}, {found['seconds']:.1f} s | 0 failed |\n"
        f"| the bench's page | {found['page_bytes'] / 1000:.1f} kB | under 60 kB |\n"
        f"| everything it loads | {found['assets_bytes'] / 1000:.1f} kB | under 250 kB |"
    )


if __name__ == "__main__":
    main()

"""Tables and figures of a run."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from virtual.running import COLUMNS, METHODS

Rows = NDArray[np.float64]
ENOUGH = 200
"""Clubs in a tenth from which its share is worth holding against the promise."""


def _column(rows: Rows, name: str) -> Rows:
    found: Rows = rows[:, COLUMNS.index(name)]
    return found


def shares(rows: Rows) -> dict[str, Any]:
    """Return how often each method was right at once, how often clubs came back, and how honest the promises were."""
    count = len(rows)
    missed = {name: 1 - float(np.mean(_column(rows, name))) for name in METHODS}
    chance, hit = _column(rows, "chance"), _column(rows, "clubwright")
    return {
        "clubs": count,
        "right": {name: 1 - missed[name] for name in METHODS},
        "standard_error": {name: float(np.sqrt(missed[name] * (1 - missed[name]) / count)) for name in METHODS},
        "misses_to_rule": missed["clubwright"] / missed["rule"] if missed["rule"] else float("nan"),
        "swaps_per_club": {name: float(np.mean(_column(rows, f"swaps {name}"))) for name in METHODS},
        "let_go_right": {name: float(np.mean(_column(rows, f"let go right {name}"))) for name in METHODS},
        "promised": float(np.mean(chance)),
        "brier": float(np.mean((chance - hit) ** 2)),
        "sd_pt": float(np.mean(_column(rows, "sd"))),
        "rms_off_pt": float(np.sqrt(np.mean(_column(rows, "off") ** 2))),
    }


def calibration(rows: Rows) -> dict[str, Any]:
    """Return promise against delivery, overall and in tenths of the promised chance."""
    chance, hit = _column(rows, "chance"), _column(rows, "clubwright")
    tenth = np.minimum((chance * 10).astype(int), 9)
    bins = []
    for place in range(10):
        inside = tenth == place
        count = int(np.sum(inside))
        if not count:
            bins.append({"from": place / 10, "clubs": 0})
            continue
        promised, delivered = float(np.mean(chance[inside])), float(np.mean(hit[inside]))
        error = float(np.sqrt(np.mean(chance[inside] * (1 - chance[inside])) / count))
        bins.append(
            {
                "from": place / 10,
                "clubs": count,
                "promised": promised,
                "delivered": delivered,
                "standard_error": error,
            }
        )
    return {
        "clubs": len(rows),
        "promised": float(np.mean(chance)),
        "delivered": float(np.mean(hit)),
        "brier": float(np.mean((chance - hit) ** 2)),
        "brier_if_honest": float(np.mean(chance * (1 - chance))),
        "tenths": bins,
    }


SHARES_HEAD = (
    "| kind | clubs | rule of thumb | exact statics | clubwright | misses, clubwright to rule | promised | Brier "
    "| stated sd | rms off |\n|---|---|---|---|---|---|---|---|---|---|"
)
REWORK_HEAD = (
    "| kind | swaps per club: rule, statics, clubwright | let go right: rule, statics, clubwright |\n|---|---|---|"
)


def shares_line(kind: str, found: dict[str, Any]) -> str:
    """Return one line of the table of clubs right at the first fit."""
    right, error = found["right"], found["standard_error"]
    cells = [f"{100 * right[name]:.1f} ± {100 * error[name]:.1f} %" for name in METHODS]
    return (
        f"| {kind} | {found['clubs']} | {' | '.join(cells)} | {found['misses_to_rule']:.2f} "
        f"| {100 * found['promised']:.1f} % | {found['brier']:.3f} | {found['sd_pt']:.3f} pt "
        f"| {found['rms_off_pt']:.3f} pt |"
    )


def rework_line(kind: str, found: dict[str, Any]) -> str:
    """Return one line of the table of clubs that went back to the tray."""
    swaps = ", ".join(f"{found['swaps_per_club'][name]:.2f}" for name in METHODS)
    right = ", ".join(f"{100 * found['let_go_right'][name]:.1f} %" for name in METHODS)
    return f"| {kind} | {swaps} | {right} |"


def calibration_text(found: dict[str, Any]) -> str:
    """Return the table of promise against delivery."""
    lines = [
        (
            f"{found['clubs']} clubs: promised {100 * found['promised']:.2f} %, delivered {100 * found['delivered']:.2f} %; "
            f"Brier score {found['brier']:.4f}, {found['brier_if_honest']:.4f} if every promise were exactly true."
        ),
        "",
        "| promised chance | clubs | mean promised | delivered | standard error | delivered - promised, points |",
        "|---|---|---|---|---|---|",
    ]
    for row in found["tenths"]:
        band = f"{row['from']:.1f} to {row['from'] + 0.1:.1f}"
        if row["clubs"] < ENOUGH:
            lines.append(f"| {band} | {row['clubs']} | too few | | | |")
            continue
        gap = 100 * (row["delivered"] - row["promised"])
        lines.append(
            f"| {band} | {row['clubs']} | {100 * row['promised']:.1f} % | {100 * row['delivered']:.1f} % "
            f"| {100 * row['standard_error']:.1f} | {gap:+.1f} |"
        )
    return "\n".join(lines)

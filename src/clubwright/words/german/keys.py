"""German words for the keys of the registers."""

from __future__ import annotations

WORDS: dict[str, dict[str, str]] = {
    "quantity": {
        "length": "Länge",
        "loft": "Loft",
        "lie": "Lie",
        "bounce": "Bounce",
        "swing_weight": "Schwunggewicht",
        "total_weight": "Gesamtgewicht",
        "balance_point": "Balancepunkt",
        "moi": "Trägheitsmoment um das Griffende",
        "moi_cg": "Trägheitsmoment um den Schwerpunkt",
        "pendulum_period": "Pendeldauer",
        "swing_weight_12in": "12-Zoll-Schwunggewicht",
        "frequency": "Frequenz",
        "grip_diameter_2in": "Griffdurchmesser bei 2 in",
        "grip_diameter_6in": "Griffdurchmesser bei 6 in",
    },
    "direction": {
        "loft less": "stärker",
        "loft more": "schwächer",
        "lie less": "flacher",
        "lie more": "steiler",
    },
    "stage": {
        "part": "Teil",
        "bare shaft": "nackter Schaft",
        "dry, no grip": "trocken, ohne Griff",
        "dry, taped": "trocken, mit Band",
        "dry, gripped": "trocken, mit Griff",
        "glued, no grip": "geklebt, ohne Griff",
        "finished": "fertig",
        "as it came": "wie er kam",
    },
    "side": {"left": "links", "right": "rechts"},
    "hand": {"left": "linkshändiger", "right": "rechtshändiger"},
}

"""What the cards say of the last steps: bend, inspect, tag."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.loft and lie": "Bend to loft and lie",
    "loft and lie.why now": "Why now: {reason}.",
    "loft and lie.wood": (
        "A wood is set by its sleeve where it has one, and bent only where the head's maker allows it."
    ),
    "loft and lie.putter": "Check that neck and insert allow a bend before the first pull.",
    "loft and lie.no plan": "No bend is planned: measure loft, lie and bounce of the head first.",
    "loft and lie.nothing": "Nothing is bent.",
    "loft and lie.order": "Order: loft first, lie second, then the loft again; small pulls, and measure after each.",
    "done.loft and lie": "Loft, lie and bounce were measured after the last pull and are on the record.",
    "label.as it stands": "{what} as it stands",
    "label.bend the": "bend the {angle}",
    "figure.bend": "{amount}, {pulls}",
    "figure.no bend advised": "no bend is advised",
    "figure.limit angles": "loft {loft}, lie {lie}",
    "figure.limit": "{most} ({metal}, {standing})",
    "label.limit": "routine limit of this metal",
    "loft and lie.graphite": (
        "the shaft is graphite: bend the head before the shaft is in it (common practice, no source)"
    ),
    "loft and lie.large": "the lie moves by more than 2 deg: bend before assembly (common practice, no source)",
    "title.set sleeve": "Set the sleeve to loft and lie",
    "title.measure angles": "Measure loft and lie",
    "set.sleeve": "Turn the sleeve to the setting that its maker's chart gives for what is ordered, and write which it is.",
    "set.torque": "Tighten its screw with a new thread lock only where its maker asks for one, to the torque he gives.",
    "set.sole": "Measure loft and lie with the sole as it is meant to sit; at another setting the face turns too.",
    "label.setting": "setting of the sleeve",
    "label.torque": "torque of its screw",
    "done.set sleeve": "The screw is at its torque, and loft and lie were measured at that setting and are on the record.",
    "done.measure angles": "Loft and lie were measured and are on the record.",
    "title.inspect": "Inspect the finished club",
    "inspect.read": "Read every target on the finished club, with the weights that are on it.",
    "inspect.twist": "Then twist the head by hand against the witness marks and tap for a rattle.",
    "done.inspect": "Every target has a reading, and every verdict is in spec or was accepted by name.",
    "inspect.cannot prove": (
        "One reading of the {gauge} cannot prove {what} ± {tolerance}: its guard band is {guard}. {mend}"
    ),
    "inspect.no repeats": "No number of repeats will: check the gauge against a master, or use a finer one.",
    "inspect.mean of": "The mean of {count} can.",
    "title.tag": "Tag the club and close the ticket",
    "tag.write": "Write ticket, player, hand and finals on the tag; fix it where it cannot fall off.",
    "tag.cures": "While the joint cures, the tag says from when the club may be swung.",
    "label.ticket": "ticket",
    "label.player": "player",
    "label.club": "club",
    "label.hand": "hand",
    "label.promised": "promised",
    "label.weights on it": "weights on it",
    "done.tag": "The tag is on and the ticket is closed in the record.",
    "label.ordered": "{what} ordered",
    "figure.ordered": "{figure} ± {tolerance}",
}

"""What the cards say of tape, dry readings and weights."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.tape": "Weigh and lay the tape",
    "tape.weigh": "Weigh the strips before they are laid: after that nobody can.",
    "tape.order": (
        "Build-up tape goes on first, the double-sided base tape over it, with 1/2 in to tuck into the butt."
    ),
    "tape.loose": "For a dry reading lay the same strips loosely under the grip, where they will end up.",
    "label.all tape": "all of it, on the swing weight",
    "label.tape": "{name}, {layers}",
    "word.tape": "tape",
    "figure.not weighed": "not weighed",
    "done.tape": "The strips' weight and wraps are on the record.",
    "label.layers": "wraps of build-up tape",
    "label.one layer": "one wrap",
    "figure.full layers": "{count} full length",
    "figure.full and lower layers": "{count} full length, {lower} more under the lower hand",
    "label.diameter with layers": "diameter at {place} with these wraps",
    "figure.between": "{figure} (between {low} and {high})",
    "title.dry reading": "Read the dry club",
    "dry reading.best": "Best: slide the grip on over the same tape and read; the stop then touches the cap.",
    "dry reading.without": "Without the grip the stop touches the bare butt; the prediction below counts that.",
    "dry reading.which": "Write down which of the two it was: the readings are not interchangeable.",
    "dry reading.clamp": (
        "For the frequency clamp {held} of the butt, shim the head so that it does not rattle, and let it swing toe up."
    ),
    "dry reading.loose": "What is predicted counts the head as fast on its shaft: a loose dry fit reads low.",
    "label.fitted now": "fitted now",
    "label.adhesive to come": "swing weight of the adhesive still to come",
    "done.dry reading": "Both readings are kept with their stage; one that does not fit was explained or read again.",
    "label.grip and tape": "grip and tape by themselves",
    "label.cap fulcrum": "cap: with a grip the fulcrum stands that much nearer the butt",
    "label.too high": "so a reading without grip and tape is too high by",
    "label.read": "read: {what}, {stage}",
    "title.choose weight": "Choose and fit the weight",
    "choose weight.order": (
        "Order of preference: another head from the lot, a port weight, a tip pin of a few grams, lead tape."
    ),
    "choose weight.practice": "That order is common practice, no source; the chances below are this club's own.",
    "choose weight.nothing": "The ticket sets no target that a weight would move: fit nothing.",
    "label.best": "best",
    "label.at the head": "at the head, for {what}",
    "label.alternative": "alternative {place}",
    "figure.choice": "{weights}: {chance}; {figures}",
    "rule.head": "head weight for one point: the rule says {rule}, this club {exact} ({source})",
    "rule.grip": "grip weight for one point less: the rule says {rule}, this club {exact} ({source})",
    "rule.length": "points for 1/2 in of length: the rule says {rule}, this club {exact} ({source})",
    "rule.shaft": "shaft weight for one point: the rule says {rule}, this club {exact} ({source})",
    "done.choose weight": "What is fitted is on the record, and each piece was weighed.",
}

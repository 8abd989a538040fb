"""What the cards say of the parts before anything is cut."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.pull": "Take out the parts and read them aloud",
    "pull.look": "Look at the head: read its hand and its loft aloud against the ticket.",
    "pull.tray": "Lay head, shaft, ferrule, grip and weights in one tray with the ticket.",
    "pull.core": "Hold the grip's core against the butt: they should be one size.",
    "pull.club": "Lay the club and the new grip in one tray with the ticket.",
    "pull.aloud": "Read hand and loft aloud.",
    "done.pull": "Every part is in the tray, its name is the ticket's, and the hand was looked at.",
    "label.hand ordered": "hand ordered",
    "label.hand of the head": "hand of the head, by eye",
    "figure.not looked at": "not looked at yet",
    "label.loft ordered": "loft ordered",
    "label.head": "head",
    "label.shaft": "shaft",
    "label.grip": "grip",
    "label.grip core": "grip core",
    "label.butt": "butt of the shaft",
    "label.tip": "tip of the shaft",
    "title.weigh": "Weigh every part",
    "weigh.each": "Weigh head, shaft, grip and ferrule to 0.1 g, each by itself.",
    "weigh.raw": "Measure the raw shaft, tip end to butt end: what is cut off it is not in the club.",
    "weigh.cut": "The shaft is cut: what it weighs now is its weight as cut.",
    "weigh.range": "A part outside its range is another part or a slip of the scale: find out now, not after gluing.",
    "label.raw length": "raw length of the shaft",
    "figure.not measured": "not measured yet",
    "figure.estimate": "{typed}, an estimate: measure it",
    "label.weight": "weight {name}",
    "done.weigh": "Every part was weighed and lies in its range, or its new weight is on the ticket.",
    "done.weigh raw": (
        "Every part was weighed and lies in its range, or its new weight is on the ticket; the raw length is on it too."
    ),
    "title.head check": "Check the head",
    "head check.angles": "Measure loft, lie and bounce as the head stands now.",
    "head check.damage": "Look over face, grooves and hosel for damage: a head with a cracked hosel is out.",
    "head check.bore": (
        "Try the bore with a plug gauge and the shaft's tip: snug, no force, no wobble; blow out debris."
    ),
    "head check.sole": (
        "State the sole position, and the setting of the sleeve if it has one; note the face angle there."
    ),
    "head check.putter": "Set the sole flat and note whether neck or insert forbids a bend.",
    "label.bore depth": "depth of the bore",
    "label.bore": "bore",
    "label.metal": "metal",
    "done.head check": "Loft, lie, bounce and bore are on the ticket as measured.",
    "title.bore to ground": "Measure bottom of bore to ground (BBG)",
    "bore to ground.seat": "Seat a straight test shaft of known length T on the bottom of the bore.",
    "bore to ground.stand": (
        "Stand the head on its sole at its lie; read R along the shaft, from its end to the ground."
    ),
    "bore to ground.wrong": "BBG is R - T; a number off by 1/8 in makes the club 1/8 in wrong.",
    "bore to ground.sleeve": "Measure head and sleeve together: the bottom of the bore is inside the sleeve.",
    "label.bore to ground": "bottom of bore to ground (BBG) on the ticket",
    "label.bore to ground assumed": "bottom of bore to ground (BBG), assumed until it is measured",
    "label.R": "R, with the uncut shaft of this ticket as test shaft",
    "label.T": "T, that shaft",
    "done.bore to ground": "R - T is on the ticket as bore_to_ground.",
    "title.pull head": "Take the head off the old shaft",
    "pull head.ferrule": "Take the old ferrule off first, and any weight or powder that heat could harm.",
    "pull head.straight": (
        "Warm the hosel, try often, and pull straight along the shaft: a twist tears fibre and opens the hosel."
    ),
    "pull head.weigh": "Weigh the head bare: its old weight on paper is not the weight in hand.",
    "pull head.record": "Write each heating on the record of a graphite shaft that is kept.",
    "done.pull head": "The head is off, cool, undamaged, and lies by its ticket.",
    "title.clean bore": "Clean the bore",
    "clean bore.out": (
        "Take out old adhesive and rust down to the bottom with a reamer or a wire brush of the bore's size."
    ),
    "clean bore.wipe": (
        "Blow or brush it out, wipe with solvent, let it dry; look for an old weight or a plug at the bottom."
    ),
    "done.clean bore": "A fresh wipe comes out clean, and the depth is what the ticket says.",
}

"""What the cards say of the grip, and of a club that came in."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.as it came": "Read the club as it came",
    "title.weigh as it came": "Weigh the club as it came",
    "as it came.before grip": (
        "Read total weight, swing weight and length before the old grip comes off, and keep them at the stage "
        '"{stage}".'
    ),
    "as it came.before head": (
        'Read total weight, swing weight and length before the head is pulled, and keep them at the stage "{stage}".'
    ),
    "as it came.before change": (
        'Read total weight, swing weight and length before anything is changed, and keep them at the stage "{stage}".'
    ),
    "as it came.old parts": (
        "They tell on what stays, such as the head; old parts are unknowns of their own, not the new ones."
    ),
    "done.as it came": 'The readings are kept at the stage "{stage}".',
    "title.strip grip": "Strip the old grip",
    "strip grip.cut": "Cut along the underside, away from you; peel grip and tape off and clean the shaft.",
    "strip grip.together": (
        "Weigh old grip and old tape together: what the new ones weigh more comes off the swing weight."
    ),
    "strip grip.new": (
        "Weigh the new grip by itself, and measure both caps: a thicker one takes the fulcrum nearer the butt."
    ),
    "strip grip.tell": "Tell the player before the new grip goes on when it moves by more than the tolerance.",
    "strip grip.caliper": "Caliper the bare butt 2 in and 6 in below where the cap will be.",
    "label.heavier grip": "a heavier grip lowers the swing weight: grams for one point",
    "done.strip grip": "The shaft is bare and clean, and old grip and tape were weighed.",
    "label.new grip moves": "new grip and tape against the old, on the swing weight",
    "label.and total": "and on the total weight",
    "title.grip": "Put the grip on",
    "grip.clamp": "Clamp the club with the leading edge square first; the grip is set by it.",
    "grip.flood": (
        "Flood grip and tape with solvent, push on in one stroke until the cap meets the butt, then set the logo."
    ),
    "grip.free length": "Push it to its free length and no further: a stretched grip is thinner.",
    "grip.rib": "The rib goes to its clock position, usually underneath: it cannot be turned to hide a logo.",
    "grip.putter": "Set the flat of the grip square to the face: the player aims by it.",
    "grip.caliper": "What the caliper is expected to read counts the tape that is on the ticket.",
    "label.core": "core",
    "label.butt at 2 in": "butt at 2 in",
    "label.butt at 6 in": "butt at 6 in",
    "label.free length": "free length",
    "label.logo": "logo",
    "done.grip": (
        "The cap sits on the butt, the logo is square, it does not twist by hand, and the diameters were read."
    ),
}

"""What the cards say of bends, and of what bears them."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "echo.wrong way": "the wrong way: it was {was}, the bend is {planned}",
    "bend.support": "Support the sole, pad the face, and bend at the base of the hosel.",
    "bend.at most": "At most 1 degree a pull, then measure.",
    "bend.too far": "If it went too far, come back once at most: every reversal hardens the metal.",
    "bend.offset": "A loft bend also changes the offset and the look of the leading edge: show the player.",
    "bend.step": "Bend the {angle} {amount} to {end}: {push}; {how}.",
    "bend.loft again": "Measure the loft again: {loft} is wanted, and a lie bend can leak into it.",
    "bend.bounce": "Measure the bounce: {bounce} is expected.",
    "bend.not recorded": (
        "bend: earlier bends of this head are not recorded and count as none. Ask whether it was bent before; the "
        "limit holds for all bends together."
    ),
    "metal.soft": "Soft heads move in play: read loft and lie again from time to time.",
    "metal.chrome": "Chrome plating can crack beyond 3 degrees (common practice, no source).",
    "metal.forged": "Not every head called forged is soft: stop when it needs more pull than usual.",
    "metal.hair crack": "Look for a hair crack at the hosel after each pull.",
    "metal.mallet": "Mind the insert and the neck: a mallet's neck may be too rigid to bend.",
    "metal.beryllium": "No dry grinding, filing or sanding: the dust can ruin the lungs.",
    "metal.adapter": "Use the adapter's settings where there is one.",
    "label.lie does": "what the lie does as it stands",
    "lie.bent": "{size} {way}",
    "lie.still": "{bent}: the face still points at the target",
    "lie.points": "{bent}: the face points {off} {side}, {miss} at {distance} yd (a rule linear in loft says {rule})",
    "joint.meaning": (
        "Sanity figure only: static strength of a clean, fully cured joint against the load of a swing. It says "
        "nothing about cleaning, ratio, cure, voids, heat, impact or fatigue, and is no permission to play."
    ),
    "source.strength": "epoxy to degreased steel, The Structural Engineer 58(1), 1980",
}

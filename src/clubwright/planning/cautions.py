"""The usual cautions, by the step where they matter.

They are the trade's common practice in our own words; where one rests on a source, docs/theory/adhesive.md and
docs/theory/grip-size.md name it. None of them replaces a product's safety data sheet, the local codes or a licensed
practice, and every step ends by saying so. No limit is printed here that has no source.
"""

from __future__ import annotations

from collections.abc import Iterable

from clubwright.errors import Finding, InputError
from clubwright.planning.bending.metals import names_metal

DEFER = (
    "The product's safety data sheet, the local fire and work codes and the practice of licensed people "
    "come before anything said here."
)

RELEASE_TRIAL = "Twist the head by hand against the witness marks, and tap the club for a rattle."
"""What a person tries before the release is signed. Common practice, no source."""

_OF_LEAD = "Lead tape: wash hands afterwards, do not eat or drink at the bench, keep it from children."

CAUTIONS: dict[str, tuple[str, ...]] = {
    "cut": (
        "Wear eye and ear protection; keep the guard of the cut-off wheel on.",
        "Check that the wheel is whole and rated for the speed of the machine.",
        "Cut on the waste side of the line: what is cut off does not come back.",
    ),
    "tip prep": (
        "Wear eye protection and a dust mask; draw the dust off where it arises.",
        "Keep wiping solvent well away from belts, wheels and sparks, and use it after they have stopped.",
        "Clean the bore and the tip until a fresh wipe comes away clean: old adhesive, rust and grip solvent let a head go.",
    ),
    "fit": (
        "A head with a cracked hosel is out: it can fly off.",
        "Never drive a tip into a bore: the hosel can split.",
        "Mark a cracked head so that nobody takes it again; a crack is neither glued nor filled nor shimmed.",
        (
            "Ream only where the head's maker and the wall that is left allow it: head clamped, reamer sharp and of the "
            "right size, turned slowly, eye protection on, dust drawn off where it arises, no fingers at the mouth."
        ),
        "A cut shim and a reamed edge are sharp: wear gloves and take the burr off.",
        "A shim reaches over the full glued length: a short one leaves a step where the shaft breaks.",
    ),
    "mix": (
        "Wear nitrile gloves, not latex, and change them when adhesive gets on them.",
        "Never clean skin with solvent: it carries adhesive in. Use soap and water.",
        (
            "Uncured resin and hardener can make a person allergic for good, and half-cured dust can too. Whoever reacts "
            "stops working with it and sees a doctor."
        ),
        "Hardener can burn skin and eyes: wear eye protection and let air through the room.",
        "Keep one cup to about 50 g or less: a larger mass can heat itself up, smoke and go off early.",
        (
            "Use only a product in date, meant for this joint, at the ratio and on the basis (weight or volume) that its "
            "data sheet gives."
        ),
    ),
    "glue": (
        "Wear nitrile gloves and eye protection.",
        "Coat both the wall of the bore and the tip; push in slowly while turning, so that no neck stays dry.",
        "Do not use a cup after its pot life, nor one that has grown warm or stringy.",
        "Stand the club so that nothing turns or slides until the adhesive has set.",
        "Warm a joint only by its own product's table; never with a flame.",
    ),
    "release": (
        (
            "A head that flies off can kill. Nobody swings the club before the full cure by the product's table, not the "
            "time to handle."
        ),
        "A cold night does not count as cure: go by the temperature of the part.",
        f"{RELEASE_TRIAL} That is before it leaves the bench.",
        "A figure for the strength of the joint is no permission to play.",
    ),
    "grip": (
        "Put out every flame, heat gun and spark, and stop the cut-off wheel, before solvent is opened.",
        "Wear gloves and eye protection; let air through the room; put wet wipes in a closed metal bin.",
        (
            "With a hook blade, cut away from yourself and the other hand, with a sharp blade. Hold a graphite shaft clear "
            "of the edge."
        ),
        "With compressed air, wear eye protection, keep to the pressure allowed for the tool, and point the grip at nobody.",
        "Let solvent dry before the club is swung: a wet grip turns or slides off.",
        "Feel for a waist or a bulge where tape ends: a build-up can make a grip break the Equipment Rules.",
    ),
    "bend": (
        "Wear eye protection and stand out of the plane in which the bar would fly.",
        "Bend in small pulls and measure after each; stop at a crack, a creak or a sudden give.",
        "Keep within what the head's maker allows for this metal; a hosel that snaps does it without a warning.",
        "Do not pull on a joint that has not fully cured.",
    ),
    "weight": (
        "A weight that works loose is a projectile: fix it as its maker says, and turn screws to the torque given.",
        _OF_LEAD,
        "Tungsten powder: keep it in a capped vial, do not raise dust, wipe up damp.",
        "Hot melt burns: wear heat-proof gloves and a face shield, and let the head cool before it is handled.",
        "Weight deep in the shaft's tip or the hosel must not shorten the glued length of the joint.",
    ),
    "ferrule finish": (
        "Wear eye protection; keep fingers, sleeves and gloves clear of the running belt.",
        "Wipe with solvent only after belt and sparks have stopped, with air through the room and gloves on.",
        "A ferrule softens with the heat of the belt and a fresh joint does too: touch lightly and let it cool.",
    ),
    "heat removal": (
        "Clear solvent, wet wipes and aerosols from the bench first.",
        "Wear heat-proof gloves and eye protection; draw off the fumes, which are harmful.",
        "Use the least heat that lets the joint go, and a puller with a straight pull.",
        (
            "Do not heat a sealed hollow head, a port with powder or hot melt in it, or a head with inserts or batteries, "
            "unless its maker says how: pressure can build up."
        ),
        "A hot hosel looks like a cold one: mark it and set it down where nobody picks it up.",
    ),
    "tag": (
        "Tag a club that is still curing so that nobody takes it: write the earliest release on the tag.",
        "Keep the batch of adhesive, who mixed it and when with the club's record.",
    ),
}
"""Step to its cautions; what depends on shaft or metal is added by ``cautions``."""

_BY_SHAFT: dict[tuple[str, str], tuple[str, ...]] = {
    ("cut", "steel"): (
        "Steel throws sparks and leaves a burr: send the sparks away from solvent, and deburr the end.",
    ),
    ("cut", "graphite"): (
        "Graphite: wear a mask for fine dust, cut wet or with extraction, tape the line, and use a fine abrasive blade.",
        "Graphite dust carries current and itches: take it up with a fine-dust vacuum, never blow it about.",
    ),
    ("tip prep", "steel"): ("Take off the plating over the glued length only, evenly: a flat weakens the tip.",),
    ("tip prep", "graphite"): (
        (
            "Graphite: take off the paint and not the fibre. Black dust or loose fibre means it has gone too far, and such "
            "a tip is not used."
        ),
        "Graphite: wear a mask for fine dust and long sleeves.",
    ),
    ("glue", "graphite"): ("Graphite: no more warmth than the shaft's maker allows; its resin can soften unseen.",),
    ("release", "graphite"): ("Graphite: a creak or a tick in the joint is a reason to take the club out of play.",),
    ("heat removal", "steel"): ("Steel carries the heat up to the ferrule and the hand: hold the shaft well away.",),
    ("heat removal", "graphite"): (
        (
            "Graphite: stop before the shaft's resin smokes, and never twist. Record each heat "
            "on a shaft that is used again; damage inside does not show."
        ),
    ),
}

_BY_METAL: tuple[tuple[str, str, str], ...] = (
    ("bend", "titanium", "Titanium: do not bend unless the head's maker allows it."),
    ("bend", "maraging", "Maraging steel: do not bend unless the head's maker allows it."),
    ("bend", "zinc", "Zinc: it breaks instead of bending; do not bend."),
    ("bend", "17-4", "Cast 17-4 springs back and can snap: small pulls, and no more than its maker allows."),
    ("bend", "carbon steel", "Plated carbon steel: the plating can crack at the hosel."),
    ("fit", "beryllium", "Beryllium copper: no reaming, grinding or sanding; its dust can ruin the lungs."),
    ("fit", "magnesium", "Magnesium: its chips and dust burn, and water makes it worse; do not ream it here."),
    ("fit", "titanium", "Titanium: its chips and dust burn fiercely; do not ream it dry."),
    ("tip prep", "beryllium", "Beryllium copper: no dry reaming, grinding or sanding; its dust can ruin the lungs."),
    ("ferrule finish", "beryllium", "Beryllium copper: keep the belt off the hosel; its dust can ruin the lungs."),
    ("bend", "beryllium", "Beryllium copper: no filing or sanding afterwards; its dust can ruin the lungs."),
    ("weight", "beryllium", "Beryllium copper: no drilling or grinding for weight; its dust can ruin the lungs."),
    ("ferrule finish", "magnesium", "Magnesium: its dust burns, and water makes it worse; keep the belt off the head."),
    ("ferrule finish", "titanium", "Titanium: its dust and sparks burn fiercely; keep the belt off the head."),
)


def weight_cautions(names: Iterable[str], said: tuple[str, ...]) -> tuple[str, ...]:
    """Put the caution about lead first where a weight is of it by its name: a short sheet prints the first one only."""
    if not any(names_metal(name, "lead") for name in names):
        return said
    return (_OF_LEAD, *(sentence for sentence in said if sentence != _OF_LEAD))


def cautions(step: str, *, shaft_material: str | None = None, head_metal: str | None = None) -> tuple[str, ...]:
    """Return the cautions to show at a step, general ones first, ending with what they defer to.

    Args:
        step: A key of ``CAUTIONS``.
        shaft_material: ``"steel"`` or ``"graphite"``; when it is anything else, both are cautioned for.
        head_metal: The metal as the ticket has it, in any case, e.g. ``"cast 17-4"``; when it is not given, all metals
            with a caution of their own are cautioned for.

    Raises:
        InputError: There is no such step.
    """
    if step not in CAUTIONS:
        known = ", ".join(f'"{key}"' for key in CAUTIONS)
        raise InputError([Finding(where="cautions", what=f"no step {step!r}", mend=f"Use one of {known}.")])
    shafts = (shaft_material,) if shaft_material in ("steel", "graphite") else ("steel", "graphite")
    by_shaft = [sentence for shaft in shafts for sentence in _BY_SHAFT.get((step, shaft), ())]
    metal = None if head_metal is None else head_metal.casefold()
    by_metal = [sentence for at, key, sentence in _BY_METAL if at == step and (metal is None or key in metal)]
    return (*CAUTIONS[step], *by_shaft, *by_metal, DEFER)

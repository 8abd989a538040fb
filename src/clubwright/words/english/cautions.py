"""What the cards say of what can hurt; the planning says where."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "caution.defer": (
        "The product's safety data sheet, the local fire and work codes and the practice of licensed people come "
        "before anything said here."
    ),
    "caution.release trial": "Twist the head by hand against the witness marks, and tap the club for a rattle.",
    "caution.lead": "Lead tape: wash hands afterwards, do not eat or drink at the bench, keep it from children.",
    "caution.cut eyes": "Wear eye and ear protection; keep the guard of the cut-off wheel on.",
    "caution.cut wheel": "Check that the wheel is whole and rated for the speed of the machine.",
    "caution.cut waste": "Cut on the waste side of the line: what is cut off does not come back.",
    "caution.prep eyes": "Wear eye protection and a dust mask; draw the dust off where it arises.",
    "caution.prep solvent": (
        "Keep wiping solvent well away from belts, wheels and sparks, and use it after they have stopped."
    ),
    "caution.prep clean": (
        "Clean the bore and the tip until a fresh wipe comes away clean: old adhesive, rust and grip solvent let a "
        "head go."
    ),
    "caution.fit cracked": "A head with a cracked hosel is out: it can fly off.",
    "caution.fit drive": "Never drive a tip into a bore: the hosel can split.",
    "caution.fit mark": (
        "Mark a cracked head so that nobody takes it again; a crack is neither glued nor filled nor shimmed."
    ),
    "caution.fit ream": (
        "Ream only where the head's maker and the wall that is left allow it: head clamped, reamer sharp and of the "
        "right size, turned slowly, eye protection on, dust drawn off where it arises, no fingers at the mouth."
    ),
    "caution.fit sharp": "A cut shim and a reamed edge are sharp: wear gloves and take the burr off.",
    "caution.fit shim": (
        "A shim reaches over the full glued length: a short one leaves a step where the shaft breaks."
    ),
    "caution.mix gloves": "Wear nitrile gloves, not latex, and change them when adhesive gets on them.",
    "caution.mix skin": "Never clean skin with solvent: it carries adhesive in. Use soap and water.",
    "caution.mix allergic": (
        "Uncured resin and hardener can make a person allergic for good, and half-cured dust can too. Whoever reacts "
        "stops working with it and sees a doctor."
    ),
    "caution.mix hardener": "Hardener can burn skin and eyes: wear eye protection and let air through the room.",
    "caution.mix cup": ("Keep one mix to about 50 g or less: a larger one can heat itself up, smoke and go off early."),
    "caution.mix product": (
        "Use only a product in date, meant for this joint, at the ratio and on the basis (weight or volume) that its "
        "data sheet gives."
    ),
    "caution.glue gloves": "Wear nitrile gloves and eye protection.",
    "caution.glue coat": (
        "Coat both the wall of the bore and the tip; push in slowly while turning, so that no neck stays dry."
    ),
    "caution.glue pot life": "Do not use a mix after its pot life, nor one that has grown warm or stringy.",
    "caution.glue stand": "Stand the club so that nothing turns or slides until the adhesive has set.",
    "caution.glue warm": "Warm a joint only by its own product's table; never with a flame.",
    "caution.release kill": (
        "A head that flies off can kill. Nobody swings the club before the full cure by the product's table, not the "
        "time to handle."
    ),
    "caution.release cold": "A cold night does not count as cure: go by the temperature of the part.",
    "caution.release try": "{trial} That is before it leaves the bench.",
    "caution.release figure": "A figure for the strength of the joint is no permission to play.",
    "caution.grip flame": (
        "Put out every flame, heat gun and spark, and stop the cut-off wheel, before solvent is opened."
    ),
    "caution.grip gloves": (
        "Wear gloves and eye protection; let air through the room; put wet wipes in a closed metal bin."
    ),
    "caution.grip blade": (
        "With a hook blade, cut away from yourself and the other hand, with a sharp blade. Hold a graphite shaft "
        "clear of the edge."
    ),
    "caution.grip air": (
        "With compressed air, wear eye protection, keep to the pressure allowed for the tool, and point the grip at "
        "nobody."
    ),
    "caution.grip dry": "Let solvent dry before the club is swung: a wet grip turns or slides off.",
    "caution.grip waist": (
        "Feel for a waist or a bulge where tape ends: a build-up can make a grip break the Equipment Rules."
    ),
    "caution.bend eyes": "Wear eye protection and stand out of the plane in which the bar would fly.",
    "caution.bend small": "Bend in small pulls and measure after each; stop at a crack, a creak or a sudden give.",
    "caution.bend maker": (
        "Keep within what the head's maker allows for this metal; a hosel that snaps does it without a warning."
    ),
    "caution.bend cured": "Do not pull on a joint that has not fully cured.",
    "caution.sleeve loose": "A head whose screw is not at its torque can fly off: check it before the club is swung.",
    "caution.sleeve cured": "Do not twist a joint that has not fully cured: hold the head, and turn the sleeve out of it.",
    "caution.weight loose": (
        "A weight that works loose is a projectile: fix it as its maker says, and turn screws to the torque given."
    ),
    "caution.weight tungsten": "Tungsten powder: keep it in a capped vial, do not raise dust, wipe up damp.",
    "caution.weight melt": (
        "Hot melt burns: wear heat-proof gloves and a face shield, and let the head cool before it is handled."
    ),
    "caution.weight glued length": (
        "Weight deep in the shaft's tip or the hosel must not shorten the glued length of the joint."
    ),
    "caution.finish eyes": "Wear eye protection; keep fingers, sleeves and gloves clear of the running belt.",
    "caution.finish wipe": (
        "Wipe with solvent only after belt and sparks have stopped, with air through the room and gloves on."
    ),
    "caution.finish heat": (
        "A ferrule softens with the heat of the belt and a fresh joint does too: touch lightly and let it cool."
    ),
    "caution.heat clear": "Clear solvent, wet wipes and aerosols from the bench first.",
    "caution.heat gloves": "Wear heat-proof gloves and eye protection; draw off the fumes, which are harmful.",
    "caution.heat least": "Use the least heat that lets the joint go, and a puller with a straight pull.",
    "caution.heat hollow": (
        "Do not heat a sealed hollow head, a port with powder or hot melt in it, or a head with inserts or batteries,"
        " unless its maker says how: pressure can build up."
    ),
    "caution.heat looks": "A hot hosel looks like a cold one: mark it and set it down where nobody picks it up.",
    "caution.tag cure": (
        "Tag a club that is still curing so that nobody takes it: write on the tag from when it may be hit."
    ),
    "caution.tag batch": "Keep the batch of adhesive, who mixed it and when with the club's record.",
}

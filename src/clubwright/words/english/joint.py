"""What the cards say of the joint: adhesive, its fit, its cure."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.mix": "Mix the adhesive",
    "mix.gate": "Do not mix before the gate of the glue step is open: a mix does not wait.",
    "mix.stir": "Weigh both parts into one mixing cup on one scale, then stir sides and bottom until no streak is left.",
    "mix.missing": "No weights without the data sheet's figures; not on the ticket: {missing}.",
    "mix.scale": "The scale's error is not on the ticket: {error} is taken ({standing}); write the scale's own.",
    "mix.basis": "[adhesive] basis (by weight or by volume)",
    "label.part A": "part A",
    "label.part B": "part B",
    "label.pot life": "pot life",
    "label.product": "product",
    "label.ratio": "ratio on the sheet",
    "figure.ratio": "{typed} by {basis}",
    "label.ratio by weight": "ratio by weight, A to B",
    "figure.to hundred": "{a}:100",
    "label.both": "both",
    "label.joints need": "the joints need, waste included",
    "label.smallest batch": "smallest batch on this scale",
    "done.mix": "Both weights, the batch and the time are on the record, and the mix has one colour.",
    "title.glue": "Glue head and shaft",
    "glue.coat": "Coat the wall of the bore and the tip; push in slowly while turning, down to the bottom.",
    "glue.wipe": "Wipe off what comes out; check that the ferrule is down and the witness marks meet.",
    "glue.stand": "Stand the club upright and look at marks and ferrule again after 5 and after 10 minutes.",
    "glue.putter": "Hold face and grip flat square in the fixture until the adhesive has set.",
    "label.under the tip": "tip weight",
    "label.checked": "checked: {what}",
    "done.glue": "The head is glued at its marks, and the time and the temperature of the part are on the record.",
    "title.cure": "Let the joint cure",
    "cure.rack": "Rack the club so that nothing loads the joint; what counts is the temperature of the part.",
    "done.cure": "The gate \"release\" is open: the table's time at the part's own temperature is over.",
    "cure.no table": "The ticket has no cure times: copy the data sheet's rows into [[adhesive.release]].",
    "cure.no temperature": "The ticket has no bench temperature: write [adhesive] temperature.",
    "label.table row": "table, {at}",
    "label.cabinet": "warmest cabinet for graphite (common practice, no source)",
    "label.release after": "cured, may be hit after, at {at}",
    "label.release from": "cured, may be hit from ({zone})",
    "label.that is after": "that is, after gluing at {at}",
    "label.colder row": "time of the next colder row, to be safe",
    "title.ferrule finish": "Turn the ferrule",
    "ferrule finish.shield": "Shield hosel and shaft with tape.",
    "ferrule finish.turn": "Turn the ferrule down to the hosel's diameter on a fine belt, touching lightly.",
    "ferrule finish.wipe": "Belt off and sparks out, then one wipe with solvent for the gloss.",
    "ferrule finish.before": "This comes before the grip: its solvent is opened after the last spark.",
    "done.ferrule finish": "A fingernail runs over hosel, ferrule and shaft without catching.",
    "joint.missing": "No sanity figure for the joint; not on the ticket: {missing}.",
    "joint.no line": "No sanity figure for the joint: tip and bore do not leave a bond line as it may be.",
    "joint.graphite": "The strength is that of a bond to steel: a graphite tip is not covered by it.",
    "label.bond area": "bond area",
    "label.pull of the head": "load on the joint in the swing",
    "figure.pull taken": "{pull} (taken: {speed} on {radius})",
    "label.pull that meets": "load that meets its strength",
    "figure.strength": "{pull} at {strength} ({source})",
    "label.reserve": "reserve",
    "figure.times": "{times} times",
    "label.bond line": "bond line a side",
    "label.fills": "adhesive that fills it",
    "label.bond line verdict": "bond line a side, {verdict}",
    "label.joint tip": "tip",
    "label.tip in bore": "tip in bore",
    "figure.in": "{tip} in {bore}",
    "label.shim": "shim",
    "figure.a side": "{wall} a side",
    "label.clearance": "clearance",
    "figure.give or take": "{figure} ± {spread}",
    "label.bond line allowed": "bond line allowed",
    "figure.to": "{low} to {high}",
    "label.least from": "least from",
    "label.most from": "most from",
    "dry fit.starved": (
        "The bond line is thinner than {least}: coat both faces, and push in slowly with a turn, so that the adhesive"
        " is not wiped off and the joint left dry."
    ),
    "mix.batch small": (
        "adhesive batch: in {batch} the scale's error is {share} of the smaller part, more than the {allowed} "
        "allowed. Mix at least {least}, or use a finer scale or a cartridge that meters both parts."
    ),
    "mix.ratio off": (
        "adhesive batch: if both weighings are off against each other the ratio is off by {off}. Weigh both parts "
        "into one mixing cup on the same scale, or mix more."
    ),
}

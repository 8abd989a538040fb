"""What the cards say of the shaft: trim, prepare, fit dry, mark and cut."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "echo.cut short": "{off} short of the mark, {mark}: measure again",
    "echo.cut long": "{off} longer than the mark, {mark}: measure again",
    "title.tip trim": "Trim the tip",
    "title.tip trim check": "Check the tip trim",
    "tip trim.off": "The ticket says that this is off the tip already: measure the shaft, and cut nothing if it is.",
    "tip trim.left": "What is left must be the raw length less the trim; if it is not, put the ticket right first.",
    "tip trim.sheet": "The figure is the ticket's, from this shaft's own sheet; no other shaft's sheet will do.",
    "tip trim.bore": ("If the sheet is written for another bore, the difference in BBG must be in the figure already."),
    "tip trim.mark": "Mark from the TIP end, check which end is which, then cut on the waste side.",
    "tip trim.weigh": (
        "Weigh the piece that came off: its weight by its length is tip_density. The raw shaft's weight stays as it was."
    ),
    "label.off the tip": "off the tip",
    "label.left": "left of the uncut shaft",
    "label.trim frequency": "frequency of the finished club with this trim",
    "done.tip trim": "The length that is left is what it should be, and the piece that came off was weighed.",
    "title.tip prep": "Prepare the tip",
    "tip prep.paint": "Take off all paint over the glued length, and no fibre: stop at the first dull grey.",
    "tip prep.countersunk": "A countersunk hosel mouth spares the fibre; do not round or thin the tip.",
    "tip prep.plating": (
        "Take the plating to a dull grey over the glued length; keep turning, so that no flat is ground."
    ),
    "tip prep.short": "Stop just short of the hosel top: bare steel above it rusts.",
    "tip prep.wipe": "Wipe the tip and the bore clean and let them dry.",
    "tip prep.taper": "A taper tip is not trimmed: take length off the butt only.",
    "tip prep.taper asked": "The ticket asks for {trim} off this taper tip: not planned. Ask first.",
    "tip prep.no trim": (
        "The ticket gives no tip trim, so none is planned: if the shaft's sheet has one, enter it first."
    ),
    "label.glued length from the tip": "glued length, from the tip",
    "done.tip prep": "The glued length is evenly dull, clean and dry, and the tip still fits the bore.",
    "title.ferrule": "Fit the ferrule",
    "ferrule.mark": "Mark the depth on the tip and push or tap the ferrule on until its lower edge stands there.",
    "ferrule.tight": "A tight one goes on after a bath in hot water; never force it with the head.",
    "ferrule.light": "Seat the head and look for light between ferrule and hosel.",
    "ferrule.light sleeve": "Seat the head and look for light between ferrule and top of the sleeve.",
    "label.lower edge": "lower edge, from the tip",
    "label.ferrule length": "length of the ferrule",
    "done.ferrule": "It sits flat on the hosel all around while the tip stands on the bottom of the bore.",
    "done.ferrule sleeve": (
        "It sits flat on the top of the sleeve all around while the tip stands on the bottom of the bore."
    ),
    "title.dry fit": "Dry-fit head and shaft",
    "dry fit.seat": (
        "Seat the tip on the bottom of the bore; shim it with thin line so that it neither turns nor slides."
    ),
    "dry fit.marks": "Turn the shaft's graphics to where they belong and put witness marks across hosel and shaft.",
    "dry fit.measure": (
        "Measure the prepared tip and the bore, both where the tip sits: for a taper at one and the same depth."
    ),
    "dry fit.loose": (
        "A loose tip gets a shim over the full glued length, never a part of it; a tight one is never driven in."
    ),
    "dry fit.shim": "Read the dry club with the shim in: it may weigh a gram. Roughen and wipe it on both faces.",
    "dry fit.putter": "Set the face square on a plate, turn a bent shaft until the face error is zero, then mark.",
    "dry fit.sleeve": "Fit the sleeve to its setting and its screw to the torque that the head's maker gives.",
    "label.glued length": "glued length",
    "label.mark along": "mark, from the ground along the shaft",
    "done.dry fit": (
        "It seats with no gap, tip and bore fit each other by their figures, and the witness marks are on."
    ),
    "title.mark and cut": "Mark, check, and cut the butt",
    "mark and cut.agree": "Mark from the tip end and, head dry-fitted, from the ground: the two marks must agree.",
    "mark and cut.aloud": "Read the ticket and both marks aloud once more before the saw runs.",
    "mark and cut.waste": "Saw on the waste side, towards the butt: the whole kerf comes out of the offcut.",
    "mark and cut.no target": "The ticket has no target length, so there is nothing to mark: write [target] length.",
    "mark and cut.stop": "STOP: this shaft is too short.",
    "mark and cut.weigh": (
        "Weigh the cut shaft, and balance it from its tip: one easy reading that narrows weight and swing weight much."
    ),
    "mark and cut.weigh unmeasured": (
        "Weigh the cut shaft, and balance it from its tip: one easy reading that narrows weight and swing weight "
        "much, since the raw shaft was not measured."
    ),
    "label.mark from the tip": "mark, from the tip",
    "label.mark from the ground": "mark, from the ground",
    "label.mark along fitted": "mark, from the ground along the shaft, head dry-fitted",
    "label.off before": "off the tip, before this",
    "label.offcut": "offcut",
    "label.too short": "too short by",
    "label.kerf": "kerf, out of the offcut",
    "label.cap off": "cap of this grip, left off the mark",
    "label.mark lifted": "mark, from the tip, if {weight} goes under it",
    "done.mark and cut": "The cut shaft was measured tip to butt, the burr is off, and the length is on the record.",
}

"""What the cards say of what can hurt with one material."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "caution.steel cut": (
        "Steel throws sparks and leaves a burr: send the sparks away from solvent, and deburr the end."
    ),
    "caution.graphite cut": (
        "Graphite: wear a mask for fine dust, cut wet or with extraction, tape the line, and use a fine abrasive blade."
    ),
    "caution.graphite dust": (
        "Graphite dust carries current and itches: take it up with a fine-dust vacuum, never blow it about."
    ),
    "caution.steel prep": "Take off the plating over the glued length only, evenly: a flat weakens the tip.",
    "caution.graphite prep": (
        "Graphite: take off the paint and not the fibre. Black dust or loose fibre means it has gone too far, and "
        "such a tip is not used."
    ),
    "caution.graphite mask": "Graphite: wear a mask for fine dust and long sleeves.",
    "caution.graphite glue": "Graphite: no more warmth than the shaft's maker allows; its resin can soften unseen.",
    "caution.graphite release": "Graphite: a creak or a tick in the joint is a reason to take the club out of play.",
    "caution.steel heat": "Steel carries the heat up to the ferrule and the hand: hold the shaft well away.",
    "caution.graphite heat": (
        "Graphite: stop before the shaft's resin smokes, and never twist. Record each heat on a shaft that is used "
        "again; damage inside does not show."
    ),
    "caution.titanium bend": "Titanium: do not bend unless the head's maker allows it.",
    "caution.maraging bend": "Maraging steel: do not bend unless the head's maker allows it.",
    "caution.zinc bend": "Zinc: it breaks instead of bending; do not bend.",
    "caution.cast bend": "Cast 17-4 springs back and can snap: small pulls, and no more than its maker allows.",
    "caution.plated bend": "Plated carbon steel: the plating can crack at the hosel.",
    "caution.beryllium fit": "Beryllium copper: no reaming, grinding or sanding; its dust can ruin the lungs.",
    "caution.magnesium fit": "Magnesium: its chips and dust burn, and water makes it worse; do not ream it here.",
    "caution.titanium fit": "Titanium: its chips and dust burn fiercely; do not ream it dry.",
    "caution.beryllium prep": "Beryllium copper: no dry reaming, grinding or sanding; its dust can ruin the lungs.",
    "caution.beryllium finish": "Beryllium copper: keep the belt off the hosel; its dust can ruin the lungs.",
    "caution.beryllium bend": "Beryllium copper: no filing or sanding afterwards; its dust can ruin the lungs.",
    "caution.beryllium weight": "Beryllium copper: no drilling or grinding for weight; its dust can ruin the lungs.",
    "caution.magnesium finish": "Magnesium: its dust burns, and water makes it worse; keep the belt off the head.",
    "caution.titanium finish": "Titanium: its dust and sparks burn fiercely; keep the belt off the head.",
}

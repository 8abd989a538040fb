"""What the cards say of the parts before anything is cut."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.pull": "Die Teile holen und laut vorlesen",
    "pull.look": "Den Kopf ansehen: seine Hand und seinen Loft laut lesen und mit dem Auftrag vergleichen.",
    "pull.tray": "Kopf, Schaft, Ferrule, Griff und Gewichte mit dem Auftrag in eine Schale legen.",
    "pull.core": "Den Kern des Griffs an das Griffende des Schafts halten: beide sollen gleich groß sein.",
    "pull.club": "Den Schläger und den neuen Griff mit dem Auftrag in eine Schale legen.",
    "pull.aloud": "Hand und Loft laut lesen.",
    "done.pull": "Jedes Teil liegt in der Schale und heißt wie im Auftrag, und die Hand wurde angesehen.",
    "label.hand ordered": "bestellte Hand",
    "label.hand of the head": "Hand des Kopfs, wie gesehen",
    "figure.not looked at": "noch nicht angesehen",
    "label.loft ordered": "bestellter Loft",
    "label.head": "Kopf",
    "label.shaft": "Schaft",
    "label.grip": "Griff",
    "label.grip core": "Kern des Griffs",
    "label.butt": "Griffende des Schafts",
    "label.tip": "Schaftspitze",
    "title.weigh": "Jedes Teil wiegen",
    "weigh.each": "Kopf, Schaft, Griff und Ferrule auf 0,1 g wiegen, jedes für sich.",
    "weigh.raw": (
        "Den rohen Schaft messen, von der Spitze bis zum Griffende: Was abgeschnitten wird, ist nicht im Schläger."
    ),
    "weigh.cut": "Der Schaft ist geschnitten: Was er jetzt wiegt, ist seine Masse nach dem Schnitt.",
    "weigh.range": (
        "Ein Teil außerhalb seines Bereichs ist ein anderes Teil oder ein Fehler der Waage: jetzt klären, nicht nach "
        "dem Kleben."
    ),
    "label.raw length": "Rohlänge des Schafts",
    "figure.not measured": "noch nicht gemessen",
    "figure.estimate": "{typed}, geschätzt: messen",
    "label.weight": "Gewicht {name}",
    "done.weigh": "Jedes Teil wurde gewogen und liegt in seinem Bereich, oder seine neue Masse steht im Auftrag.",
    "done.weigh raw": (
        "Jedes Teil wurde gewogen und liegt in seinem Bereich, oder seine neue Masse steht im Auftrag; auch die "
        "Rohlänge steht dort."
    ),
    "title.head check": "Den Kopf prüfen",
    "head check.angles": "Loft, Lie und Bounce messen, wie der Kopf jetzt steht.",
    "head check.damage": (
        "Schlagfläche, Rillen und Hosel auf Schäden absuchen: Ein Kopf mit gerissenem Hosel scheidet aus."
    ),
    "head check.bore": (
        "Die Bohrung mit Lehrdorn und Schaftspitze probieren: satt, ohne Kraft, ohne Spiel; Schmutz ausblasen."
    ),
    "head check.sole": (
        "Die Lage der Sohle angeben, und die Stellung der Hülse, wenn es eine gibt; dort den Winkel der Schlagfläche "
        "notieren."
    ),
    "head check.putter": "Die Sohle flach aufsetzen und notieren, ob Hals oder Einsatz das Biegen verbieten.",
    "label.bore depth": "Tiefe der Bohrung",
    "label.bore": "Bohrung",
    "label.metal": "Metall",
    "done.head check": "Loft, Lie, Bounce und Bohrung stehen im Auftrag, wie gemessen.",
    "title.bore to ground": "Von der Bohrung bis zum Boden messen",
    "bore to ground.seat": "Einen geraden Prüfschaft bekannter Länge T auf den Grund der Bohrung setzen.",
    "bore to ground.stand": (
        "Den Kopf in seinem Lie auf die Sohle stellen; R am Schaft entlang ablesen, von seinem Ende bis zum Boden."
    ),
    "bore to ground.wrong": (
        "Bohrung bis Boden ist R - T; eine um 1/8 in falsche Zahl macht den Schläger um 1/8 in falsch."
    ),
    "bore to ground.sleeve": "Kopf und Hülse zusammen messen: Der Grund der Bohrung liegt in der Hülse.",
    "label.bore to ground": "Bohrung bis Boden laut Auftrag",
    "label.bore to ground assumed": "Bohrung bis Boden, angenommen, bis gemessen ist",
    "label.R": "R, mit dem ungekürzten Schaft dieses Auftrags als Prüfschaft",
    "label.T": "T, dieser Schaft",
    "done.bore to ground": "R - T steht im Auftrag als bore_to_ground.",
    "title.pull head": "Den Kopf vom alten Schaft ziehen",
    "pull head.ferrule": "Zuerst die alte Ferrule abnehmen, und jedes Gewicht oder Pulver, dem Hitze schaden könnte.",
    "pull head.straight": (
        "Den Hosel erwärmen, oft probieren und gerade am Schaft entlang ziehen: Drehen reißt Fasern und weitet den "
        "Hosel."
    ),
    "pull head.weigh": "Den gezogenen Kopf nackt wiegen: Seine alte Masse auf dem Papier ist nicht die in der Hand.",
    "pull head.record": "Jedes Erwärmen eines Graphitschafts, der bleibt, in die Aufzeichnung schreiben.",
    "done.pull head": "Der Kopf ist ab, kalt, unbeschädigt und liegt bei seinem Auftrag.",
    "title.clean bore": "Die Bohrung reinigen",
    "clean bore.out": (
        "Alten Kleber und Rost bis auf den Grund herausnehmen, mit einer Reibahle oder Drahtbürste in der Größe der "
        "Bohrung."
    ),
    "clean bore.wipe": (
        "Ausblasen oder ausbürsten, mit Lösemittel wischen, trocknen lassen; am Grund nach altem Gewicht oder Stopfen"
        " sehen."
    ),
    "done.clean bore": "Ein frisches Tuch bleibt sauber, und die Tiefe ist die des Auftrags.",
}

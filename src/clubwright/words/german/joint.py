"""What the cards say of the joint: adhesive, its fit, its cure."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.mix": "Den Kleber mischen",
    "mix.gate": "Nicht mischen, bevor die Sperre vor dem Kleben offen ist: Der Becher wartet nicht.",
    "mix.stir": (
        "Beide Teile auf einer Waage in einen Becher wiegen, dann Rand und Boden rühren, bis keine Schliere bleibt."
    ),
    "mix.missing": "Keine Massen ohne die Zahlen des Datenblatts; im Auftrag fehlen: {missing}.",
    "mix.scale": "Der Fehler der Waage steht nicht im Auftrag: {error} wird angenommen ({standing}); den eigenen eintragen.",
    "mix.basis": "[adhesive] basis (nach Gewicht oder nach Volumen)",
    "label.part A": "Teil A",
    "label.part B": "Teil B",
    "label.pot life": "Topfzeit",
    "label.product": "Produkt",
    "label.ratio": "Verhältnis auf dem Blatt",
    "figure.ratio": "{typed} nach {basis}",
    "label.ratio by weight": "Verhältnis nach Gewicht, A zu B",
    "figure.to hundred": "{a}:100",
    "label.both": "beide",
    "label.joints need": "die Klebungen brauchen, mit Verlust",
    "label.smallest batch": "kleinster Ansatz auf dieser Waage",
    "done.mix": "Beide Massen, die Charge und die Zeit sind aufgezeichnet, und die Mischung hat eine einzige Farbe.",
    "title.glue": "Kopf und Schaft kleben",
    "glue.coat": "Wand der Bohrung und Spitze bestreichen; langsam unter Drehen einschieben, bis auf den Grund.",
    "glue.wipe": "Abwischen, was austritt; prüfen, dass die Ferrule unten ist und die Strichmarken sich treffen.",
    "glue.stand": (
        "Den Schläger aufrecht stellen und nach 5 und nach 10 Minuten noch einmal nach Marken und Ferrule sehen."
    ),
    "glue.putter": (
        "Schlagfläche und flache Seite des Griffs in der Vorrichtung rechtwinklig halten, bis der Kleber angezogen hat."
    ),
    "label.under the tip": "Gewicht unter der Spitze",
    "label.checked": "geprüft: {what}",
    "done.glue": "Die Klebung ist an ihren Marken geschlossen, und Zeit und Temperatur des Teils sind aufgezeichnet.",
    "title.cure": "Die Klebung aushärten lassen",
    "cure.rack": "Den Schläger so lagern, dass nichts die Klebung belastet; es zählt die Temperatur des Teils.",
    "done.cure": 'Die Sperre "Freigabe" ist offen: Die Zeit der Tabelle bei der Temperatur des Teils ist um.',
    "cure.no table": (
        "Der Auftrag hat keine Zeiten der Aushärtung: die Zeilen des Datenblatts in [[adhesive.release]] übertragen."
    ),
    "cure.no temperature": "Der Auftrag hat keine Temperatur der Werkbank: [adhesive] temperature eintragen.",
    "label.table row": "Tabelle, {at}",
    "label.cabinet": "wärmster Schrank für Graphit (allgemeine Praxis, ohne Quelle)",
    "label.release after": "ausgehärtet, darf geschlagen werden nach, bei {at}",
    "label.release from": "ausgehärtet, darf geschlagen werden ab ({zone})",
    "label.that is after": "das heißt, nach dem Schließen der Klebung, bei {at}",
    "label.colder row": "Zeit der nächstkälteren Zeile, zur Sicherheit",
    "title.ferrule finish": "Die Ferrule fertigstellen",
    "ferrule finish.shield": "Hosel und Schaft mit Band schützen.",
    "ferrule finish.turn": (
        "Die Ferrule auf einem feinen Band auf den Durchmesser des Hosels schleifen, nur leicht andrücken."
    ),
    "ferrule finish.wipe": "Band aus und Funken erloschen, dann einmal mit Lösemittel wischen, für den Glanz.",
    "ferrule finish.before": "Das kommt vor dem Griff: Dessen Lösemittel wird nach dem letzten Funken geöffnet.",
    "done.ferrule finish": "Ein Fingernagel gleitet über Hosel, Ferrule und Schaft, ohne zu haken.",
    "joint.missing": "Keine Vergleichszahl für die Klebung; im Auftrag fehlen: {missing}.",
    "joint.no line": "Keine Vergleichszahl für die Klebung: Spitze und Bohrung lassen keine zulässige Klebefuge.",
    "joint.graphite": "Die Festigkeit ist die einer Klebung an Stahl: Eine Graphitspitze deckt sie nicht ab.",
    "label.bond area": "Klebefläche",
    "label.pull of the head": "Zug des Kopfs im Schwung",
    "figure.pull taken": "{pull} (angenommen: {speed} auf {radius})",
    "label.pull that meets": "Zug, der ihre Festigkeit erreicht",
    "figure.strength": "{pull} bei {strength} ({source})",
    "label.reserve": "Reserve",
    "figure.times": "{times}-fach",
    "label.bond line": "Klebefuge je Seite",
    "label.fills": "Kleber, der sie füllt",
    "label.bond line verdict": "Klebefuge je Seite, {verdict}",
    "label.joint tip": "Spitze",
    "label.tip in bore": "Spitze in Bohrung",
    "figure.in": "{tip} in {bore}",
    "label.shim": "Einlage",
    "figure.a side": "{wall} je Seite",
    "label.clearance": "Spiel",
    "figure.give or take": "{figure} ± {spread}",
    "label.bond line allowed": "zulässige Klebefuge",
    "figure.to": "{low} bis {high}",
    "label.least from": "Mindestmaß von",
    "label.most from": "Höchstmaß von",
    "dry fit.starved": (
        "Die Klebefuge ist dünner als {least}: beide Flächen bestreichen und langsam mit einer Drehung einschieben, "
        "damit der Kleber nicht abgestreift wird und die Klebung trocken bleibt."
    ),
    "mix.batch small": (
        "Ansatz des Klebers: In {batch} ist der Fehler der Waage {share} des kleineren Teils, mehr als die erlaubten "
        "{allowed}. Mindestens {least} mischen, oder eine feinere Waage oder eine Kartusche nehmen, die beide Teile "
        "dosiert."
    ),
    "mix.ratio off": (
        "Ansatz des Klebers: Sind beide Wägungen gegeneinander falsch, ist das Verhältnis um {off} falsch. Beide "
        "Teile auf derselben Waage in einen Becher wiegen oder mehr mischen."
    ),
}

"""What the cards say of tape, dry readings and weights."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.tape": "Das Band wiegen und kleben",
    "tape.weigh": "Die Streifen wiegen, bevor sie geklebt werden: danach kann es niemand mehr.",
    "tape.order": (
        "Zuerst kommt das Aufbauband, darüber das doppelseitige Grundband, mit 1/2 in zum Einschlagen ins Griffende."
    ),
    "tape.loose": "Für eine trockene Messung dieselben Streifen lose unter den Griff legen, wo sie am Ende liegen.",
    "label.all tape": "alles zusammen, am Schwunggewicht",
    "label.tape": "{name}, {layers}",
    "word.tape": "Band",
    "figure.not weighed": "nicht gewogen",
    "done.tape": "Masse und Lagen der Streifen sind aufgezeichnet.",
    "label.layers": "Lagen Aufbauband",
    "label.one layer": "eine Lage",
    "figure.full layers": "{count} über die ganze Länge",
    "figure.full and lower layers": "{count} über die ganze Länge, {lower} mehr unter der unteren Hand",
    "label.diameter with layers": "Durchmesser bei {place} mit diesen Lagen",
    "figure.between": "{figure} (zwischen {low} und {high})",
    "title.dry reading": "Den trockenen Schläger messen",
    "dry reading.best": (
        "Am besten: den Griff über dasselbe Band schieben und messen; der Anschlag berührt dann die Kappe."
    ),
    "dry reading.without": (
        "Ohne Griff berührt der Anschlag das nackte Griffende; die Vorhersage unten zählt das mit."
    ),
    "dry reading.which": "Aufschreiben, was von beidem es war: Die Messungen sind nicht austauschbar.",
    "dry reading.clamp": (
        "Für die Frequenz {held} des Griffendes einspannen, den Kopf unterlegen, damit er nicht klappert, und mit der"
        " Spitze des Kopfs nach oben schwingen lassen."
    ),
    "dry reading.loose": (
        "Die Vorhersage zählt den Kopf als fest auf dem Schaft: Ein loser trockener Sitz zeigt zu wenig."
    ),
    "label.fitted now": "jetzt eingesetzt",
    "label.adhesive to come": "Schwunggewicht des Klebers, der noch kommt",
    "done.dry reading": (
        "Beide Messungen sind mit ihrem Zustand festgehalten; eine, die nicht passt, wurde erklärt oder wiederholt."
    ),
    "label.grip and tape": "Griff und Band für sich",
    "label.cap fulcrum": "Kappe: Mit Griff steht der Drehpunkt um so viel näher am Griffende",
    "label.too high": "also zeigt eine Messung ohne Griff und Band zu viel, um",
    "label.read": "gemessen: {what}, {stage}",
    "title.choose weight": "Das Gewicht wählen und einsetzen",
    "choose weight.order": (
        "Reihenfolge: ein anderer Kopf aus dem Los, ein Gewicht in der Öffnung des Kopfs, ein Spitzengewicht von "
        "wenigen Gramm, Bleiband."
    ),
    "choose weight.practice": (
        "Diese Reihenfolge ist allgemeine Praxis, ohne Quelle; die Chancen unten sind die dieses Schlägers."
    ),
    "choose weight.nothing": "Der Auftrag hat kein Ziel, das ein Gewicht bewegt: nichts einsetzen.",
    "label.best": "am besten",
    "label.at the head": "am Kopf, für {what}",
    "label.alternative": "Alternative {place}",
    "figure.choice": "{weights}: {chance}; {figures}",
    "rule.head": "Kopfgewicht für einen Punkt: die Regel sagt {rule}, dieser Schläger {exact} ({source})",
    "rule.grip": "Griffgewicht für einen Punkt weniger: die Regel sagt {rule}, dieser Schläger {exact} ({source})",
    "rule.length": "Punkte für 1/2 in Länge: die Regel sagt {rule}, dieser Schläger {exact} ({source})",
    "rule.shaft": "Schaftgewicht für einen Punkt: die Regel sagt {rule}, dieser Schläger {exact} ({source})",
    "done.choose weight": "Was eingesetzt ist, ist aufgezeichnet, und jedes Stück wurde gewogen.",
}

"""What the cards say of gates: what was checked, and what is lacking."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "gate.not open": "Noch nicht offen: {why}",
    "gate.checked": "geprüft: {checks}",
    "check.by word": "{name} ({figures})",
    "check.reason": "{what}: {mend}",
    "figure.ordered label": "bestellt",
    "figure.believed": "angenommen",
    "figure.still to bend": "noch zu biegen",
    "figure.on the length": "an der Länge",
    "figure.at temperature": "bei {at}",
    "figure.closed at": "geschlossen um",
    "figure.written at": "aufgeschrieben um",
    "figure.by whom": "{at} von {who}",
    "figure.off already": "schon ab",
    "figure.fitting": "passend oder entschieden",
    "figure.best that can": "das Beste, was eingesetzt werden kann",
    "figure.chance for": "{chance} für {what}",
    "gate.no target": "keine Ziellänge im Auftrag",
    "gate.write target": "[target] length eintragen",
    "gate.no bore to ground": "die Bohrung ist nicht gemessen",
    "gate.seat test shaft": "einen geraden Prüfschaft einsetzen und [head] bore_to_ground eintragen",
    "gate.no bore depth": "die Tiefe der Bohrung ist nicht gemessen",
    "gate.write bore depth": "[head] bore_depth eintragen",
    "gate.no cap": "die Kappe dieses Griffs ist nicht gemessen",
    "gate.write cap": "[grip] cap eintragen",
    "gate.no lie": "das Lie ist nicht gemessen",
    "gate.write lie": "[head] lie eintragen",
    "gate.too short": "der Schaft ist {short} zu kurz",
    "gate.pull another": "einen anderen holen",
    "gate.taper": "der Auftrag kürzt eine konische Spitze, was man nicht tut",
    "gate.correct tip": "tip_trim streichen oder tip berichtigen",
    "gate.bend changes": "das Lie um {bend} zu biegen ändert die gemessene Länge um {length}",
    "gate.bend first": "zuerst biegen, dann den Schnitt anzeichnen",
    "gate.not glued": "die Klebung ist noch nicht geklebt",
    "gate.close it": "sie schließen und die Zeit mit `glue` aufzeichnen",
    "gate.no table": "keine Zeiten der Aushärtung im Auftrag",
    "gate.copy table": "die Zeilen des Datenblatts in [[adhesive.release]] übertragen",
    "gate.not cured": "nach der Tabelle des Klebers noch nicht ausgehärtet",
    "gate.not cured asks": "nach der Tabelle des Klebers noch nicht ausgehärtet, sie verlangt {time} {at}",
    "gate.leave in rack": (
        "im Ständer lassen, bis diese Zeit um ist; ein Teil, das kälter ist als die kälteste Zeile der Tabelle, "
        "härtet nicht aus"
    ),
    "gate.hand not looked": "niemand hat die Hand des Kopfs angesehen",
    "gate.look at hand": 'ansehen, und [head] hand = "{hand}" nur eintragen, wenn es so ist',
    "gate.wrong hand": "falsche Hand: der Auftrag ist {ordered}, der Kopf ist {found}",
    "gate.put back": "zurücklegen und den richtigen holen",
    "gate.no loft": "der Loft des Kopfs ist nicht gemessen",
    "gate.write loft": "[head] loft eintragen",
    "gate.another head": "der Loft des Kopfs liegt {off} neben dem Ziel: das ist ein anderer Kopf",
    "gate.pull the ordered head": "zurücklegen und den bestellten nehmen oder ein anderes Ziel vereinbaren",
    "gate.core": "ein Kern von {core} passt nicht zu einem Griffende von {butt}",
    "gate.another grip": "einen anderen Griff holen",
    "figure.butt": "Griffende",
    "gate.not cut": "der Schaft ist nicht auf Länge geschnitten",
    "gate.cut it": "an seinen Marken schneiden und die Länge nach dem Schnitt aufzeichnen",
    "gate.length believed": "die fertige Länge ist vermutlich {believed}, bestellt {ordered}",
    "gate.measure again": (
        "Bohrung bis Boden, Kappe und Schnittlänge noch einmal messen; was zu kurz ist, braucht einen anderen Schaft"
    ),
    "gate.reading open": "die Messung {where} passt nicht, und niemand hat darüber entschieden",
    "gate.read again": "noch einmal messen, dann behalten oder weglassen",
    "gate.no dry reading": "noch keine trockene Messung des Schwunggewichts",
    "gate.read before gluing": "vor dem Kleben messen",
    "gate.small chance": "das Beste, was eingesetzt werden kann, hat eine Chance von {chance} für {what}",
    "gate.dry again": (
        "den trockenen Schläger noch einmal messen, einen anderen Kopf holen oder ein anderes Ziel vereinbaren"
    ),
    "gate.under the tip": "{weights} vor dem Kleben einsetzen: es sitzt unter der Spitze",
    "gate.cracked": "der Hosel ist gerissen, und so ein Kopf kann abfliegen: er scheidet aus",
    "gate.cracked short": "der Hosel ist gerissen",
    "gate.mark cracked": (
        "ihn kennzeichnen, damit ihn niemand mehr nimmt, einen anderen Kopf holen und den an seiner Stelle aufzeichnen"
    ),
    "gate.no tip": "die Spitze ist nicht gemessen",
    "gate.measure tip": "vorbereitet dort messen, wo sie in der Bohrung sitzt, und [shaft] tip_diameter eintragen",
    "gate.no bore": "der Durchmesser der Bohrung ist nicht gemessen",
    "gate.measure bore": "dort messen, wo die Spitze sitzt, und [head] bore_diameter eintragen",
    "gate.not pulled": "niemand hat die Teile geholt und geprüft",
    "gate.pull parts": 'die Hand ansehen, dann den Schritt "pull" als erledigt abhaken',
    "gate.butt trimmed": "{off} sind schon vom Griffende ab, damit ist der Schaft {short} zu kurz",
}

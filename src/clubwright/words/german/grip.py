"""What the cards say of the grip, and of a club that came in."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.as it came": "Den Schläger messen, wie er kam",
    "title.weigh as it came": "Den Schläger wiegen, wie er kam",
    "as it came.before grip": (
        'Gesamtgewicht, Schwunggewicht und Länge messen, bevor der alte Griff abgeht, und im Zustand "{stage}" '
        "festhalten."
    ),
    "as it came.before head": (
        'Gesamtgewicht, Schwunggewicht und Länge messen, bevor der Kopf gezogen wird, und im Zustand "{stage}" '
        "festhalten."
    ),
    "as it came.before change": (
        'Gesamtgewicht, Schwunggewicht und Länge messen, bevor etwas geändert wird, und im Zustand "{stage}" '
        "festhalten."
    ),
    "as it came.old parts": (
        "Sie sagen etwas über das, was bleibt, wie den Kopf; alte Teile sind eigene Unbekannte, nicht die neuen."
    ),
    "done.as it came": 'Die Messungen sind im Zustand "{stage}" festgehalten.',
    "title.strip grip": "Den alten Griff abziehen",
    "strip grip.cut": (
        "An der Unterseite entlang schneiden, von sich weg; Griff und Band abziehen und den Schaft reinigen."
    ),
    "strip grip.together": (
        "Alten Griff und altes Band zusammen wiegen: Was die neuen mehr wiegen, geht vom Schwunggewicht ab."
    ),
    "strip grip.new": (
        "Den neuen Griff für sich wiegen und beide Kappen messen: Eine dickere rückt den Drehpunkt näher ans Griffende."
    ),
    "strip grip.tell": (
        "Dem Spieler Bescheid geben, bevor der neue Griff aufkommt, wenn es sich um mehr als die Toleranz ändert."
    ),
    "strip grip.caliper": "Das nackte Griffende 2 in und 6 in unter der künftigen Kappe mit dem Messschieber messen.",
    "label.heavier grip": "ein schwererer Griff senkt das Schwunggewicht: Gramm für einen Punkt",
    "done.strip grip": "Der Schaft ist nackt und sauber, und alter Griff und altes Band wurden gewogen.",
    "label.new grip moves": "neuer Griff und Band gegen die alten, am Schwunggewicht",
    "label.and total": "und am Gesamtgewicht",
    "title.grip": "Den Griff aufziehen",
    "grip.clamp": "Den Schläger zuerst mit rechtwinkliger Vorderkante einspannen; nach ihr wird der Griff gesetzt.",
    "grip.flood": (
        "Griff und Band mit Lösemittel fluten, in einem Zug aufschieben, bis die Kappe das Griffende berührt, dann "
        "das Logo ausrichten."
    ),
    "grip.free length": "Bis auf seine freie Länge schieben und nicht weiter: Ein gestreckter Griff ist dünner.",
    "grip.rib": (
        "Die Rippe kommt an ihre Stelle, meist unten: Sie lässt sich nicht verdrehen, um ein Logo zu verbergen."
    ),
    "grip.putter": "Die flache Seite des Griffs rechtwinklig zur Schlagfläche setzen: Der Spieler zielt danach.",
    "grip.caliper": "Was der Messschieber zeigen soll, zählt das Band mit, das im Auftrag steht.",
    "label.core": "Kern",
    "label.butt at 2 in": "Griffende bei 2 in",
    "label.butt at 6 in": "Griffende bei 6 in",
    "label.free length": "freie Länge",
    "label.logo": "Logo",
    "done.grip": (
        "Die Kappe sitzt auf dem Griffende, das Logo ist gerade, er dreht sich von Hand nicht, und die Durchmesser "
        "wurden gemessen."
    ),
}

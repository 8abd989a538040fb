"""What the cards say of the last steps: bend, inspect, tag."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "title.loft and lie": "Auf Loft und Lie biegen",
    "loft and lie.why now": "Warum jetzt: {reason}.",
    "loft and lie.wood": (
        "Ein Holz wird mit seiner Hülse eingestellt, wo es eine hat, und nur gebogen, wo der Hersteller des Kopfs es "
        "erlaubt."
    ),
    "loft and lie.putter": "Vor dem ersten Zug prüfen, ob Hals und Einsatz das Biegen erlauben.",
    "loft and lie.no plan": "Kein Biegen ist geplant: zuerst Loft, Lie und Bounce des Kopfs messen.",
    "loft and lie.nothing": "Nichts wird gebogen.",
    "loft and lie.order": "Reihenfolge: zuerst Loft, dann Lie, dann wieder Loft; kleine Züge, und nach jedem messen.",
    "done.loft and lie": "Loft, Lie und Bounce wurden nach dem letzten Zug gemessen und sind aufgezeichnet.",
    "label.as it stands": "{what}, jetzt",
    "label.bend the": "{angle} biegen",
    "figure.bend": "{amount}, {pulls}",
    "figure.no bend advised": "kein Biegen angeraten",
    "figure.limit angles": "Loft {loft}, Lie {lie}",
    "figure.limit": "{most} ({metal}, {standing})",
    "label.limit": "übliche Grenze dieses Metalls",
    "loft and lie.graphite": (
        "der Schaft ist aus Graphit: den Kopf biegen, bevor der Schaft darin ist (allgemeine Praxis, ohne Quelle)"
    ),
    "loft and lie.large": (
        "das Lie ändert sich um mehr als 2 deg: vor dem Zusammenbau biegen (allgemeine Praxis, ohne Quelle)"
    ),
    "title.set sleeve": "Die Hülse auf Loft und Lie einstellen",
    "title.measure angles": "Loft und Lie messen",
    "set.sleeve": (
        "Die Hülse auf die Einstellung drehen, die die Tabelle ihres Herstellers für die bestellten Winkel nennt, und diese "
        "aufschreiben."
    ),
    "set.torque": (
        "Ihre Schraube mit dem Drehmoment anziehen, das der Hersteller nennt; Schraubensicherung nur, wo er sie verlangt."
    ),
    "set.sole": "Loft und Lie mit der Sohle so messen, wie sie stehen soll; die Einstellung dreht auch die Schlagfläche.",
    "label.setting": "Einstellung der Hülse",
    "label.torque": "Drehmoment ihrer Schraube",
    "done.set sleeve": (
        "Die Schraube ist mit ihrem Drehmoment angezogen; Loft und Lie wurden so gemessen und aufgezeichnet."
    ),
    "done.measure angles": "Loft und Lie wurden gemessen und sind aufgezeichnet.",
    "title.inspect": "Den fertigen Schläger prüfen",
    "inspect.read": "Jedes Ziel am fertigen Schläger messen, mit den Gewichten, die daran sind.",
    "inspect.twist": "Dann den Kopf von Hand gegen die Strichmarken drehen und klopfen, ob etwas klappert.",
    "done.inspect": "Jedes Ziel ist gemessen, und jedes Urteil ist in Toleranz oder wurde mit Namen angenommen.",
    "inspect.cannot prove": (
        "Eine Messung kann {what} ± {tolerance} nicht nachweisen ({gauge}): Das Schutzband ist {guard}. {mend}"
    ),
    "inspect.no repeats": (
        "Auch Wiederholungen helfen nicht: das Messmittel gegen ein Normal prüfen oder ein feineres nehmen."
    ),
    "inspect.mean of": "Das Mittel aus {count} kann es.",
    "title.tag": "Das Etikett anbringen und den Auftrag schließen",
    "tag.write": (
        "Auftrag, Spieler, Hand und Endwerte auf das Etikett schreiben; es dort befestigen, wo es nicht abfallen kann."
    ),
    "tag.cures": "Solange die Klebung härtet, sagt das Etikett, ab wann der Schläger geschwungen werden darf.",
    "label.ticket": "Auftrag",
    "label.player": "Spieler",
    "label.club": "Schläger",
    "label.hand": "Hand",
    "label.promised": "zugesagt",
    "label.weights on it": "Gewichte daran",
    "done.tag": "Das Etikett ist daran, und der Auftrag ist in der Aufzeichnung geschlossen.",
    "label.ordered": "{what} bestellt",
    "figure.ordered": "{figure} ± {tolerance}",
}

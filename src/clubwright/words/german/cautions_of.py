"""What the cards say of what can hurt with one material."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "caution.steel cut": (
        "Stahl wirft Funken und lässt einen Grat: die Funken von Lösemittel weg richten und das Ende entgraten."
    ),
    "caution.graphite cut": (
        "Graphit: Feinstaubmaske tragen, nass oder mit Absaugung schneiden, die Linie abkleben und ein feines "
        "Schleifblatt nehmen."
    ),
    "caution.graphite dust": (
        "Graphitstaub leitet Strom und juckt: mit einem Feinstaubsauger aufnehmen, nie umherblasen."
    ),
    "caution.steel prep": (
        "Die Beschichtung nur über die geklebte Länge abnehmen, gleichmäßig: Eine flache Stelle schwächt die Spitze."
    ),
    "caution.graphite prep": (
        "Graphit: den Lack abnehmen und nicht die Faser. Schwarzer Staub oder lose Fasern heißen, dass es zu weit "
        "ging, und so eine Spitze wird nicht verwendet."
    ),
    "caution.graphite mask": "Graphit: Feinstaubmaske und lange Ärmel tragen.",
    "caution.graphite glue": (
        "Graphit: nicht mehr Wärme, als der Hersteller des Schafts erlaubt; sein Harz kann unbemerkt weich werden."
    ),
    "caution.graphite release": (
        "Graphit: Ein Knarren oder Ticken in der Klebung ist ein Grund, den Schläger aus dem Spiel zu nehmen."
    ),
    "caution.steel heat": "Stahl leitet die Hitze bis zur Ferrule und zur Hand: den Schaft weit entfernt halten.",
    "caution.graphite heat": (
        "Graphit: aufhören, bevor das Harz des Schafts raucht, und nie drehen. Jedes Erhitzen eines Schafts, der "
        "wieder verwendet wird, aufzeichnen; Schäden innen sieht man nicht."
    ),
    "caution.titanium bend": "Titan: nicht biegen, wenn der Hersteller des Kopfs es nicht erlaubt.",
    "caution.maraging bend": "Maraging-Stahl: nicht biegen, wenn der Hersteller des Kopfs es nicht erlaubt.",
    "caution.zinc bend": "Zink: Es bricht, statt sich zu biegen; nicht biegen.",
    "caution.cast bend": (
        "Gegossener 17-4 federt zurück und kann brechen: kleine Züge, und nicht mehr, als der Hersteller erlaubt."
    ),
    "caution.plated bend": "Beschichteter Kohlenstoffstahl: Die Beschichtung kann am Hosel reißen.",
    "caution.beryllium fit": (
        "Berylliumkupfer: nicht aufreiben, nicht schleifen, nicht schmirgeln; der Staub kann die Lunge zerstören."
    ),
    "caution.magnesium fit": (
        "Magnesium: Späne und Staub brennen, und Wasser macht es schlimmer; hier nicht aufreiben."
    ),
    "caution.titanium fit": "Titan: Späne und Staub brennen heftig; nicht trocken aufreiben.",
    "caution.beryllium prep": (
        "Berylliumkupfer: nicht trocken aufreiben, schleifen oder schmirgeln; der Staub kann die Lunge zerstören."
    ),
    "caution.beryllium finish": "Berylliumkupfer: das Band vom Hosel fernhalten; der Staub kann die Lunge zerstören.",
    "caution.beryllium bend": (
        "Berylliumkupfer: danach weder feilen noch schmirgeln; der Staub kann die Lunge zerstören."
    ),
    "caution.beryllium weight": (
        "Berylliumkupfer: für Gewicht weder bohren noch schleifen; der Staub kann die Lunge zerstören."
    ),
    "caution.magnesium finish": (
        "Magnesium: Der Staub brennt, und Wasser macht es schlimmer; das Band vom Kopf fernhalten."
    ),
    "caution.titanium finish": "Titan: Staub und Funken brennen heftig; das Band vom Kopf fernhalten.",
}

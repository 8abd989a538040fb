"""What the cards say of the shaft: trim, prepare, fit dry, mark and cut."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "echo.cut short": "{off} kürzer als die Marke, {mark}: noch einmal messen",
    "echo.cut long": "{off} länger als die Marke, {mark}: noch einmal messen",
    "title.tip trim": "Die Schaftspitze kürzen",
    "title.tip trim check": "Die Kürzung der Schaftspitze prüfen",
    "tip trim.off": (
        "Laut Auftrag ist das schon von der Spitze ab: den Schaft messen und nichts schneiden, wenn es so ist."
    ),
    "tip trim.left": (
        "Was bleibt, muss die Rohlänge weniger der Kürzung sein; wenn nicht, zuerst den Auftrag berichtigen."
    ),
    "tip trim.sheet": (
        "Die Zahl ist die des Auftrags, vom Blatt dieses Schafts; das Blatt eines anderen Schafts gilt nicht."
    ),
    "tip trim.bore": (
        "Gilt das Blatt für eine andere Bohrung, muss der Unterschied von Bohrung bis Boden schon in der Zahl sein."
    ),
    "tip trim.mark": (
        "Von der SPITZE aus anzeichnen, prüfen, welches Ende welches ist, dann auf der Abfallseite schneiden."
    ),
    "tip trim.weigh": (
        "Das abgeschnittene Stück wiegen: Masse durch Länge ist tip_density. Die Masse des rohen Schafts bleibt, wie "
        "sie war."
    ),
    "label.off the tip": "von der Spitze ab",
    "label.left": "bleibt vom ungekürzten Schaft",
    "label.trim frequency": "Frequenz des fertigen Schlägers mit dieser Kürzung",
    "done.tip trim": "Die verbliebene Länge ist, wie sie sein soll, und das abgeschnittene Stück wurde gewogen.",
    "title.tip prep": "Die Schaftspitze vorbereiten",
    "tip prep.paint": (
        "Über die geklebte Länge allen Lack abnehmen, aber keine Faser: beim ersten matten Grau aufhören."
    ),
    "tip prep.countersunk": (
        "Eine angesenkte Öffnung des Hosels schont die Faser; die Spitze weder runden noch verjüngen."
    ),
    "tip prep.plating": (
        "Die Beschichtung über die geklebte Länge matt grau schleifen; dabei immer drehen, damit keine flache Stelle "
        "entsteht."
    ),
    "tip prep.short": "Kurz unter der Oberkante des Hosels aufhören: Blanker Stahl darüber rostet.",
    "tip prep.wipe": "Spitze und Bohrung sauber wischen und trocknen lassen.",
    "tip prep.taper": "Eine konische Spitze wird nicht gekürzt: Länge nur am Griffende abnehmen.",
    "tip prep.taper asked": (
        "Der Auftrag verlangt, von dieser konischen Spitze {trim} abzunehmen: nicht geplant. Zuerst nachfragen."
    ),
    "tip prep.no trim": (
        "Der Auftrag nennt keine Kürzung der Spitze, also ist keine geplant: Nennt das Blatt des Schafts eine, sie "
        "zuerst eintragen."
    ),
    "label.glued length from the tip": "geklebte Länge, ab der Spitze",
    "done.tip prep": (
        "Die geklebte Länge ist gleichmäßig matt, sauber und trocken, und die Spitze passt noch in die Bohrung."
    ),
    "title.ferrule": "Die Ferrule aufsetzen",
    "ferrule.mark": (
        "Die Tiefe auf der Spitze anzeichnen und die Ferrule aufschieben oder aufklopfen, bis ihre Unterkante dort "
        "steht."
    ),
    "ferrule.tight": "Eine enge geht nach einem Bad in heißem Wasser auf; nie mit dem Kopf aufzwingen.",
    "ferrule.light": "Den Kopf aufsetzen und nach einem Lichtspalt zwischen Ferrule und Hosel sehen.",
    "ferrule.light sleeve": (
        "Den Kopf aufsetzen und nach einem Lichtspalt zwischen Ferrule und Oberkante der Hülse sehen."
    ),
    "label.lower edge": "Unterkante, ab der Spitze",
    "label.ferrule length": "Länge der Ferrule",
    "done.ferrule": "Sie sitzt rundum flach auf dem Hosel, während die Spitze auf dem Grund der Bohrung steht.",
    "done.ferrule sleeve": (
        "Sie sitzt rundum flach auf der Oberkante der Hülse, während die Spitze auf dem Grund der Bohrung steht."
    ),
    "title.dry fit": "Kopf und Schaft trocken zusammensetzen",
    "dry fit.seat": (
        "Die Spitze auf den Grund der Bohrung setzen; mit dünner Schnur unterlegen, damit sie sich weder dreht noch "
        "rutscht."
    ),
    "dry fit.marks": (
        "Die Beschriftung des Schafts dorthin drehen, wo sie hingehört, und Strichmarken über Hosel und Schaft setzen."
    ),
    "dry fit.measure": (
        "Die vorbereitete Spitze und die Bohrung messen, beide, wo die Spitze sitzt: bei einem Konus in derselben "
        "Tiefe."
    ),
    "dry fit.loose": (
        "Eine lose Spitze bekommt eine Einlage über die ganze geklebte Länge, nie über einen Teil; eine enge wird nie"
        " eingetrieben."
    ),
    "dry fit.shim": (
        "Den trockenen Schläger mit der Einlage messen: Sie kann ein Gramm wiegen. Beide Seiten anrauen und abwischen."
    ),
    "dry fit.putter": (
        "Die Schlagfläche auf einer Platte ausrichten, einen gebogenen Schaft drehen, bis ihr Fehler null ist, dann "
        "anzeichnen."
    ),
    "dry fit.sleeve": (
        "Die Hülse in ihre Stellung bringen, und die Schraube auf das Drehmoment, das der Hersteller des Kopfs nennt."
    ),
    "label.glued length": "geklebte Länge",
    "label.mark along": "Marke, vom Boden am Schaft entlang",
    "done.dry fit": (
        "Es sitzt ohne Spalt, Spitze und Bohrung passen nach ihren Zahlen zueinander, und die Strichmarken sind "
        "gesetzt."
    ),
    "title.mark and cut": "Anzeichnen, prüfen und am Griffende schneiden",
    "mark and cut.agree": (
        "Von der Spitze aus und, mit trocken aufgesetztem Kopf, vom Boden aus anzeichnen: Beide Marken müssen "
        "übereinstimmen."
    ),
    "mark and cut.aloud": "Auftrag und beide Marken noch einmal laut lesen, bevor die Säge läuft.",
    "mark and cut.waste": (
        "Auf der Abfallseite sägen, zum Griffende hin: Der ganze Schnittspalt geht vom Abschnitt ab."
    ),
    "mark and cut.no target": (
        "Der Auftrag hat keine Ziellänge, also gibt es nichts anzuzeichnen: [target] length eintragen."
    ),
    "mark and cut.stop": "HALT: Dieser Schaft ist zu kurz.",
    "mark and cut.weigh": (
        "Den geschnittenen Schaft wiegen und ab der Spitze auswiegen: eine leichte Messung, die Gewicht und "
        "Schwunggewicht stark eingrenzt."
    ),
    "mark and cut.weigh unmeasured": (
        "Den geschnittenen Schaft wiegen und ab der Spitze auswiegen: eine leichte Messung, die Gewicht und "
        "Schwunggewicht stark eingrenzt, da der rohe Schaft nicht gemessen wurde."
    ),
    "label.mark from the tip": "Marke, ab der Spitze",
    "label.mark from the ground": "Marke, vom Boden",
    "label.mark along fitted": "Marke, vom Boden am Schaft entlang, Kopf trocken aufgesetzt",
    "label.off before": "vorher von der Spitze ab",
    "label.offcut": "Abschnitt",
    "label.too short": "zu kurz um",
    "label.kerf": "Schnittspalt, vom Abschnitt",
    "label.cap off": "Kappe dieses Griffs, von der Marke abgezogen",
    "label.mark lifted": "Marke, ab der Spitze, wenn {weight} darunter kommt",
    "done.mark and cut": (
        "Der geschnittene Schaft wurde von der Spitze bis zum Griffende gemessen, der Grat ist ab, und die Länge ist "
        "aufgezeichnet."
    ),
}

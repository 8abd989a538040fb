"""What the cards say of what can hurt; the planning says where."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "caution.defer": (
        "Das Sicherheitsdatenblatt des Produkts, die örtlichen Vorschriften für Brand- und Arbeitsschutz und die "
        "Praxis befugter Fachleute gehen allem vor, was hier steht."
    ),
    "caution.release trial": (
        "Den Kopf von Hand gegen die Strichmarken drehen und den Schläger abklopfen, ob etwas klappert."
    ),
    "caution.lead": (
        "Bleiband: danach die Hände waschen, an der Werkbank nicht essen oder trinken, von Kindern fernhalten."
    ),
    "caution.cut eyes": "Augen- und Gehörschutz tragen; die Schutzhaube der Trennscheibe bleibt daran.",
    "caution.cut wheel": "Prüfen, dass die Scheibe heil und für die Drehzahl der Maschine zugelassen ist.",
    "caution.cut waste": "Auf der Abfallseite der Linie schneiden: Was ab ist, kommt nicht zurück.",
    "caution.prep eyes": "Augenschutz und Staubmaske tragen; den Staub dort absaugen, wo er entsteht.",
    "caution.prep solvent": (
        "Lösemittel zum Wischen weit weg von Bändern, Scheiben und Funken halten und erst benutzen, wenn sie stehen "
        "und keine mehr da sind."
    ),
    "caution.prep clean": (
        "Bohrung und Spitze reinigen, bis ein frisches Tuch sauber bleibt: Alter Kleber, Rost und Lösemittel vom "
        "Griff lassen einen Kopf los."
    ),
    "caution.fit cracked": "Ein Kopf mit gerissenem Hosel scheidet aus: Er kann abfliegen.",
    "caution.fit drive": "Nie eine Spitze in eine Bohrung treiben: Der Hosel kann reißen.",
    "caution.fit mark": (
        "Einen gerissenen Kopf kennzeichnen, damit ihn niemand mehr nimmt; ein Riss wird weder geklebt noch gefüllt "
        "noch unterlegt."
    ),
    "caution.fit ream": (
        "Nur aufreiben, wo der Hersteller des Kopfs und die verbleibende Wand es erlauben: Kopf eingespannt, Reibahle"
        " scharf und in der richtigen Größe, langsam gedreht, mit Augenschutz, Staub dort abgesaugt, wo er entsteht, "
        "keine Finger an der Öffnung."
    ),
    "caution.fit sharp": (
        "Eine geschnittene Einlage und eine aufgeriebene Kante sind scharf: Handschuhe tragen und den Grat abnehmen."
    ),
    "caution.fit shim": (
        "Eine Einlage reicht über die ganze geklebte Länge: Eine kurze lässt eine Stufe, an der der Schaft bricht."
    ),
    "caution.mix gloves": "Handschuhe aus Nitril tragen, nicht aus Latex, und wechseln, wenn Kleber daran kommt.",
    "caution.mix skin": "Haut nie mit Lösemittel reinigen: Es trägt Kleber hinein. Wasser und Seife nehmen.",
    "caution.mix allergic": (
        "Unausgehärtetes Harz und Härter können auf Dauer allergisch machen, halb gehärteter Staub auch. Wer "
        "reagiert, arbeitet nicht weiter damit und geht zum Arzt."
    ),
    "caution.mix hardener": "Härter kann Haut und Augen verätzen: Augenschutz tragen und den Raum lüften.",
    "caution.mix cup": (
        "Je Mischung höchstens etwa 50 g: Eine größere kann sich selbst erhitzen, rauchen und zu früh anziehen."
    ),
    "caution.mix product": (
        "Nur ein Produkt nehmen, das haltbar und für diese Klebung bestimmt ist, im Verhältnis und auf der Grundlage "
        "(Gewicht oder Volumen), die sein Datenblatt nennt."
    ),
    "caution.glue gloves": "Handschuhe aus Nitril und Augenschutz tragen.",
    "caution.glue coat": (
        "Sowohl die Wand der Bohrung als auch die Spitze bestreichen; langsam unter Drehen einschieben, damit keine "
        "Stelle trocken bleibt."
    ),
    "caution.glue pot life": (
        "Keine Mischung nach ihrer Topfzeit benutzen, und keine, die warm geworden ist oder Fäden zieht."
    ),
    "caution.glue stand": (
        "Den Schläger so stellen, dass sich nichts dreht oder rutscht, bis der Kleber angezogen hat."
    ),
    "caution.glue warm": "Eine Klebung nur nach der Tabelle ihres Produkts erwärmen; nie mit einer Flamme.",
    "caution.release kill": (
        "Ein Kopf, der abfliegt, kann töten. Niemand schwingt den Schläger, bevor er nach der Tabelle des Produkts "
        "voll ausgehärtet ist; die Zeit bis zur Handfestigkeit genügt nicht."
    ),
    "caution.release cold": "Eine kalte Nacht zählt nicht als Aushärtung: Es gilt die Temperatur des Teils.",
    "caution.release try": "{trial} Das geschieht, bevor er die Werkbank verlässt.",
    "caution.release figure": "Eine Zahl für die Festigkeit der Klebung ist keine Erlaubnis zum Spielen.",
    "caution.grip flame": (
        "Jede Flamme, Heißluft und jeden Funken löschen und die Trennscheibe anhalten, bevor Lösemittel geöffnet wird."
    ),
    "caution.grip gloves": (
        "Handschuhe und Augenschutz tragen; den Raum lüften; nasse Tücher in einen geschlossenen Metalleimer werfen."
    ),
    "caution.grip blade": (
        "Mit einer Hakenklinge von sich und der anderen Hand weg schneiden, mit scharfer Klinge. Einen Graphitschaft "
        "von der Schneide fernhalten."
    ),
    "caution.grip air": (
        "Bei Druckluft Augenschutz tragen, den für das Werkzeug erlaubten Druck einhalten und den Griff auf niemanden"
        " richten."
    ),
    "caution.grip dry": (
        "Lösemittel trocknen lassen, bevor der Schläger geschwungen wird: Ein nasser Griff dreht sich oder rutscht ab."
    ),
    "caution.grip waist": (
        "Nach einer Einschnürung oder Beule fühlen, wo Band endet: Ein Aufbau kann einen Griff gegen die Equipment "
        "Rules verstoßen lassen."
    ),
    "caution.bend eyes": "Augenschutz tragen und nicht in der Ebene stehen, in der die Stange fliegen würde.",
    "caution.bend small": (
        "In kleinen Zügen biegen und nach jedem messen; bei einem Riss, einem Knarren oder plötzlichem Nachgeben "
        "aufhören."
    ),
    "caution.bend maker": (
        "Innerhalb dessen bleiben, was der Hersteller des Kopfs für dieses Metall erlaubt; ein Hosel, der bricht, "
        "warnt nicht vorher."
    ),
    "caution.bend cured": "Nicht an einer Klebung ziehen, die nicht voll ausgehärtet ist.",
    "caution.sleeve loose": (
        "Ein Kopf, dessen Schraube nicht mit ihrem Drehmoment angezogen ist, kann davonfliegen: vor dem Schwingen prüfen."
    ),
    "caution.sleeve cured": (
        "Eine nicht ausgehärtete Klebestelle nicht verdrehen: den Kopf halten und die Hülse aus ihm drehen."
    ),
    "caution.weight loose": (
        "Ein Gewicht, das sich löst, ist ein Geschoss: nach Vorschrift des Herstellers befestigen und Schrauben mit "
        "dem angegebenen Drehmoment anziehen."
    ),
    "caution.weight tungsten": (
        "Wolframpulver: in einem verschlossenen Röhrchen halten, keinen Staub aufwirbeln, feucht aufwischen."
    ),
    "caution.weight melt": (
        "Heißkleber verbrennt: hitzefeste Handschuhe und Gesichtsschutz tragen und den Kopf abkühlen lassen, bevor er"
        " angefasst wird."
    ),
    "caution.weight glued length": (
        "Gewicht tief in der Schaftspitze oder im Hosel darf die geklebte Länge nicht verkürzen."
    ),
    "caution.finish eyes": "Augenschutz tragen; Finger, Ärmel und Handschuhe vom laufenden Band fernhalten.",
    "caution.finish wipe": (
        "Erst mit Lösemittel wischen, wenn das Band steht und keine Funken mehr da sind, mit Luft im Raum und mit "
        "Handschuhen."
    ),
    "caution.finish heat": (
        "Eine Ferrule wird von der Hitze des Bandes weich, eine frische Klebung auch: leicht andrücken und abkühlen "
        "lassen."
    ),
    "caution.heat clear": "Zuerst Lösemittel, nasse Tücher und Sprühdosen von der Werkbank räumen.",
    "caution.heat gloves": "Hitzefeste Handschuhe und Augenschutz tragen; die Dämpfe absaugen, sie sind schädlich.",
    "caution.heat least": "So wenig Hitze wie nötig, damit die Klebung loslässt, und einen Abzieher mit geradem Zug.",
    "caution.heat hollow": (
        "Keinen geschlossenen Hohlkopf, keine Öffnung mit Pulver oder Heißkleber darin und keinen Kopf mit Einsätzen "
        "oder Batterien erhitzen, wenn der Hersteller nicht sagt, wie: Druck kann entstehen."
    ),
    "caution.heat looks": (
        "Ein heißer Hosel sieht aus wie ein kalter: kennzeichnen und dort ablegen, wo ihn niemand aufhebt."
    ),
    "caution.tag cure": (
        "Einen Schläger, der noch härtet, so kennzeichnen, dass ihn niemand nimmt: die früheste Freigabe auf das "
        "Etikett schreiben."
    ),
    "caution.tag batch": (
        "Die Charge des Klebers, wer ihn mischte und wann, bei der Aufzeichnung des Schlägers aufbewahren."
    ),
}

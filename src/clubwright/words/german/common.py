"""Phrases that stand in several places."""

from __future__ import annotations

from clubwright.words.language import Counted, Template

PHRASES: dict[str, Template] = {
    "step waits": "Noch nicht offen: {why}.",
    "why and chance": "{why}; Chance {chance}",
    "expected": "{figure}; 95 % von {low} bis {high}",
    "no weight": "kein Gewicht",
    "nothing": "nichts",
    "several pieces": "{count} x {name}",
    "reads": "{what} {amount}",
    "angle ends": "{angle} {amount}",
    "bend amount": "{size} {way} ({signed})",
    "under a quarter of a degree": "unter 1/4 deg",
    "push upright": "das Griffende vom Spieler weg bewegen, zur Spitze des Schlägerkopfs hin",
    "push flat": "das Griffende zum Spieler hin bewegen, weg von der Spitze des Schlägerkopfs",
    "push weak": "das Griffende zum Ziel hin bewegen: nach {side}, wie es ein {hand} Spieler beim Ansprechen sieht",
    "push strong": "das Griffende vom Ziel weg bewegen: nach {side}, wie es ein {hand} Spieler beim Ansprechen sieht",
    "count.layers": Counted("1 Lage", "{count} Lagen"),
    "count.pulls": Counted("1 Zug", "{count} Züge"),
    "bend.pulls": Counted("ein Zug", "{count} Züge, nach jedem gemessen"),
    "check.figure": "{label} {figure}",
    "page.time waiting": "{time} warten",
    "page.time work": "{time} Arbeit",
    "page.over": "über {figure}",
    "page.under": "unter {figure}",
    "page.or": " oder ",
    "page.where usual": "{gauge}, wo üblich",
    "page.strip": "{name}: bestellt {target}, Toleranz {tolerance}; angenommen {believed}",
    "page.strip unmeasured": "{name}: bestellt {target}, Toleranz {tolerance}; noch nicht gemessen, angenommen {believed}",
    "page.strip considered": "; betrachtet {figure}",
    "page.strip read": "; gemessen {figure}",
    "page.stands": "{verdict}, bestellt {ordered}",
    "page.stands read": ", gemessen {figures}",
    "page.stands believed": ", angenommen {figure}",
    "page.mend outside": "den Schläger richten und noch einmal messen",
    "page.mend not used": "eine Messung ist festgehalten und nicht verwendet: {lacks}",
    "page.mend it lacks": "; {lacks}",
    "page.mend not read": "am fertigen Schläger messen ({gauge}{lacks})",
    "page.mend cannot tell": "noch nicht zu sagen: {settle}",
    "page.alarm": "{where}: {what}. {mend}",
    "page.drawn": "{club}, gezeichnet im Maßstab 1 : {scale}",
    "page.scale": "Maßstab 1 : {scale}",
    "page.side view": (
        "Seitenansicht in Spielrichtung, Griff links, {length} von der Kappe bis zum Boden an der Achse "
        "entlang, Maßstab 1 : {scale}. Am Schläger, gefüllt gezeichnet: {parts}. Umriss des Kopfs: ein Bild "
        "seiner Art."
    ),
    "page.mark cut": "Schnitt {mark} ab der Spitze",
    "page.mark not settled": "Schnitt nicht festgelegt: seine Sperre ist zu",
    "page.mark about": "etwa {mark} in ± {doubt} in ab der Spitze: nicht zum Sägen, die Sperre ist zu",
    "page.mark done": "{mark}, getan",
    "page.mark to": "{what} bis {place}",
    "page.mark fulcrum": "Drehpunkt {place}",
    "page.mark head cg": "Schwerpunkt des Kopfs",
    "page.mark balance": "Balancepunkt {place}",
    "page.mark waste": "Abfallseite",
    "page.mark to fit": "{what} (einzusetzen)",
    "page.mark length": "Länge {place}",
    "page.who said": "wer es gesagt hat",
    "page.why changed": "warum es geändert wird",
    "page.a name": "ein Name",
    "page.your words": "in deinen Worten",
    "page.another head anew": "Ein anderer Kopf ist da: neu messen",
    "page.script hold": (
        "Nicht rückgängig zu machen. Den Knopf oben eine Sekunde halten; oder abhaken, dass du hingesehen "
        "hast, dann tippen."
    ),
    "page.script more": (
        "Nichts ist unterschrieben. Den Knopf oben halten, bis er voll ist; oder abhaken, dass du hingesehen "
        "hast, dann tippen."
    ),
    "page.script back": "Zurücklesen",
    "page.script keep": "Messung festhalten",
    "page.script take": "Diese Messung nehmen",
    "page.script live": "verbunden",
    "page.script lost": "keine Verbindung",
    "page.script left": "noch:",
    "page.script over": "VORBEI seit",
}

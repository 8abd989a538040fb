"""What the advice says."""

from __future__ import annotations

from clubwright.words.language import Counted, Template

PHRASES: dict[str, Template] = {
    "advice.fit": "{weights} einsetzen",
    "advice.fit or": "{weights} einsetzen, oder {others}, was dasselbe bewirkt",
    "advice.leave": "lassen, wie es ist",
    "advice.take out": "die Gewichte herausnehmen",
    "advice.fit nothing": "nichts einsetzen",
    "advice.finished": "fertig: {figures}",
    "advice.finished of few": Counted(
        "fertig: {figures}; mehr als 1 Stück wurde nicht versucht und bringt höchstens {most}",
        "fertig: {figures}; mehr als {count} Stücke wurden nicht versucht und bringen höchstens {most}",
    ),
    "advice.finished of likeliest": (
        "fertig: {figures}; von den übrigen wurden nicht alle mit der Frequenz gerechnet, sie bringen höchstens {most}"
    ),
    "advice.no target": "der Auftrag hat kein Ziel, das ein Gewicht bewegt",
    "advice.read": "{what} messen ({stage})",
    "advice.read why": "eine Messung bringt die beste Wahl voraussichtlich auf {chance}, jetzt {now}",
    "advice.pull": "den Kopf abziehen, dann {weights} einsetzen",
    "advice.pull why": "die Klebung ist zu: so wie es ist, höchstens {now}; {time} Arbeit und neu aushärten",
    "advice.cautions": "{why}. Achtung: {cautions}",
    "advice.head": "einen anderen Kopf nehmen, {mass}",
    "advice.head heavier": "{change} schwerer als dieser; die Schale erreicht höchstens {now}",
    "advice.head lighter": "{change} leichter als dieser; die Schale erreicht höchstens {now}",
    "advice.lever why": "fertig: {figures}; die Schale allein erreicht höchstens {now}",
    "advice.and fit": ", dazu {weights}",
    "advice.grip": "einen anderen Griff nehmen, {mass}{weights}",
    "advice.counterweight": "ein Gegengewicht von {mass} unter die Kappe setzen{weights}",
    "advice.lead tape": "{mass} Bleiband auf den Kopf kleben{weights}",
    "advice.tape by length": "{length} Bleiband ({mass}) auf den Kopf kleben{weights}",
    "advice.powder": "{mass} Pulver in die Schaftspitze füllen{weights}",
    "advice.longer club": "den Schläger {change} länger lassen, {length}{weights}",
    "advice.shorter club": "den Schläger {change} kürzer schneiden, {length}{weights}",
    "advice.other port": "{moved} in die andere Öffnung setzen, {place} vom Boden{weights}",
    "advice.unreached one": (
        "kein Satz Gewichte bringt {what} in die Toleranz: höchstens {chance}, am Ende steht {ends}"
    ),
    "advice.unreached pair": (
        "kein Satz Gewichte bringt {one} und {other} zusammen in die Toleranz: höchstens {chance}; "
        "stimmt {one}, steht {other} bei {other_ends}; stimmt {other}, steht {one} bei {one_ends}"
    ),
    "advice.trim": "{off} von der Schaftspitze abnehmen",
    "advice.trim less": (
        "insgesamt, und am Griffende mehr abschneiden; mit {weights} fertig: {figures}; es lässt sich nicht zurücknehmen"
    ),
    "advice.trim more": (
        "insgesamt, und am Griffende weniger abschneiden; mit {weights} fertig: {figures}; es lässt sich nicht zurücknehmen"
    ),
    "advice.bend": "biegen: {bends}",
    "advice.one bend": "{angle} {amount}",
    "advice.no bend": "nicht biegen",
    "advice.leave angles": "Loft und Lie lassen, wie sie sind",
    "advice.no angle off": "kein Winkel weicht um ein Achtelgrad ab",
    "advice.bend why": "danach {moved}",
    "advice.longer": "Länge +{amount}, wenn danach nicht geschnitten wird",
    "advice.shorter": "Länge -{amount}, wenn danach nicht geschnitten wird",
    "advice.points": "Schwunggewicht {amount}",
    "advice.tape": Counted("1 Lage Aufbauband kleben{lower}", "{count} Lagen Aufbauband kleben{lower}"),
    "advice.lower hand": " und {count} mehr unter der unteren Hand",
    "advice.leave tape": "das Band lassen, wie es ist",
    "advice.forecast": "{diameter} (addiert {additive}, gleiches Volumen {volume})",
}

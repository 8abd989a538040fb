"""What is said of a reading that does not fit."""

from __future__ import annotations

from clubwright.words.language import Counted, Template

PHRASES: dict[str, Template] = {
    "reading": "{what} {typed} ({stage})",
    "misfit.off": "zeigt {seen}, erwartet {expected}: {deviations} Standardabweichungen daneben{beside}",
    "misfit.beside": " ({where} ist {typed} mit {gauge})",
    "misfit.aside": "{off}, und bleibt beiseite. Das Wahrscheinlichste zuerst: {causes}",
    "misfit.left out": "{off}; nach Entscheidung weggelassen",
    "misfit.decided": "Nichts zu tun.",
    "misfit.decide": "Das prüfen und neu messen, oder entscheiden: {way}",
    "misfit.in the file": 'keep = "yes", um sie zu nutzen, keep = "no", um sie wegzulassen.',
    "misfit.by command": (
        "`clubwright decide {job} {fact} keep`, um sie zu nutzen, `clubwright decide {job} {fact} leave`, um sie "
        "wegzulassen."
    ),
    "part before change": "{part} vor Änderung {change}",
    "weight of the tray": "Gewicht {name}",
    "cause.stage": 'gemessen wurde im Zustand "{stage}"',
    "cause.weights": "dabei war eingesetzt: {weights}",
    "cause.stages": 'alle Messungen dieses Zustands wurden im Zustand "{stage}" gemacht',
    "cause.other stage": '{reading} wurde im Zustand "{stage}" gemessen',
    "cause.weights of all": "bei all diesen Messungen war eingesetzt: {weights}",
    "cause.other weights": "bei dieser Messung war eingesetzt: {weights} ({reading})",
    "cause.to the butt": "die Länge wurde bis zum Schaftende statt bis zur Kappe gemessen",
    "cause.other to the butt": "{reading} wurde bis zum Schaftende statt bis zur Kappe gemessen",
    "cause.letter more": "der Buchstabe des Schwunggewichts sollte der nächsthöhere sein",
    "cause.letter less": "der Buchstabe des Schwunggewichts sollte der nächstniedrigere sein",
    "cause.other letter": "bei {reading}: {cause}",
    "cause.scale more": "die Waage der Teile zeigte bei jedem {size} zu wenig",
    "cause.scale less": "die Waage der Teile zeigte bei jedem {size} zu viel",
    "cause.layers more": Counted("eine Lage {name} mehr ist drauf", "{count} Lagen {name} mehr sind drauf"),
    "cause.layers less": Counted("eine Lage {name} fehlt", "{count} Lagen {name} fehlen"),
    "cause.typed": "bei der Masse sind zwei Ziffern vertauscht ({part}): {entered} statt {meant}",
    "cause.both": "{one}, und {other}",
    "cause.earlier": "die Messung {reading} ist falsch",
    "cause.gauge always": "das Messmittel ({gauge}) ist verstellt: alle seine Messungen davon sind daneben",
    "cause.gauge": "das Messmittel ({gauge}) wurde falsch abgelesen oder ist verstellt",
    "cause.figure more": "{part}: {figure} ist {size} mehr als angegeben",
    "cause.figure less": "{part}: {figure} ist {size} weniger als angegeben",
    "cause.mass_kg more": "{part} ist {size} schwerer als angegeben",
    "cause.mass_kg less": "{part} ist {size} leichter als angegeben",
    "cause.cap_m more": "{part} ist an der Kappe {size} dicker als angegeben",
    "cause.cap_m less": "{part} ist an der Kappe {size} dünner als angegeben",
    "cause.length_m more": "{part} ist {size} länger als geplant",
    "cause.length_m less": "{part} ist {size} kürzer als geplant",
    "cause.other more": "{part}: {meaning} ist {size} mehr als angegeben",
    "cause.other less": "{part}: {meaning} ist {size} weniger als angegeben",
    "cause.another grip": "{cause}, oder es ist ein anderer Griff",
    "cause.another core": "{cause}, oder er hat einen anderen Kern",
}

"""What gates and cards say of how a tip fits, and of what the record knows: the club, the mix, the joint."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "fit.does not": "es passt nicht",
    "fit.not sure": "die Passung ist nicht sicher",
    "fit.shim": "eine Einlage über die ganze geklebte Länge, ihre Wand {thin} bis {thick} ([shim] thickness), ",
    "fit.loose": (
        "eine Spitze von {tip} in einer Bohrung von {bore} lässt je Seite eine Klebefuge von {line}, und "
        "{most} ist das Meiste ({source})"
    ),
    "fit.loose with shim": (
        "eine Spitze von {tip} in einer Bohrung von {bore} lässt mit dieser Einlage je Seite eine Klebefuge "
        "von {line}, und {most} ist das Meiste ({source})"
    ),
    "fit.mend loose": "den richtigen Schaft nehmen, {shim}oder einen anderen Kopf",
    "fit.thick shim": "die Einlage von {shim} ist zu dick: sie lässt {left} des Durchmessers für Kleber",
    "fit.mend shim": "{shim}oder sie weglassen",
    "fit.leave shim out": "sie weglassen",
    "fit.tight": (
        "eine Spitze von {tip} ist zu groß für eine Bohrung von {bore}: sie lässt {left}, und {least} ist "
        "das Wenigste ({source})"
    ),
    "fit.mend tight": (
        "den richtigen Schaft oder einen anderen Kopf nehmen; nie eintreiben. Eine Bohrung wird nur "
        "aufgerieben, wo der Hersteller des Kopfs und die Wand des Hosels es erlauben: über die ganze Tiefe, "
        "dann neu gemessen (bore_diameter mit bore_reamed)"
    ),
    "fit.open": (
        "ein Spiel von {clearance} ± {spread} ist nicht von einem außerhalb von {low} bis {high} zu unterscheiden"
    ),
    "fit.finer": (
        "die Bohrung mit Lehrdornen und die Spitze mit einer Messschraube messen, und was sie taugen hinter "
        'die Zahl schreiben, etwa "0.3575 in ± 0.0002 in"'
    ),
    "club.also open": "er ist noch in einem anderen offenen Auftrag ({jobs})",
    "club.close one": "einen davon schließen: bis dahin wird an diesem Schläger nichts geschnitten oder geklebt",
    "club.worked since": (
        "in {job} ging die Arbeit weiter, nachdem dieser Auftrag mit dem Schläger begann, wie jener ihn hinterließ"
    ),
    "club.begin now": "mit dem Schläger beginnen, wie er jetzt ist: `clubwright same-club {job} {other}`",
    "mix.throw away": "wegwerfen und neu mischen",
    "mix.take apart": (
        "niemand spielt ihn. Die Klebung öffnen, reinigen, neu mischen und wieder kleben; oder, war die "
        "Mischung doch gut, in dem Auftrag, in dem sie gemischt wurde, zurücknehmen, dass sie schlecht ist"
    ),
    "mix.said bad": "{who} sagt, dass diese Mischung schlecht ist",
    "mix.bad": "auf diese Mischung ist kein Verlass",
    "mix.bad because": "{said}: {why} ({mixed}, gemischt {at} für Auftrag {job})",
    "mix.no basis": "ein Verhältnis sagt nichts ohne seine Grundlage",
    "mix.read basis": (
        "auf dem Datenblatt lesen, ob das Verhältnis nach Gewicht oder nach Volumen gilt, und es sagen, "
        "bevor gemischt wird"
    ),
    "mix.no density": "die Dichte von Teil {part} ist nicht bekannt, und das Verhältnis gilt nach Volumen",
    "mix.read density": (
        "sie auf dem Datenblatt lesen und sagen, bevor gemischt wird, oder das Verhältnis des Blatts nach "
        "Gewicht schreiben"
    ),
    "mix.none": "für diese Klebung ist kein Kleber gemischt",
    "mix.used up": "die letzte Mischung ist mit dem Kopf verbraucht, der zuvor geklebt wurde",
    "mix.weigh and record": "beide Teile in einen Becher wiegen, die Mischung aufzeichnen und in ihrer Topfzeit kleben",
    "mix.too much": "{mixed} ist {off} zu viel von Teil B für {ratio}:1 nach Gewicht",
    "mix.too little": "{mixed} ist {off} zu wenig von Teil B für {ratio}:1 nach Gewicht",
    "mix.add": (
        "noch nicht gerührt: {amount} von Teil {part} zugeben und die Mischung noch einmal aufzeichnen. "
        "Gerührt: die Mischung wegwerfen und neu mischen"
    ),
    "pot life.over": "die Topfzeit ist um",
    "pot life.throw away": "die Mischung wegwerfen, wenn sie abgekühlt ist, und neu mischen",
    "pot life.warmer": "die Werkbank ist wärmer als die Temperatur des Datenblatts",
    "pot life.more": "die Mischung ist mehr als die Menge des Datenblatts",
    "pot life.less time": "weniger Zeit erwarten als diese",
    "cold.not glued": "der Kopf ist nach der Aufzeichnung nicht geklebt",
    "cold.glue it": "ihn kleben und mit der Temperatur des Teils aufzeichnen",
    "cold.warm first": "das Teil zuerst auf mindestens {at} erwärmen",
    "cold.warm now": (
        "das Teil auf mindestens {at} erwärmen. In der Topfzeit die Zeile der Klebung zurücknehmen und sie "
        "mit dieser Temperatur aufzeichnen: ihre Zeit zählt von da an. Nach der Topfzeit die Klebung öffnen, "
        "reinigen, neu mischen und wieder kleben"
    ),
    "cold.colder": "{at} ist kälter als die kälteste Zeile der Tabelle, {coldest}, und härtet nicht aus",
    "hand.not looked at": "nicht angesehen",
    "hand.look": 'den Kopf ansehen und hand = "{hand}" nur schreiben, wenn es so ist',
}

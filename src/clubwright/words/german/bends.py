"""What the cards say of bends, and of what bears them."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "echo.wrong way": "in die falsche Richtung: es waren {was}, zu biegen ist {planned}",
    "bend.support": "Die Sohle abstützen, die Schlagfläche polstern und am Fuß des Hosels biegen.",
    "bend.at most": "Höchstens 1 Grad je Zug, dann messen.",
    "bend.too far": "Ging es zu weit, höchstens einmal zurück: Jede Umkehr härtet das Metall.",
    "bend.offset": "Den Loft zu biegen ändert auch den Versatz und das Aussehen der Vorderkante: dem Spieler zeigen.",
    "bend.step": "{angle} biegen, {amount}, auf {end}: {push}; {how}.",
    "bend.loft again": (
        "Den Loft noch einmal messen: {loft} ist gewollt, und ein Biegen des Lie kann auf ihn übergehen."
    ),
    "bend.bounce": "Den Bounce messen: {bounce} wird erwartet.",
    "bend.not recorded": (
        "Biegen: Frühere Biegungen dieses Kopfs sind nicht aufgezeichnet und zählen als keine. Fragen, ob er schon "
        "gebogen wurde; die Grenze gilt für alle Biegungen zusammen."
    ),
    "metal.soft": "Weiche Köpfe verändern sich im Spiel: Loft und Lie von Zeit zu Zeit nachmessen.",
    "metal.chrome": "Verchromung kann über 3 Grad reißen (allgemeine Praxis, ohne Quelle).",
    "metal.forged": (
        "Nicht jeder Kopf, der geschmiedet heißt, ist weich: aufhören, wenn er mehr Zug braucht als üblich."
    ),
    "metal.hair crack": "Nach jedem Zug am Hosel nach einem Haarriss sehen.",
    "metal.mallet": "Auf Einsatz und Hals achten: Der Hals eines Mallets kann zum Biegen zu steif sein.",
    "metal.beryllium": "Nicht trocken schleifen, feilen oder schmirgeln: Der Staub kann die Lunge zerstören.",
    "metal.adapter": "Die Stellungen des Adapters nutzen, wo es einen gibt.",
    "label.lie does": "was das Lie jetzt bewirkt",
    "lie.bent": "{size} {way}",
    "lie.still": "{bent}: Die Schlagfläche zeigt noch zum Ziel",
    "lie.points": (
        "{bent}: Die Schlagfläche zeigt {off} {side}, {miss} auf {distance} yd (eine im Loft lineare Regel sagt {rule})"
    ),
    "joint.meaning": (
        "Nur eine Vergleichszahl: statische Festigkeit einer sauberen, voll ausgehärteten Klebung gegen den Zug eines"
        " Schwungs. Sie sagt nichts über Reinigung, Verhältnis, Aushärtung, Hohlräume, Hitze, Stoß oder Ermüdung und "
        "ist keine Erlaubnis zum Spielen."
    ),
    "source.strength": "Epoxid an entfettetem Stahl, The Structural Engineer 58(1), 1980",
}

"""What is said of a reading that does not fit."""

from __future__ import annotations

from clubwright.words.language import Counted, Template

PHRASES: dict[str, Template] = {
    "reading": "{what} {typed} ({stage})",
    "misfit.off": "reads {seen}, expected {expected}: {deviations} standard deviations off{beside}",
    "misfit.beside": " ({where} is {typed} by the {gauge})",
    "misfit.aside": "{off}, and is kept aside. Likeliest first: {causes}",
    "misfit.left out": "{off}; left out by decision",
    "misfit.decided": "Nothing to do.",
    "misfit.decide": "Check that and read again, or decide: {way}",
    "misfit.in the file": 'keep = "yes" to use it, keep = "no" to leave it out.',
    "misfit.by command": (
        "`clubwright decide {job} {fact} keep` to use it, `clubwright decide {job} {fact} leave` to leave it out."
    ),
    "part before change": "{part} before change {change}",
    "weight of the tray": "weight {name}",
    "cause.stage": 'it was read at the stage "{stage}"',
    "cause.weights": "{weights} was fitted at the time",
    "cause.stages": 'all readings of that stage were taken at the stage "{stage}"',
    "cause.other stage": '{reading} was read at the stage "{stage}"',
    "cause.weights of all": "{weights} was fitted at the time of all those readings",
    "cause.other weights": "{weights} was fitted when this was read: {reading}",
    "cause.to the butt": "the length was read to the butt of the shaft instead of the cap",
    "cause.other to the butt": "{reading} was read to the butt of the shaft instead of the cap",
    "cause.letter more": "the letter of the swing weight should be the next one up",
    "cause.letter less": "the letter of the swing weight should be the next one down",
    "cause.other letter": "{cause}: {reading}",
    "cause.scale more": "the scale that weighed the parts showed {size} too little of each",
    "cause.scale less": "the scale that weighed the parts showed {size} too much of each",
    "cause.layers more": Counted("one layer of {name} more is on", "{count} layers of {name} more are on"),
    "cause.layers less": Counted("one layer of {name} is missing", "{count} layers of {name} are missing"),
    "cause.typed": "the weight of the {part} was typed with two digits changed: {entered} for {meant}",
    "cause.both": "{one}, and {other}",
    "cause.earlier": "the reading of {reading} is wrong",
    "cause.gauge always": "the gauge ({gauge}) is out of adjustment: all its readings of this are off",
    "cause.gauge": "the gauge ({gauge}) was misread or is out of adjustment",
    "cause.figure more": "the {figure} of the {part} is {size} more than entered",
    "cause.figure less": "the {figure} of the {part} is {size} less than entered",
    "cause.mass_kg more": "the {part} is {size} heavier than entered",
    "cause.mass_kg less": "the {part} is {size} lighter than entered",
    "cause.cap_m more": "the {part} is {size} thicker in the cap than entered",
    "cause.cap_m less": "the {part} is {size} thinner in the cap than entered",
    "cause.length_m more": "the {part} is {size} longer than planned",
    "cause.length_m less": "the {part} is {size} shorter than planned",
    "cause.other more": "the {part} is {size} more in {meaning} than entered",
    "cause.other less": "the {part} is {size} less in {meaning} than entered",
    "cause.another grip": "{cause}, or it is another grip",
    "cause.another core": "{cause}, or it has another core",
}

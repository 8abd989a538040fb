"""The usual cautions, by the step where they matter.

Here they are phrases, which `clubwright.words` says.
They are the trade's common practice; where one rests on a source, docs/theory/adhesive.md and
docs/theory/grip-size.md name it. None of them replaces a product's safety data sheet, the local codes or a licensed
practice, and every step ends by saying so. No limit is printed here that has no source.
"""

from __future__ import annotations

from collections.abc import Iterable

from clubwright.errors import Finding, InputError
from clubwright.planning.bending.metals import names_metal
from clubwright.planning.said.phrases import Phrase, Value, phrase

DEFER = phrase("caution.defer")

RELEASE_TRIAL = phrase("caution.release trial")
"""What a person tries before the release is signed. Common practice, no source."""

_OF_LEAD = phrase("caution.lead")

CAUTIONS: dict[str, tuple[Phrase, ...]] = {
    "cut": (
        phrase("caution.cut eyes"),
        phrase("caution.cut wheel"),
        phrase("caution.cut waste"),
    ),
    "tip prep": (
        phrase("caution.prep eyes"),
        phrase("caution.prep solvent"),
        phrase("caution.prep clean"),
    ),
    "fit": (
        phrase("caution.fit cracked"),
        phrase("caution.fit drive"),
        phrase("caution.fit mark"),
        (phrase("caution.fit ream")),
        phrase("caution.fit sharp"),
        phrase("caution.fit shim"),
    ),
    "mix": (
        phrase("caution.mix gloves"),
        phrase("caution.mix skin"),
        (phrase("caution.mix allergic")),
        phrase("caution.mix hardener"),
        phrase("caution.mix cup"),
        (phrase("caution.mix product")),
    ),
    "glue": (
        phrase("caution.glue gloves"),
        phrase("caution.glue coat"),
        phrase("caution.glue pot life"),
        phrase("caution.glue stand"),
        phrase("caution.glue warm"),
    ),
    "release": (
        (phrase("caution.release kill")),
        phrase("caution.release cold"),
        phrase("caution.release try", trial=RELEASE_TRIAL),
        phrase("caution.release figure"),
    ),
    "grip": (
        phrase("caution.grip flame"),
        phrase("caution.grip gloves"),
        (phrase("caution.grip blade")),
        phrase("caution.grip air"),
        phrase("caution.grip dry"),
        phrase("caution.grip waist"),
    ),
    "bend": (
        phrase("caution.bend eyes"),
        phrase("caution.bend small"),
        phrase("caution.bend maker"),
        phrase("caution.bend cured"),
    ),
    "set sleeve": (phrase("caution.sleeve loose"), phrase("caution.sleeve cured")),
    "weight": (
        phrase("caution.weight loose"),
        _OF_LEAD,
        phrase("caution.weight tungsten"),
        phrase("caution.weight melt"),
        phrase("caution.weight glued length"),
    ),
    "ferrule finish": (
        phrase("caution.finish eyes"),
        phrase("caution.finish wipe"),
        phrase("caution.finish heat"),
    ),
    "heat removal": (
        phrase("caution.heat clear"),
        phrase("caution.heat gloves"),
        phrase("caution.heat least"),
        (phrase("caution.heat hollow")),
        phrase("caution.heat looks"),
    ),
    "tag": (
        phrase("caution.tag cure"),
        phrase("caution.tag batch"),
    ),
}
"""Step to its cautions; what depends on shaft or metal is added by ``cautions``."""

_BY_SHAFT: dict[tuple[str, str], tuple[Phrase, ...]] = {
    ("cut", "steel"): (phrase("caution.steel cut"),),
    ("cut", "graphite"): (
        phrase("caution.graphite cut"),
        phrase("caution.graphite dust"),
    ),
    ("tip prep", "steel"): (phrase("caution.steel prep"),),
    ("tip prep", "graphite"): (
        (phrase("caution.graphite prep")),
        phrase("caution.graphite mask"),
    ),
    ("glue", "graphite"): (phrase("caution.graphite glue"),),
    ("release", "graphite"): (phrase("caution.graphite release"),),
    ("heat removal", "steel"): (phrase("caution.steel heat"),),
    ("heat removal", "graphite"): ((phrase("caution.graphite heat")),),
}

_BY_METAL: tuple[tuple[str, str, Phrase], ...] = (
    ("bend", "titanium", phrase("caution.titanium bend")),
    ("bend", "maraging", phrase("caution.maraging bend")),
    ("bend", "zinc", phrase("caution.zinc bend")),
    ("bend", "17-4", phrase("caution.cast bend")),
    ("bend", "carbon steel", phrase("caution.plated bend")),
    ("fit", "beryllium", phrase("caution.beryllium fit")),
    ("fit", "magnesium", phrase("caution.magnesium fit")),
    ("fit", "titanium", phrase("caution.titanium fit")),
    ("tip prep", "beryllium", phrase("caution.beryllium prep")),
    ("ferrule finish", "beryllium", phrase("caution.beryllium finish")),
    ("bend", "beryllium", phrase("caution.beryllium bend")),
    ("weight", "beryllium", phrase("caution.beryllium weight")),
    ("ferrule finish", "magnesium", phrase("caution.magnesium finish")),
    ("ferrule finish", "titanium", phrase("caution.titanium finish")),
)


def weight_cautions(names: Iterable[str], said: tuple[Value, ...]) -> tuple[Value, ...]:
    """Put the caution about lead first where a weight is of it by its name: a short sheet prints the first one only."""
    if not any(names_metal(name, "lead") for name in names):
        return said
    return (_OF_LEAD, *(sentence for sentence in said if sentence != _OF_LEAD))


def cautions(step: str, *, shaft_material: str | None = None, head_metal: str | None = None) -> tuple[Phrase, ...]:
    """Return the cautions to show at a step, general ones first, ending with what they defer to.

    Args:
        step: A key of ``CAUTIONS``.
        shaft_material: ``"steel"`` or ``"graphite"``; when it is anything else, both are cautioned for.
        head_metal: The metal as the ticket has it, in any case, e.g. ``"cast 17-4"``; when it is not given, all metals
            with a caution of their own are cautioned for.

    Raises:
        InputError: There is no such step.
    """
    if step not in CAUTIONS:
        known = ", ".join(f'"{key}"' for key in CAUTIONS)
        raise InputError([Finding(where="cautions", what=f"no step {step!r}", mend=f"Use one of {known}.")])
    shafts = (shaft_material,) if shaft_material in ("steel", "graphite") else ("steel", "graphite")
    by_shaft = [sentence for shaft in shafts for sentence in _BY_SHAFT.get((step, shaft), ())]
    metal = None if head_metal is None else head_metal.casefold()
    by_metal = [sentence for at, key, sentence in _BY_METAL if at == step and (metal is None or key in metal)]
    return (*CAUTIONS[step], *by_shaft, *by_metal, DEFER)

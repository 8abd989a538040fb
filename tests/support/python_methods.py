"""The methods of `clubwright.Shop` as the register of actions makes them: Python source with real signatures."""

from __future__ import annotations

import textwrap
from pathlib import Path

from clubwright.services.actions.register.action import Action
from clubwright.services.actions.register.of_the_record import OF_THE_RECORD
from clubwright.services.actions.register.on_the_club import ON_THE_CLUB
from clubwright.services.actions.register.python import JOB, Parameter, method_of, parameters_of

API = Path(__file__).parents[2] / "src" / "clubwright" / "api"
BY_HAND = {"take", "forget"}
"""Actions whose method does more than hand on what it is given."""

MODULES = {
    "shop_on_the_club.py": (ON_THE_CLUB, "OnTheClub", "What is measured, made and read on the club in hand"),
    "shop_of_the_record.py": (OF_THE_RECORD, "OfTheRecord", "What is ordered, signed, answered for and taken back"),
}
WRITE = "python tests/unit/api/test_shop_methods.py"
WIDE = 120


def source_of(name: str) -> str:
    """Return the source of one of the modules."""
    actions, kind, about = MODULES[name]
    body = "\n".join(_method(action) for action in actions if action.key not in BY_HAND)
    used = {word for word in ("Any", "Literal", "Mapping", "Sequence", "NOTHING") if word in body}
    lines = [
        f'"""{about}, from Python.',
        "",
        f"Written from the register: `{WRITE}`.",
        '"""',
        "",
        "from __future__ import annotations",
        "",
    ]
    for module, words in (("collections.abc", ("Mapping", "Sequence")), ("typing", ("Any", "Literal"))):
        found = [word for word in words if word in used]
        lines += [f"from {module} import {', '.join(found)}"] if found else []
    own = [*(["NOTHING"] if "NOTHING" in used else []), "Acting", "documented"]
    lines += [
        "",
        f"from clubwright.api.acting import {', '.join(own)}",
        "from clubwright.services.told.kept import KeptAnswer",
        "",
        "",
        "@documented",
        f"class {kind}(Acting):",
        f'    """{about}."""',
        "",
    ]
    return "\n".join(lines) + "\n" + body


def _method(action: Action) -> str:
    given = parameters_of(action)
    asked = ["self", *([f"{JOB}: str"] if action.on_a_job else []), *(_asked(item) for item in given if item.placed)]
    asked += ["*", *(_asked(item) for item in given if not item.placed), "key: str | None = None"]
    handed = [f'"{action.key}"', "key", *([f"job={JOB}"] if action.on_a_job else [])]
    handed += [f"{item.field.name}={item.name}" for item in given]
    return "\n".join(
        [
            *_laid(f"    def {method_of(action)}(", asked, ") -> KeptAnswer:"),
            *_said(action.more or action.says),
            *_laid("        return self._do(", handed, ")"),
            "",
        ]
    )


def _asked(item: Parameter) -> str:
    return f"{item.name}: {item.annotation}" + (f" = {item.default}" if item.default else "")


def _said(text: str) -> list[str]:
    """Lay a docstring out: its first sentence, and the rest below where it is long."""
    one = f'        """{text}"""'
    if len(one) <= WIDE:
        return [one]
    first, _, rest = text.partition(". ")
    below = textwrap.wrap(rest, WIDE - 8)
    return [f'        """{first}.', "", *(f"        {line}" for line in below), '        """']


def _laid(start: str, items: list[str], end: str) -> list[str]:
    """Lay a list out as the formatter does: on one line, on a line of its own, or one to a line."""
    one = start + ", ".join(items) + end
    if len(one) <= WIDE:
        return [one]
    indent = " " * (len(start) - len(start.lstrip()))
    inner = f"{indent}    " + ", ".join(items)
    if len(inner) <= WIDE:
        return [start, inner, indent + end]
    return [start, *(f"{indent}    {item}," for item in items), indent + end]

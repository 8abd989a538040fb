"""The user's page about the ticket file, written from the lists by which the file is read, so that it cannot go stale."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from clubwright.club.parts import KINDS
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.ticket.fields.defaults import NUMBERS, default_for
from clubwright.ticket.fields.fields import CHANGE, CHANGED, SECTIONS, SHAFT, Field, Section
from clubwright.ticket.fields.page_words import (
    ANSWER,
    CHANGES,
    DEFAULTS,
    EXAMPLE,
    KEYS,
    OPENING,
    READING_WORDS,
    REFUSED,
    STIFFNESS,
)
from clubwright.ticket.fields.stiffness import FORMS, LISTED

NOTATION = "notation.md"


def ticket_page(answer: Mapping[str, Any]) -> str:
    """Return the page as Markdown.

    Args:
        answer: The answer to `EXAMPLE` as JSON has it, of which the page shows a part.
    """
    parts = [
        OPENING,
        "## An example",
        f"```toml\n{EXAMPLE}```",
        "Its answer, in part (`null` where a figure is not asked for):",
        f"```json\n{json.dumps(excerpt(answer), indent=2, ensure_ascii=False, sort_keys=True)}\n```",
        "## The tables and their keys",
        KEYS,
        *[text for section in SECTIONS for text in (section_text(section), *_more(section))],
        "## Stages",
        READING_WORDS,
        table_text(("Stage", "What is on the club"), [(f"`{stage.name}`", stage.meaning) for stage in STAGES.values()]),
        "## Gauges",
        "A reading that names no gauge was taken with the usual one of its quantity. All figures are estimates of ours.",
        table_text(
            ("Quantity", "Resolution", "Repeatability", "Bias"),
            [
                (f"`{key}`", *(f"`{text}`" for text in (gauge.resolution, gauge.repeatability, gauge.bias)))
                for key, gauge in ((key, item.gauge) for key, item in QUANTITIES.items())
            ],
        ),
        "## Tolerances of the shop",
        "Taken when the ticket gives none; estimates of ours for a careful custom shop, replace them with your own.",
        table_text(
            ("Quantity", "Half-width"), [(f"`{key}`", f"`{item.tolerance}`") for key, item in QUANTITIES.items()]
        ),
        "## What is taken for a figure that is not given",
        DEFAULTS,
        _defaults(),
        "## The answer",
        ANSWER,
        "## A ticket that cannot be taken",
        REFUSED,
    ]
    return "\n\n".join(parts) + "\n"


def excerpt(answer: Mapping[str, Any]) -> dict[str, Any]:
    """Return the part of an answer that the page shows: the cut, the best advice, one figure, the gates in words."""
    best = {key: answer["advice"][0][key] for key in ("do", "weights", "chance", "why", "irreversible")}
    return {
        "advice": [best],
        "cut": {key: answer["cut"][key] for key in ("shaft_length_m", "mark_from_tip_m", "butt_cut_m", "text")},
        "finished": {"swing_weight": answer["finished"]["swing_weight"]},
        "gates": [{key: gate[key] for key in ("open", "step", "why")} for gate in answer["gates"]],
    }


def _more(section: Section) -> list[str]:
    """What a section has beside its keys: the forms of a stiffness, the tables of a change."""
    if section is CHANGE:
        rows = [(f"`[{'[' * item.many}{item.name}]{']' * item.many}`", item.meaning) for item in CHANGED.values()]
        return [CHANGES, table_text(("Table", "What it is"), rows)]
    return _forms() if section is SHAFT else []


def _forms() -> list[str]:
    """The forms of a shaft's stiffness."""
    texts = [STIFFNESS]
    for form in FORMS.values():
        rows = [
            (f"`{field.key}`{' *' if field.needed else ''}", _words(form, field), f"`{_form_example(form, field)}`")
            for field in form.fields
        ]
        heading = f'#### `stiffness = {{ kind = "{form.name}", ... }}`: {form.meaning}'
        texts.append(f"{heading}\n\n{table_text(('Key', 'What it is', 'Example'), rows)}")
    return texts


def _form_example(form: Section, field: Field) -> str:
    if (form.name, field.key) in LISTED:
        return f'{field.key} = ["{field.example}", ...]'
    return f'{field.key} = "{field.example}"'


def section_text(section: Section, *, listed: bool = False) -> str:
    """Return the heading of a table of the file, and its keys as a table of the page."""
    heading = (
        "[[adhesive.NAME.release]]"
        if listed
        else f"[[{section.name}]]"
        if section.many
        else f"[{section.name}{'.NAME' if section.named else ''}]"
    )
    rows: list[Sequence[str]] = [
        (
            f"`{field.key}`{' *' if field.needed else ''}",
            _words(section, field),
            f"`{_example(section, field)}`",
            _sd(field),
        )
        for field in section.fields
    ]
    header = ["Key", "What it is", "Example", "Usual uncertainty"]
    if not any(row[3] for row in rows):
        header, rows = header[:3], [row[:3] for row in rows]
    return f"### `{heading}`: {section.meaning}\n\n{table_text(header, rows)}"


def _words(section: Section, field: Field) -> str:
    if field.choices:
        return f"{field.meaning}; one of " + ", ".join(f"`{choice}`" for choice in field.choices)
    if section.name == "tolerance":
        return f"half-width of {QUANTITIES[field.key].name} ({_kind(field.kind)})"
    if field.kind in ("text", "table", "key", "gauges") or field.kind.replace("_", " ") == field.meaning:
        return field.meaning
    return f"{field.meaning} ({_kind(field.kind)})"


_KINDS = {"mass": "weight", "moi": "MOI", "linear_density": "weight of a length", "area_density": "weight of an area"}


def _kind(kind: str) -> str:
    """Say a kind of notation."""
    return _KINDS.get(kind, kind.replace("_", " "))


def _example(section: Section, field: Field) -> str:
    if section.name == "reading" and field.key == "weights":
        return f'weights = ["{field.example}"]'
    if field.kind in ("table", "gauges"):
        return f"{field.key} = {field.example}"
    return f'{field.key} = "{field.example}"'


def _sd(field: Field) -> str:
    if field.sd_share is not None:
        return f"{field.sd_share:.0%} of the value"
    return field.sd or ""


def _defaults() -> str:
    rows: list[Sequence[str]] = []
    for number in NUMBERS:
        found = [default_for(number, kind) for kind in KINDS]
        texts = [item.text for item in found if item is not None]
        standing = next(item.standing for item in found if item is not None)
        rows.append((f"`{number}`", *(texts if len(set(texts)) > 1 else [texts[0]] * len(KINDS)), standing))
    return table_text(("Figure", *KINDS, "Standing"), rows)


def table_text(header: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    """Return a table of a Markdown page."""
    lines = [header, ["---"] * len(header), *rows]
    return "\n".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |" for line in lines)

"""What the register says of a field that a person gives with an action: its meaning, its limits, and how it is typed."""

from __future__ import annotations

from typing import Annotated, Any, get_args, get_origin, get_type_hints

import msgspec

LONGEST_TEXT, LONGEST_NOTE, LONGEST_SITE, LONGEST_TIME = 200, 1000, 80, 40
"""Characters of a figure or a name, of what is said in a sentence, of a bench's name, of a time of day."""
LARGEST = 2**31 - 1
"""No record has so many facts."""
OF_THE_QUANTITY, OF_THE_SECTION, OF_THE_PATH = "by quantity", "by section", "by path"
"""Notation of what is read of a quantity, of figures of one table by key, of figures of a ticket by their paths."""


def said(
    meaning: str,
    *,
    least: int | None = 1,
    longest: int = LONGEST_TEXT,
    first: bool = False,
    option: str = "",
    choices: tuple[str, str] | None = None,
    late: bool = False,
    by: bool = False,
    page: str = "",
    label: str = "",
    example: str = "",
    notation: str = "",
) -> msgspec.Meta:
    """Describe a field that holds a text, or texts.

    Args:
        meaning: What it is, in one sentence.
        least: Fewest characters of a text that is needed; None where an empty one means something.
        longest: Most characters.
        first: Whether it is typed without a name on the command line, in the order of the fields.
        option: Its name on the command line, where that is another one than its own.
        choices: Words for yes and no on the command line.
        late: Whether the command line leaves it to the action to say that it is missing.
        by: Whether it is who works at the bench, where the command line does not say it.
        page: Its name in the forms of the page, where that is another one.
        label: What a form calls it that was sent without it, where that is not its name.
        example: How it is typed.
        notation: Kind of notation of a figure; `OF_THE_QUANTITY`, `OF_THE_SECTION` or `OF_THE_PATH` where that follows from
            something else. Empty for words.
    """
    extra = {
        "notation": notation,
        "first": first,
        "option": option,
        "choices": choices,
        "late": late,
        "by": by,
        "page": page,
        "label": label,
    }
    return msgspec.Meta(
        description=meaning,
        examples=[example] if example else None,
        extra={**extra, "least": least, "longest": longest},
    )


class Said(msgspec.Struct, frozen=True, kw_only=True):
    """One field of an action, as the register has it.

    Attributes:
        name: Its name, under `/api` and in Python.
        kind: Type of its value, without None.
        optional: Whether None may be given for it.
        needed: Whether it must be given.
        default: What is taken where it is not.
        meaning: What it is.
        least, longest: Characters of its texts; None where an empty one means something.
        first, option, choices, late, by: How the command line takes it (`said`).
        page: Its name in the forms of the page.
        label: What a form calls it that was sent without it.
        example: How it is typed; empty where its meaning says enough.
        notation: Kind of notation of a figure (`said`); empty for words.
    """

    name: str
    kind: Any
    optional: bool
    needed: bool
    default: Any
    meaning: str
    least: int | None
    longest: int
    first: bool
    option: str
    choices: tuple[str, str] | None
    late: bool
    by: bool
    page: str
    label: str
    example: str
    notation: str

    @property
    def command(self) -> str:
        """Its name on the command line, behind two hyphens."""
        return (self.option or self.name).replace("_", "-")


def fields_of(payload: type[msgspec.Struct]) -> tuple[Said, ...]:
    """Return the fields of an action's payload but its job, as they are typed on the command line."""
    hints = get_type_hints(payload, include_extras=True)
    found = [_said(field, hints[field.name]) for field in msgspec.structs.fields(payload) if field.name != "job"]
    return tuple(sorted(found, key=lambda field: not field.first))


def _said(field: msgspec.structs.FieldInfo, hint: Any) -> Said:
    assert get_origin(hint) is Annotated, f"{field.name}: a field of an action says what it is"
    kind, meta = get_args(hint)
    options = [item for item in get_args(kind) if item is not type(None)]
    optional = type(None) in get_args(kind)
    default = None if field.required else field.default
    if field.default_factory is not msgspec.NODEFAULT:
        default = field.default_factory()
    return Said(
        name=field.name,
        kind=options[0] if optional else kind,
        optional=optional,
        needed=field.required,
        default=default,
        meaning=meta.description,
        example=(meta.examples or [""])[0],
        **{
            **meta.extra,
            "page": meta.extra["page"] or field.name,
            "label": meta.extra["label"] or field.name.replace("_", " "),
        },
    )

"""Typst with our templates and our font only: the same data gives the same bytes, and nothing is missing silently."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Literal

import msgspec
import typst

from clubwright.errors import ClubwrightError
from clubwright.labels.glyphs import FONT_FOLDER

TEMPLATES = Path(__file__).parent / "templates"
Format = Literal["pdf", "png"]


class NotPrinted(ClubwrightError):
    """A sheet or label that could not be set, and what to do about it."""


@cache
def _fonts() -> typst.Fonts:
    """Return the shipped font and no other: what a machine happens to have installed must not change a sheet."""
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FONT_FOLDER)])


def typeset(
    template: str,
    data: msgspec.Struct,
    *,
    format: Format,  # noqa: A002
    ppi: float | None = None,
    **inputs: str,
) -> bytes:
    """Return one page set by a template of this package.

    Args:
        template: Name of the file in ``templates``.
        data: Reaches the template as JSON, so that no text in it is ever read as markup.
        format: ``pdf`` or ``png``.
        ppi: Pixels an inch, for ``png``.
        inputs: Further texts for the template, such as the drawing's SVG.

    Raises:
        NotPrinted: When the template does not fit its page, or Typst has anything to warn of (a missing font).
    """
    try:
        result, warnings = typst.compile_with_warnings(
            str(TEMPLATES / template),
            root=str(TEMPLATES),
            font_paths=_fonts(),
            ignore_system_fonts=True,
            format=format,
            ppi=ppi,
            sys_inputs={"data": msgspec.json.encode(data).decode("utf-8"), **inputs},
        )
    except typst.TypstError as error:
        if "more than one" in error.message:
            kind = "label" if "label" in error.message else "page"
            raise NotPrinted(
                f"This does not fit one {kind}. Shorten its texts or its lists, and print it again."
            ) from error
        raise NotPrinted(f"{template} could not be set: {error.message}") from error
    if warnings:
        raise NotPrinted(f"{template} was set with warnings: " + "; ".join(str(warning) for warning in warnings))
    if not isinstance(result, bytes):
        raise NotPrinted(f"This does not fit one page. {template} gave {len(result or [])} pages; shorten its texts.")
    return result

"""The theory pages, the source and the outside checks as texts that are there without a network.

A wheel has pages and checks beside the package, under ``reference``; a checkout has them where they are written.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).resolve().parents[2]
_CARRIED, _WRITTEN = PACKAGE / "reference", PACKAGE.parent.parent
THEORY = _CARRIED / "theory" if _CARRIED.is_dir() else _WRITTEN / "docs" / "theory"
CHECKS = _CARRIED / "tests" / "published" if _CARRIED.is_dir() else _WRITTEN / "tests" / "published"


@cache
def theory_pages() -> tuple[str, ...]:
    """Return the names of the theory pages, such as ``swing-weight``."""
    return tuple(sorted(path.stem for path in THEORY.glob("*.md")))


def theory_text(name: str) -> str | None:
    """Return a theory page as it is written, in Markdown; None where there is none of that name."""
    return (THEORY / f"{name}.md").read_text(encoding="utf-8") if name in theory_pages() else None


@cache
def sources() -> dict[str, Path]:
    """Return what of the source can be read here, by its path: ``clubwright/...`` and ``tests/published/...``."""
    return dict(_found())


def _found() -> Iterator[tuple[str, Path]]:
    for path in sorted(PACKAGE.rglob("*.py")):
        yield f"{PACKAGE.name}/{path.relative_to(PACKAGE).as_posix()}", path
    for path in sorted(CHECKS.glob("*.py")):
        yield f"tests/published/{path.name}", path


def source_lines(path: str) -> list[str] | None:
    """Return the lines of a source file; None where there is none of that path. Only what `sources` lists is opened."""
    found = sources().get(path)
    if found is None:
        return None
    with found.open(encoding="utf-8") as lines:
        return [line.rstrip("\n") for line in lines]

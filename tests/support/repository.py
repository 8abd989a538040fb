"""Where things are in this repository, for the tests that read it instead of running it."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src"
PACKAGE = SOURCE / "clubwright"
TESTS = ROOT / "tests"
DOCS = ROOT / "docs"

PURE_PACKAGES = ("notation", "club", "belief", "state", "ticket", "planning", "conformity", "journal", "words")
PURE_MODULES = ("errors.py", "units.py")


def source_files() -> list[Path]:
    """Every Python file of the package."""
    return sorted(PACKAGE.rglob("*.py"))


def pure_files() -> list[Path]:
    """Every Python file of the packages that know no file, clock or chance."""
    files = [PACKAGE / name for name in PURE_MODULES]
    return sorted([*files, *(path for name in PURE_PACKAGES for path in (PACKAGE / name).rglob("*.py"))])


def pages() -> list[Path]:
    """Every page of the documentation, and the pages at the root."""
    return sorted([*DOCS.rglob("*.md"), *ROOT.glob("*.md")])


@cache
def tree(path: Path) -> ast.Module:
    """Parse one Python file."""
    return ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def module_name(path: Path) -> str:
    """Return the dotted name of a file of the package."""
    parts = path.relative_to(SOURCE).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def imported(path: Path) -> set[str]:
    """Every dotted name that a file imports, at its top or inside a function; `from a import b` gives a and a.b."""
    names: set[str] = set()
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            names.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module)
            names.update(f"{node.module}.{alias.name}" for alias in node.names)
    return names


def place(path: Path) -> str:
    """Return a path as it is written in this repository."""
    return path.relative_to(ROOT).as_posix()

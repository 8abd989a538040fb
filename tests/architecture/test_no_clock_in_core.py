"""The pure packages know no clock, chance, file or socket: the same input gives the same answer."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from repository import imported, place, pure_files, tree

FORBIDDEN_MODULES = {
    "asyncio", "getpass", "glob", "io", "locale", "os", "pathlib", "platform", "random", "secrets", "shutil", "socket",
    "sqlite3", "subprocess", "sys", "tempfile", "threading", "time", "urllib", "uuid",
    "numpy.random",
}  # fmt: skip
FORBIDDEN_CALLS = {"open", "input", "print", "exec", "eval", "__import__"}
FORBIDDEN_METHODS = {
    "now", "utcnow", "today", "random", "default_rng", "normal", "rvs", "seed", "read_text", "write_text", "getenv",
}  # fmt: skip


def reaches_out(path: Path) -> list[str]:
    """Name each line by which a file could reach a clock, chance or the outside."""
    found = [
        f"imports {name}"
        for name in imported(path)
        if name in FORBIDDEN_MODULES or name.split(".")[0] in FORBIDDEN_MODULES
    ]
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in FORBIDDEN_CALLS:
            found.append(f"line {node.lineno} calls {node.func.id}()")
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in FORBIDDEN_METHODS:
            found.append(f"line {node.lineno} calls .{node.func.attr}()")
    return sorted(found)


@pytest.mark.parametrize("path", pure_files(), ids=place)
def test_a_pure_module_reaches_no_clock_chance_or_file(path: Path) -> None:
    assert not reaches_out(path)


@pytest.mark.parametrize(
    "line",
    [
        "import random",
        "from os import path",
        "import numpy.random",
        "from numpy import random",
        "def f():\n    import time",
        "open('x')",
        "from datetime import datetime\ndatetime.now()",
        "np.random.normal()",
        "scipy.stats.norm.rvs(3)",
        "path.write_text('x')",
    ],
)
def test_the_watch_sees_each_way_out(tmp_path: Path, line: str) -> None:
    file = tmp_path / "module.py"
    file.write_text(line, encoding="utf-8")
    assert reaches_out(file)

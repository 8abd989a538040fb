"""The import rules in pyproject.toml hold: which package may import which."""

from __future__ import annotations

import subprocess
import sys
import tomllib
from pathlib import Path

from repository import PURE_MODULES, PURE_PACKAGES, ROOT


def test_imports_follow_the_layers() -> None:
    tool = Path(sys.executable).parent / "lint-imports"
    run = subprocess.run([tool, "--no-cache", "--no-logo"], cwd=ROOT, capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout + run.stderr
    promised = (ROOT / "pyproject.toml").read_text(encoding="utf-8").count("[[tool.importlinter.contracts]]")
    assert f"{promised} kept, 0 broken" in run.stdout


def test_every_pure_package_is_in_the_contract() -> None:
    rules = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]["contracts"]
    forbidden = next(rule for rule in rules if rule["type"] == "forbidden")
    names = {*PURE_PACKAGES, *(name.removesuffix(".py") for name in PURE_MODULES)}
    assert set(forbidden["source_modules"]) == {f"clubwright.{name}" for name in names}


def test_the_layers_leave_no_package_out() -> None:
    rules = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]["contracts"]
    assert next(rule for rule in rules if rule["type"] == "layers")["exhaustive"] is True

"""The lock names only the public index: what it installs here it installs anywhere."""

from __future__ import annotations

import re
import tomllib
from typing import Any
from urllib.parse import urlsplit

from repository import ROOT

HOSTS = {"pypi.org", "files.pythonhosted.org"}


def locked() -> list[dict[str, Any]]:
    packages: list[dict[str, Any]] = tomllib.loads((ROOT / "uv.lock").read_text(encoding="utf-8"))["package"]
    return packages


def files_of(package: dict[str, Any]) -> list[dict[str, Any]]:
    return [*package.get("wheels", ()), *([package["sdist"]] if "sdist" in package else [])]


def test_everything_comes_from_the_public_index() -> None:
    astray = []
    for package in locked():
        source = package["source"]
        if package["name"] == "clubwright":
            assert source == {"editable": "."}
            continue
        files = files_of(package)
        addresses = [source.get("registry", "not from a registry"), *(file.get("url", "no address") for file in files)]
        assert files, f"{package['name']} has no file to install"
        astray += [address for address in addresses if urlsplit(address).hostname not in HOSTS]
    assert not astray


def test_every_file_carries_its_hash() -> None:
    files = [file for package in locked() for file in files_of(package)]
    assert files
    assert all(file["hash"].startswith("sha256:") for file in files)


def test_every_dependency_is_locked() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    wanted = [*project["project"]["dependencies"], *project["dependency-groups"]["dev"]]
    names = {package["name"] for package in locked()}
    missing = [line for line in wanted if line.split(">")[0].split("[")[0].strip() not in names]
    assert not missing


def test_the_set_up_takes_uv_itself_by_its_hash_only() -> None:
    lines = [
        line for line in (ROOT / ".ci/uv.txt").read_text(encoding="utf-8").splitlines() if not line.startswith("#")
    ]
    assert lines[0].startswith("uv==0.13.")
    assert len(lines) > 1
    assert all(re.fullmatch(r"    --hash=sha256:[0-9a-f]{64}( \\)?", line) for line in lines[1:])
    script = (ROOT / ".ci/get-uv").read_text(encoding="utf-8")
    installing = [line for line in script.replace("\\\n", " ").splitlines() if "pip install" in line]
    assert [("--require-hashes" in line, "-r .ci/uv.txt" in line) for line in installing] == [(True, True)]

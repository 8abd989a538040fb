"""Shops and tickets for the tests of the shop's settings; all invented."""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

from clubwright.importers.shop_file import load_shop
from clubwright.ticket.fields.fields import GRIP, SHOP, TOLERANCE
from clubwright.ticket.fields.shop import ADHESIVES, TAPES
from clubwright.ticket.shop.laying import lay_settings

SHOP_TEXT = """\
[usual]
adhesive = "two-part"
tape = "double-sided"

[adhesive."two-part"]
in_joint = "0.8 g"
ratio = "2:1"
basis = "volume"
densities = ["1.16 g/cm3", "0.97 g/cm3"]
per_joint = "1.2 g"
scale_error = "0.1 g"
pot_life = "30 min"
release_times = [["20 C", "15 h"], ["25 C", "12 h"]]
temperature = "22 C"

[adhesive.slow]
ratio = "1:1"
basis = "weight"
pot_life = "90 min"

[tape."double-sided"]
layer_mass = "1.6 g"
cg_from_cap = "5.1 in"

[tape."build-up"]
area_density = "120 g/m2"
width = "2 in"
length = "10 in"
thickness = "0.005 in"

[tolerance]
length = "1/16 in"
swing_weight = "1/2 pt"

[instrument."swing scale"]
resolution = "0.1 pt"
repeatability = "0.05 pt"
bias = "0.05 pt"

[shop]
kerf = "1/32 in"
"""

TICKET_TEXT = """\
[ticket]
id = "T-0301"
kind = "wedge"
hand = "right"

[target]
length = "35 1/4 in"
swing_weight = "D4"
"""


def completed_example(path: Path) -> dict[str, Any]:
    """An example's document; a short one as the shop's settings beside it complete it."""
    found = tomllib.loads(path.read_text(encoding="utf-8"))
    return lay_settings(found, load_shop(path.with_name("shop.toml"))) if path.stem.startswith("short-") else found


def shop() -> dict[str, Any]:
    """The shop's document."""
    return tomllib.loads(SHOP_TEXT)


def ticket(**changed: Any) -> dict[str, Any]:
    """A short ticket's document, with tables changed or added."""
    return {**tomllib.loads(TICKET_TEXT), **changed}


def parted(document: dict[str, Any]) -> tuple[dict[str, Any], dict[str, Any]]:
    """Part a ticket that says everything in two: a ticket that says the least, and a shop that says the rest."""
    short, said = copy.deepcopy(document), {}
    for section in (TOLERANCE, SHOP, GRIP):
        moved = _take(short, section.name, {field.key for field in section.fields if field.shop})
        said |= {section.name: moved} if moved else {}
    if "instrument" in short:
        said["instrument"] = short.pop("instrument")
    if "adhesive" in short:
        name = short["adhesive"].setdefault("name", "of this ticket")
        keys = {field.key for field in ADHESIVES.fields} | {"release", "densities", "release_times"}
        said["adhesive"] = {name: _take(short, "adhesive", keys)}
    for row in short.get("tape", []):
        moved = {field.key: row.pop(field.key) for field in TAPES.fields if field.key in row}
        if moved:
            assert row["name"] not in said.get("tape", {}), "two tapes of one name"
            said.setdefault("tape", {})[row["name"]] = moved
    return short, {name: content for name, content in said.items() if content}


def _take(short: dict[str, Any], section: str, keys: set[str]) -> dict[str, Any]:
    table = short.get(section, {})
    moved = {key: table.pop(key) for key in list(table) if key in keys}
    if section in short and not table:
        del short[section]
    return moved

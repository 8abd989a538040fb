"""What a cut, a trim or a new figure makes of the ``[shaft]`` table: each figure stays one of the shaft it was taken of."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.journal.reducers.measured import WEIGHED_AT, no_longer_measured


def lay_cut(shaft: dict[str, Any], cut_length: str, measured: Mapping[str, str]) -> None:
    """Lay a cut on the table, with what was weighed and balanced after it.

    A mass from before the first cut was the raw shaft's. Figures of the shaft as it was cut before stay with that length.
    """
    before = shaft.get("cut_length")
    if before is None and "mass" in shaft and "raw_length" not in shaft:
        shaft.setdefault("weighed", "raw")
    if before is not None:
        for key, length in WEIGHED_AT.items():
            if key in shaft:
                shaft.setdefault(length, before)
    shaft["cut_length"] = cut_length
    lay_figures(shaft, measured)


def lay_figures(shaft: dict[str, Any], values: Mapping[str, str]) -> None:
    """Lay figures on the table; an empty text takes one out.

    A figure of the cut shaft is of the shaft as it is now. Of a mass that is typed anew, what was said of the last one is no
    longer known.
    """
    for key, length in WEIGHED_AT.items():
        if key in values:
            shaft.pop(length, None)
    if "mass" in values:
        shaft.pop("weighed", None)
    for key, value in values.items():
        if value:
            shaft[key] = value
        else:
            shaft.pop(key, None)


def lay_tip_trim(shaft: dict[str, Any], tip_trim: str) -> None:
    """Lay the tip trim on the table; off a shaft that is cut already, what it weighed and where it balanced are gone too.

    So is which gauge measured them: a gauge is said of figures that are there.
    """
    if "cut_length" in shaft:
        no_longer_measured(shaft, *WEIGHED_AT)
        for key, length in WEIGHED_AT.items():
            shaft.pop(key, None)
            shaft.pop(length, None)
    shaft.update(tip_trim=tip_trim, tip_trimmed="yes")

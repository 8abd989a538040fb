"""What a cut, a trim or a new figure makes of the ``[shaft]`` table: each figure stays one of the shaft it was taken of."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from clubwright.journal.reducers.measured import NO_GAUGES, WEIGHED_AT, put


def lay_cut(
    shaft: dict[str, Any], cut_length: str, measured: Mapping[str, str], gauges: Mapping[str, str] = NO_GAUGES
) -> None:
    """Lay a cut on the table, with what was weighed and balanced after it and the gauges that did.

    A mass from before the first cut was the raw shaft's. Figures of the shaft as it was cut before stay with that length.
    """
    before = shaft.get("cut_length")
    if before is None and "mass" in shaft and "raw_length" not in shaft and "weighed" not in shaft:
        put(shaft, {"weighed": "raw"})
    if before is not None:
        put(shaft, {length: before for key, length in WEIGHED_AT.items() if key in shaft and length not in shaft})
    lay_figures(shaft, {"cut_length": cut_length, **measured}, gauges)


def lay_figures(shaft: dict[str, Any], values: Mapping[str, str], gauges: Mapping[str, str] = NO_GAUGES) -> None:
    """Lay figures on the table; an empty text takes one out.

    A figure of the cut shaft is of the shaft as it is now. Of a mass that is typed anew, what was said of the last one is no
    longer known.
    """
    gone = [length for key, length in WEIGHED_AT.items() if key in values] + (["weighed"] if "mass" in values else [])
    put(shaft, {**dict.fromkeys(gone, ""), **values}, gauges)


def lay_tip_trim(shaft: dict[str, Any], tip_trim: str) -> None:
    """Lay the tip trim on the table; off a shaft that is cut already, what it weighed and where it balanced are gone too."""
    gone = (*WEIGHED_AT, *WEIGHED_AT.values()) if "cut_length" in shaft else ()
    put(shaft, {**dict.fromkeys(gone, ""), "tip_trim": tip_trim, "tip_trimmed": "yes"})

"""What a tag is made of: plain data, texts ready to print, and shorter words for where the long ones do not fit."""

from __future__ import annotations

from typing import Literal

import msgspec

JobStatus = Literal["read", "believed", "ordered"]
"""How well a figure is known: read on the finished club, believed of it by all that was read, or only ordered."""


class Final(msgspec.Struct, frozen=True, kw_only=True):
    """One figure of the club.

    Attributes:
        name: The quantity, as short as the trade says it.
        text: Its value with its unit; never cut short.
        with_spread: The same with its standard uncertainty, where it has one; printed only where there is room for all.
        standing: ``read`` prints plain, ``believed`` behind ≈, ``ordered`` behind →; the tag says what the signs mean.
    """

    name: str
    text: str
    with_spread: str = ""
    standing: JobStatus = "read"


class TagData(msgspec.Struct, frozen=True, kw_only=True):
    """All that one tag shows; every text as it is to be printed.

    Attributes:
        ticket_id: What the code on the tag says (in capitals).
        player: For whom.
        label: Which club of the bag.
        hand: ``right`` or ``left``.
        date: Date with its word, such as ``built 2031-05-12``.
        finals: Figures, the most important first; what does not fit is counted, and stands on the sheet.
        grip: Logo and wraps in words, the longest way first; the first that fits is printed.
        caution: Printed in reverse while the club is not released; empty when it is.
        invented: True prints "invented demo data".
    """

    ticket_id: str
    player: str
    label: str
    hand: str
    date: str
    finals: tuple[Final, ...] = ()
    grip: tuple[str, ...] = ()
    caution: str = ""
    invented: bool = False

"""The code on a sheet or a tag: a QR symbol of the ticket's id, and nothing else."""

from __future__ import annotations

import io

import segno

from clubwright.errors import Finding, InputError

ALPHANUMERIC = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
"""The 45 characters of QR's alphanumeric mode (ISO/IEC 18004)."""
QUIET_MODULES = 4
LEAST_MODULE_MM = 0.3


def ticket_code(ticket_id: str, *, side_mm: float) -> str:
    """Return the QR symbol of a ticket's id as SVG text, with a quiet zone of four modules.

    Args:
        ticket_id: Small letters are written as capitals where that keeps the symbol in its compact alphanumeric mode; an
            id with other signs is coded as typed, in UTF-8 (byte mode).
        side_mm: The side it will be printed at, quiet zone included.

    Raises:
        InputError: When the id is empty, or would need modules smaller than 0.3 mm, which a phone no longer reads from a
            label.
    """
    if not ticket_id.strip():
        raise InputError([Finding(where="ticket_id", what="it is empty", mend="Give the ticket an id.")])
    text = ticket_id.upper()
    if set(text) <= ALPHANUMERIC:
        symbol = segno.make_qr(text, error="m", mode="alphanumeric")
    else:
        symbol = segno.make_qr(ticket_id, error="m", encoding="utf-8")
    modules = symbol.symbol_size(border=QUIET_MODULES)[0]
    if side_mm / modules < LEAST_MODULE_MM:
        what = f"{ticket_id!r} needs {modules} modules of {side_mm / modules:.2f} mm; the least that reads is 0.3 mm"
        raise InputError([Finding(where="ticket_id", what=what, mend="Give the ticket a shorter id.")])
    out = io.BytesIO()
    symbol.save(out, kind="svg", border=QUIET_MODULES, xmldecl=False, light="#ffffff", dark="#000000")
    return out.getvalue().decode("utf-8")

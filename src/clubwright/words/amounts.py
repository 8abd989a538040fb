"""Amounts as text: the notation of their kind, or one of the forms that a card needs besides."""

from __future__ import annotations

import math
from collections.abc import Callable

from clubwright.notation import decimal_marked, length_in_full, length_on_rule, render
from clubwright.planning.said.bends import quarters_of
from clubwright.planning.said.phrases import Amount, Form
from clubwright.units import DEGREE_RAD, GRAM_KG, INCH_M, MILLIMETRE_M


def amount_text(amount: Amount) -> str:
    """Return an amount in its form."""
    return _FORMS[amount.form](amount)


def _in(size: float, spec: str, unit: str, sign: str = "") -> Callable[[Amount], str]:
    """Return what writes an amount in a unit of a size, with its uncertainty where it has one."""
    behind = f" {unit}" if unit else ""

    def text(amount: Amount) -> str:
        shown = f"{amount.value / size:{sign}{spec}}{behind}"
        if amount.sd is not None:
            shown += f" ± {amount.sd / size:{spec}}{behind}"
        return decimal_marked(shown)

    return text


def _fine(amount: Amount) -> str:
    return decimal_marked(f"{amount.value / INCH_M:.4f} in ({amount.value / MILLIMETRE_M:.3f} mm)")


def _with_mm(amount: Amount) -> str:
    return f"{render(amount.kind, amount.value)} ({decimal_marked(f'{amount.value / MILLIMETRE_M:.2f}')} mm)"


def _quarters(amount: Amount) -> str:
    """Write the size of an angle to the nearest quarter of a degree: ``1 1/2 deg``."""
    whole, part = divmod(quarters_of(amount.value), 4)
    return " ".join(text for text in (str(whole) if whole else "", _QUARTERS[part], "deg") if text)


_QUARTERS = ("", "1/4", "1/2", "3/4")


def _whole_minutes(amount: Amount) -> str:
    """Write a waiting time, rounded up: a joint is never called ready early."""
    return render("duration", 60.0 * math.ceil(amount.value / 60.0 - 1e-6))


_FORMS: dict[Form, Callable[[Amount], str]] = {
    "plain": lambda amount: render(amount.kind, amount.value, amount.sd),
    "in full": lambda amount: length_in_full(amount.value),
    "at the mark": lambda amount: length_on_rule(amount.value),
    "fine": _fine,
    "with mm": _with_mm,
    "tenths": _in(1.0, ".1f", ""),
    "hundredths": _in(1.0, ".2f", ""),
    "points": _in(1.0, ".2f", "pt"),
    "change of points": _in(1.0, ".2f", "pt", "+"),
    "grams": _in(GRAM_KG, ".1f", "g"),
    "change of grams": _in(GRAM_KG, ".1f", "g", "+"),
    "hundredths of grams": _in(GRAM_KG, ".2f", "g"),
    "percent": lambda amount: f"{amount.value:.0%}",
    "tenths of percent": lambda amount: decimal_marked(f"{amount.value:.1%}"),
    "degrees": _in(DEGREE_RAD, ".2f", "deg"),
    "tenths of degrees": _in(DEGREE_RAD, ".1f", "deg"),
    "signed degrees": _in(DEGREE_RAD, ".2f", "deg", "+"),
    "quarters of degrees": _quarters,
    "yards": _in(1.0, ".1f", "yd"),
    "mm2": _in(1e-6, ".0f", "mm2"),
    "cm3": _in(1e-6, ".2f", "cm3"),
    "newton": _in(1.0, ".0f", "N"),
    "kilonewton": _in(1e3, ".1f", "kN"),
    "megapascal": _in(1e6, ".0f", "MPa"),
    "times": _in(1.0, ".0f", ""),
    "metres per second": _in(1.0, ".0f", "m/s"),
    "metres": _in(1.0, "", "m"),
    "per hundred": _in(0.01, ".0f", ""),
    "whole minutes": _whole_minutes,
    "tenths of points": _in(1.0, ".1f", "pt", "+"),
}

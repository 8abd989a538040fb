"""Trade notation at the edge, SI inside: what a clubmaker types is read exactly or refused with the way to mend it.

The grammar is our own and strict, with exact fractions: general unit readers take "35 1/2 in" for 17.5 in.
"""

from clubwright.notation.collector import Collector
from clubwright.notation.length import FractionalLength, length_at_mark, length_in_full, length_on_rule, length_parts
from clubwright.notation.moment import render_moment
from clubwright.notation.reader import Understood, parse, parse_difference, render, render_apart, squeezed
from clubwright.notation.register import KINDS
from clubwright.notation.two_parts import GripCore, grip_core, pair
from clubwright.notation.typist import CANONICAL, Typist, canonical, is_bare, with_unit_like
from clubwright.notation.units_shown import UnitsShown, decimal_marked, shown_in, units_shown

__all__ = [
    "CANONICAL",
    "KINDS",
    "Collector",
    "FractionalLength",
    "GripCore",
    "Typist",
    "Understood",
    "UnitsShown",
    "canonical",
    "decimal_marked",
    "grip_core",
    "is_bare",
    "length_at_mark",
    "length_in_full",
    "length_on_rule",
    "length_parts",
    "pair",
    "parse",
    "parse_difference",
    "render",
    "render_apart",
    "render_moment",
    "shown_in",
    "squeezed",
    "units_shown",
    "with_unit_like",
]

"""How one person reads and types, where it is not as the shop says: their own word, laid over the shop's."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, TypeVar

import msgspec
from msgspec import UNSET, UnsetType

from clubwright.errors import Finding, InputError
from clubwright.notation.typist import BARE_LENGTHS, BareLength, Typist
from clubwright.notation.units_shown import (
    DECIMAL_MARKS,
    LANGUAGES,
    LENGTHS,
    TEMPERATURES,
    DecimalMark,
    LanguageKey,
    LengthUnit,
    TemperatureUnit,
    UnitsShown,
)

S = TypeVar("S", bound=msgspec.Struct)
OwnKey = Literal["language", "decimal", "length", "temperature", "bare_length"]
CHOICES: Mapping[OwnKey, tuple[str, ...]] = {
    "language": LANGUAGES,
    "decimal": DECIMAL_MARKS,
    "length": LENGTHS,
    "temperature": TEMPERATURES,
    "bare_length": BARE_LENGTHS,
}
"""What a person may say, with the words for it: those of the table ``[units]`` of a shop's settings."""


class Own(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """What one person said for themselves; what they did not say is as the shop says.

    Attributes:
        language: Of the sentences that are made for them.
        decimal: Decimal mark of what they are shown and what they type.
        length: Unit of lengths and diameters that comes first for them.
        temperature: Unit of temperatures that comes first for them.
        bare_length: Unit of a length that they type without one.
    """

    language: LanguageKey | UnsetType = UNSET
    decimal: DecimalMark | UnsetType = UNSET
    length: LengthUnit | UnsetType = UNSET
    temperature: TemperatureUnit | UnsetType = UNSET
    bare_length: BareLength | UnsetType = UNSET

    def said(self) -> dict[str, str]:
        """Return what they said, by its key."""
        return {key: said for key in CHOICES if (said := getattr(self, key)) is not UNSET}

    def units(self, shop: UnitsShown) -> UnitsShown:
        """Return how they are shown figures and words, at a shop that shows them so."""
        return self._over(shop)

    def typist(self, shop: Typist) -> Typist:
        """Return how they type numbers, at a shop that types so."""
        return self._over(shop)

    def over(self, other: Own) -> Own:
        """Return what they said here, and else what they said there."""
        return msgspec.convert({**other.said(), **self.said()}, Own)

    def _over(self, shop: S) -> S:
        return msgspec.structs.replace(shop, **{k: v for k, v in self.said().items() if k in shop.__struct_fields__})


AS_THE_SHOP = Own()
"""Of somebody who said nothing for themselves."""


def own_of(said: Mapping[str, str], called: Mapping[str, str] | None = None) -> Own:
    """Return what a person said for themselves; an empty text is nothing said.

    Args:
        said: By key of `CHOICES`; other keys are none of ours.
        called: What the place of a key is called for who typed it, such as ``--language``; its key when not given.

    Raises:
        InputError: with a finding for each that is none of the words for it.
    """
    given = {key: text.strip() for key in CHOICES if (text := said.get(key) or "").strip()}
    findings = [
        Finding(
            where=(called or {}).get(key, key),
            what=f'"{text}" is none of the words for it',
            mend=f"Write {' or '.join(CHOICES[key])}.",
        )
        for key, text in given.items()
        if text not in CHOICES[key]
    ]
    if findings:
        raise InputError(findings)
    return msgspec.convert(given, Own)

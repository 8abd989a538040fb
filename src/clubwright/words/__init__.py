"""The one room that makes sentences: data in, words in a style out (units first, decimal mark, language)."""

from clubwright.notation import UnitsShown as Style
from clubwright.words.say import on_page, say, spoken

__all__ = ["Style", "on_page", "say", "spoken"]

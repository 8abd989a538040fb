"""Pencil cards: the steps of a plan on paper, for when there is no power."""

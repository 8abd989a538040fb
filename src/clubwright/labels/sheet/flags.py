"""Words beside marks, each on a leader, stacked so that no word is crossed by a word or a leader."""

from __future__ import annotations

from typing import NamedTuple

from clubwright.labels.sheet import svg

ROW_MM = 3.1
SIZE_MM = 2.3
CROWDED = 0.8
"""From this share of the width on, where the head's marks stand close together, words stand left of their leader."""
NARROW, WIDE, CAPITAL, OTHER, FOREIGN = 0.4, 1.01, 0.78, 0.68, 1.48
"""Width taken for a letter, in ems: no less than the widest of each group in Inter's own advance widths."""
NAME_MM = 60.0
"""Room for a name somebody typed, such as a tape's: longer ones are cut off with "…"; the list of parts has them whole."""


class Flag(NamedTuple):
    """One mark's words: where it stands on the paper, what it says, its class and its ink."""

    x: float
    y: float
    words: str
    class_: str
    ink: str = svg.INK
    weight: str = "400"


class PlacedFlag(NamedTuple):
    """A flag, the row it got (0 is nearest the club), and the span of its words on the paper."""

    flag: Flag
    row: int
    left: float
    right: float


def place(flags: list[Flag], width: float) -> list[PlacedFlag]:
    """Return a row and a side of its leader for every flag, so that nothing crosses a word."""
    placed: list[PlacedFlag] = []
    tight = [flag for flag in flags if flag.x > CROWDED * width]
    roomy = [flag for flag in flags if flag not in tight]
    # Words that must stand left of their leader go first, from the left; the others from the right: so the next
    # flag's leader always stands clear of the words that lie nearer to the club.
    for flag in (*sorted(tight, key=lambda f: (f.x, f.words)), *sorted(roomy, key=lambda f: (-f.x, f.words))):
        length = _length(flag)
        right, left = (flag.x, flag.x + length), (flag.x - length, flag.x)
        spans = [left] if flag in tight else [right, left]
        inside = [span for span in spans if span[0] >= 0 and span[1] <= width] or spans[:1]
        choices = [PlacedFlag(flag, row, *span) for row in range(len(flags)) for span in inside]
        # min keeps the first of equals: the lowest row, words to the right of the leader.
        placed.append(min(choices, key=lambda choice: sum(_clash(choice, other) for other in placed)))
    return placed


def _length(flag: Flag) -> float:
    return sum(map(_letter_em, flag.words)) * SIZE_MM + 1.6


def named(name: str) -> str:
    """Return a name short enough to stand beside the drawing; no figure belongs into it."""
    if sum(map(_letter_em, name)) * SIZE_MM <= NAME_MM:
        return name
    kept = name
    while sum(map(_letter_em, f"{kept}…")) * SIZE_MM > NAME_MM:
        kept = kept[:-1]
    return f"{kept.rstrip()}…"


def _letter_em(letter: str) -> float:
    if letter in " .,:;'|()[]!/Iijltfr":
        return NARROW
    if letter > "\u017f" and letter not in "⅛⅜⅝⅞":
        return FOREIGN
    if letter > "~" or letter in "mwMW@%½¼¾⅛⅜⅝⅞":
        return WIDE
    return CAPITAL if letter.isupper() else OTHER


def _clash(one: PlacedFlag, other: PlacedFlag) -> int:
    """Weigh a conflict: words on words are worse than the further one's leader through the nearer one's words."""
    if one.row == other.row:
        return 10 if one.left < other.right and other.left < one.right else 0
    near, far = (one, other) if one.row < other.row else (other, one)
    return 1 if near.left < far.flag.x < near.right else 0


def draw(placed: list[PlacedFlag], first_row_y: float, *, upwards: bool) -> list[str]:
    """Return leaders and words; row 0 stands at ``first_row_y``, further rows away from the club."""
    drawn: list[str] = []
    for flag, row, left, _ in sorted(placed, key=lambda p: (p.flag.x, p.row)):
        y = first_row_y + (-row if upwards else row) * ROW_MM
        drawn.append(svg.line(flag.x, flag.y, flag.x, y, class_="leader", stroke=flag.ink, stroke_width=0.12))
        leftwards = left < flag.x
        drawn.append(
            svg.text(
                flag.x - 0.7 if leftwards else flag.x + 0.7,
                y if upwards else y + 0.4,
                flag.words,
                class_=f"word {flag.class_}",
                font_size=SIZE_MM,
                fill=flag.ink,
                font_weight=flag.weight,
                text_anchor="end" if leftwards else "start",
            )
        )
    return drawn

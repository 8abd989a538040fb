"""The drawing is read back as XML: every mark must stand where the numbers put it, at the drawing's own scale."""

from __future__ import annotations

import itertools
import re
import struct
import unicodedata
import xml.etree.ElementTree as ET
from math import cos, nan, radians, sin

import msgspec
import pytest

from clubwright.errors import InputError
from clubwright.labels.glyphs import FONT_FOLDER
from clubwright.labels.sheet import flags, svg
from clubwright.labels.sheet.data import ClubDrawing, CutPlace, HeadKind, TapeExtent, WeightPlace
from clubwright.labels.sheet.drawing import draw_club
from clubwright.labels.sheet.heads import HEADS, on_axis

SVG = "{http://www.w3.org/2000/svg}"
INCH = 0.0254
KINDS: tuple[HeadKind, ...] = tuple(HEADS)


def invented_club(kind: HeadKind = "wedge", **changes: object) -> ClubDrawing:
    length = {"driver": 45.25, "fairway": 43.0, "hybrid": 40.0, "iron": 37.0, "wedge": 35.25, "putter": 34.0}[
        kind
    ] * INCH
    club = ClubDrawing(
        kind=kind,
        length_m=length,
        lie_rad=radians({"driver": 58.0, "putter": 70.0}.get(kind, 63.0)),
        cap_m=0.0045,
        shaft_tip_from_ground_m=0.028,
        shaft_butt_from_ground_m=length - 0.0045,
        hosel_top_from_ground_m=0.062,
        ferrule_from_ground_m=0.062,
        ferrule_to_ground_m=0.086,
        head_cg_from_ground_m=0.010,
        head_cg_off_axis_m=0.036,
        grip_length_m=0.267,
        balance_point_m=0.75 * length,
        tapes=(TapeExtent(name="build-up tape", from_cap_m=0.0, to_cap_m=0.254),),
        weights=(WeightPlace(name="2 g tip weight", from_ground_m=0.026, fitted=False),),
        cut=CutPlace(mark_from_ground_m=length - 0.0045, raw_butt_from_ground_m=length + 0.04, text="cut here"),
        on_club=("head", "shaft"),
    )
    return msgspec.structs.replace(club, **changes)


def parsed(club: ClubDrawing, width_mm: float = 190.0) -> ET.Element:
    return ET.fromstring(draw_club(club, width_mm=width_mm))


def of_class(root: ET.Element, name: str) -> list[ET.Element]:
    return [e for e in root.iter() if name in e.get("class", "").split()]


def scale_of(root: ET.Element) -> float:
    (words,) = [e.text or "" for e in of_class(root, "scale")]
    return float(words.removeprefix("scale 1 : "))


def number(element: ET.Element, name: str) -> float:
    return float(element.get(name, "nan"))


def ticks_of(root: ET.Element, scale: str) -> list[float]:
    """Where the ticks of one scale of the rule stand, from its zero on."""
    (path,) = of_class(root, f"tick-{scale}")
    return [float(tick.partition(",")[0]) for tick in path.get("d", "").split("M")[1:]]


def zero_x(root: ET.Element) -> float:
    return ticks_of(root, "in")[0]


@pytest.mark.parametrize("kind", KINDS)
def test_ticks_of_the_rule_are_an_inch_and_a_centimetre_apart_at_the_written_scale(kind: HeadKind) -> None:
    root = parsed(invented_club(kind))
    scale, zero = scale_of(root), zero_x(root)
    for name, step_mm in (("in", 12.7), ("mm", 10.0)):
        ticks = ticks_of(root, name)
        assert len(ticks) > 60
        for place, tick in enumerate(ticks):
            assert tick == pytest.approx(zero + place * step_mm / scale, abs=0.002)


@pytest.mark.parametrize("kind", KINDS)
def test_marks_stand_at_their_scaled_places(kind: HeadKind) -> None:
    club = invented_club(kind)
    root = parsed(club)
    mm_per_m, zero = 1000 / scale_of(root), zero_x(root)
    ground = zero + club.length_m * mm_per_m
    assert club.cut is not None and club.balance_point_m is not None

    (mark,) = of_class(root, "cut-mark")
    assert number(mark, "x1") == number(mark, "x2")
    assert number(mark, "x1") == pytest.approx(ground - club.cut.mark_from_ground_m * mm_per_m, abs=0.002)
    (waste,) = [e for e in of_class(root, "waste") if e.tag == f"{SVG}polygon"]
    xs = [float(pair.split(",")[0]) for pair in waste.get("points", "").split()]
    assert min(xs) == pytest.approx(ground - club.cut.raw_butt_from_ground_m * mm_per_m, abs=0.002)
    assert max(xs) == pytest.approx(number(mark, "x1"), abs=0.002)
    (fulcrum,) = [e for e in of_class(root, "fulcrum") if e.tag == f"{SVG}polygon"]
    assert float(fulcrum.get("points", "").split(",")[0]) == pytest.approx(
        zero + 14 * 25.4 * mm_per_m / 1000, abs=0.002
    )
    (balance,) = [e for e in of_class(root, "balance") if e.tag == f"{SVG}g"]
    assert number(balance[0], "cx") == pytest.approx(zero + club.balance_point_m * mm_per_m, abs=0.002)
    (cg,) = [e for e in of_class(root, "head-cg") if e.tag == f"{SVG}g"]
    assert number(cg[0], "cx") == pytest.approx(ground - club.head_cg_from_ground_m * mm_per_m, abs=0.002)
    axis_y = number(balance[0], "cy")
    assert axis_y - number(cg[0], "cy") == pytest.approx(club.head_cg_off_axis_m * mm_per_m, abs=0.002)


def test_a_longer_raw_shaft_moves_the_waste_and_not_the_rule_from_the_cap() -> None:
    club = invented_club()
    assert club.cut is not None
    longer = msgspec.structs.replace(club, cut=msgspec.structs.replace(club.cut, raw_butt_from_ground_m=1.05))
    root = parsed(longer)
    xs = [float(p.split(",")[0]) for p in of_class(root, "waste")[0].get("points", "").split()]
    ground = zero_x(root) + longer.length_m * 1000 / scale_of(root)
    assert min(xs) == pytest.approx(ground - 1050 / scale_of(root), abs=0.002)


def test_the_sole_lies_on_the_ground_and_the_axis_meets_it_at_the_lie() -> None:
    lie = radians(63.0)
    assert on_axis((0.0, 0.0), lie) == (0.0, 0.0)
    # A point up the shaft by h has (u, v) = (-h cos lie, h sin lie): all of it is along the axis, nothing off it.
    along, off = on_axis((-500 * cos(lie), 500 * sin(lie)), lie)
    assert (along, off) == (pytest.approx(0.5), pytest.approx(0.0, abs=1e-12))
    for shape in HEADS.values():
        assert min(v for _, points in shape.outline for _, v in points) == 0.0


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("width_mm", [190.0, 195.9, 120.0])
def test_everything_lies_inside_the_picture(kind: HeadKind, width_mm: float) -> None:
    root = parsed(invented_club(kind), width_mm)
    _, _, width, height = map(float, root.get("viewBox", "").split())
    assert width == width_mm
    assert root.get("width") == f"{width_mm:g}mm"
    for element in root.iter():
        for name, limit in (("x", width), ("x1", width), ("x2", width), ("y", height), ("y1", height), ("y2", height)):
            if name in element.attrib and element.get("class") != "ground":
                assert 0 <= number(element, name) <= limit, ET.tostring(element)


@pytest.mark.parametrize("kind", KINDS)
def test_no_word_lies_on_another_word_or_under_a_leader(kind: HeadKind) -> None:
    many = tuple(
        WeightPlace(name=f"{n} g port {n}", from_ground_m=0.03 - 0.008 * n, off_axis_m=0.012 * n) for n in range(4)
    )
    root = parsed(invented_club(kind, weights=many))
    boxes = []
    for word in of_class(root, "word"):
        # 0.58 em a letter is more than any of these words takes (their mean in Inter is 0.45 to 0.5 em).
        wide, x, y = len(word.text or "") * 2.3 * 0.58, number(word, "x"), number(word, "y")
        left = x - wide if word.get("text-anchor") == "end" else x
        boxes.append((left, y - 1.8, left + wide, y + 0.5, word.text))
    assert len(boxes) >= 10
    for a, b in itertools.combinations(boxes, 2):
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1], (a, b)
    for leader in of_class(root, "leader"):
        x, (top, foot) = number(leader, "x1"), sorted((number(leader, "y1"), number(leader, "y2")))
        for left, up, right, down, words in boxes:
            crossed = left + 0.1 < x < right - 0.1 and top < down - 0.5 and up + 0.5 < foot
            assert not crossed, words


def test_words_are_worth_more_room_than_a_leader_and_either_is_a_conflict() -> None:
    far = flags.PlacedFlag(flags.Flag(50.0, 0.0, "far", ""), 1, 50.0, 60.0)
    near = flags.PlacedFlag(flags.Flag(40.0, 0.0, "near", ""), 0, 40.0, 55.0)
    assert flags._clash(near, far) == flags._clash(far, near) == 1  # the leader at 50 runs through 40 to 55
    assert flags._clash(near._replace(row=1), far) == 10
    assert flags._clash(near._replace(row=2), far) == 0
    assert flags._clash(near._replace(right=49.0), far) == 0


def test_parts_on_the_club_are_filled_and_the_others_outlined() -> None:
    root = parsed(invented_club(on_club=("head", "shaft")))
    fills = {
        name: {e.get("fill") for e in of_class(root, name) if "part" in e.get("class", "")} for name in ("head", "grip")
    }
    assert fills["grip"] == {"none"}
    assert "none" not in fills["head"]
    assert {e.get("class") for e in of_class(root, "grip") if "part" in e.get("class", "")} == {"part to-come grip"}


def test_a_cut_that_is_done_hatches_no_waste_and_says_so() -> None:
    club = invented_club()
    assert of_class(parsed(club), "hatch")
    assert club.cut is not None
    root = parsed(msgspec.structs.replace(club, cut=msgspec.structs.replace(club.cut, done=True)))
    assert not of_class(root, "hatch")
    assert [e.text for e in of_class(root, "cut")] == ["cut here, done"]
    assert svg.ACCENT in draw_club(club)
    assert svg.ACCENT not in ET.tostring(root, encoding="unicode")


def test_the_same_club_is_the_same_text_and_says_what_it_is() -> None:
    text = draw_club(invented_club())
    assert text == draw_club(invented_club())
    root = ET.fromstring(text)
    assert root[0].tag == f"{SVG}title" and root[0].text == "Wedge, drawn to scale 1 : 5.5"
    assert root[1].tag == f"{SVG}desc" and "head, shaft" in (root[1].text or "")
    assert not re.search(r"<script|\bid=|href", text)


def test_names_stay_literal_in_the_picture() -> None:
    name = '<b>2 g</b> & "tip" #eval($x$)'
    root = parsed(invented_club(weights=(WeightPlace(name=name, from_ground_m=0.02),)))
    assert name in [e.text for e in of_class(root, "word")]
    assert not list(root.iter(f"{SVG}b"))
    root = parsed(invented_club(weights=(WeightPlace(name="a\x00b", from_ground_m=0.02),)))
    assert "a\ufffdb" in [e.text for e in of_class(root, "word")]


def test_everything_wrong_is_said_at_once() -> None:
    with pytest.raises(InputError) as refused:
        draw_club(invented_club(length_m=nan, cap_m=nan))
    assert [f.where for f in refused.value.findings] == ["drawing length_m", "drawing cap_m"]
    wrong = invented_club(
        lie_rad=63.0,
        shaft_tip_from_ground_m=0.95,
        ferrule_to_ground_m=None,
        tapes=(TapeExtent(name="tape", from_cap_m=0.2, to_cap_m=0.1),),
        cut=CutPlace(mark_from_ground_m=0.9, raw_butt_from_ground_m=0.8),
    )
    with pytest.raises(InputError) as refused:
        draw_club(wrong)
    places = ["lie_rad", "shaft", "ferrule", "tape 'tape'", "cut"]
    assert [f.where for f in refused.value.findings] == [f"drawing {place}" for place in places]


def test_no_letter_of_the_font_is_wider_than_it_is_taken_for() -> None:
    """By the font's own table of advance widths (OpenType specification, tables `hmtx`, `hhea`, `head`)."""
    for letter, width in advance_widths().items():
        assert flags._letter_em(letter) >= width - 1e-9 or unicodedata.category(letter)[0] not in "LN", letter


def advance_widths() -> dict[str, float]:
    font = FONT_FOLDER / "Inter-Regular.otf"
    data = font.read_bytes()
    tables = {
        data[at : at + 4]: struct.unpack_from(">I", data, at + 8)[0]
        for at in range(12, 12 + 16 * struct.unpack_from(">H", data, 4)[0], 16)
    }
    units = struct.unpack_from(">H", data, tables[b"head"] + 18)[0]
    count = struct.unpack_from(">H", data, tables[b"hhea"] + 34)[0]
    cmap, found = tables[b"cmap"], {}
    for index in range(struct.unpack_from(">H", data, cmap + 2)[0]):
        start = cmap + struct.unpack_from(">I", data, cmap + 4 + 8 * index + 4)[0]
        if struct.unpack_from(">H", data, start)[0] == 12:
            groups = struct.unpack_from(">I", data, start + 12)[0]
            for first, last, glyph in struct.iter_unpack(">III", data[start + 16 : start + 16 + 12 * groups]):
                for point in range(first, last + 1):
                    place = tables[b"hmtx"] + 4 * min(glyph + point - first, count - 1)
                    found[chr(point)] = struct.unpack_from(">H", data, place)[0] / units
    assert len(found) > 1000
    return found


@pytest.mark.parametrize("name", ["W" * 70, "Щ" * 70, "Featherstonehaugh-Oyelaran of the Invented Larchfield Estate"])
def test_a_long_name_is_cut_off_and_its_figure_never(name: str) -> None:
    club = invented_club(
        tapes=tuple(TapeExtent(name=name, from_cap_m=0.0, to_cap_m=place) for place in (0.2, 0.25, 0.26)),
        weights=tuple(WeightPlace(name=name, from_ground_m=place, fitted=False) for place in (0.02, 0.03, 0.3)),
    )
    words = [item for item in parsed(club).iter(f"{SVG}text") if "word" in item.get("class", "")]
    for item in words:
        said, x = item.text or "", float(item.get("x", "nan"))
        width = flags._length(flags.Flag(0.0, 0.0, said, ""))
        left = x - width if item.get("text-anchor") == "end" else x
        assert left >= 0 and left + width <= 190.0, said
    assert sum("… to " in (item.text or "") for item in words) == 3
    assert sum("… (to fit)" in (item.text or "") for item in words) == 3

"""The build sheet is rendered back by other programs: PDFium for page, size, text and fonts, ZXing for the code."""

from __future__ import annotations

import ctypes
import xml.etree.ElementTree as ET

import msgspec
import pypdfium2 as pdfium
import pypdfium2.raw as pdfium_c
import pytest
import zxingcpp
from test_drawing import KINDS, invented_club

from clubwright.errors import InputError
from clubwright.labels import typesetting
from clubwright.labels.code import ticket_code
from clubwright.labels.glyphs import FAMILY, FONT_FOLDER, letters
from clubwright.labels.printable import unprintable
from clubwright.labels.sheet.data import (
    FindingLine,
    GateLine,
    HeadKind,
    Line,
    PartLine,
    SheetData,
    SheetRow,
    SheetStep,
    TapeExtent,
)
from clubwright.labels.sheet.sheet import Paper, build_sheet
from clubwright.labels.typesetting import NotPrinted

POINT_MM = 25.4 / 72
LITERAL = "#eval(1+1) *b* $x$ _u_ \\ @ref <lab> `c` [d] // no"


def invented_sheet(n_steps: int = 12, n_readings: int = 4, **changes: object) -> SheetData:
    caution = ("Eye and ear protection; the guard stays on.",)
    sheet = SheetData(
        ticket_id="DEMO-W54-01",
        player="Ines Halloway",
        label="Sand wedge 54.10",
        kind="wedge",
        hand="right",
        job="build",
        date="12 May 2031",
        invented=True,
        drawing=invented_club(),
        rows=(
            SheetRow(
                name="length", target="35 ¼ in", tolerance="1/32", as_built="35 ¼", verdict="in spec", sign="good"
            ),
            SheetRow(name="loft", target="54 deg", predicted="54.1 ± 0.2", verdict="cannot tell", sign="open"),
            SheetRow(
                name="swing weight", target="D4", tolerance="¼ pt", as_built="D4.6", verdict="out of spec", sign="bad"
            ),
        ),
        cut=(Line(name="mark from tip", text="34.07 in"), Line(name="kerf", text="1.5 mm")),
        parts=(
            PartLine(part="head", name="invented head", text="299.4 g"),
            PartLine(part="ferrule", name="", text="1.6 g"),
        ),
        steps=tuple(
            SheetStep(
                number=str(n),
                title=f"Do thing {n}",
                numbers=f"{n}.5 in",
                done="09:12 I. Marsh" if n < 3 else "",
                cautions=caution if n % 3 == 0 else (),
            )
            for n in range(1, n_steps + 1)
        ),
        weights=("2 g in the tip",),
        adhesive=("2 : 1 by volume",),
        bends=("lie ½° up",),
        gates=(GateLine(step="cut", open=True, why="all known"), GateLine(step="glue", open=False, why="not read yet")),
        findings=(
            FindingLine(text="gauge too coarse", severity="warning"),
            FindingLine(text="is out", severity="error"),
        ),
        cautions=("The safety data sheet comes first.",),
        readings=tuple(f"09:{n % 60:02d} reading number {n}" for n in range(n_readings)),
        signed_by=("built by:", "released by:"),
        record_hash="9f2c 77ab",
    )
    return msgspec.structs.replace(sheet, **changes)


def text_of(pdf: bytes) -> str:
    document = pdfium.PdfDocument(pdf)
    assert len(document) == 1
    return " ".join(document[0].get_textpage().get_text_bounded().split())


def fonts_of(pdf: bytes) -> set[str]:
    """Return the base names of the fonts of every glyph on the page, pictures included."""
    textpage = pdfium.PdfDocument(pdf)[0].get_textpage()
    names = set()
    buffer = ctypes.create_string_buffer(200)
    for index in range(textpage.count_chars()):
        size = pdfium_c.FPDFText_GetFontInfo(textpage.raw, index, buffer, 200, None)
        if size:
            names.add(buffer.value.decode("utf-8").rpartition("+")[2])
    return names


@pytest.mark.parametrize(("paper", "size_mm"), [("a4", (210.0, 297.0)), ("us-letter", (215.9, 279.4))])
@pytest.mark.parametrize("kind", KINDS)
def test_one_page_of_the_paper_asked_for(paper: Paper, size_mm: tuple[float, float], kind: HeadKind) -> None:
    pdf = build_sheet(invented_sheet(drawing=invented_club(kind)), paper=paper)
    document = pdfium.PdfDocument(pdf)
    assert len(document) == 1
    width, height = document[0].get_size()
    assert (width * POINT_MM, height * POINT_MM) == pytest.approx(size_mm, abs=0.1)


def test_everything_handed_in_is_on_the_page() -> None:
    text = text_of(build_sheet(invented_sheet()))
    for words in (
        "DEMO-W54-01", "Ines Halloway", "Sand wedge 54.10", "right hand", "12 May 2031", "invented demo data",
        "35 ¼", "54.1 ± 0.2", "✓ in spec", "? cannot tell", "■ out of spec", "34.07 in", "invented head", "1.6 g",
        "2 g in the tip", "2 : 1 by volume", "lie ½° up", "○ cut: open", "■ glue: stop", "not read yet", "? look:",
        "▲ The safety data sheet", "▲ Eye and ear", "reading number 3", "released by:", "9f2c 77ab", "100 mm long",
        "next: Do thing 3", "Do thing 12", "scale 1 : 5.5", "waste side", "09:12 I. Marsh", "■ stop:",
    ):  # fmt: skip
        assert words in text, words


def test_what_is_not_invented_does_not_say_so() -> None:
    assert "invented demo data" not in text_of(build_sheet(invented_sheet(invented=False)))


def test_the_code_reads_back_at_the_resolution_of_a_label_printer() -> None:
    page = pdfium.PdfDocument(build_sheet(invented_sheet(ticket_id="demo-w54-01")))[0]
    found = zxingcpp.read_barcodes(page.render(scale=203 / 72).to_pil())
    assert [(code.text, code.format.name) for code in found] == [("DEMO-W54-01", "QRCode")]


@pytest.mark.parametrize(("paper", "scale"), [("a4", 5.5), ("us-letter", 5.5)])
def test_the_rule_on_the_page_is_to_the_scale_it_states(paper: Paper, scale: float) -> None:
    pdf = build_sheet(invented_sheet(), paper=paper)
    assert f"scale 1 : {scale:g}" in text_of(pdf)
    words = pdfium.PdfDocument(pdf)[0].get_textpage()

    def figure(text: str) -> tuple[float, float]:
        search = words.search(text, match_whole_word=True)
        while (hit := search.get_next()) is not None:
            boxes = [words.get_charbox(hit[0] + at) for at in range(hit[1])]
            if boxes[0][3] - boxes[0][1] < 1.5 / POINT_MM:
                return (boxes[0][0] + boxes[-1][2]) / 2, boxes[0][1]
        raise AssertionError(f"no figure {text} on the rule")

    (ten, row), (thirty, other_row) = figure("10"), figure("30")
    assert row == pytest.approx(other_row, abs=0.2)
    assert (thirty - ten) * POINT_MM == pytest.approx(20 * 25.4 / scale, abs=0.15)


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_the_bar_for_checking_the_printer_is_100_mm(paper: Paper) -> None:
    dpi = 300
    image = (
        pdfium.PdfDocument(build_sheet(invented_sheet(), paper=paper))[0].render(scale=dpi / 72).to_pil().convert("L")
    )
    longest = 0
    for y in range(image.height - 300, image.height):
        row = "".join("#" if pixel < 160 else " " for pixel in image.crop((0, y, image.width, y + 1)).tobytes())
        longest = max(longest, *(len(run) for run in row.split()), 0) if row.strip() else longest
    assert longest / dpi * 25.4 == pytest.approx(100.0, abs=0.5)


def test_the_same_data_gives_the_same_bytes() -> None:
    assert build_sheet(invented_sheet()) == build_sheet(invented_sheet())
    assert not pdfium.PdfDocument(build_sheet(invented_sheet())).get_metadata_value("CreationDate")
    assert build_sheet(invented_sheet()) != build_sheet(invented_sheet(player="Another Invention"))


def test_whatever_is_typed_stays_literal() -> None:
    sheet = invented_sheet(
        player=LITERAL[:20],
        label=LITERAL,
        cautions=(LITERAL,),
        rows=(SheetRow(name=LITERAL, target=LITERAL),),
        steps=(SheetStep(number="1", title=LITERAL, cautions=(LITERAL,)),),
        signed_by=(LITERAL,),
    )
    assert text_of(build_sheet(sheet)).replace(" ", "").count(LITERAL.replace(" ", "")) >= 5


def pages_of(pdf: bytes) -> list[str]:
    return [" ".join(page.get_textpage().get_text_bounded().split()) for page in pdfium.PdfDocument(pdf)]


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("kind", ["wedge", "driver", "putter"])
def test_a_full_sheet_takes_its_readings_to_the_next_page_and_leaves_nothing_out(paper: Paper, kind: HeadKind) -> None:
    row = SheetRow(name="grip diameter, 6 in", target="0.900 in", predicted="0.898 ± 0.004", verdict="cannot tell")
    sheet = invented_sheet(n_steps=24, n_readings=90, rows=(row,) * 12, drawing=invented_club(kind))
    first, *others = pages_of(build_sheet(sheet, paper=paper))
    assert [f"reading number {n}" for n in range(90) if f"reading number {n}" not in " ".join([first, *others])] == []
    assert len(others) == 1 and "DEMO-W54-01" in others[0] and "Ines Halloway" in others[0]
    for number in range(1, 25):
        assert f"Do thing {number}" in first
    assert first.count("grip diameter, 6 in") == 12


@pytest.mark.parametrize("steps", [60, 200])
def test_a_sheet_of_any_length_is_printed_whole(steps: int) -> None:
    first, *others = pages_of(build_sheet(invented_sheet(steps)))
    assert others and "on the next pages" in first
    assert "100 mm long" in first, "the foot stays on the first page"
    missing = [n for n in range(1, steps + 1) if f"Do thing {n} " not in " ".join(others)]
    assert missing == []


def test_words_asked_at_length_stand_whole_on_the_last_page() -> None:
    words = " ".join(f"word{n}" for n in range(120))
    *_, last = pages_of(build_sheet(invented_sheet(asked=words)))
    assert words in last


def test_the_text_is_never_smaller_than_can_be_read_at_the_bench() -> None:
    """6.5 points is the least of what is said of the club, and of the foot; the drawing's own words stand at 2.3 mm."""
    for steps, readings in ((6, 0), (24, 60), (34, 0)):
        words = pdfium.PdfDocument(build_sheet(invented_sheet(steps, readings)))[0].get_textpage()
        sizes = {
            round(pdfium_c.FPDFText_GetFontSize(words.raw, at), 1)
            for at in range(words.count_chars())
            if chr(pdfium_c.FPDFText_GetUnicode(words.raw, at)).isalnum()
        }
        drawn = {size for size in sizes if size < 4}  # an SVG's glyphs are scaled by their picture, not by their size
        assert min(sizes - drawn) >= 5.9, sorted(sizes)  # a caution is 0.92 of its step


def test_a_full_sheet_leaves_the_foot_free() -> None:
    """Between the last line of the body and the first of the foot there is a blank strip, however full the page is."""
    for steps, readings in ((6, 0), (18, 60), (24, 60), (40, 60)):
        page = pdfium.PdfDocument(build_sheet(invented_sheet(steps, readings)))[0]
        words = page.get_textpage()
        lows, foot = [], None
        for index in range(words.count_rects()):
            left, bottom, right, top = words.get_rect(index)
            content = words.get_text_bounded(left, bottom, right, top)
            if content.startswith("built by"):
                foot = top
            elif not any(said in content for said in ("released", "100 mm", "9f2c", "clubwright why", "page 1")):
                lows.append(bottom)
        assert foot is not None
        assert min(lows) > foot + 1.0, (steps, readings)


@pytest.mark.parametrize("kind", KINDS)
def test_only_the_shipped_font_is_used_in_text_and_drawing(kind: HeadKind) -> None:
    names = fonts_of(build_sheet(invented_sheet(drawing=invented_club(kind))))
    assert names == {"Inter-Regular", "Inter-SemiBold"}


def test_a_missing_font_is_refused(monkeypatch: pytest.MonkeyPatch, tmp_path: object) -> None:
    monkeypatch.setattr(typesetting, "FONT_FOLDER", tmp_path)
    typesetting._fonts.cache_clear()
    try:
        with pytest.raises(NotPrinted, match="unknown font family: inter"):
            build_sheet(invented_sheet())
    finally:
        typesetting._fonts.cache_clear()


def test_letters_the_font_lacks_leave_a_line_and_are_named() -> None:
    data = invented_sheet(player="日本", cautions=("fine", "bad \x07", "o\u0308k"))
    text = text_of(build_sheet(data))
    assert "____" in text and "日" not in text and "ök" in text
    (finding,) = unprintable(data)
    assert "U+65E5" in finding.what


@pytest.mark.parametrize("name", ["Featherstonehaugh" * 5, "W" * 70, "Щ" * 66])
def test_a_long_name_without_a_space_stays_in_its_column(name: str) -> None:
    parts = (PartLine(part="head", name=name, text="299.4 g"),)
    club = invented_club(tapes=(TapeExtent(name=name, from_cap_m=0.0, to_cap_m=0.254),))
    sheet = invented_sheet(player=name, label=name, parts=parts, drawing=club)
    page = pdfium.PdfDocument(build_sheet(sheet))[0]
    words = page.get_textpage()
    rights = [words.get_charbox(index)[2] for index in range(words.count_chars())]
    assert max(rights) * POINT_MM <= 210.0 - 9.5
    assert "to 10.00 in" in words.get_text_bounded()


def test_signs_of_the_trade_are_in_both_faces() -> None:
    for font in FONT_FOLDER.glob("*.otf"):
        assert set(map(ord, "″′½¼¾⅛⅜⅝⅞°±×→✓▲■○·²–0O")) <= letters(font), font.name
    assert {f.family for f in typesetting._fonts().fonts()} == {FAMILY}
    assert sum(f.stat().st_size for f in FONT_FOLDER.iterdir()) < 1_500_000
    assert "SIL OPEN FONT LICENSE" in (FONT_FOLDER / "LICENSE-Inter.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("ticket_id", ["", "  "])
def test_an_empty_id_is_refused(ticket_id: str) -> None:
    with pytest.raises(InputError, match="ticket_id"):
        ticket_code(ticket_id, side_mm=19.0)


@pytest.mark.parametrize("ticket_id", ["TICKET_1", "ÄB", "A#1", "架空-1"])
def test_an_id_with_other_signs_is_coded_as_typed(ticket_id: str) -> None:
    image = pdfium.PdfDocument(build_sheet(invented_sheet(ticket_id=ticket_id)))[0].render(scale=203 / 72).to_pil()
    assert [code.text for code in zxingcpp.read_barcodes(image)] == [ticket_id]


def test_the_code_has_its_quiet_zone_of_four_modules() -> None:
    root = ET.fromstring(ticket_code("DEMO-W54-01", side_mm=19.0))
    assert (root.get("width"), root.get("height")) == ("29", "29")  # 21 modules of version 1 and 4 on either side


def test_a_code_too_fine_to_read_is_refused() -> None:
    assert ticket_code("A" * 20, side_mm=8.7 + 1e-9)  # version 1: 21 modules and twice 4 of quiet zone
    with pytest.raises(InputError, match="shorter id"):
        ticket_code("A" * 20, side_mm=8.6)

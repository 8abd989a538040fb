"""The tag is rendered back by other programs: PDFium and Pillow for its size and text, ZXing for its code."""

from __future__ import annotations

import io

import msgspec
import pypdfium2 as pdfium
import pytest
import zxingcpp
from PIL import Image
from test_sheet import LITERAL, POINT_MM, fonts_of, text_of

from clubwright.errors import InputError
from clubwright.labels.printable import unprintable
from clubwright.labels.tag.data import Final, TagData
from clubwright.labels.tag.tag import tag_label

LONG = "Maximiliana Featherstonehaugh-Oyelaran"
HELD_BACK = "NOT RELEASED: adhesive cures until 13 May, 14:00"


def invented_tag(**changes: object) -> TagData:
    tag = TagData(
        ticket_id="DEMO-W54-01",
        player="Ines Halloway",
        label="Sand wedge 54.10",
        hand="left",
        date="12 May 2031",
        finals=(
            Final(name="length", text="35 ¼ in"),
            Final(name="swing", text="D4"),
            Final(name="loft", text="54°"),
            Final(name="lie", text="64°"),
            Final(name="total", text="468 g"),
            Final(name="grip", text="58 R +1"),
        ),
        invented=True,
    )
    return msgspec.structs.replace(tag, **changes)


@pytest.mark.parametrize("changes", [{}, {"caution": HELD_BACK}, {"player": LONG, "label": LONG, "caution": HELD_BACK}])
def test_one_label_of_62_by_29_mm_and_its_code_reads_at_203_dots_an_inch(changes: dict[str, str]) -> None:
    pdf = tag_label(invented_tag(**changes))
    document = pdfium.PdfDocument(pdf)
    assert len(document) == 1
    width, height = document[0].get_size()
    assert (width * POINT_MM, height * POINT_MM) == pytest.approx((62.0, 29.0), abs=0.1)
    image = document[0].render(scale=203 / 72).to_pil()
    (code,) = zxingcpp.read_barcodes(image)
    assert code.text == "DEMO-W54-01"


@pytest.mark.parametrize("caution", ["", HELD_BACK])
def test_a_module_of_the_code_is_at_least_0_3_mm_with_its_quiet_zone(caution: str) -> None:
    page = pdfium.PdfDocument(tag_label(invented_tag(caution=caution)))[0]
    dpi = 600
    image = page.render(scale=dpi / 72).to_pil().convert("L")
    (code,) = zxingcpp.read_barcodes(image)
    corners = code.position
    modules = 21  # version 1: eleven characters of alphanumeric mode
    module_px = (corners.top_right.x - corners.top_left.x) / modules
    module_mm = module_px / dpi * 25.4
    assert module_mm >= 0.3
    quiet = image.crop(
        (
            round(corners.top_left.x - 3.8 * module_px),
            round(corners.top_left.y - 3.8 * module_px),
            round(corners.top_right.x + 3.8 * module_px),
            round(corners.top_left.y - 0.3 * module_px),
        )
    )
    assert quiet.getextrema() == (255, 255)


@pytest.mark.parametrize("dpi", [180, 203, 300])
def test_the_picture_for_a_label_printer_has_its_size_and_reads_back(dpi: int) -> None:
    image = Image.open(io.BytesIO(tag_label(invented_tag(caution=HELD_BACK), format="png", dpi=dpi)))
    assert (image.width / dpi * 25.4, image.height / dpi * 25.4) == pytest.approx((62.0, 29.0), abs=0.1)
    assert image.info["dpi"] == pytest.approx((dpi, dpi), abs=0.02)  # what a picture program prints it at
    assert [code.text for code in zxingcpp.read_barcodes(image)] == ["DEMO-W54-01"]


def test_everything_handed_in_is_on_the_tag() -> None:
    text = text_of(tag_label(invented_tag(caution=HELD_BACK))).replace("\xa0", " ")
    for words in (
        "Ines Halloway", "Sand wedge 54.10, left hand", "DEMO-W54-01", "12 May 2031", "35 ¼ in", "D4", "54°", "64°",
        "468 g", "58 R +1", "▲ NOT RELEASED", "14:00", "invented demo data",
    ):  # fmt: skip
        assert words in text, words
    plain = text_of(tag_label(invented_tag(invented=False)))
    assert "invented" not in plain and "NOT RELEASED" not in plain and "▲" not in plain


def test_the_bar_of_a_club_that_is_not_released_is_black() -> None:
    def dark_share(caution: str) -> float:
        image = pdfium.PdfDocument(tag_label(invented_tag(caution=caution)))[0].render(scale=4).to_pil().convert("L")
        strip = image.crop((20, image.height - 30, image.width - 20, image.height - 20))
        return sum(strip.histogram()[:100]) / (strip.width * strip.height)

    assert dark_share(HELD_BACK) > 0.5
    assert dark_share("") < 0.2


def test_the_same_data_gives_the_same_bytes() -> None:
    assert tag_label(invented_tag()) == tag_label(invented_tag())
    assert not pdfium.PdfDocument(tag_label(invented_tag())).get_metadata_value("CreationDate")
    assert tag_label(invented_tag(), format="png") == tag_label(invented_tag(), format="png")


def test_whatever_is_typed_stays_literal_and_in_our_font() -> None:
    pdf = tag_label(invented_tag(player="#eval(1) *b*", label="$x$ _u_", caution=LITERAL))
    text = text_of(pdf).replace(" ", "")
    for words in ("#eval(1) *b*", "$x$ _u_", LITERAL):
        assert words.replace(" ", "") in text
    assert fonts_of(pdf) == {"Inter-Regular", "Inter-SemiBold"}


@pytest.mark.parametrize("dpi", [180, 203, 300])
@pytest.mark.parametrize("caution", ["", HELD_BACK])
def test_every_module_of_the_code_is_whole_dots(dpi: int, caution: str) -> None:
    """No dot of the code is grey: its modules begin and end on the printer's own dots."""
    image = Image.open(io.BytesIO(tag_label(invented_tag(caution=caution), format="png", dpi=dpi))).convert("L")
    (code,) = zxingcpp.read_barcodes(image)
    corners = code.position
    symbol = image.crop((corners.top_left.x, corners.top_left.y, corners.bottom_right.x, corners.bottom_right.y))
    levels = symbol.histogram()
    assert levels[0] + levels[255] == symbol.width * symbol.height
    assert levels[0] > 0.3 * symbol.width * symbol.height


def test_figures_without_room_are_counted_and_none_is_cut_in_half() -> None:
    finals = tuple(Final(name=f"final {n}", text=f"{n}23.45 g", standing="believed") for n in range(1, 41))
    text = " ".join(text_of(tag_label(invented_tag(finals=finals, caution=HELD_BACK))).replace("\xa0", " ").split())
    shown = [final.text for final in finals if final.text in text]
    assert shown == [final.text for final in finals[: len(shown)]]
    assert len(shown) >= 4
    assert f"and {40 - len(shown)} more on the sheet" in text
    assert text.count(" g") == len(shown)


def test_the_plus_minus_goes_before_anything_else() -> None:
    few = (Final(name="length", text="35.25 in", with_spread="35.25 in ± 0.02 in", standing="believed"),)
    assert "35.25 in ± 0.02 in" in text_of(tag_label(invented_tag(finals=few))).replace("\xa0", " ")
    text = text_of(tag_label(invented_tag(finals=few * 8))).replace("\xa0", " ")
    assert text.count("35.25 in") == 8 and "±" not in text and "more on the sheet" not in text


def test_the_longest_way_to_say_grip_and_tape_that_fits_is_said() -> None:
    ways = ("logo down, " + "tape of a long name, " * 9, "logo down, tape wraps 3", "tape wraps 3")
    text = text_of(tag_label(invented_tag(grip=ways))).replace("\xa0", " ")
    assert "logo down, tape wraps 3" in text and "long name" not in text


def test_letters_the_font_lacks_leave_a_line_and_are_named() -> None:
    data = invented_tag(player="日本 Halloway", label="bad \x07 zero\u200bwidth")
    text = text_of(tag_label(data))
    assert "____ Halloway" in text and "zerowidth" in text
    (finding,) = unprintable(data)
    assert "日 (U+65E5), 本 (U+672C)" in finding.what and "by hand" in finding.mend


def test_what_cannot_be_coded_or_drawn_is_refused() -> None:
    with pytest.raises(InputError, match="shorter id"):
        tag_label(invented_tag(ticket_id="A" * 200))
    for dpi in (0, -300, 149, 1201, float("nan"), float("inf")):
        with pytest.raises(InputError, match="dpi"):
            tag_label(invented_tag(), format="png", dpi=dpi)

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
from clubwright.labels.data import Line, TagData
from clubwright.labels.tag import tag_label
from clubwright.labels.typesetting import NotPrinted

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
            Line(name="length", text="35 ¼ in"),
            Line(name="swing", text="D4"),
            Line(name="loft", text="54°"),
            Line(name="lie", text="64°"),
            Line(name="total", text="468 g"),
            Line(name="grip", text="58 R +1"),
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


@pytest.mark.parametrize("ppi", [203, 300])
def test_the_picture_for_a_label_printer_has_its_size_and_reads_back(ppi: int) -> None:
    image = Image.open(io.BytesIO(tag_label(invented_tag(caution=HELD_BACK), format="png", ppi=ppi)))
    assert (image.width / ppi * 25.4, image.height / ppi * 25.4) == pytest.approx((62.0, 29.0), abs=0.1)
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


def test_what_does_not_fit_or_cannot_be_printed_is_refused() -> None:
    with pytest.raises(NotPrinted, match=r"does not fit one label\. Shorten"):
        tag_label(invented_tag(finals=tuple(Line(name=f"final {n}", text="1") for n in range(40))))
    with pytest.raises(InputError, match=r"TagData\.player"):
        tag_label(invented_tag(player="日本"))
    with pytest.raises(InputError, match="shorter id"):
        tag_label(invented_tag(ticket_id="A" * 200))

"""What `import clubwright` gives: every name it lists is there, does what its command does, and stays what it is."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import pypdfium2
import pytest
import zxingcpp
from PIL import Image

import clubwright
from cli_runs import clubwright as command
from clubwright.errors import InputError
from clubwright.importers.ticket_file import load_ticket

Capture = pytest.CaptureFixture[str]
EXAMPLES = Path(__file__).parents[3] / "examples"
IRON = EXAMPLES / "iron.toml"
BAD = '[ticket]\nid = "X-1"\nkind = "iron"\njob = "build"\n[target]\nlength = "35,5"\nswing_weight = "Q3"\n'


def test_what_is_listed_is_there() -> None:
    names = dir(clubwright)
    assert {"work", "plan", "sheet", "tag", "picture", "notation", "words", "new_ticket"} <= set(names)
    for name in names:
        assert getattr(clubwright, name), name
        assert name.startswith("__") or getattr(clubwright, name).__doc__, f"{name} does not say what it is"
    with pytest.raises(AttributeError, match="nothing_such"):
        clubwright.nothing_such  # noqa: B018


def test_a_name_stays_what_it_is_whichever_room_is_loaded() -> None:
    program = (
        "import clubwright, clubwright.words.say, clubwright.notation\n"
        "clubwright.work('no.toml')\n"
        "from clubwright.words import say\n"
        "from clubwright import words\n"
        "assert words is clubwright.words and words('54, D4').said\n"
        "assert callable(say) and clubwright.notation.parse('length', '35 in').value\n"
        "assert set(clubwright.__all__) == set(dir(clubwright))\n"
    )
    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr


@pytest.mark.parametrize("name", ["iron", "regrip", "short-wedge"])
def test_the_plan_is_that_of_the_command(name: str, capsys: Capture) -> None:
    path, shop = EXAMPLES / f"{name}.toml", ("--shop-file", str(EXAMPLES / "shop.toml"))
    steps = clubwright.plan(path, shop_file=shop[1])
    ran = command(capsys, "plan", str(path), *shop, "--json")
    assert [step.plain() for step in steps] == json.loads(ran.out)
    assert steps[0].title


def test_a_ticket_is_given_as_file_text_or_document() -> None:
    text = IRON.read_text(encoding="utf-8")
    assert clubwright.plan(str(IRON)) == clubwright.plan(text) == clubwright.plan(load_ticket(IRON))
    assert clubwright.picture(IRON) == clubwright.picture(text)


def test_the_sheet_is_of_the_paper_asked_for_with_the_ticket_on_it(tmp_path: Path) -> None:
    printed = clubwright.sheet(IRON, day="2026-03-02", paper="us-letter")
    pdf = pypdfium2.PdfDocument(printed.content)
    assert len(pdf) <= 2
    assert pdf[0].get_size() == pytest.approx((612, 792), abs=0.5)
    text = pdf[0].get_textpage().get_text_bounded()
    assert "X-1007" in text
    assert "2026-03-02" in text
    assert bytes(printed) == printed.save(tmp_path / "sheet.pdf").read_bytes()
    assert printed._repr_png_() is None
    with pytest.raises(InputError, match=r"not the name of a pdf file\. Name it \.pdf"):
        printed.save(tmp_path / "sheet.png")
    assert not (tmp_path / "sheet.png").exists()


def test_a_tag_is_a_picture_where_dots_are_asked_for(tmp_path: Path) -> None:
    tag = clubwright.tag(IRON, dpi=203)
    assert tag.format == "png"
    assert tag._repr_png_() == tag.content
    image = Image.open(tag.save(tmp_path / "tag.png"))
    assert (image.width, image.height) == pytest.approx((62 / 25.4 * 203, 29 / 25.4 * 203), abs=1)
    assert [code.text for code in zxingcpp.read_barcodes(image)] == ["X-1007"]
    assert clubwright.tag(IRON).content.startswith(b"%PDF-")
    for wrong in ({"format": "pdf", "dpi": 300}, {"format": "gif"}, {"dpi": 3}):
        with pytest.raises(InputError):
            clubwright.tag(IRON, **wrong)


def test_what_the_font_lacks_is_said_of_a_sheet() -> None:
    printed = clubwright.sheet(IRON.read_text(encoding="utf-8").replace('label = "', 'label = "木 '))
    assert [item.severity for item in printed.findings] == ["note"]


def test_the_picture_is_svg_that_a_notebook_shows(tmp_path: Path) -> None:
    picture = clubwright.picture(IRON)
    root = ET.fromstring(picture._repr_svg_())
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert "Iron, drawn to scale" in "".join(root.itertext())
    assert picture.save(tmp_path / "club.svg").read_text(encoding="utf-8") == str(picture) == picture.svg
    assert len(repr(picture)) < 60


def test_the_units_of_the_shop_come_first_in_the_picture(tmp_path: Path) -> None:
    shop = tmp_path / "shop.toml"
    shop.write_text('[units]\nlength = "mm"\n', encoding="utf-8")
    assert "cut 908.18 mm (" in clubwright.picture(IRON, shop_file=shop).svg
    assert "cut 35 3/4 in" in clubwright.picture(IRON).svg


@pytest.mark.parametrize("name", ["plan", "sheet", "tag", "picture"])
def test_a_ticket_that_cannot_be_taken_says_all_of_it_at_once(name: str) -> None:
    with pytest.raises(InputError) as refused:
        getattr(clubwright, name)(BAD)
    found = clubwright.work(BAD).findings
    assert len(found) == 3
    assert [(str(item.where), item.what) for item in refused.value.findings] == [
        (item.where, item.what) for item in found
    ]
    with pytest.raises(InputError, match=r"no-such\.toml"):
        getattr(clubwright, name)("no-such.toml")

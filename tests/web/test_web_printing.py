"""One tap prints on the workshop's printer: page, command line, `/api` and Python alike; and what is refused is told."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pypdfium2 as pdfium
import pytest

from benchwork import JOB, Clock, actions
from cli_runs import clubwright
from clubwright.api.shop import Shop
from clubwright.bootstrap import shop_settings
from clubwright.errors import InputError, NotPossible
from clubwright.services.record.session import Session
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings
from webclient import LOOPBACK, TestClient, post

SPOOL = "import sys; open(sys.argv[1], 'ab').write(sys.stdin.buffer.read()); print('request id is office-7')"
OURS = {"X-Clubwright": "1"}
Capture = pytest.CaptureFixture[str]


def settings(folder: Path, **commands: str) -> None:
    lines = [f"{paper} = '''{command}'''" for paper, command in commands.items()]
    (folder / "shop.toml").write_text("\n".join(["[printer]", *lines]), encoding="utf-8")


@pytest.fixture
def client(tmp_path: Path, web_session: Session) -> TestClient:
    import msgspec

    session = msgspec.structs.replace(web_session, settings=lambda: shop_settings(str(tmp_path)))
    return TestClient(create_app(WebSettings(shop=str(tmp_path)), session), base_url=LOOPBACK, follow_redirects=False)


def spooler(folder: Path) -> str:
    """A program that stands for a printer, in a file of its own."""
    program = folder / "spool.py"
    program.write_text(SPOOL, encoding="utf-8")
    return f"{sys.executable} {program}"


def test_all_four_ways_print_the_same_paper_and_keep_nothing(
    tmp_path: Path, client: TestClient, web_session: Session, web_clock: Clock, capsys: Capture
) -> None:
    command = spooler(tmp_path)
    spool = tmp_path / "spooled"
    settings(tmp_path, sheet=f"{command} {spool}")
    facts = web_session.ledger.count()

    def spooled() -> bytes:
        paper = spool.read_bytes()
        spool.unlink()
        return paper

    page = post(client, f"/records/{JOB}/print", page=f"/records/{JOB}", paper="cards")
    assert page.status_code == 200 and "request id is office-7" in page.text
    by_page = spooled()
    sent = client.post(f"/api/jobs/{JOB}/print", json={"paper": "cards"}, headers=OURS)
    assert (sent.status_code, sent.json()) == (200, {"job": JOB, "paper": "cards", "said": "request id is office-7"})
    assert spooled() == by_page and by_page.startswith(b"%PDF-")
    ran = clubwright(capsys, "print", JOB, "cards", "--shop", str(tmp_path), "--json")
    assert ran.code == 0
    assert told(spooled()) == told(by_page), "the command has another day: its own clock's"
    with Shop(tmp_path, now=web_clock) as shop:
        assert shop.print_paper(JOB, "cards").said == "request id is office-7"
    assert spooled() == by_page
    assert web_session.ledger.count() == facts


def test_each_paper_goes_to_its_own_printer(tmp_path: Path, client: TestClient) -> None:
    command = spooler(tmp_path)
    settings(tmp_path, sheet=f"{command} {tmp_path / 'office'}", tag=f"{command} {tmp_path / 'labels'}")
    for paper in ("sheet", "tag"):
        assert client.post(f"/api/jobs/{JOB}/print", json={"paper": paper}, headers=OURS).status_code == 200
    assert (tmp_path / "office").read_bytes() == client.get(f"/records/{JOB}/sheet.pdf").content
    assert (tmp_path / "labels").read_bytes() == client.get(f"/records/{JOB}/tag.pdf").content


def test_without_a_printer_it_says_how_to_name_one(tmp_path: Path, client: TestClient, capsys: Capture) -> None:
    words = 'name no printer for the tag. Write [printer] tag = "lp -d NAME" in shop.toml'
    refused = client.post(f"/api/jobs/{JOB}/print", json={"paper": "tag"}, headers=OURS)
    assert refused.status_code == 409 and words in refused.json()["error"]
    page = post(client, f"/records/{JOB}/print", page=f"/records/{JOB}", paper="tag")
    assert page.status_code == 409 and "name no printer for the tag" in page.text
    ran = clubwright(capsys, "print", JOB, "tag", "--shop", str(tmp_path))
    assert ran.code == 1 and words in ran.err
    with Shop(tmp_path) as shop, pytest.raises(NotPossible, match="name no printer for the tag"):
        shop.print_paper(JOB, "tag")
    with Shop(tmp_path) as shop, pytest.raises(InputError, match="Take sheet, tag, cards"):
        shop.print_paper(JOB, "poster")  # type: ignore[arg-type]


def test_what_the_printer_refuses_is_told_on_the_page(tmp_path: Path, client: TestClient) -> None:
    program = tmp_path / "refuse.py"
    program.write_text("import sys; sys.exit('lp: no such <b>class</b>')", encoding="utf-8")
    settings(tmp_path, sheet=f"{sys.executable} {program}")
    page = post(client, f"/records/{JOB}/print", page=f"/records/{JOB}", paper="sheet")
    assert page.status_code == 409
    assert "lp: no such &lt;b&gt;class&lt;/b&gt;" in page.text and "can be opened" in page.text


def test_who_may_only_look_prints_nothing(tmp_path: Path, web_session: Session) -> None:
    import msgspec

    from clubwright.errors import NotAllowed
    from clubwright.printing import print_paper

    settings(tmp_path, sheet=f"{spooler(tmp_path)} {tmp_path / 'spooled'}")
    looking = msgspec.structs.replace(web_session, settings=lambda: shop_settings(str(tmp_path)), role="look")
    with pytest.raises(NotAllowed):
        print_paper(looking, JOB, "sheet")
    assert not (tmp_path / "spooled").exists()


def test_a_command_that_is_none_is_told_with_the_settings(tmp_path: Path) -> None:
    settings(tmp_path, sheet='lp -d "office', tag="  ")
    found = [finding.sentence() for finding in shop_settings(str(tmp_path)).errors]
    assert any("[printer] sheet" in text and "a quote in it is not closed" in text for text in found), found
    assert shop_settings(str(tmp_path)).printer("sheet") == ""


def told(paper: bytes) -> list[str]:
    """What every page says, without the day of printing."""
    pages = (page.get_textpage().get_text_bounded() for page in pdfium.PdfDocument(paper))
    return [re.sub(r"20\d\d-\d\d-\d\d", "DAY", page) for page in pages]


def test_the_pages_offer_it(client: TestClient, web_session: Session, web_clock: Clock) -> None:
    record = client.get(f"/records/{JOB}").text
    assert f'action="/records/{JOB}/print"' in record and 'value="cards"' in record
    assert f"/records/{JOB}/cards.pdf?step=pull" in client.get(f"/bench/{JOB}").text
    card = client.get(f"/records/{JOB}/cards.pdf?step=mix")
    assert card.status_code == 200 and card.content.startswith(b"%PDF-")
    for name, do, hours in actions():
        if name == "finish":
            break
        if name != "take":
            web_clock.wait(hours=hours)
            do(web_session)
    tag = client.get(f"/bench/{JOB}?step=tag").text
    assert 'form="print-form" name="paper" value="tag"' in tag and 'id="print-form"' in tag

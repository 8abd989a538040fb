"""How one person reads and types stands before the shop's word, on page and command line; facts are canonical."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from fastapi import FastAPI

from benchwork import JOB
from cli_runs import clubwright, workshop
from clubwright.errors import InputError
from clubwright.notation import Typist, UnitsShown
from clubwright.notation.own import AS_THE_SHOP, CHOICES, Own, own_of
from clubwright.services.record.session import Session
from clubwright.ticket.fields.units import UNITS
from clubwright.web.guard.people import read_people
from webclient import PINS, TestClient, post, signed_in

BENCH = f"/bench/{JOB}"
CUT = f"{BENCH}?step=mark%20and%20cut"
WEIGH = f"{BENCH}?step=weigh"
GERMAN = {"language": "de", "decimal": "comma", "length": "mm", "bare_length": "mm"}


def test_a_person_may_say_what_a_shop_may() -> None:
    said = {field.key: field.choices for field in UNITS.fields if field.key not in ("mass", "angle")}
    assert said == dict(CHOICES)
    assert (
        set(CHOICES) == set(UnitsShown.__struct_fields__) | set(Typist.__struct_fields__) == set(Own.__struct_fields__)
    )


def test_what_is_said_stands_before_the_shop_and_the_rest_stays() -> None:
    own = own_of({"language": "de", "decimal": "", "pin": "1"})
    shop = UnitsShown(length="mm", decimal="comma")
    assert own.units(shop) == UnitsShown(length="mm", decimal="comma", language="de")
    assert own_of({"decimal": "point"}).typist(Typist(decimal="comma", bare_length="mm")) == Typist(bare_length="mm")
    assert AS_THE_SHOP.units(shop) == shop
    assert own_of({"decimal": "point"}).over(own) == own_of({"decimal": "point", "language": "de"})
    with pytest.raises(InputError) as refused:
        own_of({"language": "fr", "length": "ell"}, {"language": "--language"})
    assert [str(item.where) for item in refused.value.findings] == ["--language", "length"]


def test_two_people_at_two_tablets_in_two_languages_at_once(
    open_app: FastAPI, web_session: Session, tmp_path: Path
) -> None:
    wil, sol = signed_in(open_app, "Wil", "192.0.2.11"), signed_in(open_app, "Sol", "192.0.2.12")
    assert post(wil, "/own", "/own", back=CUT, **GERMAN).headers["location"] == CUT
    people = read_people(tmp_path / "people.toml")
    assert people["Wil"].said() == GERMAN and people["Sol"].said() == {}
    for _ in range(2):
        german, english = wil.get(CUT).text, sol.get(CUT).text
        assert "Anzeichnen, prüfen und am Griffende schneiden" in german and "Mark, check, and cut" not in german
        assert "Mark, check, and cut the butt" in english and "Anzeichnen" not in english
        assert re.search(r"\d{3},\d\d mm", german) and not re.search(r"\d{3},\d\d mm", english)
        assert re.search(r"\d\d\.\d{3} in", english)
    taken = post(wil, BENCH, WEIGH, action="measure", step="weigh", key="k-1", **{"head.mass": "297,3 g"})
    assert taken.status_code == 303, taken.text
    refused = post(sol, BENCH, WEIGH, action="measure", step="weigh", key="k-2", **{"head.mass": "298,3 g"})
    assert refused.status_code == 422 and "has a comma" in refused.text
    assert web_session.job(JOB).document["head"]["mass"] == "297.3 g"
    assert "297,3" not in web_session.job(JOB).trail[-1].text
    api = [client.get(f"/api/jobs/{JOB}/plan").content for client in (wil, sol)]
    assert api[0] == api[1] and "Anzeichnen" not in api[0].decode()
    assert wil.get(f"/records/{JOB}/sheet.pdf").content != sol.get(f"/records/{JOB}/sheet.pdf").content


def test_what_a_person_said_is_taken_back_and_a_wrong_word_is_refused(open_app: FastAPI, tmp_path: Path) -> None:
    wil = signed_in(open_app, "Wil")
    post(wil, "/own", "/own", **GERMAN)
    assert "Meine Einstellungen" in wil.get("/tickets").text
    wrong = post(wil, "/own", "/own", language="fr")
    assert wrong.status_code == 422 and "none of the words" in wrong.text
    assert post(wil, "/own", "/own", language="", back="//evil.example").headers["location"] == "/"
    assert read_people(tmp_path / "people.toml")["Wil"].said() == {}
    assert "My settings" in wil.get("/tickets").text
    assert signed_in(open_app, "Wil").get("/tickets").status_code == 200, "the PIN stayed"


def test_at_the_bench_itself_the_tablet_keeps_it(web_client: TestClient, web_app: FastAPI) -> None:
    assert post(web_client, "/own", "/own", **GERMAN).status_code == 303
    assert "Anzeichnen, prüfen" in web_client.get(CUT).text
    other = TestClient(web_app, base_url="http://127.0.0.1")
    assert "Mark, check, and cut" in other.get(CUT).text
    web_client.cookies.set("own", "language=xx&decimal=comma")
    assert "Mark, check, and cut" in web_client.get(CUT).text, "a cookie that nobody here wrote says nothing"


@pytest.mark.usefixtures("played")
def test_at_the_command_line_by_name_and_by_environment(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    shop = workshop(tmp_path, "hand")
    monkeypatch.setattr("sys.stdin", io.StringIO(PINS["Wil"] + "\n"))
    assert clubwright(capsys, "person", "Wil", "--pin-stdin", "--shop", shop).code == 0
    before = read_people(tmp_path / "people.toml")["Wil"]
    said = clubwright(capsys, "person", "Wil", "--language", "de", "--decimal", "comma", "--shop", shop)
    after = read_people(tmp_path / "people.toml")["Wil"]
    assert said.code == 0 and (after.pin, after.role, after.said()) == (
        before.pin,
        before.role,
        {"language": "de", "decimal": "comma"},
    )
    wrong = clubwright(capsys, "person", "Wil", "--language", "fr", "--shop", shop)
    assert wrong.code == 2 and "--language" in wrong.out + wrong.err
    show = ("show", JOB, "--shop", shop)
    assert "Den Kopf" in (german := clubwright(capsys, *show, "--by", "Wil").out) or "Teile" in german
    assert "Teile" not in clubwright(capsys, *show, "--by", "Ann").out
    assert clubwright(capsys, *show, "--by", "Wil", "--json").out == clubwright(capsys, *show, "--json").out
    weigh = ("measure", JOB, "head", "mass=297,3 g", "--shop", shop, "--by")
    assert (clubwright(capsys, *weigh, "Ann").code, clubwright(capsys, *weigh, "Wil").code) == (2, 0)
    monkeypatch.setenv("CLUBWRIGHT_LANGUAGE", "en")
    assert "Teile" not in clubwright(capsys, *show, "--by", "Wil").out
    monkeypatch.delenv("CLUBWRIGHT_LANGUAGE")
    assert clubwright(capsys, "person", "Wil", "--language", "shop", "--shop", shop).code == 0
    assert read_people(tmp_path / "people.toml")["Wil"].said() == {"decimal": "comma"}


@pytest.mark.usefixtures("played")
def test_a_broken_file_of_people_keeps_nobody_from_a_command(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shop = workshop(tmp_path, "hand")
    for text in ("[person", "person = 3", "[person]\nWil = 3", '[person.Wil]\nlanguage = "xx"'):
        (tmp_path / "people.toml").write_text(text, encoding="utf-8")
        assert clubwright(capsys, "show", JOB, "--shop", shop, "--by", "Wil").code == 0

"""The commands that say who may come in, and the start that refuses when nobody may sign off."""

from __future__ import annotations

import getpass
import io
import json
from pathlib import Path

import pytest

from clubwright.cli.main import app
from clubwright.cli.people import people, person
from clubwright.cli.serving import serve
from clubwright.errors import InputError, NotPossible
from clubwright.web.guard.people import pin_is_right, read_people
from webclient import PINS


def test_a_pin_is_asked_twice_and_never_shown(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shop, asked = str(tmp_path / "van"), []

    def ask(prompt: str) -> str:
        asked.append(prompt)
        return PINS["Sol"]

    monkeypatch.setattr(getpass, "getpass", ask)
    person("Sol", role="sign off", shop=shop)
    assert len(asked) == 2
    assert PINS["Sol"] not in capsys.readouterr().out
    found = read_people(tmp_path / "van" / "people.toml")
    assert found["Sol"].role == "sign off"
    assert pin_is_right(found["Sol"], PINS["Sol"])


def test_two_different_pins_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    answers = iter([PINS["Sol"], PINS["Wil"]])
    monkeypatch.setattr(getpass, "getpass", lambda _: next(answers))
    with pytest.raises(InputError, match="not the same"):
        person("Sol", shop=str(tmp_path))
    assert read_people(tmp_path / "people.toml") == {}


def test_people_are_added_changed_listed_and_removed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    shop = str(tmp_path)
    people(shop=shop)
    assert "clubwright person NAME" in capsys.readouterr().out
    for name, role in (("Wil", "work"), ("Sol", "work"), ("Sol", "sign off")):
        monkeypatch.setattr("sys.stdin", io.StringIO(PINS[name] + "\n"))
        person(name, role=role, pin_stdin=True, shop=shop)
    capsys.readouterr()
    people(shop=shop, json=True)
    said = json.loads(capsys.readouterr().out)
    assert said == [{"name": "Sol", "role": "sign off"}, {"name": "Wil", "role": "work"}]
    person("Wil", remove=True, shop=shop)
    assert list(read_people(tmp_path / "people.toml")) == ["Sol"]
    with pytest.raises(InputError, match="nobody here is called"):
        person("Wil", remove=True, shop=shop)


def test_the_commands_are_there() -> None:
    assert {"person", "people"} <= set(app)


def test_the_network_does_not_open_while_nobody_may_sign_off(tmp_path: Path) -> None:
    with pytest.raises(NotPossible, match='clubwright person NAME --role "sign off"'):
        serve(shop=str(tmp_path), open_network=True, port=0)


def test_people_of_a_shared_record_are_where_the_environment_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop = "postgresql://bench.example/shop"
    monkeypatch.delenv("CLUBWRIGHT_PEOPLE", raising=False)
    with pytest.raises(NotPossible, match="CLUBWRIGHT_PEOPLE"):
        people(shop=shop)
    monkeypatch.setenv("CLUBWRIGHT_PEOPLE", str(tmp_path / "p.toml"))
    monkeypatch.setattr("sys.stdin", io.StringIO(PINS["Sol"] + "\n"))
    person("Sol", role="sign off", pin_stdin=True, shop=shop)
    assert list(read_people(tmp_path / "p.toml")) == ["Sol"]

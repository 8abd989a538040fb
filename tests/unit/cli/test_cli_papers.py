"""The commands that print: what kind of file they write, at which dots, and what they say of letters without a sign."""

from __future__ import annotations

import io
from datetime import UTC, datetime
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image

from cli_runs import clubwright
from clubwright.importers.ticket_file import load_ticket
from clubwright.labels.tag.from_work import tag_data
from clubwright.labels.tag.tag import tag_label
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import with_plan

Capture = pytest.CaptureFixture[str]
IRON = Path(__file__).parents[3] / "examples" / "iron.toml"


@pytest.mark.parametrize(
    ("options", "name", "start"),
    [
        ([], "X-1007-tag.pdf", b"%PDF-"),
        (["--format", "png"], "X-1007-tag.png", b"\x89PNG"),
        (["--dpi", "180"], "X-1007-tag.png", b"\x89PNG"),
        (["--out", "label.png"], "label.png", b"\x89PNG"),
        (["--out", "label.PNG", "--dpi", "300"], "label.PNG", b"\x89PNG"),
        (["--out", "label.pdf"], "label.pdf", b"%PDF-"),
        (["--out", "label", "--format", "pdf"], "label", b"%PDF-"),
    ],
)
def test_the_kind_of_file_is_as_said_or_as_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture, options: list[str], name: str, start: bytes
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = clubwright(capsys, "tag", str(IRON), *options)
    assert ran.code == 0, ran.err
    assert f"Wrote {name}." in ran.out
    assert (tmp_path / name).read_bytes().startswith(start)


@pytest.mark.parametrize("dpi", [180, 203, 300])
def test_the_picture_has_the_dots_that_were_asked_for(tmp_path: Path, capsys: Capture, dpi: int) -> None:
    path = tmp_path / "tag.png"
    assert clubwright(capsys, "tag", str(IRON), "--out", str(path), "--dpi", str(dpi)).code == 0
    image = Image.open(path)
    assert (image.width, image.height) == pytest.approx((62 / 25.4 * dpi, 29 / 25.4 * dpi), abs=1)
    assert [code.text for code in zxingcpp.read_barcodes(image)] == ["X-1007"]


def test_command_and_python_write_the_same_picture(tmp_path: Path, capsys: Capture) -> None:
    path = tmp_path / "tag.png"
    before = datetime.now(UTC).date()
    clubwright(capsys, "tag", str(IRON), "--out", str(path), "--dpi", "180", "--json")
    worked = with_plan(work_document(load_ticket(IRON), IRON.name))
    days = {before.isoformat(), datetime.now(UTC).date().isoformat()}  # the two differ at midnight only
    ours = [tag_label(tag_data(worked, None, day), format="png", dpi=180) for day in days]
    assert Image.open(path).tobytes() in [Image.open(io.BytesIO(picture)).tobytes() for picture in ours]


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--format", "pdf", "--dpi", "180"], "no dots"),
        (["--out", "label.pdf", "--dpi", "180"], "no dots"),
        (["--out", "label.png", "--format", "pdf"], "not the name of a pdf file"),
        (["--dpi", "20"], "no resolution of a label printer"),
        (["--dpi", "5000"], "no resolution of a label printer"),
    ],
)
def test_what_does_not_go_together_is_refused_and_nothing_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture, options: list[str], words: str
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = clubwright(capsys, "tag", str(IRON), *options)
    assert ran.code == 2
    assert words in ran.err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("command", ["tag", "sheet"])
def test_letters_without_a_sign_are_said(tmp_path: Path, capsys: Capture, command: str) -> None:
    ticket = tmp_path / "ticket.toml"
    ticket.write_text(IRON.read_text(encoding="utf-8").replace("D. Pattern", "架空 Pattern"), encoding="utf-8")
    path = tmp_path / "paper.pdf"
    ran = clubwright(capsys, command, str(ticket), "--out", str(path))
    assert ran.code == 0, ran.err
    assert "no sign for 架 (U+67B6), 空 (U+7A7A)" in ran.out
    said = clubwright(capsys, command, str(ticket), "--out", str(path), "--json").body()
    assert [item["severity"] for item in said["findings"]] == ["note"]

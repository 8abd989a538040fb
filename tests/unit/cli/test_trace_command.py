"""The command on a recorded oscillation: what a clubmaker sees, what a program gets, what is kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchwork import Clock, session_on
from cli_runs import clubwright
from clubwright.bootstrap import open_session
from clubwright.club.trace.record import Trace
from clubwright.journal.facts import ReadingTaken
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.shaft.tracing import cpm_text
from records import Swing, recorded
from shaftwork import DRY, IRON, dry_hz, iron

Capsys = pytest.CaptureFixture[str]
pytestmark = pytest.mark.usefixtures("played")
PAIR = recorded(Swing(5.04, 0.008), Swing(5.3, 0.008, 0.5))


def written(folder: Path, trace: Trace) -> str:
    path = folder / "swing.csv"
    path.write_text("strain\n" + "".join(f"{value:.6f}\n" for value in trace.values), encoding="utf-8")
    return str(path)


@pytest.mark.parametrize(
    ("frequency_hz", "sd_hz", "text"),
    [
        (5.04, 0.005, "302.40 cpm ± 0.30 cpm"),
        (5.04, 1e-9, "302.40 cpm ± 0.01 cpm"),
        (4.25, 0.02, "255.00 cpm ± 1.20 cpm"),
    ],
)
def test_a_frequency_as_it_is_typed(frequency_hz: float, sd_hz: float, text: str):
    assert cpm_text(frequency_hz, sd_hz) == text


def test_it_says_frequency_second_plane_and_decay(capsys: Capsys, tmp_path: Path):
    ran = clubwright(capsys, "trace", written(tmp_path, PAIR), "--rate", "250")
    assert (ran.code, ran.err) == (0, "")
    assert "frequency       302.4" in ran.out
    assert "second plane    318.0" in ran.out
    assert "50% as strong" in ran.out
    assert [line for line in ran.out.splitlines() if len(line) > 100] == []


def test_it_answers_a_program(capsys: Capsys, tmp_path: Path):
    body = clubwright(capsys, "trace", written(tmp_path, PAIR), "--rate", "250", "--json").body()
    assert body["frequency_hz"] == pytest.approx(5.04, abs=4 * body["frequency_sd_hz"])
    assert body["second"]["frequency_hz"] == pytest.approx(5.3, abs=4 * body["second"]["frequency_sd_hz"])
    assert body["text"].startswith("302.4")
    lone = clubwright(
        capsys, "trace", written(tmp_path, recorded(Swing(5.04, 0.008))), "--rate", "250", "--json"
    ).body()
    assert lone["second"] is None
    assert lone["findings"][0]["severity"] == "note"


def test_a_band_looks_elsewhere(capsys: Capsys, tmp_path: Path):
    path = written(tmp_path, recorded(Swing(5.04, 0.008), Swing(31.7, 0.004, 0.4), rate_hz=500))
    band = ["--lowest", "1000 cpm", "--highest", "2000 cpm"]
    body = clubwright(capsys, "trace", path, "--rate", "500", *band, "--json").body()
    assert body["frequency_hz"] == pytest.approx(31.7, abs=4 * body["frequency_sd_hz"])


def test_options_that_cannot_be_taken_are_told_at_once(capsys: Capsys, tmp_path: Path):
    path = written(tmp_path, PAIR)
    ran = clubwright(capsys, "trace", path, "--rate", "fast", "--lowest", "3")
    assert ran.code == 2
    assert [line.split(":")[0] for line in ran.err.splitlines()] == ["--rate", "--lowest", "trace"]
    ran = clubwright(capsys, "trace", path, "--lowest", "400 cpm", "--highest", "300 cpm")
    assert '"400 cpm" is not below "300 cpm"' in ran.err


def iron_workshop(folder: Path) -> str:
    with open_session(str(folder), by="Ann") as session:
        bench.take_ticket(session_on(session.ledger, Clock()), iron(), "iron.toml")
    return str(folder)


def test_a_record_in_another_clamp_is_kept_and_converted(capsys: Capsys, tmp_path: Path):
    shop, here_hz = iron_workshop(tmp_path / "shop"), dry_hz({**iron(), "shop": {"clamp": "2 1/2 in"}})
    path = written(tmp_path, recorded(Swing(here_hz, 0.008)))
    kept = ["--rate", "250", "--job", IRON, "--stage", DRY, "--clamp", "2 1/2 in", "--shop", shop]
    assert clubwright(capsys, "trace", path, *kept).code == 0
    with open_session(shop, by="Ann") as session:
        job = session.job(IRON)
        assert job.document["reading"][0]["clamp"] == "2 1/2 in"
        (judged,) = answer_job(job, session.now()).club_state.learned.judged
    assert judged.taken
    assert judged.expected == pytest.approx(here_hz, abs=0.01 / 60)
    assert clubwright(capsys, "trace", path, *kept[:-3], "30 in", "--shop", shop).code == 2


def test_a_record_is_kept_as_a_reading_with_its_second_plane(capsys: Capsys, tmp_path: Path):
    shop, here_hz = iron_workshop(tmp_path / "shop"), dry_hz(iron())
    path = written(tmp_path, recorded(Swing(here_hz, 0.008), Swing(1.03 * here_hz, 0.008, 0.5)))
    said = clubwright(capsys, "trace", path, "--rate", "250", "--json").body()
    kept = ["--rate", "250", "--job", IRON, "--stage", DRY, "--clamp", "5 in", "--shop", shop, "--key", "swing-1"]
    for _ in range(2):
        ran = clubwright(capsys, "trace", path, *kept)
        assert (ran.code, ran.err) == (0, "")
    with open_session(shop, by="Ann") as session:
        facts = session.ledger.facts(IRON)
        document = session.job(IRON).document
    reading = facts[1].what
    assert len(facts) == 2, "sent again, nothing is kept twice"
    assert isinstance(reading, ReadingTaken)
    assert (reading.quantity, reading.value, reading.stage) == ("frequency", said["text"], DRY)
    assert reading.instrument is None, "a recording is no gauge of the ticket"
    assert document["reading"][0]["second_plane"] == reading.second_plane == said["second"]["text"]
    believed = clubwright(capsys, "show", IRON, "--shop", shop, "--json").body()
    assert believed["fact"] is None
    shown = clubwright(capsys, "show", IRON, "--belief", "--shop", shop)
    assert "stiffness" in shown.out


def test_a_record_of_one_plane_keeps_one_fact_and_a_cut_ends_both(capsys: Capsys, tmp_path: Path):
    shop, here_hz = iron_workshop(tmp_path / "shop"), dry_hz(iron())
    where = ["--rate", "250", "--job", IRON, "--stage", DRY, "--shop", shop]
    lone = written(tmp_path, recorded(Swing(here_hz, 0.008)))
    assert clubwright(capsys, "trace", lone, *where).code == 0
    with open_session(shop, by="Ann") as session:
        assert "second_plane" not in session.job(IRON).document["reading"][0]
    pair = written(tmp_path, recorded(Swing(here_hz, 0.008), Swing(1.03 * here_hz, 0.008, 0.5)))
    assert clubwright(capsys, "trace", pair, *where).code == 0
    with open_session(shop, by="Ann") as session:
        assert "second_plane" in session.job(IRON).document["reading"][1]
        bench.trim_shaft(session, IRON, "tip", "2 1/2 in")
        assert all("before" in row for row in session.job(IRON).document["reading"]), "they were read of another club"
        assert answer_job(session.job(IRON), session.now()).club_state.present == ()

"""The command that simulates shops: when it fails, and what a power cut leaves of what was drawn for it."""

from __future__ import annotations

import os
import random
import sys
from collections import Counter
from pathlib import Path

import laws_of_joints
import msgspec
import pytest
import run
from calls import Call, Scene, on_the_job
from disk import Disk
from doing import VERBS
from hands import PHASES, Action, History, drawn
from playing import Report, play
from wreck import Wreck

EVERYTHING = Counter(dict.fromkeys((*run.WANTED, *run.WANTED_OF_MANY), 1))


def asked(monkeypatch: pytest.MonkeyPatch, seen: Counter[str], broken: dict[int, Report], *words: str) -> int:
    monkeypatch.setattr(run, "simulate", lambda seeds, workers, twice: (seen, broken))
    monkeypatch.setattr(sys, "argv", ["run.py", *words])
    return run.main()


def test_a_run_in_which_all_held_and_all_was_tried_is_good(monkeypatch: pytest.MonkeyPatch) -> None:
    assert asked(monkeypatch, EVERYTHING, {}, "--seeds", "200") == 0


@pytest.mark.parametrize("phase", PHASES)
def test_a_run_in_which_a_phase_stayed_unvisited_fails(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], phase: str
) -> None:
    assert asked(monkeypatch, EVERYTHING - Counter([f"cut {phase}"]), {}, "--seeds", "200") == 1
    assert f"Never came about, and had to: cut {phase}\n" in capsys.readouterr().out


def test_a_run_in_which_a_law_was_broken_fails_and_names_each_seed(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    report = Report(broken="a law: how", law="a law", seen=Counter(), said=(), digest="")
    monkeypatch.setattr(run, "told", lambda history, report, folder: [f"seed {history.seed}: {report.broken}"])
    assert asked(monkeypatch, EVERYTHING, dict.fromkeys((3, 5, 8, 13), report), "--out", str(tmp_path)) == 1
    said = capsys.readouterr().out
    assert "seed 3: a law: how\nseed 5: a law: how\nseed 8: a law: how\nMore seeds that break a law: 13\n" in said


def test_one_seed_need_not_have_tried_everything(monkeypatch: pytest.MonkeyPatch) -> None:
    assert asked(monkeypatch, Counter(), {}, "--seeds", "1", "--first", "17") == 0


def test_what_a_power_cut_leaves_by_chance_is_all_that_it_may_leave() -> None:
    """What was synced is always there; what was not is there, or is not; a name that was not synced may be the old one."""
    disk = Disk({"kept": b"kept"})
    disk.write(0, 0, b"KEPT")
    disk.sync(0)
    disk.write(0, 4, b" more")
    file = disk.make("journal")
    disk.write(file, 0, b"old")
    disk.sync(file)
    disk.sync_folder()
    disk.unlink("journal")
    left = [Wreck(disk, len(disk.log)).drawn(random.Random(seed)) for seed in range(60)]
    assert {content["kept"] for content in left} == {b"KEPT", b"KEPT more"}
    assert {content.get("journal") for content in left} == {b"old", None}


def test_a_history_tells_what_befalls_whom() -> None:
    befallen = Counter[str]()
    for seed in range(60):
        for action in drawn(seed).actions:
            befallen[action.second_tap] += 1
            befallen["meanwhile"] += action.meanwhile is not None
            befallen["full"] += action.room is not None
    assert min(befallen[what] for what in ("same key", "other key", "meanwhile", "full")) > 60


def test_what_is_raised_in_a_seed_is_a_law_that_it_breaks_and_is_shortened(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Of the simulation's own laws too: a run goes on, and keeps the shortest history."""

    def raises(*_: object) -> None:
        raise KeyError("loft")

    monkeypatch.setattr(laws_of_joints, "the_mix_was_sound", raises)
    report = run.played(17)
    assert report.law == "no exception: KeyError in test_run.py, raises"
    assert report.broken.startswith(f"{report.law}: 'loft' (line ")
    said = run.told(drawn(17), report, tmp_path)
    assert len(msgspec.json.decode((tmp_path / "simulated-17.json").read_bytes(), type=History).actions) <= 2
    assert any(line.startswith(f"  BROKEN {report.law}") for line in said)


def test_what_somebody_breaks_in_between_is_told_as_the_law_that_it_breaks(monkeypatch: pytest.MonkeyPatch) -> None:
    def undo(at: Scene) -> Call:
        return on_the_job(at, "undo", lambda *_, **__: {}["figure"])

    other = Action(do="undo", key="other", hand=1, wait_min=0)
    busy = Action(do="next", key="next", meanwhile=other, when="look")
    take = Action(do="take", key="take")
    monkeypatch.setitem(VERBS, "undo", msgspec.structs.replace(VERBS["undo"], call=undo))
    report = play(History(seed=0, benches=1, actions=(take, busy)))
    assert report.broken.startswith("no exception: KeyError in test_run.py, <lambda>: undo on T-1")


def test_a_long_run_changes_its_workers_and_reports_each_seed_in_order(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run, "STRETCH", 4)
    found = list(run.reported(worker_of, range(18), 2))
    assert [seed for seed, _ in found] == list(range(18))
    workers = [{found[seed][1] for seed in range(start, min(start + 8, 18))} for start in (0, 8, 16)]
    assert not (workers[0] & workers[1] or workers[1] & workers[2] or workers[0] & workers[2])


def worker_of(seed: int) -> tuple[int, int]:
    return seed, os.getpid()

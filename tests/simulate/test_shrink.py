"""A history that breaks a law is shortened to what it takes, and what was kept of it plays again."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
import run
from faults import FAULTS
from hands import PHASES, Action, History, PowerCut, drawn
from playing import play
from shrink import shortest


def history(*verbs: str) -> History:
    actions = tuple(Action(do=verb, key=f"key-{number}") for number, verb in enumerate(verbs))
    return History(seed=0, benches=1, actions=actions)


def test_only_what_it_takes_is_left() -> None:
    whole = history(*["look"] * 17, "take", *["look"] * 20, "undo", *["look"] * 9)
    plays = []

    def breaks(shorter: History) -> bool:
        plays.append(shorter)
        verbs = [action.do for action in shorter.actions]
        return "take" in verbs and "undo" in verbs[verbs.index("take") :]

    assert [action.do for action in shortest(whole, breaks).actions] == ["take", "undo"]
    assert len(plays) < 100


def test_what_befalls_an_action_is_left_out_too() -> None:
    other = Action(do="undo", key="other")
    cut = PowerCut(PHASES[0], 3, again=True, resend=True)
    busy = Action(do="take", key="key", pick=9, meanwhile=other, second_tap="same key", room=600, cut=cut)
    whole = History(seed=0, benches=1, actions=(busy,))
    found = shortest(whole, lambda shorter: shorter.actions[0].cut is not None)
    assert found.actions == (Action(do="take", key="key", pick=9, wait_min=5, cut=PowerCut(PHASES[0], 3)),)


def test_it_ends_after_so_many_plays() -> None:
    plays = []

    def breaks(shorter: History) -> bool:
        plays.append(shorter)
        return len(shorter.actions) > 40

    assert len(shortest(history(*["look"] * 50), breaks, most_plays=7).actions) > 40
    assert len(plays) == 7


def test_a_failing_seed_prints_its_shortest_history_and_keeps_it_for_a_replay(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.MonkeyPatch.context() as patch:
        fault = FAULTS["a second tap that is not known again"]
        fault.plant(patch)
        seeds = range(fault.first, fault.first + fault.within)
        seed = next(seed for seed in seeds if play(drawn(seed)).broken)
        said = "\n".join(run.told(drawn(seed), play(drawn(seed)), tmp_path))
        file = tmp_path / f"simulated-{seed}.json"
        short = msgspec.json.decode(file.read_bytes(), type=History)
        assert len(short.actions) <= 5
        assert f"make simulate REPLAY={file}" in said
        assert "BROKEN one tap, one fact" in said
        assert run.replay(file) == 1
        assert "one tap, one fact" in capsys.readouterr().out
    assert run.replay(file) == 0
    assert "Every law holds." in capsys.readouterr().out

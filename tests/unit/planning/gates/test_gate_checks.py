"""A gate is the list of the checks that were made, and says no more than them."""

from __future__ import annotations

import tomllib
from typing import Any, get_args

import pytest

from benchwork import JOB, Clock, document, gates, run_to, worked
from clubwright.errors import GateClosed
from clubwright.planning.gates.types import CHECKS, CheckKey, Gate, met, unmet
from clubwright.services.actions import bench
from clubwright.services.answer.club_answer import work_document
from clubwright.services.record.session import Session
from clubwright.words.say import say
from repository import ROOT

WEDGE = (ROOT / "examples" / "wedge-50.toml").read_text(encoding="utf-8")
ON_SQLITE = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)


def wedge(**without: tuple[str, ...]) -> dict[str, Any]:
    """Return the example wedge without some keys of its tables."""
    found = tomllib.loads(WEDGE)
    found["grip"] |= {"core": "60"}
    found["shaft"] |= {"butt_diameter": "0.600 in"}
    for section, keys in without.items():
        for key in keys:
            del found[section][key]
    return found


def gate(name: str, **without: tuple[str, ...]) -> Gate:
    return next(item for item in work_document(wedge(**without)).gates if item.step == name)


def names(found: Gate) -> list[str]:
    return [check.key for check in found.checks]


def test_every_check_has_a_name() -> None:
    assert set(CHECKS) == set(get_args(CheckKey))


@pytest.mark.parametrize(
    ("name", "section", "key", "check"),
    [
        ("glue", "grip", "core", "grip core"),
        ("glue", "target", "loft", "loft"),
        ("glue", "target", "swing_weight", "dry reading"),
        ("cut", "shaft", "raw_length", "shaft"),
        ("cut", "target", "lie", "bends"),
    ],
)
def test_what_is_not_known_is_not_said_to_be_checked(name: str, section: str, key: str, check: CheckKey) -> None:
    with_it, without = gate(name), gate(name, **{section: (key,)})
    assert with_it.open and without.open, say(without.why, None)
    assert check in names(with_it) and CHECKS[check] in say(with_it.why, None)
    assert check not in names(without) and CHECKS[check] not in say(without.why, None)


def test_an_open_gate_names_its_checks_and_each_has_its_figures() -> None:
    for name in ("cut", "glue"):
        found = gate(name)
        assert say(found.why, None) == "checked: " + ", ".join(check.name for check in found.checks)
        assert all(say(check.said, None) for check in found.checks), found


def test_a_hand_that_nobody_looked_at_keeps_the_glue_shut_and_says_how_to_mend_it() -> None:
    found = gate("glue", head=("hand",))
    assert not found.open
    assert say(found.why, None) == (
        'nobody has looked at the hand of the head: look at it, and write [head] hand = "right" only if it is'
    )


def test_a_shaft_that_is_not_cut_keeps_the_glue_shut() -> None:
    uncut = wedge(shaft=("cut_length",))
    uncut["reading"] = []
    found = next(item for item in work_document(uncut).gates if item.step == "glue")
    assert any("the shaft is not cut to length: cut it" in say(reason, None) for reason in found.reasons)


def test_a_closed_gate_says_every_reason_and_nothing_that_is_met() -> None:
    found = Gate(
        step="glue",
        checks=(met("hand", ("", "right")), unmet("mix", "off its ratio", "mix anew"), unmet("chance", "too small")),
    )
    assert say(found.why, None) == "off its ratio: mix anew; too small"
    assert not found.open


@ON_SQLITE
@pytest.mark.usefixtures("played")
def test_the_record_adds_the_checks_that_only_it_can_make(session: Session, clock: Clock) -> None:
    run_to(session, clock, "mix")
    glue = next(item for item in worked(session).gates if item.step == "glue")
    assert {check.key: say(check.said, None) for check in glue.checks if check.key in ("pull", "mix")} == {
        "pull": "",
        "mix": "4.0 g + 2.0 g",
    }
    signed = bench.sign_gate(session, JOB, "glue").what
    kept = next(item for item in signed.shown["answer"]["gates"] if item["step"] == "glue")  # type: ignore[union-attr]
    assert [check["key"] for check in kept["checks"]] == [check.key for check in glue.checks], "what was signed for"


@ON_SQLITE
def test_the_head_of_a_ticket_that_says_no_hand_is_not_glued(session: Session) -> None:
    bench.take_ticket(session, document(), "t.toml")
    assert not gates(session)["glue"]
    with pytest.raises(GateClosed, match=r"look at it, and write \[head\] hand"):
        bench.sign_gate(session, JOB, "glue")


@ON_SQLITE
@pytest.mark.usefixtures("played")
def test_nothing_is_glued_without_a_mix(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign glue")
    mix = next(line.sequence for line in session.job(JOB).trail if line.kind == "adhesive mixed")
    bench.undo(session, JOB, mix, "another cup")
    assert gates(session)["glue"], "the gate is opened before the cup is mixed: the cup does not wait"
    with pytest.raises(GateClosed, match="no adhesive is mixed for this joint: Weigh both parts"):
        bench.glue(session, JOB, "22 C")
    assert session.job(JOB).glued_at is None
    bench.mix_adhesive(session, JOB, "4.0 g", "2.0 g", "22 C", "lot 7")
    bench.glue(session, JOB, "22 C")

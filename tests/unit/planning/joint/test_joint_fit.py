"""Does the tip fit the bore: the gate, its mends, a shim, a reamed bore, a cracked hosel, and another head."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from benchwork import JOB, Clock, document, gates, run_to, worked
from cli_runs import clubwright, workshop
from clubwright.errors import GateClosed, InputError, StepNotReady
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.planning.gates.types import Check, Gate
from clubwright.services.actions import bench
from clubwright.services.answer.club_answer import work_document
from clubwright.services.record.session import Session
from clubwright.services.report.build_again import make_again
from clubwright.ticket.duplicate import same_order
from clubwright.ticket.read import read_ticket
from clubwright.words.say import say
from repository import ROOT

ON_SQLITE = pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True)
ANOTHER: dict[str, Any] = {"another": True, "said_by": "Ann", "reason": "the hosel was cracked"}
PLAYED = pytest.mark.usefixtures("played")


def wedge(tip: str | None, bore: str | None, **more: dict[str, str]) -> dict[str, Any]:
    found = tomllib.loads((ROOT / "examples" / "wedge-50.toml").read_text(encoding="utf-8"))
    for section, key, value in (("shaft", "tip_diameter", tip), ("head", "bore_diameter", bore)):
        del found[section][key]
        if value is not None:
            found[section][key] = value
    for section, values in more.items():
        found[section] = {**found.get(section, {}), **values}
    return found


def glue(found: dict[str, Any]) -> Gate:
    return next(gate for gate in work_document(found).gates if gate.step == "glue")


def fit(found: dict[str, Any]) -> list[Check]:
    return [check for check in glue(found).checks if check.key == "fit"]


def reasons(found: dict[str, Any]) -> str:
    gate = glue(found)
    assert not gate.open
    return say(gate.why, None)


def test_a_tip_that_fits_opens_the_gate_and_shows_its_figures() -> None:
    gate = glue(wedge("0.355 in", "0.359 in"))
    assert gate.open
    (check,) = fit(wedge("0.355 in", "0.359 in"))
    assert (
        say(check.said, None)
        == "tip 0.3550 in (9.017 mm), bore 0.3590 in (9.119 mm), bond line a side 0.0020 in (0.051 mm)"
    )


@pytest.mark.parametrize(
    ("tip", "bore", "said"),
    [
        (None, "0.359 in", ["the tip is not measured", "write [shaft] tip_diameter"]),
        ("0.355 in", None, ["the bore's diameter is not measured", "write [head] bore_diameter"]),
        (None, None, ["the tip is not measured", "the bore's diameter is not measured"]),
    ],
)
def test_what_is_not_measured_keeps_the_gate_shut(tip: str | None, bore: str | None, said: list[str]) -> None:
    assert [part for part in said if part not in reasons(wedge(tip, bore))] == []


def test_a_small_tip_in_a_wide_bore_is_refused_with_every_mend() -> None:
    """.335 in .370: 17.5 mil a side. A shim takes up (35 - 20 + 2.24) / 2 = 8.6 to (35 - 2.24) / 2 = 16.4 mil a side."""
    said = reasons(wedge("0.335 in", "0.370 in"))
    assert "leaves a bond line of 0.0175 in (0.445 mm) a side, and 0.0050 in (0.127 mm) is the most" in said
    assert "take the right shaft, a shim over the full glued length" in said
    assert "its wall 0.0086 in (0.219 mm) to 0.0164 in (0.416 mm)" in said
    assert "or another head" in said


@pytest.mark.parametrize(("wall", "is_open"), [("0.010 in", True), ("0.005 in", False), ("0.020 in", False)])
def test_a_shim_takes_up_the_clearance_where_it_is_of_the_right_wall(wall: str, is_open: bool) -> None:
    found = wedge("0.335 in", "0.370 in", shim={"name": "brass", "thickness": wall})
    assert glue(found).open is is_open
    if wall == "0.020 in":
        assert "the shim of 0.0200 in (0.508 mm) is too thick" in reasons(found)
    if wall == "0.005 in":
        assert "with this shim leaves a bond line of" in reasons(found)


def test_a_tip_that_is_too_big_is_never_driven_in() -> None:
    said = reasons(wedge("0.370 in", "0.355 in"))
    assert "is too big for a bore of 0.3550 in" in said
    assert "never drive it in" in said and "reamed only where the head's maker" in said


def test_callipers_that_cannot_tell_keep_the_gate_shut_and_finer_gauges_open_it() -> None:
    """2 mil of clearance is less than twice u = sqrt(0.5^2 + 1^2) = 1.12 mil; plug gauge and micrometer leave no doubt."""
    coarse, fine = wedge("0.355 in", "0.357 in"), wedge("0.3550 in ± 0.0001 in", "0.3570 in ± 0.0003 in")
    assert "cannot be told from one outside" in reasons(coarse)
    assert "measure the bore with plug gauges and the tip with a micrometer" in reasons(coarse)
    assert glue(fine).open
    assert glue(wedge("0.355 in", "0.357 in", shop={"decision_rule": "simple"})).open, "the shop's own rule"


def test_the_data_sheet_of_the_adhesive_wins_over_the_default() -> None:
    sheet = {"bond_line_min": "0.004 in", "bond_line_max": "0.012 in"}
    thick = wedge("0.355 in", "0.371 in", adhesive=sheet)
    assert glue(thick).open
    thin = reasons(wedge("0.355 in", "0.359 in", adhesive=sheet))
    assert "0.0080 in (0.203 mm) is the least (data sheet)" in thin


def test_limits_that_are_the_wrong_way_round_are_refused_with_the_ticket() -> None:
    found = wedge("0.355 in", "0.359 in", adhesive={"bond_line_min": "0.006 in", "bond_line_max": "0.002 in"})
    ticket, findings = read_ticket(found, "t.toml")
    assert ticket is None
    assert any("bond_line_max" in str(item.where) and "data sheet" in item.mend for item in findings)


def test_a_cracked_hosel_shuts_both_gates_and_is_said_for_every_work() -> None:
    found = wedge("0.355 in", "0.359 in", head={"hosel": "cracked"})
    assert "the hosel is cracked, and such a head can fly off: it is out: mark it" in reasons(found)
    release = next(gate for gate in work_document(found).gates if gate.step == "release")
    assert any("cracked" in say(reason, None) for reason in release.reasons)
    regrip = tomllib.loads((ROOT / "examples" / "regrip.toml").read_text(encoding="utf-8"))
    regrip["head"] = {**regrip.get("head", {}), "hosel": "cracked"}
    assert [item.severity for item in work_document(regrip).findings if "cracked" in item.what] == ["warning"]


@ON_SQLITE
@PLAYED
def test_a_misfit_is_not_dry_fitted_not_signed_for_and_not_glued(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign glue")
    bench.change_part(session, JOB, "head", {"bore_diameter": "0.370 in"})
    with pytest.raises(StepNotReady, match=r"tip in bore: a tip of 0\.3550 in"):
        bench.do_step(session, JOB, "dry fit")
    for act in (lambda: bench.sign_gate(session, JOB, "glue"), lambda: bench.glue(session, JOB, "22 C")):
        with pytest.raises(GateClosed, match="take the right shaft, a shim"):
            act()
    bench.change_part(session, JOB, "shim", {"name": "brass sleeve", "thickness": "0.005 in"})
    bench.do_step(session, JOB, "dry fit")
    bench.glue(session, JOB, "22 C")


@ON_SQLITE
@PLAYED
def test_a_reamed_bore_is_measured_again_and_is_no_smaller(session: Session, clock: Clock) -> None:
    run_to(session, clock, "hand")
    count = len(session.ledger.facts())
    with pytest.raises(InputError, match="a bore that was reamed is not measured again"):
        bench.change_part(session, JOB, "head", {"bore_reamed": "yes"})
    with pytest.raises(InputError, match=r"reamed from 0\.359 in to 0\.350 in: a bore grows"):
        bench.change_part(session, JOB, "head", {"bore_reamed": "yes", "bore_diameter": "0.350 in"})
    assert len(session.ledger.facts()) == count
    bench.change_part(session, JOB, "head", {"bore_reamed": "yes", "bore_diameter": "0.360 in"})
    assert session.job(JOB).document["head"]["bore_diameter"] == "0.360 in"


@ON_SQLITE
@PLAYED
def test_a_crack_does_not_heal_and_another_head_is_measured_anew(session: Session, clock: Clock) -> None:
    run_to(session, clock, "sign release")
    bench.note_reading(session, JOB, "head.mass", "296.4 g", stage="bare shaft", weights=[])
    glued = session.job(JOB).glued_at
    bench.change_part(session, JOB, "head", {"hosel": "cracked"})
    cracked = [item.severity for item in worked(session).findings if "the hosel is cracked" in item.what]
    assert cracked == ["error"], "an alarm on the page of a club in work"
    with pytest.raises(GateClosed, match="the hosel is cracked"):
        bench.finish(session, JOB)
    for value in ("sound", ""):
        with pytest.raises(InputError, match="A crack does not heal: record another head"):
            bench.change_part(session, JOB, "head", {"hosel": value})
    with pytest.raises(InputError, match="it is in a joint that is closed"):
        bench.change_part(
            session,
            JOB,
            "head",
            {"mass": "297.1 g", "hosel": "sound"},
            another=True,
            said_by="Ann",
            reason="the hosel was cracked",
        )
    bench.pull_head(session, JOB, said_by="Ann", reason="the hosel is cracked", heat=True)
    fact = bench.change_part(
        session,
        JOB,
        "head",
        {"mass": "297.1 g", "hosel": "sound"},
        another=True,
        said_by="Ann",
        reason="the hosel was cracked",
    )
    assert fact.typed == "head: another head, mass 297.1 g, hosel sound; said by Ann: the hosel was cracked"
    job = session.job(JOB)
    assert job.document["head"] == {"mass": "297.1 g", "hosel": "sound", "gauges": {"mass": "gram scale"}}
    assert (job.glued_at, job.mixes, job.head_was, job.gates_signed) == (None, (), {}, {})
    assert not {"pull", "head check", "bore to ground", "glue", "cure", "loft and lie"} & set(job.steps_done)
    assert {"mark and cut", "grip"} <= set(job.steps_done), "the shaft is still the one that was cut"
    now = {entry.quantity for entry in worked(session).club_state.present_entries}
    assert not {"swing_weight", "loft", "head.mass"} & now, "they were read of the old head"
    assert all("before" in row for row in job.document["reading"])
    assert [row["fitted"] for row in job.document["weight"] if "fitted" in row] == ["0"] * 5, (
        "they were in the old head"
    )
    closed = next(gate for gate in worked(session).gates if gate.step == "glue")
    assert {"hand", "loft", "fit"} <= {check.key for check in closed.checks if not check.met}
    bench.undo(session, JOB)
    assert session.job(JOB).document["head"]["hosel"] == "cracked"
    bench.undo(session, JOB, session.job(JOB).last_standing_line().sequence)
    assert session.job(JOB).glued_at == glued, "it was not pulled"


@ON_SQLITE
@PLAYED
def test_another_shaft_has_no_cut_and_another_table_is_refused(session: Session, clock: Clock) -> None:
    run_to(session, clock, "cut")
    bench.change_part(
        session,
        JOB,
        "shaft",
        {"raw_length": "37 in", "mass": "124.8 g", "tip": "taper"},
        another=True,
        said_by="Ann",
        reason="the hosel was cracked",
    )
    job = session.job(JOB)
    assert "cut_length" not in job.document["shaft"]
    assert "mark and cut" not in job.steps_done
    assert not gates(session)["glue"]
    with pytest.raises(InputError, match="another one of it is not told apart"):
        bench.change_part(session, JOB, "tape", {"name": "x"}, **ANOTHER)


@ON_SQLITE
@PLAYED
def test_what_was_measured_of_one_joint_is_not_carried_to_the_next_club(session: Session, clock: Clock) -> None:
    run_to(session, clock, "done tag")
    job = session.job(JOB)
    job.document["shim"] = {"thickness": "0.005 in"}
    for new in (make_again(job, worked(session), "T-2"), same_order(job.document, "T-2")):
        assert "shim" not in new
        assert "bore_diameter" not in new.get("head", {}) and "tip_diameter" not in new.get("shaft", {})


@ON_SQLITE
def test_the_sheet_shows_tip_bore_and_bond_line(session: Session) -> None:
    bench.take_ticket(session, document(), "t.toml")
    sheet = sheet_data(worked(session), session.job(JOB), "2026-03-02")
    assert "bond line a side, fits: 0.0020 in (0.051 mm)" in sheet.adhesive
    assert any("bore diameter 0.359 in" in part.text for part in sheet.parts if part.part == "head")
    assert any("tip diameter 0.355 in" in part.text for part in sheet.parts if part.part == "shaft")


@PLAYED
def test_the_command_line_keeps_fit_crack_and_another_head(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    shop = workshop(tmp_path / "shop", "hand")

    def run(*words: str) -> Any:
        return clubwright(capsys, *words, "--shop", shop, "--by", "Ann")

    assert run("measure", JOB, "shaft", "tip_diameter=0.340 in").code == 0
    refused = run("done", JOB, "dry fit")
    assert refused.code == 1
    assert "a shim over the full glued length" in refused.err
    assert run("measure", JOB, "head", "hosel=cracked").code == 0
    assert run("measure", JOB, "head", "hosel=sound").code == 2
    unsaid = run("measure", JOB, "head", "--another", "mass=297.1 g")
    assert unsaid.code == 2
    assert "who said so: nobody is named" in unsaid.err and "why it is changed: nothing was typed" in unsaid.err
    said = ("--said-by", "Ben", "--reason", "it is cracked")
    assert run("measure", JOB, "head", "mass=297.1 g", *said).code == 2, "the same head is only measured"
    again = run("measure", JOB, "head", "--another", "mass=297.1 g", *said)
    assert (again.code, again.err) == (0, "")
    assert "head: another head, mass 297.1 g; said by Ben: it is cracked" in again.out
    assert run("measure", JOB, "grip").code == 2, "nothing to change"

"""Tip trims before the cut: what the sheet allows, what each does, and what is never planned."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import tomlkit

from clubwright.cli.main import run
from clubwright.errors import NotPossible, StepNotReady
from clubwright.journal.facts import StepDone
from clubwright.planning.advice.advice import advice_of
from clubwright.planning.advice.trim_planner import TrimPlan, trim_plan_of
from clubwright.planning.club_state import ClubState, club_state_of
from clubwright.planning.set_slope import SetClub, set_slope
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.report.build_again import make_again
from clubwright.ticket.duplicate import same_order
from clubwright.ticket.read import read_ticket
from clubwright.words.advice import say_advice
from clubwright.words.step import StepWords, say_steps

IN = 0.0254
TUBE: dict[str, Any] = {
    "kind": "tube", "butt": "0.600 in", "tip": "0.370 in", "wall_butt": "0.016 in", "wall_tip": "0.020 in", "steps": "15",
    "butt_parallel": "6 in", "tip_parallel": "10 in",
}  # fmt: skip


def document(**changes: Any) -> dict[str, Any]:
    """An invented 5-iron before the cut, its stiffness well known; a dotted change names a table and a key."""
    found: dict[str, Any] = {
        "ticket": {"id": "T-0005", "kind": "iron", "hand": "right"},
        "target": {"length": "38 in", "swing_weight": "D3", "frequency": "325 cpm"},
        "head": {
            "mass": "256 g", "bore_to_ground": "1 in", "bore_depth": "1.25 in", "cg_from_ground": "-3 mm ± 1 mm",
            "cg_off_axis": "37 mm",
        },
        "shaft": {
            "tip": "parallel", "raw_length": "41 in", "mass": "126 g", "balance_from_tip": "21 in", "tip_trim": "1/2 in",
            "tip_trim_limit": "2 in", "stiffness": TUBE, "stiffness_factor": "1 ± 0.004",
        },
        "grip": {"mass": "50 g", "cap": "1/8 in"},
        "weight": [{"name": f"tip {n}", "mass": f"{n} g", "seat": "tip"} for n in (2, 4)],
    }  # fmt: skip
    for path, value in changes.items():
        table, key = path.split("__")
        if value is None:
            found[table].pop(key)
        else:
            found.setdefault(table, {})[key] = value
    return found


def club_state(**changes: Any) -> ClubState:
    ticket, findings = read_ticket(document(**changes))
    assert ticket is not None, [finding.sentence() for finding in findings]
    return club_state_of(ticket)


def trims(plan: TrimPlan) -> list[float]:
    return [round(option.tip_trim_m / IN, 6) for option in plan.options]


def quarters(plan: TrimPlan) -> list[float]:
    """The trims that lie whole quarters from the ticket's own."""
    own = plan.as_ticket.tip_trim_m / IN
    return [trim for trim in trims(plan) if abs((trim - own) * 4 - round((trim - own) * 4)) < 1e-5]


def test_trims_run_from_the_tickets_own_to_the_sheets_limit_by_quarter_inches() -> None:
    plan = trim_plan_of(club_state())
    assert quarters(plan) == [0.5, 0.75, 1.0, 1.25, 1.5, 1.75, 2.0]
    assert plan.limit_m == pytest.approx(2 * IN)
    assert plan.keys == ("swing_weight", "frequency")
    assert "does not come back" in plan.irreversible
    for option in plan.options:
        # raw length = tip trim + shaft length + butt cut, with the length as ordered
        assert option.butt_cut_m == pytest.approx(41 * IN - option.tip_trim_m - (38 - 1 - 0.125) * IN, abs=1e-12)
        assert option.finished["length"][0] == pytest.approx(38 * IN, abs=1e-12)


def test_more_off_the_tip_makes_the_club_stiffer_and_the_plan_finds_the_closest() -> None:
    plan = trim_plan_of(club_state())
    heard = [60 * option.finished["frequency"][0] for option in plan.options]
    assert heard == sorted(heard)
    # an independent calculation of a like club gives 8.0 to 8.9 cpm per inch; the plain tip of this one is shorter
    assert 6.5 < (heard[-1] - heard[0]) / 1.5 < 9.5
    assert abs(60 * plan.chosen.finished["frequency"][0] - 325) == min(abs(each - 325) for each in heard)
    assert plan.chosen.chance == pytest.approx(max(option.chance for option in plan.options), abs=0.005)
    assert plan.chosen.of_frequency is not None
    assert plan.chosen.chance <= plan.chosen.of_frequency


def test_an_option_reads_what_a_ticket_with_that_trim_would() -> None:
    option = next(one for one in trim_plan_of(club_state()).options if abs(one.tip_trim_m / IN - 1.25) < 1e-6)
    other = club_state(shaft__tip_trim="1 1/4 in")
    prediction = other.predict(list(option.finished), fitted=_row(option.counts))
    for place, (mean, sd) in enumerate(option.finished.values()):
        assert mean == pytest.approx(float(prediction.mean[0, place]), rel=1e-9)
        assert sd == pytest.approx(float(prediction.sd()[0, place]), rel=1e-6)


def _row(counts: tuple[float, ...]) -> Any:
    import numpy as np

    return np.array([counts])


def test_a_ticket_without_a_trim_starts_from_none() -> None:
    plan = trim_plan_of(club_state(shaft__tip_trim=None))
    assert plan.options[0].tip_trim_m == 0
    assert len(quarters(plan)) == 9


def test_before_anything_is_off_the_tip_softer_trims_are_planned_too() -> None:
    plan = trim_plan_of(club_state(shaft__tip_trimmed="no"))
    assert quarters(plan) == [
        0, 0.25, 0.5, 0.75, 1.0, 1.25, 1.5, 1.75, 2.0,
    ]  # fmt: skip
    assert plan.as_ticket.tip_trim_m == pytest.approx(0.5 * IN)
    heard = [60 * option.finished["frequency"][0] for option in plan.options]
    assert heard == sorted(heard)
    bare = club_state(shaft__tip_trim=None).predict(["frequency"], fitted=_row(plan.options[0].counts))
    assert plan.options[0].finished["frequency"][0] == pytest.approx(float(bare.mean[0, 0]), rel=1e-9)
    odd = trim_plan_of(club_state(shaft__tip_trimmed="no", shaft__tip_trim="1 3/8 in"))
    assert quarters(odd) == [
        0.375,
        0.625,
        0.875,
        1.125,
        1.375,
        1.625,
        1.875,
    ]


@pytest.mark.parametrize("limit", ["1 3/16 in", "1.31 in", "4 1/8 in"])
def test_the_sheets_own_limit_is_offered(limit: str) -> None:
    plan = trim_plan_of(club_state(shaft__tip_trim_limit=limit, shaft__raw_length="44 in"))
    assert plan.options[-1].tip_trim_m == pytest.approx(plan.limit_m, abs=1e-9)
    assert trims(plan) == sorted(set(trims(plan)))


def test_about_the_best_quarter_sixteenths_are_looked_at_and_halve_the_miss_twice() -> None:
    """Quarters are some 2.2 cpm apart: the best of them may miss by 1.1, the best sixteenth by a quarter of that."""
    plan = trim_plan_of(club_state())
    heard = {round(option.tip_trim_m / IN, 6): 60 * option.finished["frequency"][0] for option in plan.options}
    middle = (heard[0.75] + heard[1.0]) / 2
    plan = trim_plan_of(club_state(target__frequency=f"{middle:.2f} cpm"))
    miss = {
        trim: abs(60 * one.finished["frequency"][0] - middle)
        for trim, one in zip(trims(plan), plan.options, strict=True)
    }
    by_quarters = min(miss[trim] for trim in quarters(plan))
    assert by_quarters > 0.7
    assert min(miss.values()) < by_quarters / 4
    assert round(plan.chosen.tip_trim_m / IN, 6) not in quarters(plan)


def test_without_an_ordered_frequency_no_chance_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan = trim_plan_of(club_state(target__frequency=None))
    assert plan.keys == ("swing_weight",)
    assert trims(plan) == quarters(plan), "nothing is closer to anything"
    found = document(target__frequency=None)
    path = tmp_path / "t.toml"
    path.write_text(tomlkit.dumps(found), encoding="utf-8")
    code, out, _ = command(capsys, "trims", str(path))
    assert code == 0
    assert "%" not in out
    _, out, _ = command(capsys, "trims", str(path), "--json")
    assert {option["chance"] for option in json.loads(out)["options"]} == {None}


@pytest.mark.parametrize("said", ["yes", None])
def test_what_is_off_or_may_be_off_the_tip_is_never_put_back(said: str | None) -> None:
    changes = {} if said is None else {"shaft__tip_trimmed": said}
    assert trim_plan_of(club_state(**changes)).own == 0


def test_less_off_the_tip_is_advised_when_the_tickets_trim_is_too_stiff() -> None:
    soft = round(60 * trim_plan_of(club_state(shaft__tip_trim=None)).options[0].finished["frequency"][0])
    stiff = {"shaft__tip_trim": "1 in", "target__frequency": f"{soft} cpm"}
    said = next(item for item in advice_of(club_state(**stiff, shaft__tip_trimmed="no")) if item.kind == "trim")
    assert say_advice(said, None).do == "trim nothing off the tip"
    assert "cut the butt more" in say_advice(said, None).why
    assert said.irreversible
    assert not [item for item in advice_of(club_state(**stiff)) if item.kind == "trim"]


def test_the_record_knows_whether_the_tip_is_trimmed(session: Session) -> None:
    bench.take_ticket(session, document(head__hand="right"), "test")

    def least() -> float:
        return round(
            trim_plan_of(answer_job(session.job("T-0005"), session.now()).club_state).options[0].tip_trim_m / IN, 3
        )

    assert least() == 0
    with pytest.raises(StepNotReady, match="nothing is off the tip by the record"):
        bench.do_step(session, "T-0005", "tip trim")
    # as older versions wrote it: the step said done, and no fact of a trim
    said = StepDone(job="T-0005", step="tip trim")
    ticked = session.ledger.append("van", [said], by="Ann", at="2026-03-02T08:30:00.000Z", typed="done", key="old")[0]
    assert least() == 0.5, "done as planned"
    bench.undo(session, "T-0005", ticked.sequence)
    assert least() == 0
    bench.trim_shaft(session, "T-0005", "tip", "1/4 in")
    assert least() == 0.25
    assert session.job("T-0005").document["shaft"]["tip_trimmed"] == "yes"


def test_a_tip_that_the_ticket_says_is_trimmed_is_looked_at_and_what_more_comes_off_adds_up(session: Session) -> None:
    bench.take_ticket(session, document(head__hand="right", shaft__tip_trimmed="yes"), "test")

    def step() -> StepWords:
        steps = say_steps(answer_job(session.job("T-0005"), session.now()).steps, None)
        return next(item for item in steps if item.key == "tip trim")

    assert step().title == "Check the tip trim"
    assert any("cut nothing if it is" in text for text in step().what)
    bench.trim_shaft(session, "T-0005", "tip", "1/4 in")
    assert session.job("T-0005").document["shaft"]["tip_trim"] == "19.05 mm", "3/4 in"
    bench.do_step(session, "T-0005", "tip trim")
    assert (step().title, step().done) == ("Trim the tip", True)


def test_what_was_done_to_one_tip_is_not_done_to_the_next(session: Session) -> None:
    bench.take_ticket(session, document(head__hand="right"), "test")
    bench.trim_shaft(session, "T-0005", "tip", "3/4 in")
    job = session.job("T-0005")
    for new in (make_again(job, answer_job(job, session.now()), "T-0006"), same_order(job.document, "T-0006")):
        assert "tip_trimmed" not in new["shaft"]
    assert make_again(job, answer_job(job, session.now()), "T-0006")["shaft"]["tip_trim"] == "3/4 in", "as it was made"


def test_a_trim_that_leaves_the_shaft_too_short_is_not_offered() -> None:
    plan = trim_plan_of(club_state(shaft__raw_length="38 in"))
    assert quarters(plan) == [0.5, 0.75, 1.0]
    assert plan.options[-1].butt_cut_m >= 0


def test_without_a_target_frequency_no_trim_is_best() -> None:
    plan = trim_plan_of(club_state(target__frequency=None))
    assert plan.best == 0
    assert plan.options[0].of_frequency is None


REFUSED: dict[str, tuple[dict[str, Any], str]] = {
    "taper tip": ({"shaft__tip": "taper"}, "taper tip is never trimmed"),
    "taper tip without a limit": ({"shaft__tip": "taper", "shaft__tip_trim_limit": None}, "taper tip is never trimmed"),
    "no limit": ({"shaft__tip_trim_limit": None}, "does not say how much"),
    "cut": ({"shaft__cut_length": "36.9 in"}, "has its length already"),
    "a club that came so": ({"ticket__job": "regrip"}, "has its length already"),
    "no stiffness": ({"shaft__stiffness": None}, "needs ticket [shaft] stiffness"),
    "beyond the sheet": ({"shaft__tip_trim_limit": "1/4 in"}, "the sheet allows 1/4 in"),
    "no raw length": (
        {
            "shaft__raw_length": None,
            "shaft__stiffness": {"kind": "table", "at": ["0 in", "41 in"], "ei": ["30 N m2"] * 2},
        },
        "raw length",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_is_never_planned(case: str) -> None:
    changes, what = REFUSED[case]
    with pytest.raises(NotPossible) as refused:
        trim_plan_of(club_state(**changes))
    assert what in refused.value.what
    assert refused.value.instead


def test_a_trim_is_advised_where_it_helps_and_is_told_to_be_for_good() -> None:
    trims = [item for item in advice_of(club_state()) if item.kind == "trim"]
    (item,) = trims
    assert say_advice(item, None).do == "trim 1 1/16 in off the tip"
    assert item.irreversible
    assert item.weights == ()
    assert "cannot be taken back" in say_advice(item, None).why
    assert item.chance > max(other.chance for other in advice_of(club_state()) if other.kind in ("fit", "leave"))


@pytest.mark.parametrize(
    "changes",
    [
        {"target__frequency": "321 cpm"},  # the ticket's own trim is the best
        {"target__frequency": None},
        {"shaft__tip_trim_limit": None},
        {"shaft__tip": "taper"},
        {"shaft__cut_length": "36.875 in"},
    ],
)
def test_no_trim_is_advised_where_none_helps(changes: dict[str, Any]) -> None:
    assert not [item for item in advice_of(club_state(**changes)) if item.kind == "trim"]


def test_a_slope_needs_two_lengths() -> None:
    club = SetClub(name="7", length_m=0.94, frequency_hz=5.3, frequency_sd_hz=0.05)
    for clubs in ([], [club], [club, club]):
        with pytest.raises(NotPossible, match="different length"):
            set_slope(clubs)
    line = set_slope([club, SetClub(name="8", length_m=0.93, frequency_hz=5.4, frequency_sd_hz=0.05)])
    assert line.slope_hz_m == pytest.approx(-10.0)
    assert (line.slope_sd_hz_m, line.scatter_hz) == (None, None)
    assert line.residuals_hz == pytest.approx((0, 0), abs=1e-12)


def command(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    with pytest.raises(SystemExit) as left:
        run(list(arguments))
    said = capsys.readouterr()
    return int(left.value.code or 0), said.out, said.err


def test_the_command_trims(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "five.toml"
    file.write_text(tomlkit.dumps(document()))
    code, out, _ = command(capsys, "trims", str(file), "--json")
    answer = json.loads(out)
    assert code == 0
    assert answer["options"][answer["best"]]["tip_trim_m"] == pytest.approx(17 / 16 * IN)
    assert set(answer["options"][0]["finished"]) >= {"frequency", "swing_weight", "total_weight", "length", "moi"}
    code, out, _ = command(capsys, "trims", str(file))
    assert "best: trim 1 1/16 in off the tip" in out
    file.write_text(tomlkit.dumps(document(shaft__tip="taper")))
    code, out, err = command(capsys, "trims", str(file))
    assert code != 0
    assert "taper tip" in out + err


def test_the_command_slope(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    files = []
    for length, head, trim in (
        ("38 in", "256 g", "1/2 in"),
        ("37 in", "270 g", "1 1/2 in"),
        ("36 in", "284 g", "2 in"),
    ):
        file = tmp_path / f"{length[:2]}.toml"
        file.write_text(
            tomlkit.dumps(document(target__length=length, head__mass=head, shaft__tip_trim=trim, ticket__label=length))
        )
        files.append(str(file))
    code, out, _ = command(capsys, "slope", *files, "--json")
    answer = json.loads(out)
    assert code == 0
    assert [club["name"] for club in answer["clubs"]] == ["38 in", "37 in", "36 in"]
    assert answer["slope_hz_m"] < 0
    # each club is weighed by its doubt, and these differ a little in it
    assert sum(club["off_line_hz"] for club in answer["clubs"]) == pytest.approx(0, abs=1e-3)
    assert "for each inch shorter" in command(capsys, "slope", *files)[1]
    (tmp_path / "x.toml").write_text(tomlkit.dumps(document(shaft__stiffness=None)))
    code, out, err = command(capsys, "slope", files[0], str(tmp_path / "x.toml"))
    assert code == 2
    assert "no frequency is known of T-0005" in out + err

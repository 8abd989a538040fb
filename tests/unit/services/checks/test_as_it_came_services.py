"""A club that came in, in the record: the stage of a reading, what is refused, and what a cut or a bend leaves standing."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from benchwork import Clock, session_on
from clubwright.errors import InputError, StepNotReady
from clubwright.journal.facts import ReadingTaken, ShaftCut
from clubwright.services.actions import bench
from clubwright.services.answer.belief_table import belief_part
from clubwright.services.answer.club_answer import answer_document, work_document
from clubwright.services.checks.as_it_came import stage_now, stages_of
from clubwright.services.jobs.job_answer import JobAnswer, answer_job, with_plan
from clubwright.services.record.session import Session
from clubwright.services.report.build_again import make_again
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.ticket.duplicate import same_order
from clubwright.words.step import say_steps

JOB = "T-REGRIP"
EXAMPLES = Path(__file__).parents[4] / "examples"


def ticket(job: str = "regrip", **tables: Any) -> dict[str, Any]:
    return {
        "ticket": {"id": JOB, "kind": "iron", "hand": "right", "job": job, "note": "invented demo data"},
        "target": {"swing_weight": "D2", "total_weight": "440 g"},
        "head": {"mass": "262 g ± 3 g", "lie": "62 deg", "loft": "32 deg"},
        "grip": {"mass": "56.3 g", "cap": "1/8 in"},
        "tape": [{"name": "double-sided", "mass": "1.6 g"}],
        "weight": [{"name": "lead 2", "mass": "2 g", "seat": "head", "count": "2"}],
        **tables,
    }


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Session]:
    engine = open_engine(f"sqlite:///{tmp_path / 'record.sqlite'}")
    migrate(engine)
    yield session_on(Ledger(engine), Clock())
    engine.dispose()


def worked(session: Session) -> JobAnswer:
    return answer_job(session.job(JOB), session.now())


def stages_read(session: Session) -> list[tuple[str, str]]:
    return [(row["quantity"], row["stage"]) for row in session.job(JOB).document.get("reading", [])]


def present(session: Session) -> list[tuple[str, str]]:
    return [(entry.quantity, entry.stage) for entry in worked(session).club_state.present_entries]


def test_readings_of_a_regrip_fit_on_both_sides_of_it(shop: Session) -> None:
    """The whole job: what was read as it came is credited to the old grip, what is read after it to the new one."""
    bench.take_ticket(shop, ticket(), "ticket")
    for quantity, value in (("total_weight", "432.0 g"), ("swing_weight", "D3.0"), ("length", "37 in")):
        bench.note_reading(shop, JOB, quantity, value, stage="as it came")
    bench.change_part(shop, JOB, "old_grip", {"mass_with_tape": "50.5 g", "cap": "1/8 in"})
    bench.do_step(shop, JOB, "strip grip")
    bench.slide_grip(shop, JOB)
    found = worked(shop).club_state.predict(["total_weight", "swing_weight"])
    # 432.0 g less 50.5 g for the old grip and tape, 57.9 g for the new ones
    assert float(found.mean[0, 0]) == pytest.approx(0.4394, abs=2e-4)
    # The new grip is 7.4 g heavier, 14 in less 4.1 in from the fulcrum; one point is 1.75 in oz. Of what was read a little
    # is laid to the scale, which nobody checked (0.2 pt).
    assert float(found.mean[0, 1]) == pytest.approx(33.0 - 7.4 * 9.9 / (1.75 * 28.3495), abs=0.15)
    bench.note_reading(shop, JOB, "total_weight", "439.4 g")
    bench.note_reading(shop, JOB, "swing_weight", "D1.6")
    now = worked(shop)
    assert [item.taken for item in now.club_state.learned.judged] == [True] * 5
    assert set(now.inspected) == {"swing_weight", "total_weight"}, "only the finished club has verdicts"
    assert now.inspected["total_weight"].verdict == "within"


def test_the_finished_club_is_not_read_before_its_new_grip_is_on(shop: Session) -> None:
    bench.take_ticket(shop, ticket(), "ticket")
    facts = shop.ledger.count()
    for job_done in ([], ["strip grip"]):
        for step in job_done:
            bench.do_step(shop, JOB, step)
        with pytest.raises(InputError) as refused:
            bench.note_reading(shop, JOB, "swing_weight", "D3")
        (finding,) = refused.value.findings
        assert str(finding.where) == "stage"
        assert '--stage "as it came"' in finding.mend
        assert f"clubwright grip {JOB}" in finding.mend
    assert shop.ledger.count() == facts + 1, "nothing but the step was kept"
    bench.note_reading(shop, JOB, "swing_weight", "D3", stage="glued, no grip")
    bench.note_reading(shop, JOB, "grip.mass", "56.3 g")
    bench.slide_grip(shop, JOB)
    bench.note_reading(shop, JOB, "swing_weight", "D3")
    assert [stage for _, stage in stages_read(shop)] == ["glued, no grip", "finished", "finished"]


@pytest.mark.parametrize("job", ["weight", "loft-lie"])
def test_where_nothing_comes_off_the_finished_club_is_read_at_once(shop: Session, job: str) -> None:
    bench.take_ticket(shop, ticket(job), "ticket")
    bench.note_reading(shop, JOB, "swing_weight", "D3")
    bench.note_reading(shop, JOB, "swing_weight", "D3", stage="as it came")
    club_state = worked(shop).club_state
    assert club_state.prior.club.came is None
    assert all(item.taken for item in club_state.learned.judged)


def test_a_new_build_did_not_come_in() -> None:
    reading = [{"quantity": "swing_weight", "value": "D3", "stage": "as it came"}]
    errors = [f for f in answer_document(ticket("build", reading=reading))["findings"] if f["severity"] == "error"]
    assert [error["where"] for error in errors] == ["ticket [[reading]] 1 stage"]
    assert "as it came" not in answer_document(ticket("build"))["stages"]
    assert "as it came" in answer_document(ticket("regrip"))["stages"]


def test_readings_of_an_old_record_keep_their_stage(shop: Session) -> None:
    """Before there was such a stage, the first readings of a re-grip were kept as finished: they stay what they were."""
    bench.take_ticket(shop, ticket(), "ticket")
    what = ReadingTaken(job=JOB, quantity="swing_weight", value="D2.6", stage="finished", weights=[])
    shop.keep_all([what], ["swing_weight D2.6"], "old", shop.ledger.last(shop.site), ())
    assert stages_read(shop) == [("swing_weight", "finished")]
    assert worked(shop).club_state.learned.judged[0].reading.stage.name == "finished"
    bench.note_reading(shop, JOB, "total_weight", "433 g", stage="as it came")
    document = ticket(reading=[{"quantity": "swing_weight", "value": "D2.6", "stage": "finished"}])
    assert work_document(document).club_state.learned.judged[0].reading.stage.name == "finished"


def test_the_stage_of_now_follows_the_old_parts(shop: Session) -> None:
    bench.take_ticket(shop, ticket(), "ticket")
    assert stage_now(shop.job(JOB)) == "as it came"
    bench.change_part(shop, JOB, "head", {"hand": "right"})
    bench.do_step(shop, JOB, "pull")
    assert stage_now(shop.job(JOB)) == "as it came"
    stripped = bench.do_step(shop, JOB, "strip grip")
    assert stage_now(shop.job(JOB)) == "finished"
    bench.undo(shop, JOB, stripped.sequence)
    assert stage_now(shop.job(JOB)) == "as it came"


def test_a_page_offers_the_stages_of_its_work() -> None:
    offered = {job: stages_of(work_document(ticket(job)).club_state.ticket) for job in ("build", "regrip", "weight")}
    assert "as it came" not in offered["build"]
    assert offered["regrip"] == ("as it came", "glued, no grip", "finished")
    assert offered["weight"] == ("as it came", "finished")


def test_weights_that_were_on_when_it_came_are_not_those_fitted_since(shop: Session) -> None:
    bench.take_ticket(shop, ticket("weight"), "ticket")
    bench.note_reading(shop, JOB, "swing_weight", "D1", stage="as it came")
    bench.fit_weights(shop, JOB, ["lead 2"])
    bench.note_reading(shop, JOB, "total_weight", "430 g", stage="as it came")
    rows = shop.job(JOB).document["reading"]
    assert [row["weights"] for row in rows] == [[], []]
    bench.note_reading(shop, JOB, "total_weight", "432 g")
    assert shop.job(JOB).document["reading"][-1]["weights"] == ["lead 2"]


def test_a_reshaft_is_read_as_it_came_or_the_record_says_that_it_was_not(shop: Session) -> None:
    bench.take_ticket(shop, ticket("reshaft", shaft={"raw_length": "39 in", "mass": "120 g"}), "t.toml")
    bench.note_reading(shop, JOB, "swing_weight", "D1", stage="dry, gripped")
    with pytest.raises(StepNotReady, match="the club as it came was not read"):
        bench.do_step(shop, JOB, "as it came")
    bench.do_step(shop, JOB, "as it came", skipped="the head was off when it came in")
    bench.note_reading(shop, JOB, "total_weight", "440 g", stage="as it came")
    bench.do_step(shop, JOB, "as it came")
    assert shop.job(JOB).steps_skipped == {}


def test_weights_nobody_knows_of_are_asked_for(shop: Session) -> None:
    bench.take_ticket(shop, ticket("weight"), "ticket")
    bench.fit_weights(shop, JOB, ["lead 2"])
    with pytest.raises(InputError, match="nothing says which were on it"):
        bench.note_reading(shop, JOB, "swing_weight", "D1", stage="as it came")
    bench.note_reading(shop, JOB, "swing_weight", "D1", stage="as it came", weights=[])


def test_a_new_shaft_that_is_cut_leaves_what_was_read_of_the_old_one(shop: Session) -> None:
    document = ticket("reshaft", shaft={"raw_length": "39 in", "mass": "120 g"})
    document["target"]["length"] = "37 in"
    bench.take_ticket(shop, document, "ticket")
    bench.note_reading(shop, JOB, "total_weight", "431 g", stage="as it came")
    assert not worked(shop).club_state.ticket.is_cut, "the shaft that was read is not the one that will be cut"
    bench.note_reading(shop, JOB, "total_weight", "437 g", stage="dry, gripped")
    shop.keep_all([ShaftCut(job=JOB, cut_length="35.7 in")], ["cut"], "cut-key", shop.ledger.last(shop.site), ())
    assert present(shop) == [("total_weight", "as it came")]
    bench.bend_head(shop, JOB, lie="61 deg")
    assert present(shop) == [("total_weight", "as it came")]


def test_a_bend_takes_what_was_read_of_the_same_joint(shop: Session) -> None:
    bench.take_ticket(shop, ticket("loft-lie"), "ticket")
    bench.note_reading(shop, JOB, "lie", "62 deg", stage="as it came")
    bench.note_reading(shop, JOB, "length", "37 in", stage="as it came")
    bench.note_reading(shop, JOB, "total_weight", "437 g", stage="as it came")
    bench.bend_head(shop, JOB, lie="61 deg")
    assert present(shop) == [("total_weight", "as it came")]
    assert [item.taken for item in worked(shop).club_state.learned.judged] == [True, True, True]


def test_what_nobody_measured_of_an_old_part_is_kept_and_not_used() -> None:
    stiff = {"kind": "slope", "alpha": "0.09 N m2/mm", "from": "300 mm"}
    readings = [
        {"quantity": "grip_diameter_2in", "value": "0.900 in", "stage": "as it came"},
        {"quantity": "frequency", "value": "300 cpm", "stage": "as it came"},
        {"quantity": "old_grip.mass", "value": "51.0 g"},
    ]
    shaft = {"raw_length": "39 in", "mass": "120 g", "stiffness": stiff}
    found = work_document(ticket("reshaft", shaft=shaft, reading=readings))
    assert [item.reading.quantity for item in found.club_state.learned.judged] == ["came.grip.mass_kg"]
    unused = [item.what for item in found.findings if "is not used" in item.what]
    assert [text.split(":")[0] for text in unused] == [
        "the reading of grip_diameter_2in is not used",
        "the reading of frequency is not used",
    ]
    assert "frequency" not in found.answer()["stages"]["as it came"]
    # a re-grip keeps its shaft: the frequency as it came is one of that shaft
    same = work_document(ticket("regrip", shaft=shaft, reading=readings[1:2]))
    assert [item.reading.quantity for item in same.club_state.learned.judged] == ["frequency"]


def test_a_number_of_an_old_part_is_read_only_where_that_part_comes_off() -> None:
    reading = [{"quantity": "old_shaft.mass", "value": "104 g"}]
    assert len(work_document(ticket("reshaft", reading=reading)).club_state.learned.judged) == 1
    other = work_document(ticket("regrip", reading=reading))
    assert other.club_state.learned.judged == ()
    assert any("does not come off" in finding.what for finding in other.findings)


def weighed(**old_grip: str) -> dict[str, tuple[float, float]]:
    tapes = [{"name": "one", "mass": "2.0 g ± 0.1 g"}] if old_grip.pop("tape", "") else []
    belief = work_document(ticket(old_grip=old_grip, old_tape=tapes)).club_state.prior.belief
    names = [name for name in belief.names if name.startswith("came.") and name.endswith("mass_kg")]
    return {name: (belief.mean_of(name), belief.sd_of(name)) for name in names}


def test_what_was_weighed_together_is_taken_apart_as_far_as_it_is_known() -> None:
    assert weighed() == {"came.grip.mass_kg": (0.050, 0.006), "came.tapes.0.mass_kg": (0.0018, 0.0009)}
    (together,) = weighed(mass_with_tape="53.0 g ± 0.4 g").values()
    assert together == pytest.approx((0.053, 0.0004))
    both = weighed(mass="51.0 g ± 0.3 g", mass_with_tape="53.0 g ± 0.4 g")
    assert both["came.grip.mass_kg"] == pytest.approx((0.051, 0.0003))
    assert both["came.tapes.0.mass_kg"] == pytest.approx((0.002, 0.0005))
    tape = weighed(mass_with_tape="53.0 g ± 0.4 g", tape="yes")
    assert tape["came.tapes.0.mass_kg"] == pytest.approx((0.002, 0.0001))
    assert tape["came.grip.mass_kg"] == pytest.approx((0.051, (0.4e-3**2 + 0.1e-3**2) ** 0.5))


def test_figures_of_old_parts_that_cannot_be_are_refused() -> None:
    wrong = ticket(
        "reshaft",
        old_grip={"mass": "53 g", "mass_with_tape": "51 g", "length": "10 in", "cap": "1/8 in", "cg_from_cap": "11 in"},
        old_shaft={"length": "35 in", "balance_from_tip": "36 in"},
    )
    errors = [f for f in answer_document(wrong)["findings"] if f["severity"] == "error"]
    assert sorted(error["where"] for error in errors) == [
        "ticket [old_grip] cg_from_cap",
        "ticket [old_grip] mass_with_tape",
        "ticket [old_shaft] balance_from_tip",
    ]
    stays = answer_document(ticket("weight", old_grip={"mass": "51 g"}))["findings"]
    assert [f["where"] for f in stays if f["severity"] == "warning" and "not used" in f["what"]] == [
        "ticket [old_grip]"
    ]


def test_defaults_of_old_parts_are_announced_once_they_count() -> None:
    def said(**tables: Any) -> list[str]:
        found = work_document(ticket(**tables)).findings
        return [
            str(finding.where) for finding in found if "[old_" in str(finding.where) or "[[old_" in str(finding.where)
        ]

    assert said() == []
    read = [{"quantity": "total_weight", "value": "431 g", "stage": "as it came"}]
    assert "ticket [old_grip] mass" in said(reading=read)
    assert "ticket [old_grip] mass" not in said(reading=read, old_grip={"mass": "51 g"})


def test_old_parts_have_words_in_the_belief_and_in_a_misfit() -> None:
    words = {item["name"]: item["what"] for item in belief_part(work_document(ticket()).club_state)}
    assert words["came.grip.mass_kg"] == "old grip: weight"
    assert words["came.tapes.0.mass_kg"] == "old tape: weight"
    named = work_document(ticket(old_tape=[{"name": "thin", "mass": "1 g"}])).club_state
    assert {item["name"]: item["what"] for item in belief_part(named)}["came.tapes.0.mass_kg"] == "thin: weight"
    known = {"head": {"mass": "262 g"}, "shaft": {"mass": "115 g", "cut_length": "35.8 in"}}
    off = [{"quantity": "total_weight", "value": "460 g", "stage": "as it came"}]
    findings = work_document(ticket(**known, old_grip={"mass": "50 g"}, reading=off)).findings
    assert any("the old grip is" in finding.what for finding in findings)


def test_another_club_of_the_same_order_has_none_of_the_old_parts(shop: Session) -> None:
    document = tomllib.loads((EXAMPLES / "reshaft.toml").read_text(encoding="utf-8"))
    document["ticket"]["id"] = JOB
    old = {"old_grip", "old_tape", "old_shaft", "old_ferrule"}
    assert old <= set(document)
    assert old & set(same_order(document, "T-2")) == set()
    bench.take_ticket(shop, document, "reshaft.toml")
    assert old & set(make_again(shop.job(JOB), worked(shop), "T-3")) == set()


def test_the_plan_says_what_the_new_grip_changes() -> None:
    weighed_old = ticket(old_grip={"mass_with_tape": "50.5 g", "cap": "1/8 in", "cg_from_cap": "4.1 in"})
    weighed_old["grip"] |= {"cg_from_cap": "4.1 in"}
    weighed_old["tape"][0] |= {"cg_from_cap": "4.1 in"}
    step = next(
        item for item in say_steps(with_plan(work_document(weighed_old)).steps, None) if item.key == "strip grip"
    )
    numbers = dict(step.numbers)
    # one point is 1.75 in oz, the lever 14 in less 4.1 in: 1.75 x 28.35 / 9.9 grams
    assert numbers["a heavier grip lowers the swing weight: grams for one point"] == "5.0 g"
    change = numbers["new grip and tape against the old, on the swing weight"]
    assert change.startswith(f"{-7.4 * 9.9 / (1.75 * 28.3495):+.2f} pt ± ")
    assert numbers["and on the total weight"] == "+7.4 g ± 0.5 g"

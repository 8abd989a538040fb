"""Every number of every example has its why, with the same figure; what a budget says adds up; no entry without a number."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cache
from typing import Any

import numpy as np
import pytest

from benchwork import JOB, Clock, run_to
from clubwright.club.quantities import QUANTITIES
from clubwright.errors import InputError
from clubwright.importers.shop_file import load_shop
from clubwright.importers.ticket_file import load_ticket
from clubwright.services.answer.club_answer import work_document
from clubwright.services.answer.strips import strips_of
from clubwright.services.jobs.job_answer import JobAnswer, answer_job, with_plan
from clubwright.services.record.session import Session
from clubwright.services.why.find import why_keys, why_of
from clubwright.services.why.formulas.steps import GATES, STEPS
from clubwright.services.why.told import Why, main_rows
from clubwright.words.step import say_step
from repository import ROOT

EXAMPLES = sorted(path.name for path in (ROOT / "examples").glob("*.toml") if path.name != "shop.toml")
SETTINGS = load_shop(ROOT / "examples" / "shop.toml")


@cache
def example(name: str) -> JobAnswer:
    return with_plan(work_document(load_ticket(ROOT / "examples" / name), name, settings=SETTINGS))


@cache
def whys(name: str) -> dict[str, Why]:
    return {key: why_of(example(name), key) for key in why_keys(example(name))}


def numbers(part: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], float]]:
    """Every number of an answer, with its path in it."""
    if isinstance(part, dict):
        for key, inner in part.items():
            yield from numbers(inner, (*path, key))
    elif isinstance(part, list):
        for place, inner in enumerate(part, start=1):
            yield from numbers(inner, (*path, str(place)))
    elif isinstance(part, float | int) and not isinstance(part, bool):
        yield path, float(part)


def key_of(worked: JobAnswer, path: tuple[str, ...]) -> str:
    """A number's key by its path: advice, which is a list, goes by its id; of the cut there is one key for all of it."""
    if path[0] == "advice":
        return f"advice/{worked.advice[int(path[1]) - 1].id}"
    return "/".join(path[: {"cut": 1, "stages": 3}.get(path[0], 2)])


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_number_of_the_answer_has_its_why(name: str) -> None:
    seen = 0
    for path, value in numbers(example(name).answer().plain()):
        if path[0] == "schema":
            continue
        found = why_of(example(name), key_of(example(name), path))
        seen += 1
        if path[0] in ("finished", "stages") and path[-1] in ("mean", "sd"):
            assert getattr(found, path[-1]) == value
        if path[-1] == "chance" and path[0] == "advice":
            assert found.mean == value
        assert found.formulas
    assert seen > 20


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_key_answers_by_itself(name: str) -> None:
    for key, found in whys(name).items():
        assert found.key == key
        assert found.name
        assert found.text or found.figures, "a why without a number"
        assert found.formulas or found.note


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_budget_adds_up(name: str) -> None:
    budgets = 0
    for found in whys(name).values():
        if not found.rows:
            continue
        budgets += 1
        assert math.fsum(row.share for row in found.rows) == pytest.approx(1, abs=1e-7)
        kept, left, rest = main_rows(found)
        assert len(kept) + left == len(found.rows)
        assert math.fsum(row.share for row in kept) + rest == pytest.approx(1, abs=1e-7)
        for row in found.rows:
            assert row.contribution == pytest.approx(row.slope * row.sd, rel=1e-6)
            assert row.what and row.sd_text and row.slope_text
    assert budgets > 10


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_reading_never_blurs_and_those_that_do_not_count_do_nothing(name: str) -> None:
    for found in whys(name).values():
        for row in found.readings:
            assert 0 <= row.sharpened <= 1
            if not row.counts:
                assert row.sd_without is None
            elif found.rows and found.sd is not None and row.sd_without is not None and "expected" not in found.key:
                assert row.sd_without >= found.sd * (1 - 1e-6)


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_strip_and_a_card_lead_to_their_own_figures(name: str) -> None:
    found = whys(name)
    for strip in strips_of(example(name)):
        assert strip.belief.text.startswith(found[f"finished/{strip.key}"].text.split(" ")[0])
    for step in example(name).steps:
        told = found.get(f"steps/{step.key}")
        assert (told is not None) == bool(step.numbers or step.act_on)
        if told is not None:
            texts = [(item.name, item.text) for item in told.figures]
            said = say_step(step, None)
            assert set(said.numbers) | set(said.act_on) <= set(texts)
        for item in step.expected:
            assert found[f"expected/{step.key}/{item.stage}/{item.quantity}"].mean == pytest.approx(item.mean, rel=1e-8)


def test_what_a_gauge_should_show_is_the_club_and_the_gauge() -> None:
    """Root of the sum of squares where nothing hangs together: the total weight's noise stands beside the masses."""
    for name in EXAMPLES:
        for key, found in whys(name).items():
            if key.startswith("expected/") and found.rows:
                noise = [row for row in found.rows if row.unknown == "noise"]
                assert len(noise) == 1
                assert noise[0].share == pytest.approx((noise[0].sd / found.sd) ** 2, rel=1e-6)  # type: ignore[operator]


def test_no_formula_of_a_step_or_a_gate_without_a_number() -> None:
    keys = {key for name in EXAMPLES for key in whys(name)}
    assert {f"steps/{step}" for step in STEPS} <= keys
    assert {f"gates/{gate}" for gate in GATES} <= keys


def test_a_verdict_is_made_of_its_gauge() -> None:
    found = whys("wedge-50.toml")["verdicts/swing_weight"]
    assert found.rows and found.sd is not None
    assert math.sqrt(sum(row.contribution**2 for row in found.rows)) == pytest.approx(found.sd, rel=1e-8)


def test_the_cut_is_as_well_known_as_bore_and_cap() -> None:
    found = whys("wedge-50.toml")["cut"]
    shares = {row.unknown: row for row in found.rows}
    assert shares["head.bore_to_ground_m"].slope == pytest.approx(-1)
    assert shares["grip.cap_m"].slope == pytest.approx(-1)
    assert found.sd == pytest.approx(math.hypot(*(row.sd * row.slope for row in found.rows)), rel=1e-6)


def test_a_bare_quantity_is_that_of_the_finished_club() -> None:
    assert why_of(example("wedge-50.toml"), "swing_weight").key == "finished/swing_weight"
    assert why_of(example("wedge-50.toml"), "finished/swing_weight/sd").key == "finished/swing_weight"


@pytest.mark.parametrize(
    "key",
    [
        "",
        "/",
        "finished",
        "finished/",
        "swing weight",
        "advice/0",
        "advice/none",
        "steps/no",
        "cut/x/y",
        "stages/no/swing_weight",
        "verdicts/moi_cg",
        "belief/x",
        "expected/a/b/c",
        "../cut",
    ],
)
def test_what_is_no_number_is_refused_with_some_that_are(key: str) -> None:
    with pytest.raises(InputError) as refused:
        why_of(example("wedge-50.toml"), key)
    (finding,) = refused.value.findings
    assert finding.where == "why"
    assert "finished/" in finding.mend


def test_who_read_what(session: Session, clock: Clock, played: None) -> None:
    run_to(session, clock, "read swing_weight D4 finished")
    job = session.job(JOB)
    found = why_of(answer_job(job, session.now()), "swing_weight", job)
    counting = [row for row in found.readings if row.counts]
    assert counting
    assert {row.by for row in counting} == {"Ann"}
    assert all(row.at and row.gauge for row in counting)
    sharpest = found.readings[0]
    assert sharpest.sharpened == max(row.sharpened for row in found.readings)


def test_a_reading_left_out_moves_nothing(session: Session, clock: Clock, played: None) -> None:
    run_to(session, clock, "leave out")
    job = session.job(JOB)
    found = why_of(answer_job(job, session.now()), "total_weight", job)
    left = [row for row in found.readings if row.state == "left out by a person"]
    assert [row.typed for row in left] == ["477.2 g"]
    assert left[0].sd_without is None


def test_slopes_of_the_cut_are_its_differences() -> None:
    """Central differences of the cut itself, with head and grip moved: bore to ground and cap, one for one."""
    import msgspec

    from clubwright.planning.cut import cut_of
    from clubwright.services.why.cut import cut_slope

    club_state = example("wedge-50.toml").club_state
    names, slope = club_state.prior.belief.names, cut_slope(club_state)
    for part, field in (("head", "bore_to_ground_m"), ("grip", "cap_m"), ("head", "lie_rad")):
        ends = []
        for step in (1e-5, -1e-5):
            club = club_state.prior.club
            moved = msgspec.structs.replace(getattr(club, part), **{field: getattr(getattr(club, part), field) + step})
            prior = msgspec.structs.replace(club_state.prior, club=msgspec.structs.replace(club, **{part: moved}))
            cut, _ = cut_of(msgspec.structs.replace(club_state, prior=prior))
            assert cut is not None
            ends.append(cut.shaft_length_m)
        ours = float(slope[names.index(f"{part}.{field}")]) if f"{part}.{field}" in names else 0.0
        assert ours == pytest.approx((ends[0] - ends[1]) / 2e-5, abs=1e-6)
    assert np.count_nonzero(slope) >= 2


def test_every_quantity_can_be_asked_for_at_a_stage() -> None:
    asked = [key for key in QUANTITIES if example("iron.toml").club_state.can_predict(key)]
    for key in asked:
        assert why_of(example("iron.toml"), f"stages/finished/{key}").formulas[0].page == QUANTITIES[key].theory
    assert len(asked) > 10

"""Every bench action refuses what it cannot take, says how to mend it, and keeps nothing."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchwork import JOB, Clock, document, run_to
from clubwright.errors import ClubwrightError, GateClosed, InputError, RecordError
from clubwright.services.actions import bench
from clubwright.services.record.session import Session

pytestmark = [
    pytest.mark.usefixtures("played"),
    pytest.mark.parametrize("empty_engine", ["sqlite"], indirect=True),
]

Try = Callable[[Session], object]

REFUSED: dict[str, tuple[Try, type[ClubwrightError], str]] = {
    "a reading that is no number": (
        lambda d: bench.note_reading(d, JOB, "swing_weight", "nan"),
        InputError,
        "'nan' is no swing weight",
    ),
    "a comma": (lambda d: bench.note_reading(d, JOB, "length", "35,5 in"), InputError, "has a comma"),
    "no unit": (lambda d: bench.note_reading(d, JOB, "length", "35.5"), InputError, "has no unit"),
    "grams for inches": (
        lambda d: bench.note_reading(d, JOB, "length", "472 g"),
        InputError,
        "no unit of this kind",
    ),
    "an unknown quantity": (
        lambda d: bench.note_reading(d, JOB, "swingweight", "D1"),
        InputError,
        "Did you mean swing_weight",
    ),
    "an unknown stage": (
        lambda d: bench.note_reading(d, JOB, "swing_weight", "D1", stage="dry"),
        InputError,
        '"dry" leaves open which',
    ),
    "an unknown weight at a reading": (
        lambda d: bench.note_reading(d, JOB, "swing_weight", "D1", weights=["port 9"]),
        InputError,
        "no weight in the tray",
    ),
    "an unknown gauge": (
        lambda d: bench.note_reading(d, JOB, "swing_weight", "D1", instrument="scale"),
        InputError,
        'no gauge is called "scale"',
    ),
    "the mean of none": (
        lambda d: bench.note_reading(d, JOB, "swing_weight", "D1", repeats="0"),
        InputError,
        "at least one",
    ),
    "a weight that is not in the tray": (
        lambda d: bench.fit_weights(d, JOB, ["port 9"]),
        RecordError,
        "the tray: port 2, port 3",
    ),
    "two weights for one port": (
        lambda d: bench.fit_weights(d, JOB, ["port 6", "port 5"]),
        InputError,
        "2 weights at the port, where 1 can sit",
    ),
    "no end of a shaft": (lambda d: bench.trim_shaft(d, JOB, "middle", "1 in"), InputError, "Write tip or butt"),
    "a trim without a unit": (lambda d: bench.trim_shaft(d, JOB, "butt", "1"), InputError, "has no unit"),
    "a trim of nothing": (lambda d: bench.trim_shaft(d, JOB, "butt", "0 in"), InputError, "not above zero"),
    "a bend without an angle": (lambda d: bench.bend_head(d, JOB), InputError, "no angle given"),
    "a bend by words": (lambda d: bench.bend_head(d, JOB, loft="1/2 flat"), InputError, "said of a lie only"),
    "layers in words": (lambda d: bench.lay_tape(d, JOB, "build-up", "two", "1 g"), InputError, "no whole number"),
    "tape lighter than nothing": (
        lambda d: bench.lay_tape(d, JOB, "build-up", "2", "-1 g"),
        InputError,
        "out of range",
    ),
    "an unknown table": (
        lambda d: bench.change_part(d, JOB, "hed", {"mass": "1 g"}),
        InputError,
        "Did you mean head",
    ),
    "an unknown key": (lambda d: bench.change_part(d, JOB, "head", {"mas": "1 g"}), InputError, "Did you mean mass"),
    "a figure without a unit": (
        lambda d: bench.change_part(d, JOB, "head", {"mass": "296"}),
        InputError,
        "has no unit",
    ),
    "nothing to change": (lambda d: bench.change_part(d, JOB, "head", {}), InputError, "nothing to change"),
    "a cut past its gate": (
        lambda d: bench.change_part(d, JOB, "shaft", {"cut_length": "30 in"}),
        InputError,
        "Use `clubwright cut`",
    ),
    "a reading set by hand": (
        lambda d: bench.change_part(d, JOB, "reading", {"value": "D1"}),
        RecordError,
        "read again",
    ),
    "another number for the ticket": (
        lambda d: bench.change_part(d, JOB, "ticket", {"id": "T-2"}),
        RecordError,
        "keeps its number",
    ),
    "a weight without a name": (
        lambda d: bench.change_part(d, JOB, "weight", {"mass": "2 g"}),
        RecordError,
        "which weight",
    ),
    "a mix without units": (
        lambda d: bench.mix_adhesive(d, JOB, "4", "2 q", "warm", "lot 7"),
        InputError,
        "part A.*\n.*part B.*\n.*temperature",
    ),
    "a glue line at no temperature": (lambda d: bench.glue(d, JOB, "hot"), InputError, "temperature"),
    "a glue line too early": (lambda d: bench.glue(d, JOB, "22 C"), GateClosed, "no dry swing-weight reading yet"),
    "a mix that is nothing": (
        lambda d: bench.mix_adhesive(d, JOB, "0 g", "2 g", "22 C", "lot 7"),
        InputError,
        'part A: "0 g" is not above zero',
    ),
    "a cut that nobody signed": (lambda d: bench.cut_shaft(d, JOB, "34 in"), GateClosed, "nobody has signed"),
    "an unknown step": (lambda d: bench.do_step(d, JOB, "cook"), InputError, "Steps of this job: bore to ground"),
    "an unknown gate": (lambda d: bench.sign_gate(d, JOB, "paint"), InputError, "Gates of this job: cut, glue"),
    "the end before the release": (lambda d: bench.finish(d, JOB), GateClosed, "not glued yet"),
    "an undo of nothing": (lambda d: bench.undo(d, JOB, 99), RecordError, "no earlier fact 99"),
    "an undo of the ticket under its job": (lambda d: bench.undo(d, JOB, 1), RecordError, "undo those first"),
    "a decision about nothing": (
        lambda d: bench.decide_reading(d, JOB, 99, keep=True, reason=""),
        RecordError,
        "no earlier fact 99",
    ),
    "a decision about no reading": (
        lambda d: bench.decide_reading(d, JOB, 2, keep=True, reason=""),
        RecordError,
        "is no reading",
    ),
    "a ticket number twice": (
        lambda d: bench.take_ticket(d, document(), "again.toml"),
        RecordError,
        "already in the record",
    ),
    "half a ticket": (
        lambda d: bench.take_ticket(d, {"ticket": {"id": "T-7"}}, "half.toml"),
        InputError,
        "kind: missing(.|\n)*hand: missing",
    ),
    "text that no database holds": (
        lambda d: bench.do_step(d, JOB, "weigh", "a\0b"),
        RecordError,
        "no text holds",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_nothing_is_kept_of_what_is_refused(session: Session, clock: Clock, case: str):
    action, error, said = REFUSED[case]
    run_to(session, clock, "done weigh")
    before = session.ledger.facts()
    with pytest.raises(error, match=said):
        action(session)
    assert session.ledger.facts() == before


JOB_ACTIONS: dict[str, Try] = {
    "measure": lambda d: bench.change_part(d, "T-9", "head", {"mass": "300 g"}),
    "read": lambda d: bench.note_reading(d, "T-9", "swing_weight", "D1"),
    "decide": lambda d: bench.decide_reading(d, "T-9", 1, keep=True, reason=""),
    "fit": lambda d: bench.fit_weights(d, "T-9", []),
    "trim": lambda d: bench.trim_shaft(d, "T-9", "tip", "1 in"),
    "cut": lambda d: bench.cut_shaft(d, "T-9", "34 in"),
    "bend": lambda d: bench.bend_head(d, "T-9", loft="54 deg"),
    "tape": lambda d: bench.lay_tape(d, "T-9", "build-up", "2", "1 g"),
    "mix": lambda d: bench.mix_adhesive(d, "T-9", "4 g", "2 g", "22 C", ""),
    "glue": lambda d: bench.glue(d, "T-9", "22 C"),
    "grip": lambda d: bench.slide_grip(d, "T-9"),
    "done": lambda d: bench.do_step(d, "T-9", "pull"),
    "sign": lambda d: bench.sign_gate(d, "T-9", "cut"),
    "finish": lambda d: bench.finish(d, "T-9"),
    "undo": lambda d: bench.undo(d, "T-9"),
    "undo of a fact": lambda d: bench.undo(d, "T-9", 2),
}


@pytest.mark.parametrize("case", JOB_ACTIONS)
def test_a_ticket_that_is_not_there(session: Session, clock: Clock, case: str):
    run_to(session, clock, "hand")
    with pytest.raises(RecordError, match="T-9"):
        JOB_ACTIONS[case](session)
    assert len(session.ledger.facts()) == 2


FINISHED_ACTIONS: dict[str, Try] = {
    "read": lambda d: bench.note_reading(d, JOB, "swing_weight", "D4", instrument="swing scale"),
    "fit": lambda d: bench.fit_weights(d, JOB, ["port 5"]),
    "bend": lambda d: bench.bend_head(d, JOB, loft="54.1 deg"),
    "measure": lambda d: bench.change_part(d, JOB, "head", {"mass": "296.5 g"}),
    "mix": lambda d: bench.mix_adhesive(d, JOB, "4 g", "2 g", "22 C", ""),
    "glue": lambda d: bench.glue(d, JOB, "22 C"),
    "sign": lambda d: bench.sign_gate(d, JOB, "release"),
    "finish": lambda d: bench.finish(d, JOB),
    "undo of the cut": lambda d: bench.undo(d, JOB, 6),
}


@pytest.mark.parametrize("case", FINISHED_ACTIONS)
def test_a_finished_job_stays_as_it_was_signed(session: Session, clock: Clock, case: str):
    run_to(session, clock, "done tag")
    before = session.ledger.facts()
    with pytest.raises(RecordError, match=r"is finished \(fact 28\): to go on with it, undo that first"):
        FINISHED_ACTIONS[case](session)
    assert session.ledger.facts() == before

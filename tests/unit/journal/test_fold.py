"""The fold: what each kind of fact does to a job, what an undo does, and what could not have happened."""

from __future__ import annotations

import copy

import pytest

from clubwright.errors import InputError, RecordError
from clubwright.journal.facts import (
    AdhesiveMixed,
    Finished,
    GateSigned,
    Glued,
    Gripped,
    HeadBent,
    PartChanged,
    ReadingDecided,
    ReadingTaken,
    ShaftCut,
    ShaftTrimmed,
    StepDone,
    TapeLaid,
    TicketTaken,
    Undone,
    WeightsFitted,
    What,
)
from clubwright.journal.order import in_order, merge
from clubwright.journal.reducers.fold import Job, fold
from journal_facts import DOCUMENT, TICKET, chained

J = "T-1"


def job_after(*payloads: What) -> Job:
    return fold(chained([TICKET, *payloads])).job(J)


def reading(value: str = "D1.5", quantity: str = "swing_weight", **more) -> ReadingTaken:
    return ReadingTaken(job=J, quantity=quantity, value=value, stage="finished", weights=["port 6"], **more)


def test_a_ticket_alone_is_its_document():
    job = job_after()
    assert job.document == DOCUMENT
    assert job.source == "t.toml"
    assert (job.finished, job.glued_at, job.gripped, job.steps_done) == (None, None, False, ())


def test_folding_does_not_change_the_facts():
    facts = chained([TICKET, ShaftCut(job=J, cut_length="34 in"), WeightsFitted(job=J, weights=["port 6"])])
    before = copy.deepcopy(facts)
    fold(facts)
    assert facts == before


def test_a_reading_joins_the_document_with_its_number():
    job = job_after(reading(), reading("D2", instrument="bench scale", repeats="3"))
    assert job.document["reading"] == [
        {
            "quantity": "swing_weight",
            "value": "D1.5",
            "stage": "finished",
            "weights": ["port 6"],
            "repeats": "1",
            "fact": "2",
        },
        {
            "quantity": "swing_weight",
            "value": "D2",
            "stage": "finished",
            "weights": ["port 6"],
            "repeats": "3",
            "fact": "3",
            "instrument": "bench scale",
        },
    ]


def test_readings_of_the_ticket_itself_stay_first():
    document = {**DOCUMENT, "reading": [{"quantity": "swing_weight", "value": "D0"}]}
    facts = chained([TicketTaken(job=J, document=document, source=""), reading()])
    assert [row["value"] for row in fold(facts).job(J).document["reading"]] == ["D0", "D1.5"]


def test_the_last_decision_about_a_reading_counts():
    leave = ReadingDecided(job=J, reading=2, keep=False, reason="read through the hook")
    use = ReadingDecided(job=J, reading=2, keep=True, reason="read again")
    assert "keep" not in job_after(reading()).document["reading"][0]
    assert job_after(reading(), leave).document["reading"][0]["keep"] == "no"
    assert job_after(reading(), leave, use).document["reading"][0]["keep"] == "yes"


def test_cut_and_trims_are_laid_over_the_shaft():
    job = job_after(
        ShaftTrimmed(job=J, end="tip", amount="1/2 in"),
        ShaftTrimmed(job=J, end="butt", amount="1 in"),
        ShaftCut(job=J, cut_length="34.01 in"),
    )
    assert job.document["shaft"] == {
        **DOCUMENT["shaft"],
        "tip_trim": "1/2 in",
        "tip_trimmed": "yes",
        "cut_length": "34.01 in",
    }
    assert job.butt_trims == ("1 in",)


def test_a_second_tip_trim_adds_to_the_first_exactly():
    once = ShaftTrimmed(job=J, end="tip", amount="1/2 in")
    more = ShaftTrimmed(job=J, end="tip", amount="1/64 in")
    assert job_after(once, more).document["shaft"]["tip_trim"] == "13.096875 mm"  # (33/64) in x 25.4 mm
    spread = [ShaftTrimmed(job=J, end="tip", amount=f"{size} mm ± {sd} mm") for size, sd in ((5, 0.3), (7, 0.4))]
    assert job_after(*spread).document["shaft"]["tip_trim"] == "12 mm ± 0.5000 mm"


def test_a_trim_that_cannot_be_added_says_why():
    with pytest.raises(InputError, match="35,5"):
        job_after(*[ShaftTrimmed(job=J, end="tip", amount="35,5")] * 2)


def test_weights_fitted_are_counted_and_the_others_are_off():
    both = job_after(WeightsFitted(job=J, weights=["port 6", "port 6"]))
    assert [row["fitted"] for row in both.document["weight"]] == ["2", "0"]
    none = job_after(WeightsFitted(job=J, weights=["port 8"]), WeightsFitted(job=J, weights=[]))
    assert [row["fitted"] for row in none.document["weight"]] == ["0", "0"]


def test_a_weight_that_is_not_in_the_tray_cannot_be_fitted():
    with pytest.raises(RecordError, match="port 6, port 8"):
        job_after(WeightsFitted(job=J, weights=["port 9"]))


def test_a_bend_replaces_the_angles_keeps_the_first_and_adds_up_the_bending():
    job = job_after(
        HeadBent(job=J, loft="54 deg", bounce="9.5 deg"), HeadBent(job=J, loft="54.25 deg", lie="63 1/2 deg")
    )
    head = job.document["head"]
    assert (head["loft"], head["lie"], head["bounce"]) == ("54.25 deg", "63 1/2 deg", "9.75 deg")
    assert (head["bent_loft"], head["bent_lie"]) == ("0.75 deg", "0.5 deg")
    assert job.head_was == {"loft": "54.5 deg", "bounce": "10 deg", "lie": "64 deg"}


def test_a_bounce_that_nobody_measured_turns_with_the_loft():
    """The sole and the face are one piece of metal: a degree stronger takes a degree of bounce."""
    old = reading("10 deg", "bounce")
    job = job_after(old, HeadBent(job=J, loft="53 1/2 deg"))
    assert job.document["head"]["bounce"] == "9 deg"
    assert job.head_was["bounce"] == "10 deg"
    assert [row["before"] for row in job.document["reading"]] == ["1"]
    assert job.document["change"] == [{"name": "1", "head": {"loft": "54.5 deg"}}]
    assert job_after(HeadBent(job=J, lie="63 deg")).document["head"]["bounce"] == "10 deg"


def before(job):
    return [(row["value"], row.get("before")) for row in job.document["reading"]]


def test_a_reading_names_the_first_change_after_it():
    loft, lie = reading("54.5 deg", "loft"), reading("64 deg", "lie")
    bent = job_after(loft, lie, HeadBent(job=J, loft="54 deg"), reading("54.1 deg", "loft"))
    assert before(bent) == [("54.5 deg", "1"), ("64 deg", "1"), ("54.1 deg", None)]
    cut = [
        reading("D1"),
        ShaftTrimmed(job=J, end="butt", amount="1/4 in"),
        ShaftTrimmed(job=J, end="tip", amount="1/2 in"),
        reading("D2"),
        ShaftCut(job=J, cut_length="34.1 in"),
        ShaftCut(job=J, cut_length="34.05 in"),
        reading("D3"),
        ShaftCut(job=J, cut_length="34 in"),
        reading("D4"),
    ]
    job = job_after(*cut)
    assert before(job) == [("D1", "1"), ("D2", "3"), ("D3", "5"), ("D4", None)]
    assert job.document["change"] == [
        {"name": "1", "shaft": {"butt_off": "0 in"}},
        {"name": "2", "shaft": {"tip_trim": "0 in", "butt_off": "1/4 in"}},
        {"name": "3", "shaft": {"butt_off": "1/4 in"}},
        {"name": "4", "shaft": {"cut_length": "34.1 in"}},
        {"name": "5", "shaft": {"cut_length": "34.05 in"}},
    ]


def test_the_same_cut_and_the_same_tape_are_no_change():
    same = [ShaftCut(job=J, cut_length="34 in"), reading(), ShaftCut(job=J, cut_length="34 in")]
    tape = [TapeLaid(job=J, name="base", layers=layers, mass="3.1 g") for layers in ("1", "2", "2")]
    assert "change" not in job_after(*same).document
    assert "change" not in job_after(reading(), tape[0]).document
    job = job_after(reading(), *tape)
    assert [row["tape"][0]["mass"] for row in job.document["change"]] == ["3.1 g"]


def test_another_part_leaves_the_whole_old_one_to_its_readings():
    grip = PartChanged(job=J, section="grip", values={"mass": "52 g"}, another=True)
    assert job_after(reading(), grip).document["change"] == [{"name": "1", "grip": {"mass": "49.6 g", "cap": "1/8 in"}}]
    glued = [ShaftCut(job=J, cut_length="34 in"), Glued(job=J, temperature="20 C"), reading()]
    job = job_after(*glued, PartChanged(job=J, section="shaft", values={}, another=True))
    (change,) = job.document["change"]
    assert change["shaft"]["cut_length"] == "34 in"
    assert change["shaft"]["another"] == "yes"
    assert change["adhesive"] == change["ferrule"] == {}, "a joint that is opened loses both"
    assert "cut_length" not in job.document["shaft"]


def test_figures_measured_before_a_lie_bend_go_with_it_until_they_are_measured_again():
    figures = PartChanged(job=J, section="head", values={"bore_to_ground": "1.1 in", "cg_off_axis": "36 mm"})
    bend, again = (
        HeadBent(job=J, lie="63 deg"),
        PartChanged(job=J, section="head", values={"bore_to_ground": "1.12 in"}),
    )
    (change,) = job_after(figures, bend).document["change"]
    assert change["head"] == {"lie": "64 deg", "bore_to_ground": "1.1 in", "cg_off_axis": "36 mm"}
    (change,) = job_after(figures, bend, again).document["change"]
    assert change["head"] == {"lie": "64 deg", "cg_off_axis": "36 mm"}
    assert "change" not in job_after(figures, HeadBent(job=J, loft="54 deg")).document


def test_tape_is_what_is_on_now():
    job = job_after(
        TapeLaid(job=J, name="base", layers="2", mass="3.1 g"),
        TapeLaid(job=J, name="masking", layers="1", mass="0.9 g"),
    )
    assert job.document["tape"] == [
        {"name": "base", "layers": "2", "mass": "3.1 g", "cg_from_cap": "5.1 in"},
        {"name": "masking", "layers": "1", "mass": "0.9 g"},
    ]


def test_parts_are_changed_key_by_key():
    job = job_after(
        PartChanged(job=J, section="grip", values={"mass": "50.1 g", "cap": ""}),
        PartChanged(job=J, section="ferrule", values={"mass": "0.7 g"}),
        PartChanged(job=J, section="weight", values={"name": "port 8", "mass": "8.02 g"}),
        PartChanged(job=J, section="weight", values={"name": "port 4", "mass": "4 g", "seat": "port"}),
        PartChanged(job=J, section="instrument.bench scale", values={"bias": "0.1 pt"}),
    )
    assert job.document["grip"] == {"mass": "50.1 g"}
    assert job.document["ferrule"] == {"mass": "0.7 g"}
    assert [row["mass"] for row in job.document["weight"]] == ["6.05 g", "8.02 g", "4 g"]
    assert job.document["instrument"]["bench scale"] == {"resolution": "1/4 pt", "bias": "0.1 pt"}


@pytest.mark.parametrize(
    ("section", "values", "says"),
    [
        ("reading", {"value": "D2"}, "not changed"),
        ("ticket", {"id": "T-2"}, "keeps its number"),
        ("weight", {"mass": "1 g"}, "which weight"),
        ("weight.port 6", {"mass": "1 g"}, "which weight"),
    ],
)
def test_parts_that_cannot_be_changed(section, values, says):
    with pytest.raises(RecordError, match=says):
        job_after(PartChanged(job=J, section=section, values=values))


def test_steps_gates_glue_and_the_end():
    job = job_after(
        StepDone(job=J, step="pull"),
        StepDone(job=J, step="weigh", note="all"),
        StepDone(job=J, step="pull"),
        GateSigned(job=J, step="glue", shown={"answer": {"mean": 0.25}}),
        AdhesiveMixed(job=J, part_a="2 g", part_b="1 g", temperature="22 C", batch="7"),
        Glued(job=J, temperature="22 C"),
        Gripped(job=J),
        Finished(job=J, shown={"verdict": "within"}),
    )
    assert job.steps_done == ("pull", "weigh", "mix", "glue", "grip", "tag"), "what was done is done, said or not"
    assert job.gates_signed["glue"].shown == {"answer": {"mean": "0.25"}}
    assert (job.gates_signed["glue"].by, job.gates_signed["glue"].sequence) == ("Ann", 5)
    assert (job.glued_at, job.glued_temperature) == ("2026-03-02T08:07:00.000Z", "22 C")
    assert job.mixes[0].batch == "7"
    assert job.gripped
    assert job.finished is not None
    assert job.finished.shown == {"verdict": "within"}


# undo


DONE: list[What] = [
    reading(),
    ShaftTrimmed(job=J, end="tip", amount="1/4 in"),
    ShaftCut(job=J, cut_length="34 in"),
    WeightsFitted(job=J, weights=["port 6"]),
    HeadBent(job=J, loft="54 deg"),
    TapeLaid(job=J, name="base", layers="2", mass="3 g"),
    AdhesiveMixed(job=J, part_a="2 g", part_b="1 g", temperature="22 C", batch="7"),
    Glued(job=J, temperature="22 C"),
    Gripped(job=J),
    StepDone(job=J, step="weigh"),
    GateSigned(job=J, step="cut", shown={}),
    PartChanged(job=J, section="grip", values={"mass": "50 g"}),
    Finished(job=J, shown={}),
]


def bare(job: Job) -> dict[str, object]:
    return {name: getattr(job, name) for name in job.__struct_fields__ if name != "trail"}


@pytest.mark.parametrize("what", DONE, ids=lambda what: type(what).__name__)
def test_an_undo_takes_back_any_kind_of_fact_and_undoing_it_brings_it_back(what):
    undo, redo = Undone(job=J, fact=2, reason="slip"), Undone(job=J, fact=3, reason="no slip")
    assert bare(job_after(what)) != bare(job_after())
    assert bare(job_after(what, undo)) == bare(job_after())
    assert bare(job_after(what, undo, redo)) == bare(job_after(what))
    assert [line.undone for line in job_after(what, undo, redo).trail] == [False, False, True, False]


def test_what_was_brought_back_can_be_undone_again():
    undo, redo = Undone(job=J, fact=2, reason=""), Undone(job=J, fact=3, reason="")
    job = job_after(Gripped(job=J), undo, redo, undo)
    assert job.gripped is False
    assert [line.undone for line in job.trail] == [False, True, True, False, False]


def test_undo_of_one_trim_leaves_the_other():
    trims = [ShaftTrimmed(job=J, end="tip", amount=amount) for amount in ("10 mm", "2 mm", "3 mm")]
    job = job_after(*trims, Undone(job=J, fact=3, reason=""))
    assert job.document["shaft"]["tip_trim"] == "13 mm"


def test_a_decision_falls_with_its_reading_and_comes_back_with_it():
    decide = ReadingDecided(job=J, reading=2, keep=True, reason="")
    undo = Undone(job=J, fact=2, reason="")
    job = job_after(reading(), decide, undo)
    assert "reading" not in job.document or job.document["reading"] == []
    assert [line.undone for line in job.trail] == [False, True, True, False]
    again = job_after(reading(), decide, undo, Undone(job=J, fact=4, reason=""))
    assert again.document["reading"][0]["keep"] == "yes"


def test_the_last_standing_fact_steps_back_one_at_a_time():
    job = job_after(reading(), Gripped(job=J))
    assert job.last_standing_line().sequence == 3
    job = job_after(reading(), Gripped(job=J), Undone(job=J, fact=3, reason=""))
    assert job.last_standing_line().sequence == 2
    with pytest.raises(RecordError, match="nothing to undo"):
        job_after(Gripped(job=J), Undone(job=J, fact=2, reason="")).last_standing_line()


def test_a_ticket_that_is_undone_is_no_job():
    assert fold(chained([TICKET, Undone(job=J, fact=1, reason="wrong bag")])).jobs == {}
    taken_again = fold(chained([TICKET, Undone(job=J, fact=1, reason="wrong bag"), TICKET]))
    assert taken_again.job(J).document == DOCUMENT


@pytest.mark.parametrize(
    ("payloads", "says"),
    [
        ([Gripped(job=J)], "has no ticket"),
        ([Gripped(job=J), TICKET], "before its ticket"),
        ([TICKET, Undone(job=J, fact=9, reason="")], "no earlier fact 9"),
        ([TICKET, Undone(job=J, fact=2, reason="")], "no earlier fact 2"),
        ([TICKET, Undone(job=J, fact=3, reason=""), Gripped(job=J)], "no earlier fact 3"),
        ([TICKET, Undone(job=J, fact=1, reason="", site="shop")], "no earlier fact 1"),
        ([TICKET, Gripped(job=J), ReadingDecided(job=J, reading=2, keep=True, reason="")], "is no reading"),
        ([TICKET, ReadingDecided(job=J, reading=2, keep=True, reason="")], "no earlier fact 2"),
        ([TICKET, Gripped(job=J), Undone(job=J, fact=1, reason="")], "no ticket that stands"),
        ([TICKET, Gripped(job=J)] + [Undone(job=J, fact=2, reason="")] * 2, "undone already, by fact 3"),
    ],
)
def test_what_could_not_have_happened_is_refused(payloads, says):
    with pytest.raises(RecordError, match=says):
        fold(chained(payloads))


def test_a_fact_of_another_job_is_not_undone():
    other = TicketTaken(job="T-2", document={}, source="")
    with pytest.raises(RecordError, match="job T-2 has no earlier fact 2"):
        fold(chained([TICKET, Gripped(job=J), other, Undone(job="T-2", fact=2, reason="")]))


def test_facts_out_of_their_sites_order_are_refused():
    one, two = chained([TICKET, Gripped(job=J)])
    for facts in ([two, one], [one, one]):
        with pytest.raises(RecordError, match="verify the record"):
            fold(facts)


def test_an_unknown_job_names_those_there_are():
    with pytest.raises(RecordError, match='no ticket "T-9"; the latest: T-1'):
        fold(chained([TICKET])).job("T-9")


# several benches


def test_a_bench_may_undo_what_another_wrote():
    van = chained([TICKET, Gripped(job=J)])
    shop = chained([Undone(job=J, fact=2, reason="", site="van")], site="shop", minutes=[9])
    assert fold(merge(van, shop)).job(J).gripped is False
    unnamed = chained([Undone(job=J, fact=2, reason="")], site="shop", minutes=[9])
    assert fold(merge(van, unnamed)).job(J).gripped is False


def test_an_unnamed_bench_is_ones_own_first_and_else_must_be_the_only_one():
    van = chained([TICKET, Gripped(job=J)])
    shop = chained([StepDone(job=J, step="a"), StepDone(job=J, step="b")], site="shop", minutes=[5, 6])
    own = chained([StepDone(job=J, step="a"), StepDone(job=J, step="b"), Undone(job=J, fact=2, reason="")], site="shop")
    job = fold(merge(van, own)).job(J)
    assert (job.gripped, job.steps_done) == (True, ("a", "grip"))
    third = chained([Undone(job=J, fact=2, reason="")], site="truck", minutes=[9])
    with pytest.raises(RecordError, match=r"several benches have a fact 2 on job T-1 \(shop, van\)"):
        fold(merge(merge(van, shop), third))


def test_two_benches_may_undo_the_same_fact_without_knowing():
    van = chained([TICKET, Gripped(job=J), Undone(job=J, fact=2, reason="")])
    shop = chained([Undone(job=J, fact=2, reason="", site="van")], site="shop")
    assert fold(merge(van, shop)).job(J).gripped is False


def test_a_clock_that_runs_ahead_does_not_hide_a_ticket_or_a_reading():
    other = TicketTaken(job="T-2", document={}, source="")
    van = chained([other, TICKET, reading()], minutes=[49, 50, 51])
    shop = chained(
        [ReadingDecided(job=J, reading=3, keep=False, reason="", site="van"), StepDone(job=J, step="weigh")],
        site="shop",
        minutes=[1, 2],
    )
    job = fold(merge(van, shop)).job(J)
    assert job.document["reading"][0]["keep"] == "no"
    assert job.steps_done == ("weigh",)


def test_a_clock_that_steps_back_keeps_the_sites_own_order():
    van = chained([TICKET, StepDone(job=J, step="a"), StepDone(job=J, step="b")], minutes=[30, 40, 10])
    shop = chained([StepDone(job=J, step="c")], site="shop", minutes=[35])
    assert [fact.place for fact in in_order([*shop, *reversed(van)])] == [
        ("van", 1),
        ("shop", 1),
        ("van", 2),
        ("van", 3),
    ]


def test_records_that_disagree_do_not_merge():
    with pytest.raises(RecordError, match="differ in fact van/2"):
        merge(chained([TICKET, Gripped(job=J)]), chained([TICKET, reading()]))


def test_a_ring_of_undos_is_refused():
    van = chained([TICKET, Undone(job=J, fact=1, reason="", site="shop")])
    shop = chained([Undone(job=J, fact=2, reason="", site="van")], site="shop")
    with pytest.raises(RecordError, match="ring"):
        fold(merge(van, shop))


def test_a_thousand_times_undone_and_redone():
    undos = [Undone(job=J, fact=number, reason="") for number in range(2, 3002)]
    assert fold(chained([TICKET, Gripped(job=J), *undos], minutes=[1] * 3002)).job(J).gripped is True

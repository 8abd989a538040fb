"""Laws of the journal: undo takes back exactly, union does not care who merges first, and no changed byte goes unseen."""

from __future__ import annotations

import msgspec
from hypothesis import given
from hypothesis import strategies as st

from clubwright.errors import ClubwrightError
from clubwright.journal.chain import heads, payload, verify_chain
from clubwright.journal.facts import (
    AdhesiveMixed,
    Fact,
    Finished,
    GateSigned,
    Glued,
    Gripped,
    HeadBent,
    PartChanged,
    ReadingTaken,
    ShaftCut,
    ShaftTrimmed,
    StepDone,
    TapeLaid,
    Undone,
    WeightsFitted,
    What,
)
from clubwright.journal.order import in_order, merge
from clubwright.journal.reducers.fold import Job, fold
from journal_facts import TICKET, chained

J = "T-1"
WORDS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), max_size=8)
EIGHTHS = st.integers(1, 7).map(lambda eighths: f"{eighths}/8 in")
ANGLES = st.one_of(st.none(), st.integers(200, 260).map(lambda quarters: f"{quarters / 4} deg"))

ACTIONS: st.SearchStrategy[What] = st.one_of(
    st.builds(
        ReadingTaken,
        job=st.just(J),
        quantity=st.sampled_from(["swing_weight", "loft", "head.mass"]),
        value=WORDS,
        stage=st.just("finished"),
        weights=st.just([]),
        instrument=st.none(),
        repeats=st.just("1"),
    ),
    st.builds(ShaftTrimmed, job=st.just(J), end=st.sampled_from(["tip", "butt"]), amount=EIGHTHS),
    st.builds(ShaftCut, job=st.just(J), cut_length=EIGHTHS),
    st.builds(WeightsFitted, job=st.just(J), weights=st.lists(st.sampled_from(["port 6", "port 8"]), max_size=2)),
    st.builds(HeadBent, job=st.just(J), loft=ANGLES, lie=ANGLES, bounce=ANGLES),
    st.builds(TapeLaid, job=st.just(J), name=st.sampled_from(["base", "other"]), layers=WORDS, mass=WORDS),
    st.builds(AdhesiveMixed, job=st.just(J), part_a=WORDS, part_b=WORDS, temperature=WORDS, batch=WORDS),
    st.builds(Glued, job=st.just(J), temperature=WORDS),
    st.builds(Gripped, job=st.just(J)),
    st.builds(StepDone, job=st.just(J), step=WORDS, note=WORDS),
    st.builds(
        GateSigned,
        job=st.just(J),
        step=WORDS,
        shown=st.dictionaries(WORDS, st.floats(allow_nan=False, allow_infinity=False)),
    ),
    st.builds(
        PartChanged,
        job=st.just(J),
        section=st.sampled_from(["grip", "head", "ferrule"]),
        values=st.dictionaries(st.sampled_from(["name", "mass", "cap"]), WORDS),
    ),
    st.builds(Finished, job=st.just(J), shown=st.just({})),
)


def bare(job: Job) -> dict[str, object]:
    return {name: getattr(job, name) for name in job.__struct_fields__ if name != "trail"}


@given(st.lists(ACTIONS, max_size=6), ACTIONS)
def test_undo_of_the_last_fact_is_as_if_it_never_was(before: list[What], last: What):
    then = fold(chained([TICKET, *before])).job(J)
    undo = Undone(job=J, fact=len(before) + 2, reason="")
    assert bare(fold(chained([TICKET, *before, last, undo])).job(J)) == bare(then)


@given(st.lists(ACTIONS, min_size=1, max_size=7), st.data())
def test_undo_of_any_fact_is_as_if_it_never_was_and_undoing_that_restores_it(done: list[What], data: st.DataObject):
    place = data.draw(st.integers(0, len(done) - 1))
    undo = Undone(job=J, fact=place + 2, reason="")
    facts = chained([TICKET, *done, undo])
    never = fold(fact for fact in facts if fact.sequence not in (place + 2, len(facts)))
    assert bare(fold(facts).job(J)) == bare(never.job(J))
    redone = fold(chained([TICKET, *done, undo, Undone(job=J, fact=len(done) + 2, reason="")])).job(J)
    assert bare(redone) == bare(fold(chained([TICKET, *done])).job(J))


@given(st.lists(ACTIONS, max_size=8))
def test_a_job_is_always_one_that_can_be_written_down_and_read_back(done: list[What]):
    facts = chained([TICKET, *done])
    again = [msgspec.structs.replace(fact, what=payload(msgspec.to_builtins(fact.what))) for fact in facts]
    assert again == facts
    assert fold(again) == fold(facts)


MINUTES = st.integers(0, 90)


@st.composite
def records(draw: st.DrawFn) -> tuple[list[Fact], list[Fact], list[Fact]]:
    """Three records that share some sites: each holds the beginning of each site's facts, in any order."""
    found: tuple[list[Fact], list[Fact], list[Fact]] = ([], [], [])
    for site in ("van", "shop", "truck"):
        steps = draw(st.lists(MINUTES, max_size=6))
        whole = chained([StepDone(job=J, step=str(step)) for step in steps], site=site, minutes=steps)
        for record in found:
            record += whole[: draw(st.integers(0, len(whole)))]
    return tuple(draw(st.permutations(record)) for record in found)  # type: ignore[return-value]


@given(records())
def test_merge_is_commutative_associative_and_idempotent(three: tuple[list[Fact], list[Fact], list[Fact]]):
    a, b, c = three
    assert merge(a, b) == merge(b, a)
    assert merge(merge(a, b), c) == merge(a, merge(b, c))
    assert merge(a, a) == in_order(a)
    assert merge(merge(a, b), b) == merge(a, b)
    assert verify_chain(merge(a, b)) == ()


@given(records())
def test_order_never_goes_against_a_sites_own_numbering(three: tuple[list[Fact], list[Fact], list[Fact]]):
    merged = merge(three[0], three[1])
    for site in {fact.site for fact in merged}:
        mine = [fact.sequence for fact in merged if fact.site == site]
        assert mine == list(range(1, len(mine) + 1))


@given(st.lists(ACTIONS, min_size=1, max_size=4), st.data())
def test_any_single_changed_byte_is_found(done: list[What], data: st.DataObject):
    facts = chained([TICKET, *done])
    place = data.draw(st.integers(0, len(facts) - 1))
    stored = bytearray(msgspec.json.encode(facts[place]))
    at = data.draw(st.integers(0, len(stored) - 1))
    stored[at] ^= data.draw(st.integers(1, 255))
    try:
        changed = msgspec.json.decode(bytes(stored), type=Fact)
    except (msgspec.MsgspecError, UnicodeDecodeError):
        return  # seen while reading
    try:
        findings = verify_chain([*facts[:place], changed, *facts[place + 1 :]], heads(facts))
    except ClubwrightError:
        return  # seen while hashing
    assert findings

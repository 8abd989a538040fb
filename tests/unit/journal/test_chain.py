"""Canonical bytes, sealing and the chain."""

from __future__ import annotations

import hashlib

import msgspec
import pytest

from clubwright.errors import RecordError
from clubwright.journal.chain import GENESIS, canonical, hash_of, heads, payload, plain, seal, verify_chain
from clubwright.journal.facts import Fact, Finished, Gripped, RecordsMerged, StepDone
from journal_facts import TICKET, chained

AT = "2026-03-02T08:00:00.000Z"


def step(name: str) -> StepDone:
    return StepDone(job="T-1", step=name)


FACTS = chained([TICKET, step("a"), step("b"), step("c")])


def changed(facts: list[Fact], place: int, **values) -> list[Fact]:
    return [msgspec.structs.replace(fact, **values) if at == place else fact for at, fact in enumerate(facts)]


def test_canonical_bytes_are_sorted_tight_and_utf_8():
    assert canonical({"b": [1, True, None], "a": "½ “x”\n"}) == '{"a":"½ “x”\\n","b":[1,true,null]}'.encode()


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), {1, 2}, "\ud800"])
def test_canonical_refuses_what_has_no_one_spelling(bad):
    with pytest.raises(RecordError, match="cannot be kept"):
        canonical({"value": bad})


def test_the_hash_can_be_made_by_hand_from_the_description():
    """The bytes are spelled out here by hand, so that the format cannot drift unseen."""
    fact = seal(Gripped(job="T-½"), site="van", sequence=1, at=AT, by="Ann", typed="on", key="k")
    text = (
        '{"at":"2026-03-02T08:00:00.000Z","by":"Ann","key":"k","previous_hash":"' + "0" * 64 + '",'
        '"sequence":1,"site":"van","typed":"on","what":{"job":"T-½","kind":"gripped"}}'
    )
    assert fact.hash == hashlib.sha256(text.encode("utf-8")).hexdigest()
    assert hash_of(fact) == fact.hash


def test_floats_become_the_shortest_text_that_reads_back():
    kept = plain(Finished(job="T-1", shown={"x": 0.1, "deep": [{"y": (1e-7, 2)}]}))
    assert kept["shown"] == {"x": "0.1", "deep": [{"y": ["1e-07", 2]}]}
    assert canonical(plain(payload(kept))) == canonical(kept)


@pytest.mark.parametrize(
    ("values", "says"),
    [
        ({"at": "2026-03-02 08:00"}, "no time of the record"),
        ({"at": "2026-03-02T08:00:00+00:00"}, "no time of the record"),
        ({"by": " "}, "by is empty"),
        ({"site": ""}, "site is empty"),
        ({"key": ""}, "key is empty"),
        ({"typed": "a\x00"}, "character"),
        ({"by": "\udfff"}, "character"),
    ],
)
def test_what_cannot_be_sealed(values, says):
    good = {"site": "van", "sequence": 1, "at": AT, "by": "Ann", "typed": "", "key": "k"}
    seal(Gripped(job="T-1"), **good)
    with pytest.raises(RecordError, match=says):
        seal(Gripped(job="T-1"), **{**good, **values})


@pytest.mark.parametrize(
    "content",
    [{"kind": "teleported", "job": "T-1"}, {"kind": "gripped", "job": "T-1", "mood": "x"}, {"job": "T-1"}, {}],
)
def test_facts_of_a_newer_version_are_not_half_read(content):
    with pytest.raises(RecordError, match="newer version"):
        payload(content)


def test_a_whole_chain_has_no_finding():
    assert verify_chain(FACTS) == ()
    assert verify_chain([]) == ()
    assert verify_chain([*FACTS, *chained([TICKET], site="shop")]) == ()


@pytest.mark.parametrize(
    ("facts", "where", "says"),
    [
        (changed(FACTS, 1, typed="other"), "van/2", "changed"),
        (changed(FACTS, 1, what=step("x")), "van/2", "changed"),
        (changed(FACTS, 3, by="Bea"), "van/4", "changed"),
        (FACTS[:2] + FACTS[3:], "van/3", "missing"),
        (FACTS[1:], "van/1", "missing"),
        ([*FACTS, FACTS[2]], "van/3", "twice"),
        (changed(FACTS, 2, previous_hash=GENESIS), "van/3", "does not follow"),
        (changed(FACTS, 0, hash="0" * 64), "van/1", "changed"),
        ([*FACTS[:2], seal(step("b"), site="van", sequence=3, at=AT, by="A", typed="", key="x")], "van/3", "follow"),
    ],
)
def test_the_first_broken_place_is_told(facts, where, says):
    (finding,) = verify_chain(facts)
    assert finding.where == f"record {where}"
    assert says in finding.what


def test_a_changed_fact_with_its_hash_made_anew_breaks_at_the_next():
    forged = msgspec.structs.replace(FACTS[1], typed="forged")
    forged = msgspec.structs.replace(forged, hash=hash_of(forged))
    (finding,) = verify_chain([FACTS[0], forged, *FACTS[2:]])
    assert finding.where == "record van/3"


def test_a_cut_off_end_is_only_seen_by_who_noted_the_head():
    noted = heads(FACTS)
    assert noted == {"van": (4, FACTS[3].hash)}
    assert verify_chain(FACTS[:3]) == ()
    (finding,) = verify_chain(FACTS[:3], noted)
    assert finding.where == "record van/4"
    assert verify_chain(FACTS, heads(FACTS[:2])) == ()
    assert len(verify_chain([], {"van": (1, "x"), "shop": (1, "y")})) == 2


def test_what_a_merge_saw_cannot_be_cut_off_unseen():
    van = chained([TICKET, Gripped(job="T-1"), Gripped(job="T-1")])
    shop = chained([RecordsMerged(heads={"van": (3, van[-1].hash)})], site="shop")
    assert verify_chain([*van, *shop]) == ()
    (finding,) = verify_chain([*van[:-1], *shop])
    assert finding.where == "record van/3"
    assert verify_chain(shop) == (), "of a bench that is not there nothing can be said"

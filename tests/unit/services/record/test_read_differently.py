"""A merge names what two benches read differently of one thing: both stay readings, and the belief goes by both."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from benchwork import JOB, Clock, document, session_on
from clubwright.errors import Finding
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.recording.merging import take_in
from forging import record_at

DRY = "dry, gripped"


@pytest.fixture
def two(tmp_path: Path, clock: Clock) -> Iterator[tuple[Session, Session]]:
    """A shop and its van, both with one ticket."""
    with record_at(tmp_path / "shop") as first, record_at(tmp_path / "van") as second:
        shop = session_on(first, clock, site="shop", by="Ann")
        van = session_on(second, clock, site="van", by="Ben")
        bench.take_ticket(shop, document(), "w.toml")
        take_in(van, first.facts())
        yield shop, van


def swing_weight(session: Session, value: str, weights: list[str] | None = None) -> None:
    bench.note_reading(session, JOB, "swing_weight", value, stage=DRY, weights=weights, instrument="swing scale")


def told(session: Session, other: Session) -> tuple[Finding, ...]:
    return take_in(session, other.ledger.facts()).findings


def test_what_two_benches_read_differently_is_named_with_both_readings(two: tuple[Session, Session]) -> None:
    shop, van = two
    swing_weight(shop, "D1.3", [])
    swing_weight(van, "D1.9", [])
    (finding,) = told(shop, van)
    number = van.ledger.last("van")
    assert (str(finding.where), finding.severity) == (f"job {JOB}, swing weight, {DRY}", "note")
    assert f"D1.3 (shop/{shop.facts_of(JOB)[1].sequence}) and D1.9 (van/{number})" in finding.what
    assert f"clubwright decide {JOB} {number} leave --site van" in finding.mend
    present = answer_job(shop.job(JOB), shop.now()).club_state.present_entries
    assert [entry.entry.typed for entry in present if entry.quantity == "swing_weight"] == ["D1.3", "D1.9"]
    assert told(shop, van) == (), "told once: nothing of it is new"
    (there,) = told(van, shop)
    assert there.what == finding.what, "the other bench is told the same"


def test_a_part_weighed_at_both_with_a_gauge_stays_two_readings_and_without_one_the_later_stands(
    two: tuple[Session, Session],
) -> None:
    shop, van = two
    bench.change_part(shop, JOB, "grip", {"mass": "49.9 g"}, gauge="gram scale")
    bench.change_part(van, JOB, "grip", {"mass": "50.4 g"}, gauge="gram scale")
    bench.change_part(shop, JOB, "head", {"mass": "296.1 g"}, gauge="")
    bench.change_part(van, JOB, "head", {"mass": "297.2 g"}, gauge="")
    found = {str(item.where): item for item in told(shop, van)}
    assert list(found) == [f"job {JOB}, grip.mass", f"job {JOB}, head.mass"]
    assert "stay readings" in found[f"job {JOB}, grip.mass"].mend
    assert "the one written last stands (297.2 g)" in found[f"job {JOB}, head.mass"].mend
    assert shop.job(JOB).document["head"]["mass"] == "297.2 g"
    assert [row["value"] for row in shop.job(JOB).document["reading"]] == ["50.4 g"]


def test_what_is_the_same_or_of_another_club_or_was_known_is_not_told(
    two: tuple[Session, Session], clock: Clock
) -> None:
    shop, van = two
    swing_weight(shop, "D1.3", [])
    swing_weight(van, "D1.3", [])
    swing_weight(van, "D4.1", ["port 6"])
    bench.change_part(shop, JOB, "grip", {"mass": "50 g"}, gauge="gram scale")
    bench.change_part(van, JOB, "grip", {"mass": "0.0500 kg"}, gauge="gram scale")
    assert told(shop, van) == (), "the same, or with other weights on"
    assert told(van, shop) == ()
    swing_weight(van, "D2.2", [])
    assert told(shop, van) == (), "the van had seen what was read here"
    swing_weight(shop, "D1.1", ["port 6"])
    clock.wait(minutes=5)
    bench.bend_head(van, JOB, loft="54 deg")
    swing_weight(van, "D1.7", ["port 6"])
    assert told(shop, van) == (), "of the head that was bent"


def test_a_reading_that_a_person_left_out_is_not_told(two: tuple[Session, Session]) -> None:
    shop, van = two
    swing_weight(shop, "D1.3", [])
    swing_weight(van, "D1.9", [])
    bench.decide_reading(van, JOB, van.ledger.last("van"), keep=False, reason="the clip was on")
    assert told(shop, van) == ()

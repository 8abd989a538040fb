"""What the record's shafts of one name teach about the next: whose count, what is taken out, and who takes it over."""

from __future__ import annotations

import math
from typing import Any

import pytest

from clubwright.errors import InputError, RecordError
from clubwright.journal.facts import PartChanged
from clubwright.services.actions import bench
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.services.shaft import family as shaft_family
from clubwright.services.shaft.family import family_of, lacking, spread_text, use_family
from clubwright.services.shaft.taught import divided_out
from clubwright.units import CPM_HZ
from shaftwork import DRY, dry_hz, iron


def build(session: Session, number: str, factor: float | None, **shaft: Any) -> None:
    """Take an iron whose shaft has a true factor, and read its frequency dry; None reads nothing."""
    document = iron(number)
    document["shaft"] |= shaft
    bench.take_ticket(session, document, "test")
    if factor is not None:
        value = f"{dry_hz(document) * math.sqrt(factor) / CPM_HZ:.2f} cpm"
        bench.note_reading(session, number, "frequency", value, stage=DRY, weights=[])


def test_what_a_reading_said_is_the_square_of_what_it_read_over_what_was_expected(session: Session) -> None:
    """An Euler-Bernoulli beam's frequency goes with the root of its stiffness (any text on vibration)."""
    build(session, "X-1", 1.04)
    build(session, "X-2", None)
    family = family_of(session, session.job("X-2"))
    assert family is not None
    shaft = family.shafts[0]
    assert shaft.job == "X-1"
    assert shaft.factor == pytest.approx(1.04, abs=0.002)
    # the meter: 0.1 cpm of step, 0.5 cpm each of repeatability and bias, of some 325 cpm; and what the parts leave open
    assert 2 * 0.5 / 340 < shaft.sd < 0.02
    assert 2 * 0.5 / 340 < shaft.shared_sd < shaft.sd, "the meter's bias, and where the head's centre is said to be"


def test_the_prior_of_a_club_is_divided_out() -> None:
    """Bayes' rule for a normal mean put forward again (A. Gelman et al., Bayesian Data Analysis, 2.5)."""
    m0, s0, y, e = 1.0, 0.03, 1.05, 0.01
    s1 = math.sqrt(1 / (1 / s0**2 + 1 / e**2))
    m1 = s1**2 * (m0 / s0**2 + y / e**2)
    assert divided_out((m0, s0), (m1, s1)) == (pytest.approx(y, rel=1e-12), pytest.approx(e, rel=1e-12))
    assert divided_out((1.0, 0.03), (1.0, 0.03)) is None
    assert divided_out((1.0, 0.03), (1.0, 0.029)) is None, "next to nothing was learned"


def test_three_alike_say_what_the_fourth_is_and_the_meters_bias_stays(session: Session) -> None:
    for number, factor in (("X-1", 1.03), ("X-2", 1.04), ("X-3", 1.05)):
        build(session, number, factor)
    build(session, "X-4", None)
    family = family_of(session, session.job("X-4"))
    assert family is not None
    assert [shaft.job for shaft in family.shafts] == ["X-1", "X-2", "X-3"]
    assert family.forecast is not None
    assert 1.02 < family.forecast.mean < 1.045, "a little towards 1, where the family was believed before"
    assert family.forecast.parts == 3
    assert spread_text(family).startswith("0.0")
    assert family.sd > family.shared_sd
    assert family.sd == pytest.approx(math.hypot(family.forecast.sd, family.shared_sd))
    assert family.text == f"{family.forecast.mean:.3f} ± {family.sd:.3f}"
    # its own reading does not count for itself
    again = family_of(session, session.job("X-2"))
    assert again is not None
    assert [shaft.job for shaft in again.shafts] == ["X-1", "X-3"]


def test_only_shafts_of_that_name_and_that_profile_that_were_read_count(session: Session) -> None:
    build(session, "X-1", 1.04, name="Alder 90")
    build(session, "X-2", 1.04, stiffness={"kind": "slope", "alpha": "0.09 N m2/mm", "from": "300 mm"})
    build(session, "X-3", None)
    build(session, "X-4", None)
    assert family_of(session, session.job("X-4")) is None
    build(session, "X-5", 1.02, name=" larch 120 ")
    family = family_of(session, session.job("X-4"))
    assert family is not None
    assert [shaft.job for shaft in family.shafts] == ["X-5"]
    nameless = iron("X-6")
    del nameless["shaft"]["name"]
    bench.take_ticket(session, nameless, "test")
    assert family_of(session, session.job("X-6")) is None


def test_what_is_used_becomes_a_fact_and_moves_the_belief(session: Session) -> None:
    for number, factor in (("X-1", 1.04), ("X-2", 1.05)):
        build(session, number, factor)
    build(session, "X-3", None, stiffness_factor="1 ± 0.05")
    family = family_of(session, session.job("X-3"))
    assert family is not None

    def believed() -> tuple[float, float]:
        found = answer_job(session.job("X-3"), session.now()).club_state.predict(["frequency"])
        return float(found.mean[0, 0]), float(found.sd()[0, 0])

    assert family.forecast is not None
    before = believed()
    fact = use_family(session, "X-3", family.text, key="one")
    assert isinstance(fact.what, PartChanged)
    assert (fact.what.section, fact.what.values) == ("shaft", {"stiffness_factor": family.text})
    assert use_family(session, "X-3", family.text, key="one") == fact, "a double tap is one fact"
    after = believed()
    assert after[0] == pytest.approx(before[0] * math.sqrt(family.forecast.mean), rel=1e-3)
    assert after[1] < before[1]
    taken = family_of(session, session.job("X-3"))
    assert taken is not None
    assert "says so already" in taken.why_not
    assert family.why_not == ""
    before_again = session.ledger.count()
    with pytest.raises(InputError, match="says so already"):
        use_family(session, "X-3", family.text)
    build(session, "X-9", 1.10)
    assert use_family(session, "X-3", family.text, key="one") == fact, "sent again when the record says more by now"
    assert session.ledger.count() == before_again + 2


def test_what_is_no_longer_so_is_not_taken_over(session: Session) -> None:
    build(session, "X-1", 1.04)
    build(session, "X-2", None, stiffness_factor="1 ± 0.05")
    shown = family_of(session, session.job("X-2"))
    assert shown is not None
    build(session, "X-3", 0.98)
    before = session.ledger.count()
    with pytest.raises(InputError, match=r"the record says .* by now"):
        use_family(session, "X-2", shown.text)
    build(session, "X-4", None, name="Alder 90")
    with pytest.raises(InputError, match="no other shaft of this name"):
        use_family(session, "X-4", shown.text)
    assert session.ledger.count() == before + 1


@pytest.mark.parametrize("factor", [1.12, 0.9])
def test_shafts_that_contradict_their_tickets_are_named_and_nothing_is_taken_over(
    session: Session, factor: float
) -> None:
    """Each was set aside at its own bench, since the ticket said 1 ± 0.02: that must not choose who belongs.

    One at 1.08 is not: chance throws so far oftener than a frequency is misread.
    """
    for number in ("X-1", "X-2"):
        build(session, number, factor)
    build(session, "X-3", 1.01)
    build(session, "X-4", None, stiffness_factor="1 ± 0.2")
    family = family_of(session, session.job("X-4"))
    assert family is not None
    assert [item.job for item in family.undecided] == ["X-1", "X-2"]
    assert [item.job for item in family.shafts] == ["X-3"]
    assert family.undecided[0].factor == pytest.approx(factor, abs=0.004)
    assert "X-1, X-2 was set aside" in family.why_not
    with pytest.raises(InputError, match="set aside"):
        use_family(session, "X-4", family.text)
    for number, keep in (("X-1", True), ("X-2", False)):
        bench.decide_reading(
            session, number, session.job(number).last_standing_line().sequence, keep=keep, reason="looked again"
        )
    decided = family_of(session, session.job("X-4"))
    assert decided is not None
    assert [item.job for item in decided.shafts] == ["X-1", "X-3"], "what is left out is no part of the family"
    assert decided.shafts[0].factor == pytest.approx(factor, abs=0.004)
    assert decided.why_not == ""


def test_only_one_or_only_undecided_shafts_are_told_as_such(session: Session) -> None:
    build(session, "X-1", 1.12)
    build(session, "X-2", None)
    family = family_of(session, session.job("X-2"))
    assert family is not None
    assert (family.forecast, family.text, family.shafts, spread_text(family)) == (None, "", (), "")
    build(session, "X-3", 1.01)
    family = family_of(session, session.job("X-2"))
    assert family is not None
    assert family.text
    assert spread_text(family) == "", "one shaft says nothing of how shafts differ"


def test_an_error_that_all_share_is_not_averaged_away(session: Session) -> None:
    """The head's centre is said to be where it is within 3 mm, from one drawing: eight clubs know no better than one."""
    forecasts = []
    for count, number in enumerate(f"X-{n}" for n in range(1, 9)):
        build(session, number, 1.01)
        if count in (1, 7):
            bench.take_ticket(session, iron(f"Y-{count}"), "test")
            family = family_of(session, session.job(f"Y-{count}"))
            assert family is not None
            forecasts.append(family)
    two, eight = forecasts
    assert eight.forecast is not None
    assert eight.shared_sd == pytest.approx(two.shared_sd, rel=0.05)
    assert eight.shared_sd > 0.01
    assert eight.sd > eight.shared_sd
    # a centre 3 mm off, read as stiffness: what the statics of one standard uncertainty make of it
    off = iron("X-20")
    off["head"]["cg_from_ground"] = "-6 mm ± 3 mm"
    misread = (dry_hz(iron()) / dry_hz(off)) ** 2 - 1
    assert abs(misread) == pytest.approx(eight.shared_sd, rel=0.2)


def test_what_the_ticket_knows_better_is_not_replaced(session: Session) -> None:
    build(session, "X-1", 1.02)
    build(session, "X-2", None, stiffness_factor="0.980 ± 0.005")
    family = family_of(session, session.job("X-2"))
    assert family is not None
    assert family.why_not == "the ticket's own 0.980 ± 0.005 is better known"
    with pytest.raises(InputError, match="better known"):
        use_family(session, "X-2", family.text)


def test_shafts_that_were_never_read_push_nobody_out(session: Session, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shaft_family, "MOST", 4)
    build(session, "X-1", 1.02)
    for number in range(2, 9):
        build(session, f"X-{number}", None)
    family = family_of(session, session.job("X-8"))
    assert family is not None
    assert [item.job for item in family.shafts] == ["X-1"]


def test_the_same_profile_written_otherwise_is_the_same(session: Session) -> None:
    tube = dict(iron()["shaft"]["stiffness"])
    build(session, "X-1", 1.02, stiffness={**tube, "butt": "0.60 in"})
    build(session, "X-2", None)
    assert family_of(session, session.job("X-2")) is not None


def test_a_job_that_cannot_be_read_stands_in_nobodys_way(session: Session) -> None:
    build(session, "X-1", 1.02)
    build(session, "X-2", 1.02)
    build(session, "X-3", None)
    bench.change_part(session, "X-2", "shaft", {"tip_trim": ""})
    bench.trim_shaft(session, "X-2", "tip", "2 1/2 in")
    bench.change_part(session, "X-2", "shaft", {"tip_trim": ""})
    with pytest.raises(RecordError, match="how much is off the tip already"):
        bench.trim_shaft(session, "X-2", "tip", "1/2 in")
    family = family_of(session, session.job("X-3"))
    assert family is not None
    assert [item.job for item in family.shafts] == ["X-1"]


def test_what_a_ticket_lacks_is_said(session: Session) -> None:
    nameless = iron("X-6")
    del nameless["shaft"]["name"]
    bench.take_ticket(session, nameless, "test")
    assert lacking(session.job("X-6")) == "write [shaft] name on ticket X-6"
    build(session, "X-7", None)
    assert lacking(session.job("X-7")) == ""


def test_a_shaft_too_far_off_the_others_is_named_and_teaches_nothing(session: Session) -> None:
    for number, factor in (("X-1", 1.03), ("X-2", 1.04), ("X-3", 1.05), ("X-5", 0.85)):
        build(session, number, factor, stiffness_factor="1 ± 0.1")
    build(session, "X-4", None, stiffness_factor="1 ± 0.1")
    family = family_of(session, session.job("X-4"))
    assert family is not None
    assert [shaft.job for shaft in family.outliers] == ["X-5"]
    assert [shaft.job for shaft in family.shafts] == ["X-1", "X-2", "X-3"]
    assert family.forecast is not None
    assert family.forecast.mean > 1.02
    assert use_family(session, "X-4", family.text) is not None

"""A reading that does not fit is data, and said: what is on the page stands on no sentence of the answer."""

from __future__ import annotations

from itertools import product

import pytest

from benchwork import Clock, run_to, worked
from clubwright.belief.causes.cause import SLIP_SIZE
from clubwright.notation import UnitsShown
from clubwright.planning.misfits import Misfit, MisfitCause, ReadingSaid
from clubwright.services.answer.misfit_to_decide import misfits_to_decide
from clubwright.services.record.session import Session
from clubwright.words.misfit import misfit_finding, say_causes, say_off

pytestmark = pytest.mark.usefixtures("played")
STYLES = (None, UnitsShown(), UnitsShown(length="mm", decimal="comma", language="de"))
READ = ReadingSaid(quantity="total_weight", typed="477.2 g", stage="finished")
PART = ReadingSaid(quantity="old_grip.mass_with_tape", typed="60 g", stage="as it came")
KINDS = (
    MisfitCause(kind="stage", detail="dry, no grip"),
    MisfitCause(kind="stage", detail="dry, no grip", several=True, reading=READ),
    MisfitCause(kind="stage", detail="dry, no grip", reading=READ),
    MisfitCause(kind="weights", detail="port; or 6"),
    MisfitCause(kind="weights", detail="port; or 6", several=True, reading=READ),
    MisfitCause(kind="weights", detail="port; or 6", reading=READ),
    MisfitCause(kind="weights"),
    MisfitCause(kind="to the butt"),
    MisfitCause(kind="to the butt", reading=READ),
    MisfitCause(kind="letter", change=10.0),
    MisfitCause(kind="letter", change=-10.0),
    MisfitCause(kind="letter", change=-10.0, reading=READ),
    MisfitCause(kind="another reading", reading=READ),
    MisfitCause(kind="another reading", reading=PART),
    MisfitCause(kind="reading", detail="gram scale"),
    MisfitCause(kind="gauge", detail="gram scale"),
    MisfitCause(kind="scale", change=0.0004),
    MisfitCause(kind="scale", change=-0.0004),
    MisfitCause(kind="layer", path="tapes.0.mass_kg", name="double-sided", change=-1.0),
    MisfitCause(kind="layer", path="tapes.0.mass_kg", name="double-sided", change=2.0),
    MisfitCause(kind="typed", path="head.mass_kg", stands=0.302, change=0.018),
    MisfitCause(kind="letter", change=10.0, also=MisfitCause(kind="to the butt")),
)


def misfit(*causes: MisfitCause, fact: int | None = 3) -> Misfit:
    return Misfit(
        where="reading 3", fact=fact, job="T-1", reading=READ, notation="mass", value=0.4772, expected=0.4652,
        expected_sd=0.0005, off_by_sd=24.0, causes=causes,
    )  # fmt: skip


@pytest.mark.parametrize(("style", "fact"), list(product(STYLES, (None, 3))))
def test_every_cause_is_said_in_every_style(style: UnitsShown | None, fact: int | None) -> None:
    paths = {path for name in SLIP_SIZE for path in (name, f"earlier.0.{name}") if name in ("length_m", "loft_rad")}
    paths |= {name.replace("tapes.", "tapes.0.").replace("weights.", "weights.0.") for name in SLIP_SIZE}
    paths -= {"length_m", "lie_rad", "loft_rad", "bounce_rad"}
    parts = [MisfitCause(kind="part", path=path, change=change) for path in sorted(paths) for change in (0.003, -0.003)]
    grips = [MisfitCause(kind="part", path="grip.mass_kg", change=0.003, has_core=core) for core in (True, False)]
    said = say_causes(misfit(*KINDS, *parts, *grips), style)
    assert len(said) == len(set(said)) + 1 and all(said), "the grip without a core stands among the parts as well"
    whole = misfit_finding(misfit(*KINDS), style)
    assert "477" in whole.what and whole.severity == "warning"
    assert ("T-1 3" in whole.mend) is (fact is not None) if fact is not None else True


def test_the_causes_on_the_page_are_those_of_the_misfit(session: Session, clock: Clock) -> None:
    """The page's list is made of the causes, and never of the sentence about them."""
    run_to(session, clock, "read total_weight 477.2 g finished")
    now = worked(session)
    (aside,), (found,) = misfits_to_decide(now), now.misfits
    assert len(aside.causes) == len(found.causes) >= 2
    assert aside.fact == found.fact and aside.off == say_off(found, None)
    assert found.causes[0].kind == "reading"
    (told,) = [item for item in now.findings if item.where == found.where]
    assert aside.off in told.what and all(cause in told.what for cause in aside.causes)


def test_a_misfit_in_german_has_a_comma_and_no_english() -> None:
    off = say_off(misfit(*KINDS), STYLES[2])
    assert off == "zeigt 477,2 g, erwartet 465,2 g ± 0,5 g: 24,0 Standardabweichungen daneben"

"""Found by a simulated shop: what is done in place of something else must leave a closed job as it was signed."""

from __future__ import annotations

import pytest
from elsewhere import record_from_elsewhere
from shop import Shop

from clubwright.errors import RecordError
from clubwright.journal.facts import ReadingTaken
from clubwright.services.actions import bench as actions
from clubwright.services.actions.replacing import instead_of
from clubwright.services.recording.merging import take_in


def test_a_step_in_place_of_a_reading_that_a_closed_job_rests_on_is_refused() -> None:
    shop = Shop(1)
    bench = shop.benches[0]
    facts = record_from_elsewhere()
    take_in(bench.session(0), list(facts))
    theirs = next(fact for fact in facts if isinstance(fact.what, ReadingTaken) and fact.what.job == "T-501")
    before = bench.ledger.count()
    with pytest.raises(RecordError, match="job T-501 is finished"):
        actions.do_step(instead_of(bench.session(0), theirs, "mine"), "T-501", "weigh", key="step")
    assert bench.ledger.count() == before
    shop.close()

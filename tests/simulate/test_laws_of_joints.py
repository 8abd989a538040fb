"""The law of mixes finds what seeds seldom come to: a joint that rests on a mix which another job calls bad, or gave up."""

from __future__ import annotations

import pytest
from breaking import LawBroken
from elsewhere import record_from_elsewhere
from faults import bad_mixes_not_heard_of
from laws_of_joints import the_mix_was_sound
from shop import Bench, Shop

from clubwright.errors import GateClosed
from clubwright.journal.facts import Glued, MixTaken
from clubwright.services.actions import bench as actions
from clubwright.services.recording.merging import take_in

SIGNED = 36
"""So many facts of the record from outside: both jobs are signed to be glued."""


def shared_mix() -> tuple[Shop, Bench]:
    """Return a bench at which one job has taken from a mix that was made on the other."""
    shop = Shop(1)
    bench = shop.benches[0]
    take_in(bench.session(0), list(record_from_elsewhere()[:SIGNED]))
    actions.mix_adhesive(bench.session(0), "T-501", "4.0 g", "2.0 g", "22 C", "lot 7", key="mix")
    actions.take_from_mix(bench.session(0), "T-502", "T-501", key="take")
    assert isinstance(bench.decided[-1].fact.what, MixTaken)
    return shop, bench


def test_a_joint_from_a_sound_mix_is_sound() -> None:
    shop, bench = shared_mix()
    actions.glue(bench.session(0), "T-502", "22 C", key="glue")
    the_mix_was_sound(bench.decided[-1])
    shop.close()


def test_a_joint_from_a_bad_mix_is_refused_and_found_where_it_is_not(monkeypatch: pytest.MonkeyPatch) -> None:
    shop, bench = shared_mix()
    actions.call_mix_bad(bench.session(1), "T-501", "it stays soft", key="bad")
    with pytest.raises(GateClosed, match="it stays soft"):
        actions.glue(bench.session(0), "T-502", "22 C", key="glue")
    bad_mixes_not_heard_of(monkeypatch)
    actions.glue(bench.session(0), "T-502", "22 C", key="glue")
    assert isinstance(bench.decided[-1].fact.what, Glued)
    with pytest.raises(
        LawBroken, match="the mix was sound: bench1/5 rests on the mix bench1/2, which bench1/4 calls bad"
    ):
        the_mix_was_sound(bench.decided[-1])
    shop.close()


def test_a_joint_from_a_mix_that_was_undone_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    shop, bench = shared_mix()
    actions.undo(bench.session(1), "T-501", bench.decided[-2].fact.sequence, "a slip", key="undo")
    bad_mixes_not_heard_of(monkeypatch)
    actions.glue(bench.session(0), "T-502", "22 C", key="glue")
    with pytest.raises(LawBroken, match="which was undone"):
        the_mix_was_sound(bench.decided[-1])
    shop.close()

"""The sanity figure of a glued joint, and how it is worded."""

from __future__ import annotations

import pytest

from clubwright.errors import InputError
from clubwright.planning.joint.stress import joint_sanity
from clubwright.words.say import say

JOINT = {"diameter_m": 0.0094, "depth_m": 0.03175, "head_mass_kg": 0.2, "head_speed_m_s": 45.0, "radius_m": 1.7}


def test_reserve_is_capacity_over_load_and_strength_over_stress():
    joint = joint_sanity(**JOINT, strength_pa=13e6)
    assert joint.reserve == pytest.approx(joint.axial_capacity_n / joint.swing_load_n)
    assert joint.reserve == pytest.approx(13e6 / joint.stress_pa)


def test_it_never_reads_as_permission():
    assert "no permission to play" in say(joint_sanity(**JOINT).meaning, None)
    assert "sanity figure" in say(joint_sanity(**JOINT).meaning, None).lower()


def test_every_wrong_number_is_reported_at_once():
    with pytest.raises(InputError) as caught:
        joint_sanity(**{**JOINT, "depth_m": 0.0, "radius_m": float("nan")})
    assert {finding.where for finding in caught.value.findings} == {"bond depth", "radius of the swing"}

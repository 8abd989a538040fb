"""Loft, lie and bounce against scipy's rotations, a table worked out apart, and published articles."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from clubwright.club.bounce import bounce_after_loft_bend_rad
from clubwright.club.loft_lie import face_direction_rad, side_words, sideways_miss_m

Published = Callable[..., None]
DEG = np.pi / 180
FOOT_M, YARD_M, INCH_M = 0.3048, 0.9144, 0.0254

TABLE = {
    20: (0.182, 0.3639, 0.5459, 0.7278),
    25: (0.2331, 0.4663, 0.6993, 0.9323),
    30: (0.2887, 0.5773, 0.8659, 1.1543),
    35: (0.3501, 0.7001, 1.0501, 1.3999),
    40: (0.4195, 0.839, 1.2583, 1.6774),
    45: (0.5, 0.9998, 1.4995, 1.9988),
    50: (0.5958, 1.1915, 1.7868, 2.3817),
    55: (0.714, 1.4278, 2.141, 2.8534),
    60: (0.8659, 1.7314, 2.596, 3.4592),
}
"""Face direction by loft, for lie errors of 0.5, 1, 1.5 and 2 degrees."""


def tilted_normal(loft_deg: float, error_deg: float) -> np.ndarray:
    """Face normal of a square club whose toe is raised, by scipy: X to the toe, Y to the target, Z up."""
    square = Rotation.from_euler("x", loft_deg, degrees=True).apply([0.0, 1.0, 0.0])
    return Rotation.from_euler("y", -error_deg, degrees=True).apply(square)


@pytest.mark.parametrize("loft_deg", sorted(TABLE))
def test_the_face_direction_by_loft_and_lie_error(published: Published, loft_deg: int):
    for error_deg, theirs in zip((0.5, 1, 1.5, 2), TABLE[loft_deg], strict=True):
        published(
            quantity=f"face direction, loft {loft_deg} deg, toe up {error_deg} deg",
            source="rotation matrices worked out apart from this code",
            theirs=theirs,
            ours=face_direction_rad(loft_deg * DEG, error_deg * DEG) / DEG,
            tolerance=1e-4,
            unit="deg",
            standing="derived",
        )


@pytest.mark.parametrize(("loft_deg", "error_deg"), [(9, 3), (34, -1.5), (46, 4), (60, 2), (60, -8)])
def test_face_direction_by_rotating_the_face(published: Published, loft_deg: float, error_deg: float):
    normal = tilted_normal(loft_deg, error_deg)
    where = f"loft {loft_deg} deg, toe up {error_deg} deg"
    published(
        quantity=f"face direction, {where}",
        source="scipy.spatial.transform.Rotation",
        theirs=np.arctan2(-normal[0], normal[1]) / DEG,
        ours=face_direction_rad(loft_deg * DEG, error_deg * DEG) / DEG,
        tolerance=1e-9,
        unit="deg",
        standing="library",
    )


def test_an_article_on_lie_angle(published: Published):
    loft, error = 46 * DEG, 4 * DEG
    source = "otlgolf.com, article on the lie angle"
    published(
        quantity="face direction, loft 46 deg, toe up 4 deg",
        source=source,
        theirs=4,
        ours=face_direction_rad(loft, error) / DEG,
        tolerance=0.2,
        unit="deg",
        standing="seen",
    )
    published(
        quantity="sideways at 120 yd, loft 46 deg, toe up 4 deg",
        source=source,
        theirs=26,
        ours=sideways_miss_m(120 * YARD_M, loft, error) / FOOT_M,
        tolerance=0.5,
        unit="ft",
        standing="seen",
    )
    assert side_words(face_direction_rad(loft, error), "right") == "left of target"
    assert side_words(face_direction_rad(loft, error), "left") == "right of target"


def test_a_middle_iron_at_150_yards(published: Published):
    published(
        quantity="sideways at 150 yd, loft 34 deg, toe up 1 deg",
        source="tan(loft) x 1 deg x 150 yd, by hand",
        theirs=1.8,
        ours=sideways_miss_m(150 * YARD_M, 34 * DEG, DEG) / YARD_M,
        tolerance=0.05,
        unit="yd",
        standing="derived",
    )


def test_a_quarter_turn_shows_the_whole_loft_sideways(published: Published):
    published(
        quantity="face direction, loft 50 deg, toe up 90 deg",
        source="the same limit in a derivation on thesandtrap.com, thread 64131",
        theirs=50,
        ours=face_direction_rad(50 * DEG, 90 * DEG) / DEG,
        tolerance=1e-9,
        unit="deg",
        standing="seen",
    )


@pytest.mark.parametrize(("loft_deg", "rule_deg", "right_deg"), [(60, 2, 5.18), (30, 1, 1.73)])
def test_a_published_rule_linear_in_loft_is_not_followed(
    published: Published, loft_deg: float, rule_deg: float, right_deg: float
):
    """A maker's note (cloud.sogyotecho.jp) gives loft x error / 90 for 3 degrees: less than half of the geometry."""
    ours = face_direction_rad(loft_deg * DEG, 3 * DEG) / DEG
    published(
        quantity=f"face direction, loft {loft_deg} deg, toe up 3 deg",
        source="rotation matrices worked out apart from this code",
        theirs=right_deg,
        ours=ours,
        tolerance=0.01,
        unit="deg",
        standing="derived",
    )
    assert rule_deg == pytest.approx(loft_deg * 3 / 90)
    assert ours > 1.5 * rule_deg


@pytest.mark.parametrize("change_deg", [1, -1])
def test_bounce_goes_with_loft(published: Published, change_deg: int):
    published(
        quantity=f"bounce change for {change_deg:+d} deg of loft",
        source="franklygolf.info, bend and bounce, 2021",
        theirs=change_deg,
        ours=(bounce_after_loft_bend_rad(10 * DEG, change_deg * DEG) - 10 * DEG) / DEG,
        tolerance=1e-9,
        unit="deg",
        standing="seen",
    )

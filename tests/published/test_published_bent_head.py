"""A head with its lie bent, against scipy's rotation of the shaft about the bend point."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from clubwright.club.bending import shaft_direction
from clubwright.club.head_cg import head_after_lie_bend
from clubwright.club.length import BEND_POINT_M
from clubwright.club.parts import Head

Published = Callable[..., None]
HEAD = Head(
    mass_kg=0.26,
    cg_from_ground_m=-0.004,
    cg_off_axis_m=0.037,
    loft_rad=0.5,
    lie_rad=float(np.radians(62)),
    bounce_rad=0.1,
    bore_to_ground_m=0.028,
    sole_contact_m=0.055,
)


@pytest.mark.parametrize("bend_deg", [-2.0, 3.0])
def test_a_lie_bend_turns_the_shaft_about_the_bend_point(published: Published, bend_deg: float) -> None:
    """The head stays soled; where its centre, its bore and its sole are is told anew along and across the turned shaft."""
    along = shaft_direction(HEAD.lie_rad)
    across = np.array([np.sin(HEAD.lie_rad), 0.0, np.cos(HEAD.lie_rad)])
    bend_point = BEND_POINT_M * along
    centre = HEAD.cg_from_ground_m * along + HEAD.cg_off_axis_m * across
    turn = Rotation.from_euler("y", bend_deg, degrees=True)
    new_along, new_across = turn.apply(along), turn.apply(across)
    new_bend_point_m = bend_point[2] / new_along[2]  # up the axis from where it now meets the ground
    ground = bend_point - new_bend_point_m * new_along
    bent = head_after_lie_bend(HEAD, np.radians(bend_deg))
    for what, theirs, ours in (
        ("centre from the ground point", (centre - ground) @ new_along, bent.cg_from_ground_m),
        ("centre off the axis", (centre - ground) @ new_across, bent.cg_off_axis_m),
        ("bore to the ground point", HEAD.bore_to_ground_m + new_bend_point_m - BEND_POINT_M, bent.bore_to_ground_m),
        ("sole's contact from the ground point", HEAD.sole_contact_m - ground[0], bent.sole_contact_m),
    ):
        published(
            quantity=f"{what}, lie bent {bend_deg:+} deg",
            source="scipy.spatial.transform.Rotation",
            theirs=float(theirs) * 1e3,
            ours=float(ours) * 1e3,
            tolerance=1e-9,
            unit="mm",
            standing="library",
        )
    assert np.degrees(float(bent.lie_rad) - float(HEAD.lie_rad)) == pytest.approx(bend_deg)
    assert np.degrees(np.arcsin(new_along[2])) == pytest.approx(np.degrees(float(bent.lie_rad)))
    assert (bent.loft_rad, bent.bounce_rad, bent.mass_kg) == (HEAD.loft_rad, HEAD.bounce_rad, HEAD.mass_kg)

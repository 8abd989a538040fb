"""Frequency and static tests of whole shafts and clubs: patents, independent figures, and a general-purpose integrator."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import msgspec
import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.optimize import brentq

from clubwright.club.beam.assembly import assemble
from clubwright.club.beam.section import STEEL, straight_taper, tube_second_moment_m4
from clubwright.club.beam.solve import frequencies_hz
from clubwright.club.beam.static import tip_deflection, twist_rad
from clubwright.club.beam.stiffness import from_law
from clubwright.club.build import Build, FrequencyMeter, pieces
from clubwright.club.frequency import frequency_hz, frequency_with_test_mass_hz
from clubwright.club.parts import Shaft
from clubwright.club.planes import planes_hz, space_beam
from clubwright.club.stages import BARE_SHAFT, DRY_NO_GRIP, FINISHED, Stage
from worked_clubs import GRAM, IN, IRON, WEDGE, ClubAnswer
from worked_shafts import head_on_shaft, shaft_of, steel_club, steel_profile

Published = Callable[..., None]
APART = "independent finite elements (numpy), nodes on every step"
TUBES = "a US patent's claims on a lightweight steel shaft, by tube areas worked apart"
ORACLE = "scipy.integrate.solve_ivp (DOP853, rtol 1e-11) from tip to clamp, and scipy.optimize.brentq"


def cpm(build: Build) -> float:
    return 60 * float(frequency_hz(build))


def test_steel_blank(published: Published) -> None:
    profile = steel_profile()
    bare = tip_deflection(profile, 0.0, 33.5 * IN).down_m / IN
    for quantity, theirs, ours, tolerance, unit in (
        ("bending stiffness of the tip", 28.827, profile.ei_n_m2(0.1), 0.001, "N m2"),
        ("bending stiffness 20 in from the tip", 48.887, profile.ei_n_m2(20 * IN), 0.001, "N m2"),
        ("bending stiffness of the butt", 106.864, profile.ei_n_m2(36 * IN), 0.001, "N m2"),
        ("tip deflection, 6.5 lbf, 5 in clamped", 3.6755, bare, 0.0001, "in"),
        ("twist over 33.5 in under 1 ft lbf", 1.985, np.degrees(twist_rad(profile, 0.0, 33.5 * IN)), 0.001, "deg"),
    ):  # fmt: skip
        published(
            quantity=f"step-taper steel blank: {quantity}", source=TUBES, theirs=theirs, ours=ours, tolerance=tolerance,
            unit=unit, standing="derived",
        )  # fmt: skip


def test_steel_blank_in_the_band_of_a_patent(published_band: Published) -> None:
    """Steel lies where patents put composite shafts too; a figure of 2 to 6 N m2 that some texts give does not."""
    published_band(
        quantity="steel blank, EI 750 mm from the tip", source="US patent 8,414,417, abstract: at least 4.1e6 kgf mm2",
        low=40.207, high=float("inf"), ours=steel_profile().ei_n_m2(0.750), digits=1.0, unit="N m2", standing="seen",
    )  # fmt: skip


def test_mass_of_the_steel_blank(published: Published) -> None:
    """38.5 in of tubes. The claims' own 3.87 to 4.00 oz (at most 117 g with 1/8 oz) state no length: no row of it."""
    profile = steel_profile()
    theirs, _ = quad(
        lambda s: profile.piece_at(s).start_density_kg_m,
        0.0,
        38.5 * IN,
        points=[piece.end_m for piece in profile.pieces if piece.end_m < 38.5 * IN],
        limit=400,
    )
    published(
        quantity="steel blank of 38.5 in, mass", source="scipy.integrate.quad over the tubes' density", theirs=theirs / GRAM,
        ours=float(shaft_of(profile, 38.5).mass_kg) / GRAM, tolerance=1e-6, unit="g", standing="library",
    )  # fmt: skip


@pytest.mark.parametrize("slope", [120.0, 90.0, 60.0])
def test_composite_law(published: Published, slope: float) -> None:
    profile = from_law(slope, 1.15)
    published(
        quantity="EI 1000 mm from the tip by the law EI = a X",
        source="a times 1000 mm, by hand; the law: US patent 6,652,389 B2, claims 1 and 2",
        theirs=slope, ours=profile.ei_n_m2(1.0), tolerance=1e-9, unit="N m2", standing="derived",
    )  # fmt: skip


def test_straight_taper_tube(published: Published) -> None:
    """9 to 15 mm over 1.1 m, wall 0.4 mm: its stiffness mid-piece against the tube there."""
    profile = straight_taper(1.1, 0.009, 0.015, 0.0004, 0.0004)
    worst = max(
        abs(profile.ei_n_m2(s) / (STEEL.young_pa * np.pi / 64 * (d**4 - (d - 0.0008) ** 4)) - 1)
        for s, d in ((s, 0.009 + 0.006 * s / 1.1) for s in np.linspace(0, 1.1, 1001))
    )
    published(
        quantity="straight-taper tube: largest relative error of EI between stations",
        source="pi/64 (D^4 - d^4) at 1001 places, by numpy", theirs=0.0, ours=worst, tolerance=1e-4, standing="library",
    )  # fmt: skip
    published(
        quantity="second moment of a 15.24 x 0.406 mm tube", source="pi/64 (D^4 - d^4), by hand", theirs=520.6,
        ours=float(tube_second_moment_m4(0.01524, 0.000406)) * 1e12, tolerance=0.5, unit="mm4", standing="derived",
    )  # fmt: skip


SET_IN = (39, 38.5, 38, 37.5, 37, 36.5, 36, 35.5)
SET_G = (242, 249, 256, 263, 270, 277, 284, 291)
Figures = list[tuple[dict[str, float], float]]


def figures(name: str, values: list[float], expected: list[float]) -> Figures:
    return [({name: value}, theirs) for value, theirs in zip(values, expected, strict=True)]


SINGLE: dict[str, Figures] = {
    "clamp length": figures("clamp_in", [2.5, 4, 4.875, 5, 5.125, 6, 7],
                            [298.205, 310.258, 317.456, 318.494, 319.535, 327.395, 337.376]),
    "head mass": figures("head_g", [246, 251, 256, 261, 266], [324.489, 321.45, 318.494, 315.619, 312.82]),
    "length by butt cut": figures("length_in", list(SET_IN),
                                  [310.258, 314.352, 318.494, 322.787, 327.395, 332.21, 337.376, 342.821]),
    "head's centre along the axis": figures("cg_short_in", [-0.5, -0.25, 0, 0.25, 0.5],
                                            [310.95, 314.686, 318.494, 322.375, 326.329]),
    "insertion": figures("insertion_in", [0, 0.75, 1.0, 1.25, 1.5], [318.409, 318.445, 318.466, 318.494, 318.529]),
}  # fmt: skip


@pytest.mark.parametrize("change", SINGLE)
def test_five_iron_and_one_change(published: Published, change: str) -> None:
    """38 in, 256 g, on the steel blank."""
    for given, theirs in SINGLE[change]:
        published(
            quantity=f"5-iron on steel, {change}: {given}", source=APART, theirs=theirs, ours=cpm(head_on_shaft(**given)),
            tolerance=0.02, unit="cpm", standing="derived",
        )  # fmt: skip


@pytest.mark.parametrize(
    ("trimmed", "expected"),
    [
        (True, [310.217, 314.221, 318.494, 323.044, 327.88, 333.012, 338.449, 344.204]),
        (False, [310.217, 310.076, 310.268, 310.681, 311.431, 312.441, 313.8, 315.477]),
    ],
)
def test_set_of_irons(published: Published, trimmed: bool, expected: list[float]) -> None:
    """41 in blank; with 1/2 in more off the tip for each shorter club the set climbs, cut at the butt only it stays flat."""
    profile = steel_profile(tip_in=11.0, butt_in=7.5)
    for place, (length, head, theirs) in enumerate(zip(SET_IN, SET_G, expected, strict=True)):
        build = head_on_shaft(length_in=length, head_g=head, tip_trim_in=0.5 * place * trimmed, profile=profile)
        published(
            quantity=f"iron {length} in, head {head} g, {'tip trimmed' if trimmed else 'butt cut only'}", source=APART,
            theirs=theirs, ours=cpm(build), tolerance=0.02, unit="cpm", standing="derived",
        )  # fmt: skip


@pytest.mark.parametrize(
    ("trim_in", "theirs"),
    [(0, 314.638), (0.5, 318.655), (1, 322.787), (1.5, 327.161), (2, 331.629), (2.5, 336.079), (3, 340.493)],
)
def test_tip_trim(published: Published, trim_in: float, theirs: float) -> None:
    build = head_on_shaft(length_in=37.5, tip_trim_in=trim_in, profile=steel_profile(tip_in=11.0, butt_in=7.5))
    published(
        quantity=f"iron of 37.5 in, {trim_in} in off the tip", source=APART, theirs=theirs, ours=cpm(build), tolerance=0.02,
        unit="cpm", standing="derived",
    )  # fmt: skip


@pytest.mark.parametrize(("slope", "theirs"), [(60.0, 225.29), (90.0, 275.92), (120.0, 318.61)])
def test_driver_by_the_composite_law(
    published: Published, published_band: Published, slope: float, theirs: float
) -> None:
    length_in = 45 - 0.125 - 0.75
    shaft = Shaft(
        raw_length_m=length_in * IN, mass_kg=65 * GRAM / 46 * length_in, balance_from_tip_m=length_in / 2 * IN,
        length_m=length_in * IN, stiffness=from_law(slope, 46 * IN),
    )  # fmt: skip
    build = head_on_shaft(length_in=45, head_g=200, insertion_in=1.5, tip_short_in=0.75, shaft=shaft)
    published(
        quantity=f"driver 45 in, 200 g, EI = a X with a = {slope / 1000} N m2/mm", source=APART, theirs=theirs,
        ours=cpm(build), tolerance=0.05, unit="cpm", standing="derived",
    )  # fmt: skip
    published_band(
        quantity=f"frequencies of clubs as read; driver 45 in, a = {slope / 1000} N m2/mm",
        source="tutelman.com, golf design notes, physics3", low=200.0, high=350.0, ours=cpm(build), digits=1.0, unit="cpm",
        standing="seen",
    )  # fmt: skip


def test_longer_clamp_reads_higher(published: Published) -> None:
    """Both clamps are in use (swingsurgeon.com, shaft dynamics); the article says which reads higher."""
    published(
        quantity="5 in clamp less 2.5 in clamp, 5-iron on steel", source=APART, theirs=318.494 - 298.205,
        ours=cpm(head_on_shaft(clamp_in=5)) - cpm(head_on_shaft(clamp_in=2.5)), tolerance=0.02, unit="cpm",
        standing="derived",
    )  # fmt: skip


def test_both_planes(published: Published) -> None:
    """Centre 1.5 in off the axis, the head's own inertia; in the worked figures 3.2e-4 about the shaft and 2.5e-4 across."""
    found = planes_hz(head_on_shaft(off_axis_in=1.5, head_kg_m2=2.5e-4))
    for quantity, theirs, ours, tolerance in (
        ("face to face, with twist", 316.448, 60 * found.face_hz, 0.02),
        ("toe up and down", 317.009, 60 * found.toe_hz, 0.02),
        ("the planes' difference", 316.448 - 317.009, 60 * found.difference_hz, 0.005),
        ("toe up and down, banded", 317.009, cpm(head_on_shaft(off_axis_in=1.5, head_kg_m2=2.5e-4)), 0.02),
    ):
        published(
            quantity=f"5-iron, centre 1.5 in off axis: {quantity}", source=f"{APART}, in space", theirs=theirs, ours=ours,
            tolerance=tolerance, unit="cpm", standing="derived",
        )  # fmt: skip


def test_shear(published: Published) -> None:
    beam, bodies, springs, held = space_beam(head_on_shaft())
    area = STEEL.shear_pa / STEEL.density_kg_m3
    thick = msgspec.structs.replace(beam, shear_n=lambda x: 0.5 * area * beam.density_kg_m(x))
    both = [
        60 * frequencies_hz(*assemble(made, held=held, bodies=bodies, springs=springs)[:2], 1)[0]
        for made in (thick, beam)
    ]
    published(
        quantity="5-iron on steel: what shear takes off (k = 0.5)", source=APART, theirs=-0.068, ours=both[0] - both[1],
        tolerance=0.005, unit="cpm", standing="derived",
    )  # fmt: skip


@pytest.mark.parametrize("head_down", [1.0, -1.0])
def test_gravity_along_the_club(published: Published, head_down: float) -> None:
    """Hanging head down it reads about 2 cpm higher than lying level, standing head up as much lower."""
    build = head_on_shaft(meter=FrequencyMeter(head_down=head_down))
    which = "down" if head_down > 0 else "up"
    published(
        quantity=f"5-iron, change of frequency with head {which}; the estimate is a uniform beam's, 10 % low for a shaft",
        source="0.5 x 6/5 g / (L w^2), an estimate by hand", theirs=head_down * 0.0063,
        ours=cpm(build) / cpm(head_on_shaft()) - 1, tolerance=0.0008, standing="derived",
    )  # fmt: skip
    theirs = 60 * oracle_hz(hanging(build, build.conventions.meter.clamp_length_m), 9.80665 * head_down)
    published(
        quantity=f"5-iron on steel, head {which}", source=ORACLE, theirs=theirs, ours=cpm(build), tolerance=2e-4, unit="cpm",
        standing="library",
    )  # fmt: skip


class Hanging(msgspec.Struct):
    """What the oracle needs, worked from the parts by itself: pieces of shaft, spread masses, points and the body."""

    edges_m: list[float]
    ei: Callable[[float], float]
    density: Callable[[float], float]
    points: list[tuple[float, float]]
    body: tuple[float, float, float]


def hanging(build: Build, clamp_m: float = 5 * IN) -> Hanging:
    """Read a club of the steel blank for the oracle; places from the hosel top towards the clamp."""
    club, shaft = build.club, build.club.shaft
    profile = shaft.stiffness
    assert profile is not None
    into = float(club.head.bore_depth_m)
    start = float(shaft.tip_trim_m) + into
    free = float(build.stop_m - build.hosel_top_m) - clamp_m
    body, points = [0.0, 0.0, 0.0], []
    grip_from = float(build.cap_face_m - club.grip.length_m - build.hosel_top_m)
    for piece in pieces(build):
        above = float(piece.place_m - build.hosel_top_m)
        if piece.part in ("shaft", "tape", "grip"):
            continue
        if above > 0:
            points.append((above, float(piece.mass_kg)))
            continue
        moments = (1.0, -above, above**2 + float(piece.off_axis_m) ** 2)
        own = (0.0, 0.0, float(piece.own_inertia_kg_m2))
        body = [have + piece.mass_kg * m + o for have, m, o in zip(body, moments, own, strict=True)]
    tip = profile.pieces[0].start_density_kg_m
    body = [have + tip * into ** (k + 1) / (k + 1) for k, have in enumerate(body)]
    grip_on, grip = "grip" in build.stage.parts, club.grip
    taped = club.tapes if "tape" in build.stage.parts else ()
    tape_from = [float(build.cap_face_m - t.cg_from_cap_m - t.length_m / 2 - build.hosel_top_m) for t in taped]
    skew = 6 * (0.5 - float(grip.cg_from_cap_m) / float(grip.length_m))

    def density(x: float) -> float:
        own = profile.piece_at(start + x).start_density_kg_m
        if grip_on and x > grip_from:
            u = (x - grip_from) / float(grip.length_m)
            own += float(grip.mass_kg / grip.length_m) * (1 + skew * (2 * u - 1))
        for tape, low in zip(taped, tape_from, strict=True):
            if x > low:
                own += float(tape.mass_kg / tape.length_m)
        return own

    marks = [piece.end_m - start for piece in profile.pieces] + [grip_from, *tape_from] + [at for at, _ in points]
    edges = [0.0, *sorted({mark for mark in marks if 0 < mark < free}), free]
    return Hanging(
        edges, lambda x: profile.piece_at(start + x).start_ei_n_m2, density, points, (body[0], body[1], body[2])
    )


def oracle_hz(beam: Hanging, along_m_s2: float = 0.0) -> float:
    """Shoot the beam equation from the body to the clamp and find where a combination of both starts is held.

    State: deflection, slope, moment, force across, and tension from what hangs beyond.
    """
    mass, first, second = beam.body

    def miss(omega: float) -> float:
        square, columns = omega**2, []
        for w, slope in ((1.0, 0.0), (0.0, 1.0)):
            moment = square * (first * w - second * slope) + along_m_s2 * first * slope
            state = np.array([w, slope, moment, square * (mass * w - first * slope), along_m_s2 * mass])
            for low, high in pairwise(beam.edges_m):
                ei = beam.ei((low + high) / 2)

                def rate(x: float, y: np.ndarray, ei: float = ei) -> list[float]:
                    density = beam.density(x)
                    return [y[1], y[2] / ei, y[3] + y[4] * y[1], square * density * y[0], along_m_s2 * density]

                inner = 1e-12 * (high - low)
                state = solve_ivp(rate, (low + inner, high - inner), state, method="DOP853", rtol=1e-11, atol=1e-14).y[
                    :, -1
                ]
                state[3] += sum(square * kg * state[0] for at, kg in beam.points if at == high)
            columns.append(state)
        return float(columns[0][0] * columns[1][1] - columns[0][1] * columns[1][0])

    return float(brentq(miss, 2 * np.pi * 3.5, 2 * np.pi * 8.0, xtol=1e-9)) / (2 * np.pi)


@pytest.mark.parametrize("worked", [IRON, WEDGE], ids=lambda worked: worked.name)
@pytest.mark.parametrize("stage", [DRY_NO_GRIP, FINISHED], ids=lambda stage: stage.name)
def test_against_a_general_purpose_integrator(published: Published, worked: ClubAnswer, stage: Stage) -> None:
    """The same club, every part on it, by a library that knows nothing of beams."""
    build = steel_club(worked, stage)
    published(
        quantity=f"{worked.name} on steel, {stage.name}", source=ORACLE, theirs=60 * oracle_hz(hanging(build)),
        ours=cpm(build), tolerance=2e-4, unit="cpm", standing="library",
    )  # fmt: skip


def test_bare_shaft_with_a_test_mass(published: Published) -> None:
    build = steel_club(IRON, BARE_SHAFT, FrequencyMeter(test_mass_kg=0.205, test_insertion_m=0.03))
    shaft = build.club.shaft
    beam = hanging(msgspec.structs.replace(build, club=with_bore(build, 0.03)))
    tip = shaft.stiffness.pieces[0].start_density_kg_m if shaft.stiffness else 0.0
    masses = [0.205 + tip * 0.03, 0.205 * 0.015 + tip * 0.03**2 / 2, 0.205 * 0.015**2 + tip * 0.03**3 / 3]
    beam.body = (masses[0], masses[1], masses[2])
    beam.points = []
    theirs = 60 * oracle_hz(beam)
    direct = 60 * float(frequency_with_test_mass_hz(shaft, 5 * IN, 0.205, 0.03))
    for name, ours in (("by the register", cpm(build)), ("by itself", direct)):
        published(
            quantity=f"bare shaft with 205 g on its tip, {name}", source=ORACLE, theirs=theirs, ours=ours, tolerance=2e-4,
            unit="cpm", standing="library",
        )  # fmt: skip


def with_bore(build: Build, depth_m: float):  # type: ignore[no-untyped-def]
    return msgspec.structs.replace(build.club, head=msgspec.structs.replace(build.club.head, bore_depth_m=depth_m))

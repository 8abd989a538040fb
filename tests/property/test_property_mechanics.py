"""Laws of the mechanics and of the belief, for clubs and readings nobody chose."""

from __future__ import annotations

import msgspec
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.prediction import linearise, predict, values
from clubwright.belief.readings import Reading
from clubwright.belief.update import learn
from clubwright.club.build import Build, pieces
from clubwright.club.moi import moi_kg_m2
from clubwright.club.parts import Adhesive, Club, Ferrule, Grip, Head, Kind, Seat, Shaft, Tape, Weight
from clubwright.club.quantities import QUANTITIES
from clubwright.club.stages import STAGES
from clubwright.club.statics import statics
from clubwright.club.swing_weight import OLDER_FULCRUM_M, moment_about_kg_m
from clubwright.club.total_weight import total_weight_kg
from worked_beliefs import CONVENTIONS, GAUGES, NONE_ON, PRIOR, TEMPLATE, prior, reading, shown
from worked_clubs import GRAM

KEYS = (
    "length",
    "swing_weight",
    "total_weight",
    "balance_point",
    "moi",
    "moi_cg",
    "pendulum_period",
    "swing_weight_12in",
)
NAMES = tuple(PRIOR)
FITTED = np.array([NONE_ON])


def mm(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda value: value * 1e-3)


def grams(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda value: value * GRAM)


@st.composite
def shafts(draw: st.DrawFn) -> Shaft:
    length = draw(mm(750, 1150))
    trims = draw(mm(0, 60)), draw(mm(0, 80))
    raw = length + sum(trims)
    return Shaft(
        raw_length_m=raw,
        mass_kg=draw(grams(45, 135)),
        balance_from_tip_m=raw * draw(st.floats(0.47, 0.58)),
        length_m=length,
        tip_trim_m=trims[0],
        tip_density_kg_m=draw(st.floats(0.05, 0.12)),
        butt_density_kg_m=draw(st.floats(0.05, 0.15)),
    )


def tapes() -> st.SearchStrategy[Tape]:
    return st.builds(Tape, mass_kg=grams(0, 5), cg_from_cap_m=mm(80, 160))


def weights() -> st.SearchStrategy[Weight]:
    seats: tuple[Seat, ...] = ("port", "tip", "butt", "head")
    return st.builds(
        Weight,
        name=st.text("abcdef", min_size=3, max_size=8),
        mass_kg=grams(0.5, 12),
        seat=st.sampled_from(seats),
        place_m=mm(-10, 60),
        off_axis_m=mm(0, 60),
        lifts_shaft_m=mm(0, 3),
    )


@st.composite
def builds(draw: st.DrawFn) -> Build:
    kinds: tuple[Kind, ...] = ("driver", "iron", "wedge", "putter")
    club = Club(
        kind=draw(st.sampled_from(kinds)),
        head=Head(
            mass_kg=draw(grams(170, 370)),
            cg_from_ground_m=draw(mm(-15, 25)),
            cg_off_axis_m=draw(mm(0, 60)),
            own_inertia_kg_m2=draw(st.floats(0, 6e-4)),
            bore_to_ground_m=draw(mm(10, 40)),
            bore_depth_m=draw(mm(25, 40)),
        ),
        shaft=draw(shafts()),
        grip=Grip(mass_kg=draw(grams(20, 140)), cg_from_cap_m=draw(mm(80, 130)), cap_m=draw(mm(1, 8))),
        ferrule=Ferrule(mass_kg=draw(grams(0, 3))),
        adhesive=Adhesive(mass_kg=draw(grams(0, 3))),
        tapes=tuple(draw(st.lists(tapes(), max_size=3))),
        weights=tuple(draw(st.lists(weights(), max_size=4))),
    )
    counts = tuple(float(draw(st.integers(0, 2))) for _ in club.weights)
    return Build(club=club, stage=draw(st.sampled_from(list(STAGES.values()))), fitted=counts)


@given(builds())
def test_the_club_is_the_sum_of_its_pieces(build: Build) -> None:
    found = pieces(build)
    sums = statics(build)
    assert sums.mass_kg == pytest.approx(sum(piece.mass_kg for piece in found), rel=1e-12)
    first = sum(piece.mass_kg * (build.stop_m - piece.place_m) for piece in found)
    assert sums.first_kg_m == pytest.approx(first, rel=1e-12)


@given(builds())
def test_inertia_about_the_centre_is_the_least(build: Build) -> None:
    """Never negative, and the butt's is more by m b^2: the parallel-axis theorem."""
    about_cg = QUANTITIES["moi_cg"].of(build)
    shift = total_weight_kg(build) * QUANTITIES["balance_point"].of(build) ** 2
    assert about_cg > 0
    assert moi_kg_m2(build) == pytest.approx(about_cg + shift, rel=1e-12)


@given(builds(), st.randoms(use_true_random=False))
def test_order_of_assembly_is_irrelevant(build: Build, chance: object) -> None:
    tape_order, weight_order = list(range(len(build.club.tapes))), list(range(len(build.club.weights)))
    chance.shuffle(tape_order)  # type: ignore[attr-defined]
    chance.shuffle(weight_order)  # type: ignore[attr-defined]
    club = msgspec.structs.replace(
        build.club,
        tapes=tuple(build.club.tapes[place] for place in tape_order),
        weights=tuple(build.club.weights[place] for place in weight_order),
    )
    other = msgspec.structs.replace(build, club=club, fitted=tuple(build.fitted[place] for place in weight_order))
    assert statics(other) == pytest.approx(statics(build), rel=1e-12)


@given(builds(), grams(0.5, 20), mm(0, 900), mm(-300, 300))
def test_moving_a_mass_moves_the_moment_by_mass_times_distance(
    build: Build, mass: float, place: float, distance: float
) -> None:
    def with_weight_at(metres: float) -> float:
        added = Weight(name="loose", mass_kg=mass, seat="head", place_m=metres)
        club = msgspec.structs.replace(build.club, weights=(*build.club.weights, added))
        dry = msgspec.structs.replace(build, club=club, fitted=(*build.fitted, 1.0), stage=STAGES["dry, gripped"])
        return float(statics(dry).first_kg_m)

    # Toward the grip the lever about the stop gets shorter.
    assert with_weight_at(place + distance) - with_weight_at(place) == pytest.approx(-mass * distance, abs=1e-12)


@given(builds())
def test_the_two_scales_differ_by_two_inches_of_the_weight(build: Build) -> None:
    gap = moment_about_kg_m(build, OLDER_FULCRUM_M) - moment_about_kg_m(build, 14 * 0.0254)
    assert gap == pytest.approx(total_weight_kg(build) * 2 * 0.0254, rel=1e-9)


@settings(max_examples=30, deadline=None)
@given(st.integers(0, 2**32 - 1), st.sampled_from(list(STAGES.values())))
def test_arrays_are_worked_element_by_element(seed: int, stage: object) -> None:
    generator = np.random.default_rng(seed)
    theta = [mean + sd * generator.standard_normal(5) for mean, sd in PRIOR.values()]
    counts = [generator.integers(0, 2, 5).astype(float) for _ in TEMPLATE.weights]
    together = values(TEMPLATE, CONVENTIONS, NAMES, theta, KEYS, stage, counts)  # type: ignore[arg-type]
    for place in range(5):
        alone = values(
            TEMPLATE,
            CONVENTIONS,
            NAMES,
            [float(column[place]) for column in theta],
            KEYS,
            stage,  # type: ignore[arg-type]
            [float(count[place]) for count in counts],
        )
        picked = [np.broadcast_to(value, (5,))[place] for value in together]
        assert picked == pytest.approx(alone, rel=1e-12)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 2**32 - 1), st.sampled_from(list(STAGES.values())), st.booleans())
def test_complex_step_is_the_central_difference(seed: int, stage: object, fitted: bool) -> None:
    generator = np.random.default_rng(seed)
    at = np.array([mean + sd * generator.standard_normal() for mean, sd in PRIOR.values()])
    counts = np.array([[1.0, 0.0]]) if fitted else FITTED
    _, slope = linearise(TEMPLATE, CONVENTIONS, NAMES, at, KEYS, stage, counts)  # type: ignore[arg-type]
    for place, (_, sd) in enumerate(PRIOR.values()):
        step = np.zeros(len(at))
        step[place] = 0.01 * sd
        ends = [
            values(TEMPLATE, CONVENTIONS, NAMES, list(at + sign * step), KEYS, stage, list(counts[0]))  # type: ignore[arg-type]
            for sign in (1, -1)
        ]
        central = (np.array(ends[0], dtype=float) - np.array(ends[1], dtype=float)) / (2 * step[place])
        assert slope[0, :, place] * sd == pytest.approx(central * sd, abs=1e-9)


@st.composite
def reading_sets(draw: st.DrawFn) -> list[Reading]:
    found = []
    for place in range(draw(st.integers(1, 4))):
        quantity = draw(st.sampled_from(("swing_weight", "total_weight", "length")))
        stage = STAGES[draw(st.sampled_from(("dry, no grip", "dry, gripped", "finished")))]
        fitted = draw(st.sampled_from(((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))))
        off = draw(st.floats(-2, 2)) * GAUGES[quantity].uncertainty()
        value = shown(quantity, stage, fitted) + off
        found.append(reading(quantity, stage, value, where=str(place), fitted=fitted, keep=True))
    return found


@settings(max_examples=40, deadline=None)
@given(reading_sets(), st.randoms(use_true_random=False))
def test_order_of_readings_is_irrelevant(readings: list[Reading], chance: object) -> None:
    other = list(readings)
    chance.shuffle(other)  # type: ignore[attr-defined]
    one, two = (learn(prior(), TEMPLATE, CONVENTIONS, order).belief for order in (readings, other))
    for name in NAMES:
        sd = PRIOR[name][1]
        assert one.mean_of(name) == pytest.approx(two.mean_of(name), abs=1e-7 * sd)
        assert one.sd_of(name) == pytest.approx(two.sd_of(name), rel=1e-7)


@settings(max_examples=40, deadline=None)
@given(reading_sets())
def test_a_reading_never_widens_the_belief(readings: list[Reading]) -> None:
    """No unknown is known worse than from the parts alone, nor, to a thousandth, worse than before the last reading.

    A thousandth, because what earlier readings say is worked out anew at the new mean, where slopes differ a little.
    """
    belief: Gaussian = prior()
    before = predict(belief, TEMPLATE, CONVENTIONS, KEYS, STAGES["finished"], FITTED).sd()[0]
    for count in range(1, len(readings) + 1):
        after = learn(prior(), TEMPLATE, CONVENTIONS, readings[:count]).belief
        for name in NAMES:
            assert after.sd_of(name) <= PRIOR[name][1] * (1 + 1e-12)
            assert after.sd_of(name) <= belief.sd_of(name) * 1.001
        found = predict(after, TEMPLATE, CONVENTIONS, KEYS, STAGES["finished"], FITTED).sd()[0]
        assert np.all(found <= before * 1.001)
        belief, before = after, found


@settings(max_examples=40, deadline=None)
@given(reading_sets())
def test_the_covariance_stays_a_covariance(readings: list[Reading]) -> None:
    """Symmetric to the last bit, and no negative variance in any direction."""
    covariance = learn(prior(), TEMPLATE, CONVENTIONS, readings).belief.covariance
    sd = np.sqrt(np.diag(covariance))
    assert np.array_equal(covariance, covariance.T)
    assert np.linalg.eigvalsh(covariance / np.outer(sd, sd)).min() > -1e-9

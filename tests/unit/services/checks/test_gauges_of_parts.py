"""Which gauge measured a figure, on a ticket: read, refused, written again, and taken over by the next job on the club."""

from __future__ import annotations

import copy
import tomllib
from importlib.resources import files
from typing import Any

import numpy as np
import pytest

from clubwright.belief.gaussian import Gaussian
from clubwright.belief.shared_errors import SharedError, hung_together
from clubwright.belief.unknowns import USUAL_GAUGE, bias_name, is_of_a_gauge, rounding_name
from clubwright.journal.reducers.club_document import taken_over
from clubwright.planning.club_state import club_state_of
from clubwright.services.answer.belief_table import belief_part
from clubwright.ticket.duplicate import same_order
from clubwright.ticket.exporting import document_of_ticket
from clubwright.ticket.read import read_ticket

TEXT = (files("clubwright.demo") / "wedge-54.toml").read_text(encoding="utf-8")


def document(**gauges: dict[str, str]) -> dict[str, Any]:
    found = copy.deepcopy(tomllib.loads(TEXT))
    for part, said in gauges.items():
        (found[part][0] if isinstance(found[part], list) else found[part])["gauges"] = said
    return found


def findings(found: dict[str, Any]) -> list[str]:
    _, said = read_ticket(found, "demo")
    return [f"{item.where}: {item.what}" for item in said if item.severity in ("error", "warning")]


@pytest.mark.parametrize(
    ("part", "said", "refused"),
    [
        ("head", {"mass": "grain scale"}, 'demo [head] gauges mass: no gauge is called "grain scale"'),
        ("head", {"name": "rule"}, "demo [head] gauges name: no gauge measures that here"),
        ("head", {"mass": ""}, "demo [head] gauges mass: '' is no name of a gauge"),
        ("head", {"sole_contact": "rule"}, "demo [head] gauges sole_contact: a gauge without a figure"),
        (
            "head",
            {"mass": "rule"},
            "demo [instrument.rule]: this gauge reads quantities of different kinds: length, mass",
        ),
        ("weight", {"mass": "grain scale"}, 'demo [[weight]] 1 gauges mass: no gauge is called "grain scale"'),
    ],
)
def test_what_is_no_gauge_of_a_figure_is_refused_with_its_place(part: str, said: dict[str, str], refused: str) -> None:
    found = document(**{part: said})
    found["reading"] = [{"quantity": "length", "value": "35 in", "instrument": "rule"}]
    assert refused in findings(found)


def test_a_table_of_gauges_is_a_table() -> None:
    found = document()
    found["head"]["gauges"] = "gram scale"
    assert findings(found) == ["demo [head] gauges: 'gram scale' is no table"]


def test_a_caliper_measures_lengths_and_diameters() -> None:
    assert not findings(document(head={"bore_depth": "caliper", "bore_diameter": "caliper"}))


def test_a_ticket_with_gauges_is_written_as_it_was_read() -> None:
    ticket, _ = read_ticket(document(head={"mass": "gram scale"}, weight={"mass": "gram scale"}), "demo")
    assert ticket is not None
    again, _ = read_ticket(document_of_ticket(ticket), "demo")
    assert again == ticket
    assert ticket.weights[0].gauges == {"mass": "gram scale"}


def test_a_typed_uncertainty_stands_in_for_the_gauge() -> None:
    found = document(head={"mass": "gram scale"})
    found["head"]["mass"] = "296.4 g ± 0.7 g"
    ticket, _ = read_ticket(found, "demo")
    assert ticket is not None
    belief = club_state_of(ticket).prior.belief
    assert belief.sd_of("head.mass_kg") == pytest.approx(0.7e-3)
    assert bias_name("gram scale", "head.mass_kg") not in belief.names


def test_layers_of_which_one_was_weighed_hold_its_error_as_often() -> None:
    found = document(head={"mass": "gram scale"})
    found["tape"] = [{"name": "base", "layers": "3", "layer_mass": "1.6 g", "gauges": {"layer_mass": "gram scale"}}]
    ticket, said = read_ticket(found, "demo")
    assert ticket is not None, said
    belief, bias = club_state_of(ticket).prior.belief, ticket.gauges["gram scale"].bias
    place, head = belief.index("tapes.0.mass_kg"), belief.index("head.mass_kg")
    assert belief.covariance[place, head] == pytest.approx(3 * bias**2)


def test_the_answer_says_what_the_scale_is_believed_to_read_too_high() -> None:
    ticket, _ = read_ticket(document(head={"mass": "gram scale"}), "demo")
    assert ticket is not None
    told = {str(item["name"]): item["what"] for item in belief_part(club_state_of(ticket))}
    assert told["bias:gram scale:total_weight"] == "gram scale: reads every weight too high by"


def test_the_next_job_on_the_club_takes_the_gauges_over() -> None:
    left = document(head={"mass": "gram scale", "loft": "angle gauge"}, grip={"mass": "gram scale"})
    new = {
        "ticket": {"id": "T-0099", "job": "weight"},
        "head": {"loft": "54 deg"},
        "instrument": {"gram scale": {"resolution": "1 g"}},
    }
    found = taken_over(left, new)
    assert found["head"]["gauges"] == {"mass": "gram scale T-0054"}, "another scale of that name, and a loft typed anew"
    assert found["grip"]["gauges"] == {"mass": "gram scale T-0054"}
    assert found["instrument"]["gram scale T-0054"]["resolution"] == "0.1 g"
    assert left["head"]["gauges"] == {"mass": "gram scale", "loft": "angle gauge"}, "the job before stays as it was"


def test_what_was_measured_again_goes_on_with_the_part_that_stays_and_not_with_another_piece_of_that_name() -> None:
    """Tape that comes off in the next job was weighed twice; of the tray one piece lies there still, one is another."""
    left = document(weight={"mass": "gram scale"})
    left["tape"] = [{"name": "base", "mass": "1.6 g", "gauges": {"mass": "gram scale"}}]
    stays, goes = (row["name"] for row in left["weight"][:2])
    again = {
        "tape.base.mass": "1.7 g",
        f"weight.{stays}.mass": "6.05 g",
        f"weight.{goes}.mass": "8 g",
        "head.mass": "296.5 g",
    }
    left["reading"] = [
        {"quantity": quantity, "value": value, "stage": "bare shaft", "weights": [], "instrument": "gram scale"}
        for quantity, value in again.items()
    ]
    new = {"ticket": {"id": "T-0099", "job": "regrip"}, "weight": [{**left["weight"][1], "mass": "4 g", "gauges": {}}]}
    ticket, said = read_ticket(taken_over(left, new), "next")
    assert ticket is not None, said
    assert [reading.quantity for reading in ticket.readings] == ["tape.base.mass", f"weight.{stays}.mass", "head.mass"]
    state = club_state_of(ticket)
    assert not [item.what for item in state.prior.findings if "is not used" in item.what]
    (tape,) = [name for name in state.belief.names if "tapes.0.mass_kg" in name and name.startswith("came")]
    assert state.belief.mean_of(tape) == pytest.approx(1.65e-3, abs=1e-5)


def test_a_club_made_again_has_no_gauges_of_parts_that_are_not_in_hand() -> None:
    found = same_order(document(head={"mass": "gram scale"}, tape={"mass": "gram scale"}), "T-0100")
    assert "gauges" not in found["head"]
    assert "gauges" not in found["tape"][0]


def test_unknowns_of_a_gauge_are_told_from_numbers_of_a_part() -> None:
    assert bias_name("s", "head.mass_kg") == bias_name("s", "total_weight")
    assert bias_name(USUAL_GAUGE, "head.mass_kg") != bias_name(USUAL_GAUGE, "total_weight")
    assert bias_name("s", "shaft.raw_length_m") != bias_name("s", "head.bore_depth_m")
    assert is_of_a_gauge(bias_name("s", "loft")) and is_of_a_gauge(rounding_name("s", "head.mass_kg"))
    assert not is_of_a_gauge("head.mass_kg")


def test_a_shared_error_leaves_each_variance_what_it_was_and_the_whole_a_covariance() -> None:
    belief = Gaussian.independent({"a": (1.0, 2.0), "b": (1.0, 3.5), "c": (1.0, 1.0)})
    errors = [SharedError("bias:s:q", 1.5, {"a": 1.0}), SharedError("bias:s:q", 1.5, {"b": 2.0, "gone": 1.0})]
    found = hung_together(belief, errors)
    assert np.diag(found.covariance).tolist() == [4.0, 12.25, 1.0, 2.25]
    assert found.covariance[0, 1] == pytest.approx(2 * 2.25)
    assert found.covariance[1, 3] == pytest.approx(-2 * 2.25)
    assert hung_together(belief, []) is belief

"""The gauge that measures the figures of a card: shown, changed, and the same figure typed again is one more weighing."""

from __future__ import annotations

import html

from benchwork import JOB
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from webclient import TestClient, post


def told(client: TestClient, path: str, body: dict[str, str]) -> int:
    headers = {"X-Clubwright": "1", "Idempotency-Key": f"api-{path}"}
    return client.post(f"/api/jobs/{JOB}/{path}", json=body, headers=headers).status_code


def weigh(client: TestClient, key: str, **sent: str) -> None:
    answer = post(client, f"/bench/{JOB}", action="figures", key=key, **sent)
    assert answer.status_code == 303, answer.text


def test_the_card_shows_the_usual_scale_and_the_others(web_client: TestClient, web_session: Session) -> None:
    bench.change_part(web_session, JOB, "head", {"hand": "right"})
    bench.do_step(web_session, JOB, "pull")
    page = html.unescape(web_client.get(f"/bench/{JOB}").text)
    at = page.index('name="gauge_mass"')
    chosen = page[at : page.index("</select>", at)]
    assert '<option value="">gram scale</option>' in chosen
    assert '<option value="-">not said</option>' in chosen
    assert "<option>caliper</option>" in chosen


def test_weighed_twice_on_the_page_stands_twice(web_client: TestClient, web_session: Session) -> None:
    weigh(web_client, "w-1", **{"head.mass": "296.0 g"})
    assert web_session.job(JOB).document["head"]["gauges"] == {"mass": "gram scale"}
    weigh(web_client, "w-2", **{"head.mass": "296.0 g"})
    weigh(web_client, "w-2", **{"head.mass": "296.0 g"})
    (again,) = web_session.job(JOB).document["reading"]
    assert (again["quantity"], again["value"], again["instrument"]) == ("head.mass", "296.0 g", "gram scale")


def test_a_gauge_that_is_chosen_is_kept_and_none_takes_the_place(web_client: TestClient, web_session: Session) -> None:
    bench.change_part(web_session, JOB, "instrument.old scale", {"resolution": "1 g"})
    weigh(web_client, "w-1", **{"head.mass": "296 g", "gauge_mass": "old scale"})
    assert web_session.job(JOB).document["head"]["gauges"] == {"mass": "old scale"}
    weigh(web_client, "w-2", **{"head.mass": "295.5 g", "gauge_mass": "-"})
    head = web_session.job(JOB).document["head"]
    assert head["mass"] == "295.5 g"
    assert "gauges" not in head
    assert "reading" not in web_session.job(JOB).document


def test_cut_and_tape_say_what_weighed_them_on_their_cards_and_by_the_interface(
    web_client: TestClient, web_session: Session
) -> None:
    bench.change_part(web_session, JOB, "head", {"hand": "right"})
    for step in ("pull", "weigh", "head check", "bore to ground"):
        bench.do_step(web_session, JOB, step)
    bench.sign_gate(web_session, JOB, "cut")
    page = html.unescape(web_client.get(f"/bench/{JOB}?step=mark+and+cut").text)
    assert 'name="gauge_mass"' in page and 'name="gauge_length"' in page
    sent = {"cut_length": "34.01 in", "cut_mass": "115.3 g", "cut_balance_from_tip": "17.8 in", "gauge_length": "rule"}
    card = {"action": "cut", "step": "mark and cut", "looked": "yes", "key": "c-1"}
    assert post(web_client, f"/bench/{JOB}", **card, **sent).status_code == 303
    shaft = web_session.job(JOB).document["shaft"]
    assert shaft["gauges"]["cut_mass"] == "gram scale" and shaft["gauges"]["cut_balance_from_tip"] == "rule"
    body = {"cut_length": "34.01 in", "cut_balance_from_tip": "17.81 in", "balance_gauge": "rule"}
    assert told(web_client, "cuts", body) == 201
    name, layers = (web_session.job(JOB).document["tape"][0].get(key, "1") for key in ("name", "layers"))
    for key in ("t-1", "t-2"):
        weighed = {f"tape:{name}": "1.6 g"}
        assert post(web_client, f"/bench/{JOB}", action="tape", key=key, **weighed).status_code == 303
    body = {"name": name, "layers": layers, "mass": "1.7 g", "gauge": "gram scale"}
    assert told(web_client, "tape", body) == 201
    found = [
        (row["quantity"], row["value"]) for row in web_session.job(JOB).document["reading"] if "." in row["quantity"]
    ]
    tape = f"tape.{name}.mass"
    assert found == [("shaft.cut_balance_from_tip", "17.81 in"), (tape, "1.6 g"), (tape, "1.7 g")]

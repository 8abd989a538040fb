"""The gauge that measures the figures of a card: shown, changed, and the same figure typed again is one more weighing."""

from __future__ import annotations

import html

from benchwork import JOB
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from webclient import TestClient, post


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

"""The dry-fit card: tip, bore, shim and hosel are typed there, and the interface keeps the same."""

from __future__ import annotations

import html

import pytest

from benchwork import JOB
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from webclient import TestClient, post

PATH = f"/bench/{JOB}"
CARD = f"{PATH}?step=dry%20fit"
HEADERS = {"X-Clubwright": "1"}


def card(client: TestClient) -> str:
    return html.unescape(client.get(CARD).text)


def test_the_card_shows_the_bond_line_and_its_cautions(web_client: TestClient) -> None:
    text = card(web_client)
    assert "bond line a side, fits" in text and "0.0020 in" in text
    assert "A head with a cracked hosel is out" in text
    for name in ("shaft.tip_diameter", "head.bore_diameter", "head.bore_reamed", "head.hosel", "shim.thickness"):
        assert f'name="{name}"' in text
    assert "Keep the fit" in text and "Another head is in hand" not in text


def test_a_misfit_is_kept_and_the_step_refused_with_its_mends(web_client: TestClient, web_session: Session) -> None:
    sent = {"action": "measure", "step": "dry fit", "key": "k-1", "head.bore_diameter": "0.370 in"}
    answer = post(web_client, PATH, CARD, **sent)
    assert answer.status_code == 409
    assert "a shim over the full glued length" in html.unescape(answer.text)
    assert web_session.job(JOB).document["head"]["bore_diameter"] == "0.370 in", "what was measured is so"
    assert "dry fit" not in web_session.job(JOB).steps_done
    mended = {"action": "measure", "step": "dry fit", "key": "k-2", "shim.thickness": "0.005 in", "shim.name": "brass"}
    assert post(web_client, PATH, CARD, **mended).status_code == 303
    assert "dry fit" in web_session.job(JOB).steps_done


def test_a_cracked_hosel_asks_for_another_head(web_client: TestClient, web_session: Session) -> None:
    bench.change_part(web_session, JOB, "head", {"hand": "right"})
    bench.do_step(web_session, JOB, "pull")
    sent = {"action": "measure", "step": "dry fit", "key": "k-1", "head.hosel": "cracked"}
    assert post(web_client, PATH, CARD, **sent).status_code == 409
    text = card(web_client)
    assert "Another head is in hand: measure it anew" in text
    assert "such a head can fly off" in text
    assert 'name="said_by"' in text and 'name="reason"' in text
    unsaid = post(web_client, PATH, CARD, action="another head", key="k-2", step="dry fit", said_by="Ben")
    assert unsaid.status_code == 422
    assert "why it is changed" in html.unescape(unsaid.text) and 'value="Ben"' in unsaid.text
    assert web_session.job(JOB).document["head"]["hosel"] == "cracked"
    said = {"said_by": "Ben", "reason": "it is cracked"}
    assert post(web_client, PATH, CARD, action="another head", key="k-3", step="dry fit", **said).status_code == 303
    assert web_session.job(JOB).trail[-1].text == "head: another head; said by Ben: it is cracked"
    assert web_session.job(JOB).document["head"] == {}
    assert "pull" not in web_session.job(JOB).steps_done
    assert "Take out the parts" in html.unescape(web_client.get(PATH).text), "it begins with a look at its hand"


@pytest.mark.parametrize("values", [{}, {"mass": "297.1 g"}])
def test_a_program_puts_another_head_in_its_place(
    web_client: TestClient, web_session: Session, values: dict[str, str]
) -> None:
    body = {"section": "head", "values": values, "another": True}
    headers = {**HEADERS, "Idempotency-Key": f"k-{len(values)}"}
    unsaid = web_client.post(f"/api/jobs/{JOB}/parts", json=body, headers=headers)
    assert unsaid.status_code == 422
    assert {"who said so", "why it is changed"} <= {item["where"] for item in unsaid.json()["findings"]}
    body |= {"said_by": "Ann", "reason": "the first one is worn"}
    answer = web_client.post(f"/api/jobs/{JOB}/parts", json=body, headers=headers)
    assert answer.status_code == 201, answer.text
    weighed_on = {"gauges": {"mass": "gram scale"}} if values else {}
    assert web_session.job(JOB).document["head"] == {**values, **weighed_on}
    nothing = web_client.post(
        f"/api/jobs/{JOB}/parts", json={"section": "head", "values": {}}, headers={**HEADERS, "Idempotency-Key": "k-9"}
    )
    assert nothing.status_code == 422

"""The card that chooses the weight says first what no set reaches, and offers the other levers with their grams."""

from __future__ import annotations

import html

from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from webclient import TestClient

PAGE = "/bench/{}?step=choose%20weight"


def ticket(swing_weight: str, number: str) -> dict[str, object]:
    return {
        "ticket": {"id": number, "kind": "wedge", "hand": "right", "invented": "yes"},
        "target": {"swing_weight": swing_weight, "length": "35 1/4 in"},
        "tolerance": {"swing_weight": "1 pt", "length": "1/8 in"},
        "head": {"mass": "300 g", "cg_from_ground": "-6 mm ± 2 mm", "bore_to_ground": "28 mm"},
        "shaft": {
            "raw_length": "37 in",
            "mass": "125.2 g",
            "balance_from_tip": "19 1/4 in",
            "butt_density": "3.6 g/in",
        },
        "grip": {"mass": "50 g", "cap": "1/8 in", "cg_from_cap": "4.1 in"},
        "weight": [{"name": "port 2", "mass": "2 g", "seat": "port", "from_ground": "10 mm"}],
    }


def test_the_page_says_it_above_the_offers(web_client: TestClient, web_session: Session) -> None:
    bench.take_ticket(web_session, ticket("D9", "T-901"), "far.toml")
    text = html.unescape(web_client.get(PAGE.format("T-901")).text)
    told, offers = (
        text.index("no set of weights brings the swing weight within tolerance"),
        text.index('class="offers"'),
    )
    assert told < offers < text.index("take another grip") and "of lead tape on the head" in text


def test_it_says_nothing_where_a_set_reaches(web_client: TestClient, web_session: Session) -> None:
    bench.take_ticket(web_session, ticket("D4", "T-902"), "near.toml")
    text = web_client.get(PAGE.format("T-902")).text
    assert 'class="offers"' in text and "no set of weights brings" not in text


def test_what_is_told_to_do_is_of_the_lever_and_of_no_other_head(web_client: TestClient, web_session: Session) -> None:
    bench.take_ticket(web_session, ticket("D9", "T-903"), "far.toml")
    page = PAGE.format("T-903")
    grip, head = (html.unescape(web_client.get(f"{page}&consider={kind}").text) for kind in ("grip", "head"))
    assert "For another head" in head
    assert "For another head" not in grip and "then choose the weight again" in grip

"""The page of a shaft, as a browser without scripts gets it."""

from __future__ import annotations

import re

import pytest
from fastapi import FastAPI

from benchwork import JOB
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.services.shaft.family import family_of
from clubwright.units import CPM_HZ
from shaftwork import DRY, IRON, dry_hz, iron, irons, without_stiffness
from webclient import TestClient, post, signed_in

PAGE = f"/bench/{IRON}/shaft"
MOST_BYTES = 60_000


@pytest.fixture
def with_irons(web_session: Session) -> Session:
    for document in irons():
        bench.take_ticket(web_session, document, "iron.toml")
    return web_session


def trims(text: str) -> dict[str, str]:
    """Return each trim of the table: what stands on its button, and what is marked beside it."""
    rows = re.findall(
        r'<a class="button" href="[^"]*\?trim=\d+#trims"[^>]*>([^<]+)</a>(?:<span class="mark">([^<]*)</span>)?',
        text,
    )
    return dict(rows)


def test_the_bench_leads_to_it_where_it_has_something_to_say(web_client: TestClient, with_irons: Session) -> None:
    assert f'href="{PAGE}"' in web_client.get(f"/bench/{IRON}").text
    assert "/shaft" not in web_client.get(f"/bench/{JOB}").text, "the wedge has no stiffness and orders no frequency"
    document = without_stiffness()
    document["target"]["frequency"] = "327 cpm"
    bench.take_ticket(with_irons, document, "t")
    assert 'href="/bench/X-1010/shaft"' in web_client.get("/bench/X-1010").text, "a frequency is ordered"


def quarters(text: str) -> list[str]:
    """The trims of the table that are whole quarters; those between lie about the best of them."""
    return [trim for trim in trims(text) if "/16 in" not in trim and "/8 in" not in trim]


def test_the_trims_are_within_the_sheet_and_say_what_cannot_be_taken_back(
    web_client: TestClient, with_irons: Session
) -> None:
    answer = web_client.get(PAGE)
    assert answer.status_code == 200
    assert quarters(answer.text) == [
        "1 1/2 in", "1 3/4 in", "2 in", "2 1/4 in", "2 1/2 in", "2 3/4 in", "3 in", "3 1/4 in", "3 1/2 in",
    ]  # fmt: skip
    assert "ticket" in trims(answer.text)["2 1/2 in"]
    assert "Cannot be taken back." in answer.text
    assert "cautions before anything is cut" in answer.text
    assert 'method="post"' not in answer.text.split("<main", 1)[1], "nothing is cut from here, and no family is known"
    assert len(answer.content) < MOST_BYTES


def test_once_the_tip_is_trimmed_nothing_softer_is_shown(web_client: TestClient, with_irons: Session) -> None:
    bench.trim_shaft(with_irons, IRON, "tip", "2 1/2 in")
    assert quarters(web_client.get(PAGE).text) == ["2 1/2 in", "2 3/4 in", "3 in", "3 1/4 in", "3 1/2 in"]


def test_the_trim_that_is_looked_at_is_marked_drawn_and_compared(web_client: TestClient, with_irons: Session) -> None:
    own = web_client.get(f"{PAGE}?trim=63500").text
    assert "looked at" in trims(own)["2 1/2 in"]
    assert "Before and after" not in own
    assert "tip waste 2.50 in" in own
    other = web_client.get(f"{PAGE}?trim=82550").text
    assert trims(other)["3 1/4 in"] == "looked at"
    assert "Before and after: 3 1/4 in off the tip" in other
    assert "tip waste 3.25 in" in other
    assert 'class="cut-was"' in other
    moved = re.search(r'<th scope="row">frequency</th>.*?<td class="num">(\+[\d.]+) cpm</td></tr>', other)
    assert moved is not None
    assert 3 < float(moved[1]) < 12
    assert other.count('aria-current="true"') == 1


@pytest.mark.parametrize("trim", ["99 in", "x", "-1", "<b>"])
def test_a_trim_that_is_not_planned_shows_the_best(web_client: TestClient, with_irons: Session, trim: str) -> None:
    answer = web_client.get(PAGE, params={"trim": trim})
    assert answer.status_code == 200
    assert [mark for mark in trims(answer.text).values() if "looked at" in mark] == [
        mark for mark in trims(web_client.get(PAGE).text).values() if "best" in mark
    ]
    assert web_client.get(PAGE, params={"trim": "9" * 81}).status_code == 422


def test_a_cut_shaft_is_not_planned_any_more(web_client: TestClient, web_session: Session) -> None:
    document = iron()
    document["shaft"]["cut_length"] = "35.755 in"
    bench.take_ticket(web_session, document, "t")
    text = web_client.get(PAGE).text
    assert "The shaft has its length already" in text
    assert trims(text) == {}
    assert "tip cut off 2.50 in" in text


def test_the_set_lists_the_players_clubs_with_links(web_client: TestClient, with_irons: Session) -> None:
    text = web_client.get(PAGE).text
    assert re.findall(r'<a href="/bench/([^/"]+)/shaft">([^<]+)</a>', text) == [
        ("X-1009", "9 iron"),
        ("X-1006", "6 iron"),
        ("X-1005", "5 iron"),
    ]
    assert "7 iron, this club" in text
    assert "cpm for each inch shorter" in text


def test_without_a_stiffness_it_says_so_and_how_to_mend_it(web_client: TestClient, web_session: Session) -> None:
    bench.take_ticket(web_session, without_stiffness(), "t")
    answer = web_client.get("/bench/X-1010/shaft")
    assert answer.status_code == 200
    assert "does not say how stiff this shaft is" in answer.text
    assert "Write [shaft] stiffness on the ticket" in answer.text
    assert 'href="/tickets/X-1010"' in answer.text
    assert "<svg" not in answer.text, "nothing is drawn that is not known"


def test_a_job_that_is_none_is_not_found(web_client: TestClient) -> None:
    assert web_client.get("/bench/NONE/shaft").status_code == 404


def test_what_was_typed_is_never_markup(web_client: TestClient, web_session: Session) -> None:
    for document in irons():
        document["ticket"] |= {"label": f"<b>{document['ticket']['label']}", "player": "<i>P"}
        document["shaft"]["name"] = "<u>Larch"
        bench.take_ticket(web_session, document, "t")
    text = web_client.get(PAGE).text
    assert not re.search(r"<b>|<i>|<u>", text)
    assert "&lt;b&gt;6 iron" in text


# --- What like shafts of the record say ------------------------------------------------------------------------------


def with_family(session: Session) -> None:
    for number, share in (("X-1006", 1.01), ("X-1009", 1.02)):
        value = f"{share * dry_hz(session.job(number).document) / CPM_HZ:.1f} cpm"
        bench.note_reading(session, number, "frequency", value, stage=DRY, weights=[])
    bench.change_part(session, IRON, "shaft", {"stiffness_factor": "1 ± 0.05"})


def test_the_family_is_shown_and_used_with_a_tap(web_client: TestClient, with_irons: Session) -> None:
    assert "Shafts of this model" not in web_client.get(PAGE).text
    with_family(with_irons)
    text = web_client.get(PAGE).text
    assert "Shafts of this model: Larch 120" in text
    found = re.search(r'name="factor" value="([^"]+)"', text)
    assert found is not None
    assert re.fullmatch(r"[01]\.\d{3} ± 0\.\d{3}", found[1])
    before = with_irons.ledger.count()
    answers = [post(web_client, PAGE, PAGE, factor=found[1], key="f-1") for _ in range(2)]
    assert [(answer.status_code, answer.headers["location"]) for answer in answers] == [(303, f"{PAGE}#family")] * 2
    assert with_irons.ledger.count() == before + 1, "a double tap is one fact"
    assert with_irons.job(IRON).document["shaft"]["stiffness_factor"] == found[1]
    assert "the ticket says so already" in web_client.get(PAGE).text
    assert len(web_client.get(PAGE).content) < MOST_BYTES


@pytest.mark.parametrize("factor", ["", "1.5 ± 0.001", "9" * 200])
def test_a_factor_that_the_record_does_not_say_is_not_taken(
    web_client: TestClient, with_irons: Session, factor: str
) -> None:
    with_family(with_irons)
    before = with_irons.ledger.count()
    answer = post(web_client, PAGE, PAGE, factor=factor, key="f-1")
    assert answer.status_code == 422
    assert "by now" in answer.text
    assert with_irons.ledger.count() == before


def test_who_may_look_is_offered_no_factor(open_app: FastAPI, with_irons: Session) -> None:
    with_family(with_irons)
    lena = signed_in(open_app, "Lena")
    text = lena.get(PAGE).text
    assert "Shafts of this model: Larch 120" in text
    assert 'name="factor"' not in text
    found = family_of(with_irons, with_irons.job(IRON))
    assert found is not None
    before = with_irons.ledger.count()
    assert post(lena, PAGE, PAGE, factor=found.text, key="f-1").status_code == 403
    assert with_irons.ledger.count() == before


def test_the_family_is_used_only_from_our_own_page(web_client: TestClient, with_irons: Session) -> None:
    with_family(with_irons)
    found = family_of(with_irons, with_irons.job(IRON))
    assert found is not None
    before = with_irons.ledger.count()
    assert web_client.post(PAGE, data={"factor": found.text, "key": "f-1"}).status_code == 403
    assert with_irons.ledger.count() == before


def test_set_aside_shafts_are_shown_and_keep_the_button_away(web_client: TestClient, with_irons: Session) -> None:
    with_family(with_irons)
    value = f"{1.05 * dry_hz(irons()[0]) / CPM_HZ:.1f} cpm"
    bench.note_reading(with_irons, "X-1005", "frequency", value, stage=DRY, weights=[])
    text = web_client.get(PAGE).text
    assert '<a href="/bench/X-1005">X-1005</a>, set aside' in text
    assert "Not to be taken over: the frequency of X-1005 was set aside" in text
    assert 'name="factor"' not in text


# --- What if ---------------------------------------------------------------------------------------------------------


def test_a_change_that_is_thought_of_is_told_and_nothing_is_kept(web_client: TestClient, with_irons: Session) -> None:
    before = with_irons.ledger.count()
    answer = web_client.get(PAGE, params={"butt": "1/4 in", "head": "262 g", "other": "X-1006"})
    assert answer.status_code == 200
    assert (
        "Before and after: with the shaft of X-1006, 1/4 in (0.250 in, 6.35 mm) off the butt, a head of 262.0 g"
        in answer.text
    )
    rows = re.findall(r'<th scope="row">([a-z ]+)</th>.*?<td class="num">([^<]*)</td></tr>', answer.text)
    assert dict(rows)["length"] == "-0.25 in"
    assert 'value="262 g"' in answer.text, "what was typed is still there"
    assert with_irons.ledger.count() == before


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"butt": "35,5"}, "has a comma"),
        ({"head": "262"}, "has no unit"),
        ({"other": "T-9999"}, "has no ticket"),
        ({"butt": "<script>alert(1)</script>"}, "&lt;script&gt;"),
    ],
)
def test_what_cannot_be_thought_of_is_said(
    web_client: TestClient, with_irons: Session, asked: dict[str, str], said: str
) -> None:
    answer = web_client.get(PAGE, params=asked)
    assert answer.status_code == 422
    assert said in answer.text
    assert "Before and after" not in answer.text
    assert "<script>alert" not in answer.text

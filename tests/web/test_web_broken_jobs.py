"""One broken job never takes a list down: it is listed as broken, with what is wrong, and every other job goes on."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from benchwork import JOB
from cli_runs import clubwright
from clubwright.bootstrap import BESIDE, RECORD
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.services.shaft.family import family_of
from clubwright.services.shaft.set_frequencies import same_player
from clubwright.web.guard.access import SECRET_FILE
from clubwright.web.guard.people import FILE
from webclient import TestClient

OTHER = "T-0090"
LISTS = ("/tickets", "/records?state=all", "/tickets/new")


@pytest.fixture
def two_jobs(web_session: Session) -> None:
    document = {
        "ticket": {"id": OTHER, "kind": "iron", "hand": "left", "player": "Mara Quill", "label": "7 iron"},
        "head": {"hand": "left"},
    }
    bench.take_ticket(web_session, document, "t")
    bench.change_part(web_session, JOB, "head", {"mass": "296.1 g"})


def change(folder: Path, statement: str) -> None:
    """Change the record behind the program's back."""
    connection = sqlite3.connect(folder / RECORD)
    for trigger in ("update", "delete", "gap"):
        connection.execute(f"DROP TRIGGER fact_no_{trigger}")
    connection.execute(statement)
    connection.commit()
    connection.close()


CHANGES = {
    "a figure that was changed": "UPDATE fact SET what = replace(what, '296.1', '286.1') WHERE sequence = 3",
    "content that is no JSON": "UPDATE fact SET what = 'x' WHERE sequence = 3",
    "a kind that there is not": "UPDATE fact SET what = replace(what, 'part changed', 'parts swapped') WHERE sequence = 3",
    "a column of another job": f"UPDATE fact SET job = '{OTHER}x' WHERE sequence = 3",
    "a time that is none": "UPDATE fact SET at = 'noon' WHERE sequence = 3",
    "a text that is no UTF-8": "UPDATE fact SET typed = CAST(x'ff' AS TEXT) WHERE sequence = 3",
}


@pytest.mark.parametrize("name", CHANGES)
def test_a_job_with_a_damaged_fact_is_listed_as_broken(
    two_jobs: None,
    web_client: TestClient,
    web_session: Session,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    name: str,
) -> None:
    change(tmp_path, CHANGES[name])
    for page in ("/tickets", "/records?state=all"):
        answer = web_client.get(page)
        assert answer.status_code == 200
        assert "nobody knows where these stand" in answer.text
        assert "record bench/3" in answer.text
        assert f'href="/bench/{OTHER}"' in answer.text or f'href="/records/{OTHER}"' in answer.text
        assert f'href="/bench/{JOB}"' not in answer.text
    listed = web_client.get("/api/jobs").json()
    assert [job["id"] for job in listed["jobs"]] == [OTHER]
    assert JOB in [job["id"] for job in listed["broken"]]
    assert all(job["findings"] for job in listed["broken"])
    if name != "a column of another job":  # changed with its index, as no rot does: only who reads everything sees it
        refused = web_client.get(f"/bench/{JOB}")
        assert refused.status_code == 409
        assert "Copy this record as it is" in refused.text
    assert web_client.get(f"/bench/{OTHER}").status_code == 200
    ran = clubwright(capsys, "jobs", "--shop", str(tmp_path), "--json")
    assert {row["id"]: row["state"] for row in ran.body()}[JOB] == "broken"
    assert "record bench/3" in ran.err
    verified = clubwright(capsys, "verify", "--shop", str(tmp_path))
    assert (verified.code, "record bench/3" in verified.out) == (1, True)


def test_the_other_job_is_worked_on_as_if_nothing_were(
    two_jobs: None, web_client: TestClient, web_session: Session, tmp_path: Path
) -> None:
    change(tmp_path, CHANGES["a figure that was changed"])
    bench.do_step(web_session, OTHER, "pull")
    assert web_session.job(OTHER).steps_done == ("pull",)
    assert same_player(web_session, web_session.job(OTHER)) is not None
    assert family_of(web_session, web_session.job(OTHER)) is None
    for page in (f"/bench/{OTHER}/shaft", f"/records/{OTHER}", f"/records/{OTHER}/sheet.pdf", *LISTS):
        assert web_client.get(page).status_code == 200, page


def test_a_fact_that_is_gone_is_told_on_every_list(
    two_jobs: None, web_client: TestClient, web_session: Session, tmp_path: Path
) -> None:
    bench.do_step(web_session, OTHER, "pull")
    change(tmp_path, "DELETE FROM fact WHERE sequence = 3")
    for page in ("/tickets", "/records?state=all"):
        text = web_client.get(page).text
        assert "The record is damaged" in text
        assert "bench/3" in text
    assert "bench/3" in web_client.get("/api/jobs").json()["findings"][0]["what"]


def test_broken_jobs_are_found_by_their_words_and_keep_their_number(
    two_jobs: None, web_client: TestClient, tmp_path: Path
) -> None:
    change(tmp_path, CHANGES["a figure that was changed"])
    assert "nobody knows" in web_client.get("/tickets?q=ashdown").text
    assert "nobody knows" not in web_client.get("/tickets?q=quill").text
    assert "T-0091" in web_client.get("/tickets/new").text
    form = web_client.get("/tickets/new/form")
    assert form.status_code == 200


def test_a_fault_of_this_program_on_one_job_leaves_the_list_up(
    two_jobs: None, web_client: TestClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    from clubwright.services.jobs import job_list

    worked = job_list.answer_job

    def faulty(job, now):
        if job.id == JOB:
            raise ZeroDivisionError
        return worked(job, now)

    monkeypatch.setattr(job_list, "answer_job", faulty)
    answer = web_client.get("/tickets")
    assert answer.status_code == 200
    assert "cannot be worked" in answer.text
    assert f'href="/bench/{OTHER}"' in answer.text


@pytest.mark.parametrize("left", BESIDE)
def test_a_record_that_is_gone_is_not_begun_anew_in_silence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], left: str
) -> None:
    (tmp_path / left).write_text("")
    ticket = tmp_path / "t.toml"
    ticket.write_text(f'[ticket]\nid = "{OTHER}"\nkind = "iron"\nhand = "left"\n', encoding="utf-8")
    ran = clubwright(capsys, "take", str(ticket), "--shop", str(tmp_path))
    assert ran.code == 1
    assert "is gone" in ran.err
    assert "backup" in ran.err
    assert not (tmp_path / RECORD).exists()


def test_the_files_that_stand_beside_a_record_are_those_that_the_page_writes() -> None:
    assert {FILE, SECRET_FILE} <= set(BESIDE)


def test_people_may_be_added_before_the_first_ticket(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sys.stdin", type("Typed", (), {"readline": lambda self: "482913\n"})())
    shop = str(tmp_path / "shop")
    assert clubwright(capsys, "person", "Ann", "--role", "sign off", "--pin-stdin", "--shop", shop).code == 0
    ticket = tmp_path / "t.toml"
    ticket.write_text(f'[ticket]\nid = "{OTHER}"\nkind = "iron"\nhand = "left"\n', encoding="utf-8")
    assert clubwright(capsys, "take", str(ticket), "--shop", shop).code == 0

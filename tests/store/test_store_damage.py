"""A damaged record says what is wrong: no traceback, never "whole" when a fact was changed, and every list goes on."""

from __future__ import annotations

import random
import sqlite3
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from benchwork import Clock, session_on
from clubwright.bootstrap import RECORD, open_session
from clubwright.errors import RecordError
from clubwright.journal.facts import (
    Fact,
    Gripped,
    PartChanged,
    ReadingTaken,
    StepDone,
    TicketTaken,
    Undone,
    WeightsFitted,
)
from clubwright.services.actions.orders.renumbering import next_number
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

PLACES = 300
PARTS = 6
"""Every place is tried, a part of them in each test."""
PAGE = 4096
JOBS = ("T-0001", "T-0002", "T-0003")


def whats(job: str) -> list:
    document = {
        "ticket": {"id": job, "player": "Invented Player", "label": "wedge", "kind": "wedge", "hand": "right"},
        "target": {"swing_weight": "D4", "length": "35 1/4 in"},
        "head": {"name": "Kestrel 54", "mass": "296.4 g", "loft": "54.5 deg"},
        "shaft": {"name": "Larch 125", "raw_length": "37 in", "mass": "125.2 g"},
        "weight": [{"name": "port 6", "mass": "6.05 g", "seat": "port", "count": "2"}],
    }
    return [
        TicketTaken(job=job, document=document, source="demo.toml"),
        StepDone(job=job, step="pull", note="right-handed, looked at"),
        PartChanged(job=job, section="grip", values={"mass": "49.6 g"}),
        ReadingTaken(job=job, quantity="swing_weight", value="D2", stage="dry, taped", weights=[]),
        WeightsFitted(job=job, weights=["port 6"]),
        Gripped(job=job),
    ]


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A small record of three jobs, several pages long."""
    path = tmp_path_factory.mktemp("sound") / RECORD
    engine = open_engine(f"sqlite:///{path}")
    migrate(engine)
    ledger = Ledger(engine)
    for number, what in enumerate(each for job in JOBS for each in whats(job)):
        at = f"2026-03-02T08:{number:02d}:00.000Z"
        ledger.append("van", [what], by="Invented Clubmaker", at=at, typed=f"demo {number}", key=f"demo-{number}")
    ledger.append("shop", [StepDone(job="T-0001", step="weigh")], by="Bo", at=at, typed="", key="shop-1")
    undone = Undone(job="T-0001", fact=1, reason="", site="shop")
    ledger.append("van", [undone], by="Bo", at=at, typed="", key="undo-1")
    engine.dispose()
    return path.read_bytes()


@contextmanager
def opened(folder: Path, content: bytes) -> Iterator[Session]:
    (folder / RECORD).write_bytes(content)
    engine = open_engine(f"sqlite:///{folder / RECORD}")
    try:
        migrate(engine)
        yield session_on(Ledger(engine), Clock())
    finally:
        engine.dispose()


def _root_page(path: Path, name: str) -> int:
    connection = sqlite3.connect(path)
    try:
        (page,) = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", (name,)).fetchone()
        return int(page)
    finally:
        connection.close()


@pytest.fixture(scope="module")
def facts(sound: bytes, tmp_path_factory: pytest.TempPathFactory) -> list[Fact]:
    with opened(tmp_path_factory.mktemp("facts"), sound) as session:
        return session.ledger.facts()


def flips(content: bytes) -> list[tuple[int, int]]:
    """Places all over the file: two of three where something is written, so that few are in empty space."""
    chance = random.Random(54)
    written = [at for at, byte in enumerate(content) if byte]
    places = [*chance.sample(written, PLACES * 2 // 3), *chance.sample(range(len(content)), PLACES // 3)]
    return [(place, chance.randrange(8)) for place in places]


def flipped(content: bytes, place: int, bit: int) -> bytes:
    changed = bytearray(content)
    changed[place] ^= 1 << bit
    return bytes(changed)


def answer_of(folder: Path, content: bytes, facts: list[Fact], where: str) -> str:
    """Open a record, verify it, list its jobs and back it up; hold each answer against the facts that were written."""
    backup = folder / "backup.sqlite"
    backup.unlink(missing_ok=True)
    try:
        with opened(folder, content) as session:
            findings, shop = session.ledger.verify(), session.shop()
            assert all(item.where and item.what and item.mend for item in (*findings, *shop.findings)), where
            found, refused = read(session)
            assert findings or found == facts, f"{where}: whole, and its facts are others"
            assert found is None or found == facts, f"{where}: a fact that nobody wrote"
            assert bool(shop.broken or shop.findings) == (found is None), f"{where}: {shop.broken} {shop.findings}"
            assert {*shop.numbers} >= set(JOBS) or shop.findings, f"{where}: a job is gone from the list"
            assert set(shop.jobs) - set(JOBS) == set(), where
            assert all(sound_job(session, job) for job in shop.jobs), where
            count, why_not = backed_up(session, backup)
            refused += why_not
            assert count == (None if found is None else len(facts)), f"{where}: {why_not}"
            assert backup.exists() == (count is not None), where
            said = "whole" if not findings else "found, and nothing lost" if found is not None else "found"
    except RecordError as not_opened:
        refused, said = str(not_opened), "not opened"
    assert not refused or ("copy" in refused.lower() and "backup" in refused), f"{where}: {refused}"
    return said


def backed_up(session: Session, path: Path) -> tuple[int | None, str]:
    try:
        return session.ledger.backup(path), ""
    except RecordError as refused:
        return None, str(refused)


def read(session: Session) -> tuple[list[Fact] | None, str]:
    try:
        return session.ledger.facts(), ""
    except RecordError as refused:
        return None, str(refused)


def sound_job(session: Session, job: str) -> bool:
    """A job that is listed as sound has all that was done on it."""
    return len(session.job(job).trail) == len(whats(job)) + (2 if job == JOBS[0] else 0)


@pytest.mark.parametrize("part", range(PARTS))
def test_every_flipped_bit_is_answered_in_words(sound: bytes, facts: list[Fact], tmp_path: Path, part: int) -> None:
    answers = Counter(
        answer_of(tmp_path, flipped(sound, place, bit), facts, f"byte {place}, bit {bit}")
        for place, bit in flips(sound)[part::PARTS]
    )
    assert sum(answers.values()) == PLACES / PARTS
    assert answers["found"] > PLACES / PARTS / 3
    assert {"not opened", "found", "found, and nothing lost", "whole"} >= set(answers)


def test_pages_that_are_zeros_or_gone_are_answered_in_words(sound: bytes, facts: list[Fact], tmp_path: Path) -> None:
    pages = range(0, len(sound), PAGE)
    answers: Counter[str] = Counter()
    for start in pages:
        zeroed = sound[:start] + bytes(PAGE) + sound[start + PAGE :]
        answers[answer_of(tmp_path, zeroed, facts, f"page at {start} of zeros")] += 1
        answers[answer_of(tmp_path, sound[:start], facts, f"cut off at {start}")] += 1
        answers[answer_of(tmp_path, sound[: start + 100], facts, f"cut off at {start + 100}")] += 1
    assert set(answers) <= {"not opened", "found", "found, and nothing lost"}


@pytest.mark.parametrize("content", [b"", b"x", b"SQLite", b"a note about my irons, saved under the wrong name" * 90])
def test_a_file_that_is_no_record_is_refused_and_left_as_it_is(tmp_path: Path, content: bytes) -> None:
    (tmp_path / RECORD).write_bytes(content)
    with pytest.raises(RecordError, match="backup"), open_session(str(tmp_path), by="Ann"):
        pass
    assert (tmp_path / RECORD).read_bytes() == content


def test_a_flipped_letter_breaks_its_own_job_only(sound: bytes, tmp_path: Path) -> None:
    at = sound.index(b"49.6 g")
    with opened(tmp_path, sound[:at] + b"48" + sound[at + 2 :]) as session:
        shop = session.shop()
        (broken,) = shop.broken.values()
        assert set(shop.jobs) == set(JOBS) - {broken.id}
        assert (broken.label, broken.player) == ("wedge", "Invented Player")
        assert "was changed after it was written" in broken.findings[0].sentence()
        with pytest.raises(RecordError, match="was changed after it was written"):
            session.job(broken.id)
        assert next_number(shop) == "T-0004"


def test_a_row_that_the_index_no_longer_finds_is_missed(sound: bytes, tmp_path: Path) -> None:
    """A job is read by the index of jobs: where that is damaged, a fact must not be passed over in silence."""
    (tmp_path / RECORD).write_bytes(sound)
    root = _root_page(tmp_path / RECORD, "ix_fact_job")
    page = sound[(root - 1) * PAGE : root * PAGE]
    at = (root - 1) * PAGE + page.index(JOBS[1].encode())
    with opened(tmp_path, flipped(sound, at + 5, 0)) as session:
        assert session.ledger.verify()
        assert [len(session.job(job).trail) for job in JOBS] == [8, 6, 6]


@contextmanager
def full_disk(room: int) -> Iterator[None]:
    """No file may grow beyond so many bytes: the system then refuses a write as it does on a full disk."""
    resource = pytest.importorskip("resource")
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (room, before[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, before)


@pytest.mark.parametrize("room", [0, 3 * PAGE])
def test_a_full_disk_under_a_backup_leaves_no_file_and_says_so(sound: bytes, tmp_path: Path, room: int) -> None:
    with opened(tmp_path, sound) as session:
        with full_disk(room), pytest.raises(RecordError, match="with room for the whole record"):
            session.ledger.backup(tmp_path / "backup.sqlite")
        assert not list(tmp_path.glob("backup*"))
        assert session.ledger.verify() == ()


def test_a_full_disk_under_an_action_writes_nothing(sound: bytes, facts: list[Fact], tmp_path: Path) -> None:
    with opened(tmp_path, sound) as session:
        steps = [StepDone(job=JOBS[0], step="x" * 900) for _ in range(50)]
        with full_disk(len(sound)), pytest.raises(RecordError, match="nothing was written"):
            session.ledger.append("van", steps, by="Ann", at=facts[-1].at, typed="", key="full")
        assert session.ledger.verify() == ()
        assert session.ledger.facts() == facts


def test_a_folder_that_is_not_there_takes_no_backup_and_is_named(sound: bytes, tmp_path: Path) -> None:
    with opened(tmp_path, sound) as session, pytest.raises(RecordError, match="Name a folder that is there"):
        session.ledger.backup(tmp_path / "nowhere" / "backup.sqlite")

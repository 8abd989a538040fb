"""The JSON interface against its own document: whatever a program sends, the answer is one that the document names."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from hypothesis import HealthCheck, given, settings
from hypothesis.errors import Unsatisfiable
from schemathesis import GenerationMode
from schemathesis.specs.openapi.checks import positive_data_acceptance

from benchwork import JOB, Clock, document, session_on
from clubwright.errors import NotInRecord
from clubwright.services.actions import bench
from clubwright.services.record.session import Session
from clubwright.store.engine import open_engine
from clubwright.store.ledger import Ledger
from clubwright.store.migrate import migrate
from clubwright.web.api import actions, routes
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings

BOUNDED = settings(
    max_examples=12,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=list(HealthCheck),
)
App = Callable[[Any, Any, Any], Awaitable[None]]


def as_localhost(app: App) -> App:
    """Ask under this computer's own name: the page answers to no other."""

    async def asked(scope: Any, receive: Any, send: Any) -> None:
        if scope["type"] == "http":
            headers = [(name, value) for name, value in scope["headers"] if name != b"host"]
            scope = {**scope, "headers": [*headers, (b"host", b"localhost")]}
        await app(scope, receive, send)

    return asked


@pytest.fixture(scope="module")
def fuzzed_session(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Session, Path]]:
    folder = tmp_path_factory.mktemp("fuzzed")
    engine = open_engine(f"sqlite:///{folder / 'record.sqlite'}")
    migrate(engine)
    session = session_on(Ledger(engine), Clock(), site="bench", by="bench")
    bench.take_ticket(session, document(), "wedge-54.toml")
    yield session, folder
    engine.dispose()


@pytest.fixture(scope="module")
def api_schema(fuzzed_session: tuple[Session, Path]) -> Any:
    session, folder = fuzzed_session
    app = create_app(WebSettings(shop=str(folder)), session)
    return schemathesis.openapi.from_asgi("/openapi.json", as_localhost(app))


ROUTES = (*routes.router.routes, *actions.router.routes)
OPERATIONS = [(route.path, method) for route in ROUTES for method in sorted(route.methods)]  # type: ignore[attr-defined]
ALSO_READ = {"/api/jobs/{job}/club"}
"""Addresses with a route of another group too: the framework then names only the first one's methods as allowed."""
OF_ANOTHER = {"/api/jobs/{job}/club", "/api/jobs/{job}/mixes/from"}
"""Actions that name another job, which may not be there."""
MODES = [GenerationMode.POSITIVE, GenerationMode.NEGATIVE]


@pytest.mark.parametrize("mode", MODES, ids=["good", "bad"])
@pytest.mark.parametrize(("path", "method"), OPERATIONS)
def test_every_answer_is_one_that_the_document_names(
    api_schema: Any, path: str, method: str, mode: GenerationMode
) -> None:
    """The document cannot say what trade notation is: a text that it allows may well be no length."""
    tried = []

    @BOUNDED
    @given(case=api_schema[path][method].as_strategy(generation_mode=mode))
    def run(case: Any) -> None:
        tried.append(case.call_and_validate(excluded_checks=[positive_data_acceptance]).status_code)

    try:
        run()
    except Unsatisfiable:
        assert mode is GenerationMode.NEGATIVE
        assert path == "/api/jobs", "only a request without any parameter cannot be a bad one"
        return
    assert tried


@pytest.mark.parametrize(("path", "method"), [item for item in OPERATIONS if item[0] not in ALSO_READ])
def test_likewise_at_the_edges_of_what_the_document_allows(api_schema: Any, path: str, method: str) -> None:
    """Longest, shortest, missing, of another type, twice, by another method: one case each, always the same."""
    operation = api_schema[path][method]
    generation = api_schema.config.generation_for(operation=operation)
    statuses = set()
    for case in api_schema.iter_coverage_cases(operation, generation_modes=MODES, generation_config=generation):
        if case.method.upper() != method:
            case.headers["X-Clubwright"] = "1"  # else it is refused before anybody asks which methods there are
        statuses.add(case.call_and_validate(excluded_checks=[positive_data_acceptance]).status_code)
    assert len(statuses) > 1


def bring_back(session: Session) -> None:
    """Take the ticket again where a request that came before undid its taking, whichever tests this process ran."""
    try:
        session.job(JOB)
    except NotInRecord:
        bench.take_ticket(session, document(), "wedge-54.toml")


@pytest.mark.parametrize(("path", "method"), [item for item in OPERATIONS if "{job}" in item[0]])
def test_likewise_on_a_job_that_is_there(
    api_schema: Any, fuzzed_session: tuple[Session, Path], path: str, method: str
) -> None:
    statuses = set()

    @BOUNDED
    @given(case=api_schema[path][method].as_strategy(generation_mode=GenerationMode.POSITIVE))
    def run(case: Any) -> None:
        bring_back(fuzzed_session[0])
        case.path_parameters = {"job": JOB}
        statuses.add(case.call_and_validate(excluded_checks=[positive_data_acceptance]).status_code)

    run()
    assert 404 not in statuses or path in OF_ANOTHER
    assert fuzzed_session[0].ledger.verify() == ()

"""A page is added as CONTRIBUTING.md says: it is served, linked from every other, and guarded like them.

Invented for the drill: a page that counts the jobs of the record.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from altered import Altered

MODULE = '''"""How many jobs there are."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from clubwright.web.rendering import page
from clubwright.web.sessions import AtSession

router = APIRouter(include_in_schema=False)


@router.get("/counted")
def show(request: Request, session: AtSession) -> Response:
    """Show the number of jobs."""
    return page(request, "counted.html", count=len(session.shop().jobs))
'''

NOW = '    "page.now":'

TEMPLATE = """{% extends "base.html" %}
{% block title %}Counted{% endblock %}
{% block main %}<h1>Counted</h1><p id="count">{{ count }}</p>{% endblock %}
"""

GO = """
import warnings
warnings.simplefilter("ignore")
from pathlib import Path
from jinja2 import ChoiceLoader, FileSystemLoader
from clubwright.bootstrap import open_session
from clubwright.importers.ticket_file import load_ticket
from clubwright.services.actions import bench
from clubwright.web.app import create_app
from clubwright.web.rendering import environment
from clubwright.web.settings import WebSettings
from benchwork import document
from webclient import LOOPBACK, ON_THE_NETWORK, TestClient, add_people

folder, templates = sys.argv[1:]
# in the program itself the template lies in the folder of the others
environment().loader = ChoiceLoader([FileSystemLoader(templates), environment().loader])
told = {}
with open_session(folder, by="Ann") as session:
    bench.take_ticket(session, document(), "drill")
    app = create_app(WebSettings(shop=folder), session)
    with TestClient(app, base_url=LOOPBACK, follow_redirects=False) as client:
        found = client.get("/counted")
        told |= {"status": found.status_code, "text": found.text, "headers": sorted(name.lower() for name in found.headers)}
        told |= {"posted": client.post("/counted").status_code, "tickets": client.get("/tickets").text}
    add_people(Path(folder))
    guarded = create_app(WebSettings(shop=folder, open_network=True), session)
    with TestClient(guarded, base_url=ON_THE_NETWORK, follow_redirects=False) as client:
        found = client.get("/counted")
        told |= {"stranger": found.status_code, "told": found.text}
print(json.dumps(told))
"""


@pytest.fixture(scope="module")
def told(tmp_path_factory: pytest.TempPathFactory) -> Any:
    program = Altered(tmp_path_factory.mktemp("program"))
    program.write("web/pages/counted.py", MODULE)
    program.write("web/templates/counted.html", TEMPLATE)
    program.edit("web/app.py", "    clubs,\n    forgetting,", "    clubs,\n    counted,\n    forgetting,")
    program.edit("web/app.py", "tickets, clubs, records,", "tickets, clubs, counted, records,")
    program.edit("web/rendering.py", '("records", "/records"))', '("records", "/records"), ("counted", "/counted"))')
    program.edit("words/english/page.py", NOW, f'    "page.counted": "Counted",\n{NOW}')
    program.edit("words/german/page.py", NOW, f'    "page.counted": "Gezählt",\n{NOW}')
    templates: Path = program.folder / "clubwright" / "web" / "templates"
    return program.run(GO, str(tmp_path_factory.mktemp("shop")), str(templates))


def test_it_is_served_with_what_it_is_asked_for(told: dict[str, Any]) -> None:
    assert told["status"] == 200
    assert '<p id="count">1</p>' in told["text"]


def test_every_page_links_to_it(told: dict[str, Any]) -> None:
    assert 'href="/counted"' in told["tickets"]
    assert 'href="/tickets"' in told["text"]


def test_it_is_guarded_like_every_other(told: dict[str, Any]) -> None:
    assert {"content-security-policy", "x-content-type-options"} <= set(told["headers"])
    assert told["posted"] in (403, 405)
    assert told["stranger"] in (303, 401, 403)
    assert "Counted" not in told["told"]

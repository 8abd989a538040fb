"""A browser for the tests of the page, without a window: fills in the token of a form as the page does."""

from __future__ import annotations

import re
import warnings
from functools import cache
from pathlib import Path
from typing import Any

from argon2 import PasswordHasher
from fastapi import FastAPI
from httpx import Response

from clubwright.web.guard.people import Person, write_people

with warnings.catch_warnings():
    # it still works with httpx, and would rather have that library's successor
    warnings.simplefilter("ignore")
    from fastapi.testclient import TestClient

__all__ = ["TestClient"]

LOOPBACK = "http://127.0.0.1"
ON_THE_NETWORK = "http://bench.workshop.example"
PINS = {"Lena": "482913", "Wil": "730164", "Sol": "915827"}
ROLES = {"Lena": "look", "Wil": "work", "Sol": "sign off"}
"""Invented people of an invented workshop."""


@cache
def hashed(pin: str) -> str:
    """Hash with the least cost there is: the page reads from a hash how it was made."""
    return PasswordHasher(time_cost=1, memory_cost=8, parallelism=1).hash(pin)


def add_people(folder: Path) -> None:
    write_people(
        folder / "people.toml",
        {name: Person(role=ROLES[name], pin=hashed(pin)) for name, pin in PINS.items()},  # type: ignore[arg-type]
    )


def token_of(client: TestClient, path: str = "/tickets") -> str:
    """Return the token that the forms of a page carry."""
    found = re.search(r'name="csrf" value="([0-9a-f]{64})"', client.get(path).text)
    assert found is not None, f"no form on {path}"
    return found[1]


def post(client: TestClient, path: str, page: str = "/tickets", **fields: Any) -> Response:
    """Post a form as the page would."""
    return client.post(path, data={"csrf": token_of(client, page), **fields})


def signed_in(app: FastAPI, name: str, address: str = "192.0.2.10") -> TestClient:
    """Return the browser of a person who has signed in."""
    client = tablet(app, address)
    answer = sign_in(client, name, PINS[name])
    assert answer.status_code == 303, answer.text
    return client


def tablet(app: FastAPI, address: str = "192.0.2.10") -> TestClient:
    """Return a browser on the workshop's network."""
    return TestClient(app, base_url=ON_THE_NETWORK, follow_redirects=False, client=(address, 50000))


def sign_in(client: TestClient, name: str, pin: str, **more: str) -> Response:
    return post(client, "/sign-in", "/sign-in", name=name, pin=pin, **more)

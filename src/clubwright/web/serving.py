"""The server behind the pages: connections counted and timed, a log with an end, proxies only where they are named."""

from __future__ import annotations

import contextlib
import ipaddress
import socket
from collections.abc import Iterable

import uvicorn
from fastapi import FastAPI

from clubwright.errors import Finding, InputError
from clubwright.web.guard.connections import (
    BACKLOG,
    LISTEN_S,
    MOST_OF_ONE,
    REQUEST_S,
    Connections,
    guarded,
    raised_limit,
)
from clubwright.web.guard.quiet_log import quiet_log

Network = ipaddress.IPv4Network | ipaddress.IPv6Network


def proxies_of(given: Iterable[str]) -> tuple[str, ...]:
    """Return the addresses of proxies, as they are compared.

    Args:
        given: Each an address or a network, such as ``127.0.0.1`` or ``10.1.0.0/24``.

    Raises:
        InputError: for what is neither, all at once.
    """
    found, findings = [], []
    for text in given:
        try:
            found.append(str(_network(text)))
        except ValueError:
            mend = "Write the proxy's address, such as 127.0.0.1, or its network, such as 10.1.0.0/24."
            findings.append(Finding(where="--proxy", what=f"{text!r} is no address", mend=mend))
    if findings:
        raise InputError(findings)
    return tuple(found)


def _network(text: str) -> Network:
    return ipaddress.ip_network(text)


def server_of(app: FastAPI, *, request_s: float = REQUEST_S, listen_s: float = LISTEN_S) -> uvicorn.Server:
    """Return the server of an application; who asks is the address of the connection, but for a proxy that is named.

    Args:
        app: As `create_app` makes it; its settings name the proxies.
        request_s: How long a request may take to come.
        listen_s: How long an answer may stand untouched.
    """
    proxies = app.state.settings.proxies
    networks = [_network(text) for text in proxies]

    def speaks_for_many(address: str) -> bool:
        with contextlib.suppress(ValueError):
            return any(ipaddress.ip_address(address) in network for network in networks)
        return False

    among = Connections(raised_limit(), MOST_OF_ONE, speaks_for_many)
    config = uvicorn.Config(
        app,
        access_log=False,
        log_level="warning",
        server_header=False,
        timeout_graceful_shutdown=1,
        http=guarded(among, request_s=request_s, listen_s=listen_s),
        ws="none",
        backlog=BACKLOG,
        # else whoever is on this computer could say to be any other device
        proxy_headers=bool(proxies),
        forwarded_allow_ips=list(proxies),
    )
    quiet_log()
    return uvicorn.Server(config)


def run_app(app: FastAPI, listening: socket.socket) -> None:
    """Serve until Ctrl-C."""
    with contextlib.suppress(KeyboardInterrupt):  # Ctrl-C is how it ends
        server_of(app).run(sockets=[listening])

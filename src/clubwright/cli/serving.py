"""Serve the bench page."""

from __future__ import annotations

import contextlib
import os
import socket
import sys
import threading
from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.options import SHOP, Json, Shop, ShopFile
from clubwright.errors import NotPossible

HERE, EVERYWHERE = "127.0.0.1", "0.0.0.0"  # noqa: S104 - asked for by name, and then with PINs
PORT = 8484
NO_BROWSER = "CLUBWRIGHT_NO_BROWSER"
"""Environment variable that keeps a browser from being opened."""


def serve(
    *,
    shop: Shop = SHOP,
    shop_file: ShopFile = None,
    port: Annotated[int, Parameter(help="Port to listen on.")] = PORT,
    open_network: Annotated[
        bool,
        Parameter(help="Let the workshop's network in; everybody then signs in with a PIN.", negative=()),
    ] = False,
    behind_https: Annotated[
        bool,
        Parameter(
            help="Served to the tablets over HTTPS by a proxy: cookies are then sent over HTTPS only.", negative=()
        ),
    ] = False,
    proxy: Annotated[
        list[str] | None,
        Parameter(
            help="Address of the proxy that stands before it: only this one is believed on who asks; once for each.",
            negative=(),
        ),
    ] = None,
    gauge: Annotated[
        list[str] | None,
        Parameter(
            help='A gauge on a cable and its port, such as "gram scale=/dev/ttyUSB0"; once for each.', negative=()
        ),
    ] = None,
    json: Json = False,
) -> None:
    """Serve the bench page: on this computer only, unless the network is opened."""
    from clubwright.bootstrap import open_session
    from clubwright.cli.output import print_json, print_lines
    from clubwright.devices.gauges import Gauges, ports_of
    from clubwright.web.app import create_app
    from clubwright.web.serving import proxies_of, run_app
    from clubwright.web.settings import WebSettings

    proxies = proxies_of(proxy or ())
    gauges = Gauges(ports_of(gauge or []))
    host = EVERYWHERE if open_network else HERE
    with (
        contextlib.closing(listen(port, host)) as listening,
        open_session(shop, by="bench", shop_file=shop_file) as session,
    ):
        settings = WebSettings(shop=shop, open_network=open_network, secure_cookies=behind_https, proxies=proxies)
        app = create_app(settings, session, gauges)
        address = address_of(listening)
        if json:
            print_json({"address": address, "open_network": open_network})
        else:
            print_lines([f"The bench is at {address} (stop with Ctrl-C)."])
        sys.stdout.flush()  # whoever started it through a pipe wants the address now
        run_app(app, listening)


def listen(port: int, host: str = HERE) -> socket.socket:
    """Take a port, so that from here on a browser that knocks is answered as soon as the page is up.

    Args:
        port: From 0 (any that is free) to 65535.
        host: This computer only, or every network it is on.

    Raises:
        NotPossible: when somebody else has it, or it is no port.
    """
    # named as TCP, or asyncio leaves small packets to wait for one another: 40 ms on every answer
    found = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    if os.name == "posix":  # elsewhere this would let two programs have one port
        found.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        found.bind((host, port))
    except (OSError, OverflowError) as refused:
        found.close()
        raise NotPossible(
            f"port {port} cannot be used: {refused}",
            f"Stop the page that is open there, or name another port: --port {PORT + 1}.",
        ) from refused
    found.listen(128)
    return found


def address_of(listening: socket.socket) -> str:
    """Return where this computer's own browser finds the page."""
    return f"http://127.0.0.1:{listening.getsockname()[1]}/"


def open_browser(address: str) -> bool:
    """Open the page in this computer's browser, where there is one and nobody asked for none.

    Returns:
        Whether it was tried.
    """
    import webbrowser

    drawn = sys.platform in ("darwin", "win32") or any(map(os.environ.get, ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER")))
    if os.environ.get(NO_BROWSER) or not drawn:
        return False
    try:
        found = webbrowser.get()
    except webbrowser.Error:
        return False
    # some browsers are waited for until they are closed
    threading.Thread(target=found.open, args=(address,), daemon=True).start()
    return True

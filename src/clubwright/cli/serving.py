"""Serve the bench page."""

from __future__ import annotations

from typing import Annotated

from cyclopts import Parameter

from clubwright.cli.options import SHOP, Json, Shop


def serve(
    *,
    shop: Shop = SHOP,
    port: Annotated[int, Parameter(help="Port to listen on.")] = 8484,
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
    gauge: Annotated[
        list[str] | None,
        Parameter(
            help='A gauge on a cable and its port, such as "gram scale=/dev/ttyUSB0"; once for each.', negative=()
        ),
    ] = None,
    json: Json = False,
) -> None:
    """Serve the bench page: on this computer only, unless the network is opened."""
    import uvicorn

    from clubwright.bootstrap import open_desk
    from clubwright.cli.output import print_json, print_lines
    from clubwright.devices.gauges import Gauges, ports_of
    from clubwright.web.app import create_app
    from clubwright.web.settings import WebSettings

    host = "0.0.0.0" if open_network else "127.0.0.1"  # noqa: S104 - asked for by name, and then with PINs
    address = f"http://127.0.0.1:{port}/"
    gauges = Gauges(ports_of(gauge or []))
    with open_desk(shop, by="bench") as desk:
        settings = WebSettings(shop=shop, open_network=open_network, secure_cookies=behind_https)
        app = create_app(settings, desk, gauges)
        if json:
            print_json({"address": address, "open_network": open_network})
        else:
            print_lines([f"The bench is at {address} (stop with Ctrl-C)."])
        uvicorn.run(
            app,
            host=host,
            port=port,
            access_log=False,
            log_level="warning",
            server_header=False,
            timeout_graceful_shutdown=1,
        )

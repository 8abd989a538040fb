"""A FastAPI program with one route that does nothing, served as the bench page is: what a request costs in any case.

    python benchmarks/empty_route.py

Says its address in one line of JSON, and serves until it is stopped.
"""

from __future__ import annotations

import json

import uvicorn
from fastapi import FastAPI

from clubwright.cli.serving import address_of, listen


def empty_app() -> FastAPI:
    app = FastAPI()

    @app.post("/")
    def empty() -> dict[str, str]:
        return {}

    return app


def main() -> None:
    with listen(0) as listening:
        print(json.dumps({"address": address_of(listening)}), flush=True)
        config = uvicorn.Config(empty_app(), access_log=False, log_level="error", ws="none")
        uvicorn.Server(config).run(sockets=[listening])


if __name__ == "__main__":
    main()

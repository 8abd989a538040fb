"""Errors on the command line: what is wrong and what to do next, and an exit code for programs."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import Any

from clubwright.errors import ClubwrightError, GateClosed, InputError

REFUSED, NOT_TAKEN = 1, 2


def exit_code(command: Callable[[], Any]) -> int:
    """Run a command; turn our own errors into text on stderr and an exit code.

    With ``--json`` among the arguments the error is also one JSON object on stdout, findings and all.
    """
    try:
        result = command()
    except InputError as refused:
        _say([finding.sentence() for finding in refused.findings])
        _as_json(refused)
        return NOT_TAKEN
    except ClubwrightError as refused:
        _say([str(refused)])
        _as_json(refused)
        return REFUSED
    except BrokenPipeError:
        # Whoever read our output (`| head`) has had enough; nothing more can be said there.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    return result if isinstance(result, int) else 0


def _say(lines: list[str]) -> None:
    for line in lines:
        print(line, file=sys.stderr)


def _as_json(refused: ClubwrightError) -> None:
    if "--json" not in sys.argv:
        return
    from clubwright.cli.output import print_json

    body: dict[str, Any] = {"error": str(refused)}
    if isinstance(refused, InputError):
        body["findings"] = [
            {"mend": item.mend, "severity": item.severity, "what": item.what, "where": item.where}
            for item in refused.findings
        ]
    if isinstance(refused, GateClosed):
        body["reasons"] = list(refused.reasons)
    print_json(body)

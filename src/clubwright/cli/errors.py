"""Errors on the command line: what is wrong and what to do next, and an exit code for programs."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import Any

from clubwright.errors import ClubwrightError, GateClosed, InputError, StepNotReady

REFUSED, NOT_TAKEN = 1, 2


def exit_code(command: Callable[[], Any], *, as_json: bool = False) -> int:
    """Run a command; turn our own errors, and what the system refuses, into text on stderr and an exit code.

    Args:
        command: Runs it.
        as_json: The error is also one JSON object on stdout, findings and all.
    """
    try:
        result = command()
    except InputError as refused:
        _say([finding.sentence() for finding in refused.findings])
        if as_json:
            _print_error(refused)
        return NOT_TAKEN
    except ClubwrightError as refused:
        _say([str(refused)])
        if as_json:
            _print_error(refused)
        return REFUSED
    except BrokenPipeError:
        # Whoever read our output (`| head`) has had enough; nothing more can be said there.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except OSError as refused:
        place = refused.filename or "a file"
        told = ClubwrightError(f"{place}: {refused.strerror or refused}. Check the name, the folder and whose it is.")
        _say([str(told)])
        if as_json:
            _print_error(told)
        return REFUSED
    return result if isinstance(result, int) else 0


def _say(lines: list[str]) -> None:
    from clubwright.cli.output import print_aside

    for line in lines:
        print_aside(line)


def _print_error(refused: ClubwrightError) -> None:
    from clubwright.cli.output import print_json

    body: dict[str, Any] = {"error": str(refused)}
    if isinstance(refused, InputError | StepNotReady):
        body["findings"] = [
            {"mend": item.mend, "severity": item.severity, "what": item.what, "where": str(item.where)}
            for item in refused.findings
        ]
    if isinstance(refused, GateClosed):
        body["reasons"] = list(refused.reasons)
    print_json(body)

"""What is erased and what is not reached, as plain data for the command, the page and programs."""

from __future__ import annotations

from typing import Any

from clubwright.services.actions.forgetting import UNREACHED, Forgotten, Look


def look_part(looked: Look) -> dict[str, Any]:
    """Return what would be erased, or was."""
    remaining = [
        {"job": item.job, "place": f"{item.place[0]}/{item.place[1]}", "path": item.path, "text": item.text}
        for item in looked.remaining
    ]
    return {
        "facts": looked.facts,
        "jobs": list(looked.jobs),
        "remaining": remaining,
        "texts": looked.texts,
        "unreached": list(UNREACHED),
    }


def forgotten_part(done: Forgotten) -> dict[str, Any]:
    """Return what was erased, and by which facts."""
    written = [f"{fact.site}/{fact.sequence}" for fact in done.written]
    return {**look_part(done.looked), "person": done.person, "unreached": list(done.unreached), "written": written}

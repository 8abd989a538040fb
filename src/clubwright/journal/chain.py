"""The chain of hashes over each site's facts: a changed, missing or swapped fact is found, and where.

Canonical bytes are JSON in UTF-8 with sorted keys, no spaces and no floats; for such values this is also the form of
RFC 8785 as long as keys are ASCII. The hash is SHA-256 (FIPS 180-4) as the standard library computes it.
"""

from __future__ import annotations

import hashlib
import json
import math
import re
from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

import msgspec

from clubwright.errors import Finding, RecordError
from clubwright.journal.erased import Left, erasing_break, what_was_left
from clubwright.journal.facts import Fact, RecordsMerged, What

GENESIS = "0" * 64
"""What the first fact of a site has for a previous hash."""

GO_BACK = "Copy this record as it is and keep the copy; then put the last backup that verifies in its place."
"""How a damaged record is mended: nothing in it is repaired by guessing."""


ENVELOPE = tuple(name for name in Fact.__struct_fields__ if name not in ("hash", "what", "erased"))
"""Fields of a fact beside what happened and its hash."""


class _Held(msgspec.Struct):
    """Holds a payload while it is read: a struct's types are looked at once, a bare union's at every call."""

    what: What


_MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?Z")
_NOT_KEPT = re.compile("[\x00\ud800-\udfff]")


def canonical(value: Any) -> bytes:
    """Return the one spelling of plain data that hashes are taken over.

    Raises:
        RecordError: for NaN or infinity, and for anything that is not plain data.
    """
    try:
        text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)
        return text.encode("utf-8")
    except (TypeError, ValueError) as refused:
        raise RecordError(f"this cannot be kept in the record: {refused}; write it as text") from refused


def plain(what: What) -> dict[str, Any]:
    """Return a payload as plain data without floats: each becomes the shortest decimal text that reads back the same.

    Raises:
        RecordError: for NaN or infinity, and for text with a character that a database cannot hold.
    """
    found = _exact(msgspec.to_builtins(what))
    assert isinstance(found, dict)  # a struct is a table of its fields
    return found


def payload(content: Mapping[str, Any]) -> What:
    """Read a payload back from plain data.

    Raises:
        RecordError: when it is no fact that this version knows.
    """
    try:
        return msgspec.convert({"what": dict(content)}, _Held).what
    except msgspec.ValidationError as refused:
        kind = content.get("kind")
        raise RecordError(
            f"a fact of the kind {kind!r} cannot be read: {refused}; it may be from a newer version"
        ) from refused


def is_moment(text: str) -> bool:
    """True for a time as the record writes it, of a day that there is; years 1971 to 9998 can be told in any time zone."""
    if not _MOMENT.fullmatch(text):
        return False
    try:
        return 1970 < datetime.fromisoformat(text).year < 9999
    except ValueError:
        return False


def seal(
    what: What, *, site: str, sequence: int, at: str, by: str, typed: str, key: str, previous_hash: str = GENESIS
) -> Fact:
    """Return the fact with its hash.

    Args:
        what: What happened; floats in it become text.
        site: Bench that writes.
        sequence: Its number there, from 1.
        at: UTC, ISO 8601 with Z.
        by: Who.
        typed: As typed.
        key: Idempotency key.
        previous_hash: Hash of the site's fact before.

    Raises:
        RecordError: when any of it cannot be kept.
    """
    if not is_moment(at):
        raise RecordError(f'"{at}" is no time of the record; write UTC like 2026-01-31T09:30:00.000Z')
    for name, text in (("site", site), ("by", by), ("typed", typed), ("key", key)):
        _exact(text)
        if name != "typed" and not text.strip():
            raise RecordError(f"{name} is empty; a fact says which bench, whose hands and which action")
    kept = payload(plain(what))
    open_fact = Fact(
        site=site,
        sequence=sequence,
        at=at,
        by=by,
        typed=typed,
        what=kept,
        key=key,
        previous_hash=previous_hash,
        hash="",
    )
    return msgspec.structs.replace(open_fact, hash=hash_of(open_fact))


def hash_of(fact: Fact) -> str:
    """Return the SHA-256 of a fact, in hexadecimal, over everything in it but the hash itself."""
    envelope = {name: getattr(fact, name) for name in ENVELOPE}
    return hash_over(envelope, canonical(msgspec.to_builtins(fact.what)))


def hash_over(envelope: Mapping[str, Any], what: bytes) -> str:
    """Return the SHA-256 of a fact whose content is there as its canonical bytes.

    Args:
        envelope: The fields of `ENVELOPE`.
        what: Canonical bytes of what happened.
    """
    # every other field of a fact sorts before "what"
    return hashlib.sha256(b'%b,"what":%b}' % (canonical(envelope)[:-1], what)).hexdigest()


def heads(facts: Iterable[Fact]) -> dict[str, tuple[int, str]]:
    """Return each site's last sequence number and hash; kept elsewhere, they prove that nothing was cut off the end."""
    found: dict[str, tuple[int, str]] = {}
    for fact in facts:
        if fact.sequence >= found.get(fact.site, (0, ""))[0]:
            found[fact.site] = (fact.sequence, fact.hash)
    return found


def verify_chain(
    facts: Iterable[Fact], known_heads: Mapping[str, tuple[int, str]] | None = None, *, whole: bool = True
) -> tuple[Finding, ...]:
    """Check every site's chain from its first fact.

    Args:
        facts: All facts of the record; the order between sites does not matter.
        known_heads: Heads noted earlier, which must still be there unchanged; those that merges saw are noted in the record.
        whole: Whether these are all facts: what was erased in them is then held against what the erasures say.

    Returns:
        The first broken place of each site, and each known head that is gone; empty when the record is whole.
    """
    sites: dict[str, list[Fact]] = {}
    for fact in facts:
        sites.setdefault(fact.site, []).append(fact)
    told = what_was_left(fact for chain in sites.values() for fact in chain) if whole else None
    broken = [_first_break(sites[site], told) for site in sorted(sites)]
    findings = [finding for finding in broken if finding is not None]
    by_place = {fact.place: fact.hash for chain in sites.values() for fact in chain}
    noted = [(site, *head) for site, head in (known_heads or {}).items()]
    for fact in (fact for chain in sites.values() for fact in chain):
        if isinstance(fact.what, RecordsMerged):
            noted += [(site, *head) for site, head in fact.what.heads.items() if site in sites]
    for site, sequence, known in sorted(set(noted)):
        if by_place.get((site, sequence)) != known:
            findings.append(_finding(site, sequence, "is gone or was changed since its hash was noted"))
    return tuple(findings)


def _first_break(chain: list[Fact], told: Left | None) -> Finding | None:
    previous = GENESIS
    for expected, fact in enumerate(sorted(chain, key=lambda fact: fact.sequence), start=1):
        if fact.sequence > expected:
            return _finding(fact.site, expected, "is missing")
        if fact.sequence < expected:
            return _finding(fact.site, fact.sequence, "is there twice")
        if fact.previous_hash != previous:
            return _finding(fact.site, fact.sequence, "does not follow on the fact before it")
        if not fact.erased and fact.hash != hash_of(fact):
            return _finding(fact.site, fact.sequence, "was changed after it was written")
        left = hash_of(fact) if fact.erased else fact.hash
        if told is not None and (wrong := erasing_break(fact, left, told)) is not None:
            return _finding(fact.site, fact.sequence, wrong)
        previous = fact.hash
    return None


def _finding(site: str, sequence: int, what: str) -> Finding:
    return Finding(
        where=f"record {site}/{sequence}",
        what=f"this fact {what}",
        mend=GO_BACK,
    )


def _exact(value: Any) -> Any:
    """Turn floats into text, all the way down, and refuse what a database would refuse or change."""
    if isinstance(value, float):
        if not math.isfinite(value):
            raise RecordError(f"{value} is no number that can be kept; write what is known as text")
        return repr(float(value))
    if isinstance(value, str):
        if _NOT_KEPT.search(value):
            raise RecordError(f"{value!r} holds a character that no text holds; type it again")
        return value
    if isinstance(value, Mapping):
        return {_exact(key): _exact(content) for key, content in value.items()}
    if isinstance(value, list | tuple):
        return [_exact(content) for content in value]
    return value

"""Two tablets on one club: the second save gets both values to choose from."""

from __future__ import annotations

import msgspec

from clubwright.journal.action_keys import is_of_form
from clubwright.journal.facts import Fact, ReadingTaken, What, kind_of
from clubwright.journal.seen import later_than, read_seen, seen_text
from clubwright.services.actions.replacing import instead_of
from clubwright.services.record.session import Session
from clubwright.web.actions import Sent, one

_KINDS = {
    "read": ("reading taken",),
    "cut": ("shaft cut",),
    "fit": ("weights fitted",),
    "mix": ("adhesive mixed",),
    "glue": ("glued",),
    "bend": ("head bent",),
    "trim": ("shaft trimmed",),
    "tape": ("tape laid",),
    "figures": ("part changed",),
    "measure": ("part changed",),
}


class Conflict(msgspec.Struct, frozen=True, kw_only=True):
    """What somebody else kept meanwhile, beside what this person typed."""

    theirs: str
    by: str
    fact: str
    mine: str
    both: bool


def conflict_of(session: Session, job: str, sent: Sent) -> tuple[Session, Conflict | None]:
    """Return the session to act at, and the clash of an action with what was kept since its page was shown; None when none.

    A person's answer about the very fact that was shown clears it: ``mine`` undoes theirs together with what is kept now,
    ``both`` keeps the two, ``theirs`` drops this one. What came in after that is a clash of its own.
    """
    choice = one(sent, "choose")
    theirs = _newer(session, job, sent)
    if theirs is None:
        return session, None
    fact = str(theirs.sequence) if theirs.site == session.site else seen_text({theirs.site: theirs.sequence})
    if choice in ("mine", "both") and one(sent, "theirs") == fact:
        return (
            instead_of(session, theirs, "replaced by another tablet's value") if choice == "mine" else session
        ), None
    return session, Conflict(
        theirs=_theirs(theirs, session.facts_of(job)),
        by=theirs.by,
        fact=fact,
        mine=_mine(sent),
        both=isinstance(theirs.what, ReadingTaken),
    )


def _newer(session: Session, job: str, sent: Sent) -> Fact | None:
    seen, kinds = read_seen(one(sent, "seen"), session.site), _KINDS.get(one(sent, "action"))
    if seen is None or kinds is None:
        return None
    facts, key = session.facts_of(job), one(sent, "key")
    later = set(later_than((fact.place for fact in facts), seen))
    if not later:
        return None
    standing = {(line.site, line.sequence) for line in session.job(job).trail if not line.undone}
    for fact in reversed(facts):
        if is_of_form(fact.key, key):
            return None
        if fact.place in later & standing and _same(fact.what, kinds, sent):
            return fact
    return None


def _same(what: What, kinds: tuple[str, ...], sent: Sent) -> bool:
    if kind_of(what) not in kinds:
        return False
    if isinstance(what, ReadingTaken):
        return what.quantity == one(sent, "quantity") and what.stage == (one(sent, "stage") or "finished")
    return True


def _theirs(fact: Fact, facts: list[Fact]) -> str:
    """Say all that their action wrote on this job: "mine" undoes all of it."""
    if isinstance(fact.what, ReadingTaken):
        return fact.typed.replace("_", " ")
    return "; ".join(each.typed for each in facts if each.action == fact.action)


def _mine(sent: Sent) -> str:
    if one(sent, "action") == "read":
        return f"{one(sent, 'quantity').replace('_', ' ')} {one(sent, 'value')}"
    skipped = {"action", "key", "seen", "step", "csrf", "confirmed", "choose", "theirs", "gate", "ordered", "skips"}
    skipped |= {"note", "drawn", "looked"}
    return ", ".join(
        f"{name.replace('_', ' ')} {' + '.join(values)}"
        for name, values in sent.items()
        if name not in skipped and any(values)
    )

"""Answers, plans and findings as lines for a person at the bench."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence

import msgspec
from msgspec import structs

from clubwright.cli.output import table, wrapped
from clubwright.club.quantities import QUANTITIES
from clubwright.errors import Finding
from clubwright.notation import units_shown
from clubwright.planning.rule_lines import rule_lines
from clubwright.services.actions.door import Kept
from clubwright.services.jobs.closing import ClosingPoint
from clubwright.services.jobs.job_answer import JobAnswer
from clubwright.services.jobs.minutes import JobTimes, step_time_text, times_text
from clubwright.services.report.as_built import AsBuiltRow
from clubwright.services.told.answer import AdviceAnswer, Answer, FindingAnswer, FinishedEstimate, VerdictAnswer
from clubwright.services.told.job import UnknownAnswer
from clubwright.state.ticket import Ticket
from clubwright.words import say, spoken
from clubwright.words.step import ExpectedWords, StepWords, say_steps

STEP = " " * 6
WORTH_SHOWING = 0.01
"""Least chance of an action that is listed on the screen."""


def finding_lines(findings: Iterable[Finding]) -> list[str]:
    """One line for each finding, errors first."""
    order = {"error": 0, "warning": 1, "note": 2}
    return [f"{item.severity}: {item.sentence()}" for item in sorted(findings, key=lambda item: order[item.severity])]


def told_lines(findings: Iterable[FindingAnswer]) -> list[str]:
    """The same of findings as an answer has them."""
    return finding_lines(Finding(**structs.asdict(item)) for item in findings)


def echo_lines(ticket: Ticket) -> list[str]:
    """What every number of a ticket was understood as."""
    rows = [*ticket.tables().values(), *ticket.tapes, *ticket.weights, *ticket.club.release]
    lines = [f"{entry.where}: {entry.echo}" for row in rows for entry in row.numbers.values()]
    lines += [f"{reading.entry.where}: {reading.entry.echo}" for reading in ticket.readings]
    return lines


def name_of(key: str) -> str:
    """The name of a quantity in a sentence."""
    return QUANTITIES[key].name


def answer_lines(answer: Answer) -> list[str]:
    """The whole answer."""
    lines: list[str] = []
    to_saw_by = all(gate.open for gate in answer.gates if gate.step == "cut")
    if answer.unreached is not None:
        lines += ["OUT OF REACH", *wrapped(answer.unreached.text, "  "), ""]
    if answer.cut is not None and to_saw_by:
        lines += ["CUT", *wrapped(answer.cut.text, "  "), ""]
    if answer.finished:
        lines += ["FINISHED, with the weights fitted now", *_indented(_finished_rows(answer.finished)), ""]
    if answer.advice:
        lines += ["ADVICE", *_advice_lines(answer.advice), ""]
    if answer.gates:
        rows: list[tuple[str, ...]] = [
            (item.step, "open" if item.open else "CLOSED", item.why) for item in answer.gates
        ]
        lines += ["GATES", *_indented(rows), ""]
    if answer.cut is not None and not to_saw_by:
        lines += ["CUT, not to saw by: its gate is closed", *wrapped(answer.cut.text, "  "), ""]
    if answer.verdicts:
        lines += ["INSPECTION", *verdict_lines(answer.verdicts), ""]
    for item in answer.findings:
        if item.severity != "note":
            lines += wrapped(f"{item.severity}: {item.where}: {item.what}. {item.mend}", hanging="  ")
    notes = sum(item.severity == "note" for item in answer.findings)
    if notes:
        lines.append(f"Notes, such as defaults taken: {notes}; --json or `clubwright check` lists them.")
    return lines


def _advice_lines(advice: Sequence[AdviceAnswer]) -> list[str]:
    """Advice with a chance worth the name, the best action in any case; the rest is counted."""
    shown = [item for place, item in enumerate(advice) if place == 0 or item.chance >= WORTH_SHOWING]
    lines = _indented(advice_rows(shown))
    if len(shown) < len(advice):
        lines.append(f"  ({len(advice) - len(shown)} more below {WORTH_SHOWING:.0%}; --json lists them)")
    return lines


def belief_lines(belief: Iterable[UnknownAnswer]) -> list[str]:
    """Every unknown in trade notation."""
    return _indented([(item.what, item.text) for item in belief])


def advice_rows(advice: Iterable[AdviceAnswer]) -> list[tuple[str, ...]]:
    """Chance, action and reason."""
    return [(f"{item.chance:.0%}", item.do, item.why) for item in advice]


def verdict_lines(verdicts: Mapping[str, VerdictAnswer]) -> list[str]:
    """Verdict, rule and what would settle it."""
    rows: list[tuple[str, ...]] = []
    rules: dict[str, None] = {}
    for key, item in verdicts.items():
        if item.named:
            rules[item.named] = None
        told = " ".join(text for text in (item.figures, item.settle) if text)
        rows.append((name_of(key), spoken("verdict", item.verdict).upper(), told))
    return [*_indented(rows), *(line for rule in rules for line in wrapped(rule, "  "))]


def closing_lines(points: Iterable[ClosingPoint]) -> list[str]:
    """What is out of spec or open with the way to mend it, and what was accepted by name; nothing of what is in spec."""
    rows: list[tuple[str, ...]] = []
    for point in points:
        if point.accepted is not None:
            what = point.accepted.what
            rows.append((point.name, "accepted", f"{point.stands}; by {what.accepted_by}: {what.reason}"))
        elif point.open:
            rows.append((point.name, "OPEN", f"{point.stands}; {point.mend}"))
        if point.lapsed is not None:
            then = point.lapsed.what
            how = ", ".join(then.read) or spoken("verdict", then.verdict)
            rows.append(
                (
                    point.name,
                    "lapsed",
                    f"{then.accepted_by} accepted it when it was {spoken('verdict', then.verdict)} ({how})",
                )
            )
    return _indented(rows)


def kept_lines(kept: Kept) -> list[str]:
    """What an action left behind: its fact, and the step that is done with it or what that one still needs."""
    lines = [f"Kept as {kept.fact.sequence}: {kept.fact.typed}."]
    if kept.step is not None and len(kept.facts) > 1:
        lines.append(f'The step "{kept.step}" is done with it.')
    lines += [line for item in kept.lacks for line in wrapped(f"Still missing: {item.sentence()}", "", "  ")]
    return lines


def built_words(row: AsBuiltRow) -> list[str]:
    """What there is to say of one row of the as-built record beside its figures."""
    unused = [f"read and kept, not used: it {row.unused}"] if row.unused else []
    accepted = [f"accepted by {row.accepted_by}: {row.accepted_because}"] if row.accepted_by else []
    return [*unused, *accepted]


def built_rows(rows: Sequence[AsBuiltRow], names: Sequence[str]) -> list[tuple[str, ...]]:
    """Rows of the as-built record under their heads, the verdict as it is said."""
    said = (msgspec.structs.replace(row, verdict=spoken("verdict", row.verdict)) for row in rows)
    return [tuple(names), *(tuple(getattr(row, name) for name in names) for row in said)]


def plan_lines(worked: JobAnswer, times: JobTimes) -> list[str]:
    """Every step with its time, numbers, expected readings and cautions, and the sums of time."""
    ticket = worked.club_state.ticket
    order = ticket.order
    lines = [f"{ticket.id}  {order.label or ticket.kind}  {ticket.hand} hand  {order.player.name or ''}", ""]
    steps = say_steps(worked.steps, units_shown())
    counts = Counter(text for step in steps for text in step.cautions)
    everywhere = frozenset(text for text, count in counts.items() if count > 1)
    lines += [line for text in counts if text in everywhere for line in wrapped(f"! At every step: {text}", "", "  ")]
    lines.append("")
    for step, time in zip(steps, times.steps, strict=True):
        lines += step_lines(step, said=everywhere, time=step_time_text(time))
    rules = [say(rule, units_shown()) for rule in rule_lines(worked.club_state)]
    return [
        *lines,
        *wrapped(
            f"TIME  {times_text(times.whole)}, by the shop's minutes or estimates of ours: they release nothing",
            "",
            "  ",
        ),
        "",
        "RULES OF THUMB beside this club's own figures",
        *(w for r in rules for w in wrapped(r, "  ", "    ")),
    ]


def step_lines(step: StepWords, said: Collection[str] = (), time: str = "") -> list[str]:
    """One step, with its cautions but those already said of all steps."""
    mark = "x" if step.done else " "
    lines = [f"[{mark}] {step.number}. {step.title}" + (f"  ({time})" if time else "")]
    lines += [line for text in step.sentences for line in wrapped(text, STEP, STEP)]
    lines += table(list(step.numbers), indent=STEP)
    lines += [line for item in step.expected for line in wrapped(f"expect {expected_text(item)}", STEP, STEP + "  ")]
    if step.gate:
        lines += wrapped(f"GATE: {step.gate}", STEP, STEP + "  ")
    lines += wrapped(f"Done when: {step.done_when}", STEP, STEP + "  ")
    lines += [line for text in step.cautions if text not in said for line in wrapped(f"! {text}", STEP, STEP + "  ")]
    return [*lines, ""]


def expected_text(item: ExpectedWords) -> str:
    """What a gauge should show, at which stage."""
    name = spoken("read", item.quantity)
    where = "" if item.stage in ("part", "finished") else f" ({spoken('stage', item.stage)})"
    return f"{name}{where}: {item.text}"


def _finished_rows(finished: Mapping[str, FinishedEstimate]) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    for key, item in finished.items():
        chance = "" if item.chance is None else f"{item.chance:.0%} in spec"
        rows.append((name_of(key), item.text, chance))
    return rows


def _indented(rows: list[tuple[str, ...]]) -> list[str]:
    return table(rows, indent="  ")

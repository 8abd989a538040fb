"""Every example, in every state of its work, prints its tag and its sheet: each page with its ticket number.

States are laid fact upon fact, with no gate asked: a record that two benches merged may stand in any of them.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pypdfium2 as pdfium
import pytest

from clubwright.journal.facts import (
    AdhesiveMixed,
    Finished,
    GateSigned,
    Glued,
    Gripped,
    HeadBent,
    HeadPulled,
    PartChanged,
    ReadingTaken,
    ShaftCut,
    StepDone,
    TicketTaken,
    Undone,
    What,
)
from clubwright.journal.reducers.fold import fold
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.sheet.sheet import build_sheet
from clubwright.labels.tag.from_work import tag_data
from clubwright.labels.tag.tag import tag_label
from clubwright.services.answer.club_answer import work_document
from clubwright.services.jobs.job_answer import answer_job
from journal_facts import chained
from repository import ROOT
from shopwork import completed_example

EXAMPLES = {path.stem: path for path in sorted((ROOT / "examples").glob("*.toml")) if path.name != "shop.toml"}
DAY, NOW = "2031-05-12", datetime(2026, 3, 9, 8, 0, tzinfo=UTC)


def states(content: dict[str, Any]) -> dict[str, list[What]]:
    """What is written of a job after its ticket to the day when its head is pulled again, by the state that it leads to.

    Fresh tickets and finished clubs read on target are printed in tests/bench/test_tags_print.py.
    """
    job = content["ticket"]["id"]
    cut = work_document(content).cut
    sawn = [] if cut is None else [ShaftCut(job=job, cut_length=f"{cut.shaft_length_m / 0.0254:.4f} in")]
    weighed = ReadingTaken(job=job, quantity="swing_weight", value="D0", stage="dry, gripped", weights=[])
    mix = AdhesiveMixed(job=job, part_a="4.0 g", part_b="2.0 g", temperature="22 C", batch="lot 7")
    close: list[What] = [
        StepDone(job=job, step="tag"),
        GateSigned(job=job, step="release", shown={}),
        Finished(job=job, shown={}),
    ]
    far = [
        ReadingTaken(job=job, quantity=key, value=value, stage="finished", weights=[])
        for key, value in (("length", "37 in"), ("loft", "41 deg"), ("total_weight", "600 g"))
    ]
    return {
        "cut": [PartChanged(job=job, section="head", values={"hand": "right"}), *sawn],
        "glued": [weighed, mix, Glued(job=job, temperature="22 C")],
        "closed": [Gripped(job=job), HeadBent(job=job, loft="40 deg", lie="62 deg"), *far, *close],
        "pulled again": [HeadPulled(job=job, reason="the player asked", said_by="R. Ashdown", heat=True)],
    }  # fmt: skip


def pages_of(document: bytes) -> list[str]:
    return [str(page.get_textpage().get_text_bounded()) for page in pdfium.PdfDocument(document)]


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_state_prints_its_tag_and_its_sheet(name: str) -> None:
    content = completed_example(EXAMPLES[name])
    number = content["ticket"]["id"]
    facts: list[What] = [TicketTaken(job=number, document=content, source="example")]
    for state, more in states(content).items():
        if state == "pulled again":  # an end is taken back before
            more = [Undone(job=number, fact=len(facts), reason="looked at again"), *more]
        facts += more
        job = fold(chained(facts)).job(number)
        worked = answer_job(job, NOW)
        assert (job.finished is not None) == (state == "closed")
        (label,) = pages_of(tag_label(tag_data(worked, job, DAY)))
        sheets = pages_of(build_sheet(sheet_data(worked, job, DAY, "9f2c")))
        assert number in label, state
        assert len(sheets) <= 2 and all(number in page for page in sheets), state

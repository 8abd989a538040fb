"""One tap prints on the card "Tag the club", and on a record's page; the card still lies above the fold."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import msgspec
import pytest
from browsing import BENCH, LYING, STANDING, TabletMaker, bring
from fastapi import FastAPI
from playwright.sync_api import expect

from benchwork import JOB, Clock
from clubwright.bootstrap import shop_settings
from clubwright.services.record.session import Session


@pytest.mark.parametrize("size", [LYING, STANDING], ids=["lying", "standing"])
def test_one_tap_on_the_tag_card_prints_the_tag(
    served: str,
    web_app: FastAPI,
    make_tablet: TabletMaker,
    web_session: Session,
    web_clock: Clock,
    tmp_path: Path,
    size: tuple[int, int],
) -> None:
    bring(web_session, web_clock, "sign release")
    program, spool = tmp_path / "spool.py", tmp_path / "spooled"
    program.write_text("import sys; open(sys.argv[1], 'wb').write(sys.stdin.buffer.read()); print('office-7')")
    (tmp_path / "shop.toml").write_text(f"[printer]\ntag = '{sys.executable} {program} {spool}'\n")
    web_app.state.session = msgspec.structs.replace(web_session, settings=lambda: shop_settings(str(tmp_path)))
    tablet = make_tablet(served, size).open(f"{BENCH}?step=tag")
    button = tablet.page.get_by_role("button", name="Print the tag")
    expect(button).to_be_in_viewport(ratio=1)
    expect(tablet.page.get_by_role("button", name="Close the job")).to_be_in_viewport(ratio=1)
    tablet.snap(f"tag-print-{size[0]}")
    button.click()
    expect(tablet.page.get_by_role("heading", level=1)).to_have_text(
        re.compile(rf"The tag of {JOB} went to the printer")
    )
    expect(tablet.page.get_by_text("office-7")).to_be_visible()
    assert spool.read_bytes().startswith(b"%PDF-")
    tablet.snap(f"printed-{size[0]}")
    tablet.open(f"/records/{JOB}").snap(f"record-print-{size[0]}")

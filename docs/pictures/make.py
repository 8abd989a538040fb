"""Take the pictures of the guide anew, from the demo: python docs/pictures/make.py [--into FOLDER] [NAME ...].

The invented wedge is built action by action, as `clubwright demo` does; where a picture belongs, a tablet looks at the
page. So no picture can show what the program no longer does: a button that is gone ends the run.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from urllib.parse import quote

import pypdfium2
from browser import Tablet, chromium, keep, served
from PIL import Image
from playwright.sync_api import Browser

from clubwright.bootstrap import open_session
from clubwright.cli.demo import JOB, DemoClock, actions, demo_session, take_waiting
from clubwright.labels.sheet.from_work import sheet_data
from clubwright.labels.sheet.sheet import build_sheet
from clubwright.labels.tag.from_work import tag_data
from clubwright.labels.tag.tag import tag_label
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.web.app import create_app
from clubwright.web.settings import WebSettings

HERE = Path(__file__).parent
BENCH = f"/bench/{JOB}"
SHAFT = "/bench/T-0107/shaft"
LYING, STANDING = (1280, 800), (800, 1280)
WORDS = "54, mid bounce, 35 1/4 to the cap, D4, half flat, two wraps, logo down"

Look = Callable[[Tablet], None]


def at(path: str) -> Look:
    """Look at a page as it is."""
    return lambda tablet: tablet.open(path)


def reading(tablet: Tablet) -> None:
    """Type the first dry reading, until it is read back."""
    tablet.open(BENCH)
    tablet.key_in("value", ["D", "1", ".", "3"])
    tablet.page.locator("#echo .understood").wait_for()


def considering(tablet: Tablet) -> None:
    """Tap the best weight, so that the strips show what it would do."""
    tablet.open(BENCH)
    tablet.page.locator("#bench .offer").first.tap()
    tablet.page.locator("#bench .offer.considered").wait_for()


def trimming(tablet: Tablet) -> None:
    """Look at another trim of the iron's tip, with its cuts in the drawing."""
    tablet.open(SHAFT)
    tablet.page.locator(".trims th a.button", has_text="2 1/4 in").tap()
    tablet.page.locator("h3", has_text="Before and after").wait_for()
    tablet.page.evaluate("scrollTo(0, 0)")


def at_part(where: str) -> Look:
    """Look at the iron's shaft from one of its parts on."""

    def shown(tablet: Tablet) -> None:
        tablet.open(SHAFT)
        tablet.page.evaluate("where => document.querySelector(where).scrollIntoView()", where)

    return shown


Shot = tuple[str, tuple[int, int], bool, bool, Look]
"""Name, size of the tablet, night theme, the whole page, and what is looked at."""

SHOTS: dict[str, tuple[Shot, ...]] = {
    "take": (
        ("bench-pull", LYING, False, False, at(BENCH)),
        ("shaft-trims", LYING, False, False, trimming),
        ("shaft-set", LYING, False, False, at_part("#family")),
    ),
    f"sign {JOB} cut": (("bench-cut", LYING, False, False, at(BENCH)),),
    f'done {JOB} "tape"': (("bench-reading", LYING, False, False, reading),),
    f'done {JOB} "dry reading"': (
        ("bench-weight", LYING, False, False, considering),
        ("tickets", LYING, False, False, at("/tickets")),
        ("tickets-words", LYING, False, False, at(f"/tickets/new/form?words={quote(WORDS)}")),
    ),
    f"glue {JOB}": (("bench-cure", LYING, True, False, at(BENCH)),),
    f'read {JOB} total_weight "477.2 g"': (("bench-misfit", LYING, False, False, at(BENCH)),),
    f"show {JOB}": (("bench-inspect", STANDING, False, False, at(BENCH)),),
    f"finish {JOB}": (("record", LYING, False, True, at(f"/records/{JOB}")),),
}
"""After which action of the demo (how its command begins) which pictures are taken."""

PAPERS = ("build-sheet", "tag")


def papers(session: Session) -> dict[str, Image.Image]:
    """Return the build sheet and the tag of the finished wedge, as printed."""
    job, day = session.job(JOB), session.now().date().isoformat()
    worked = answer_job(job, session.now())
    sheet = build_sheet(sheet_data(worked, job, day, session.ledger.facts()[-1].hash))
    tag = tag_label(tag_data(worked, job, day))
    found = [
        pypdfium2.PdfDocument(paper)[0].render(scale=scale).to_pil() for paper, scale in ((sheet, 1.6), (tag, 3.0))
    ]
    return dict(zip(PAPERS, found, strict=True))


def look(browser: Browser, address: str, shot: Shot) -> Image.Image:
    """Take one picture."""
    _, size, night, whole, show = shot
    tablet = Tablet(browser, address, size, night=night)
    show(tablet)
    found = tablet.picture(whole=whole)
    tablet.close()
    return found


def take(into: Path, wanted: frozenset[str]) -> None:
    """Build the wedge, and take the pictures that are wanted; all when none is named."""
    left = {
        begins: chosen
        for begins, shots in SHOTS.items()
        if (chosen := tuple(shot for shot in shots if not wanted or shot[0] in wanted))
    }
    printed = [name for name in PAPERS if not wanted or name in wanted]
    with tempfile.TemporaryDirectory() as folder, open_session(folder, by="demo") as real, chromium() as browser:
        clock = DemoClock()
        session = demo_session(real, clock)
        take_waiting(session)
        with served(create_app(WebSettings(shop=folder), session)) as address:
            for action in actions(session, clock):
                for begins in [key for key in left if action.command.startswith(key)]:
                    for shot in left.pop(begins):
                        keep(look(browser, address, shot), into / f"{shot[0]}.png")
                if not left and not printed:
                    return
        for name, picture in papers(session).items():
            if name in printed:
                keep(picture, into / f"{name}.png")
    if left:
        sys.exit(f"The demo has no such action any more: {', '.join(left)}. Put SHOTS right.")


def main() -> None:
    """Read the arguments, and take the pictures."""
    names = [shot[0] for shots in SHOTS.values() for shot in shots] + list(PAPERS)
    parser = argparse.ArgumentParser(description="Take the pictures of the guide anew, from the demo.")
    parser.add_argument("names", nargs="*", metavar="NAME", help=f"only these of {', '.join(names)}")
    parser.add_argument("--into", type=Path, default=HERE, help="folder to write them to")
    parser.add_argument("--names", action="store_true", dest="only_names", help="print the names and take nothing")
    given = parser.parse_args()
    if given.only_names:
        sys.stdout.write("\n".join(names) + "\n")
        return
    unknown = sorted(set(given.names) - set(names))
    if unknown:
        parser.error(f"no picture is called {', '.join(unknown)}")
    given.into.mkdir(parents=True, exist_ok=True)
    take(given.into, frozenset(given.names))


if __name__ == "__main__":
    main()

"""A shop from Python: what it keeps, what it answers and refuses; in memory as in a folder, and several at once."""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from pathlib import Path

import pypdfium2
import pytest
from sqlalchemy import text

import clubwright
from benchwork import JOB, Clock, actions, document
from cli_runs import clubwright as command
from clubwright.bootstrap import BY_VARIABLE, SITE_VARIABLE
from clubwright.cli import options
from clubwright.errors import GateClosed, InputError, NotInRecord, RecordError, StepNotReady
from clubwright.journal.chain import plain
from clubwright.store import engine as engines

Capture = pytest.CaptureFixture[str]
IRON = Path(__file__).parents[3] / "examples" / "iron.toml"
CLUB = "X-1007"


@pytest.fixture
def shop() -> clubwright.Shop:
    return clubwright.Shop(by="Ann", site="van", now=Clock())


def kept(shop: clubwright.Shop) -> list[tuple[object, ...]]:
    facts = shop._session().ledger.facts()
    return [(fact.site, fact.sequence, fact.at, fact.by, fact.typed, plain(fact.what)) for fact in facts]


def worked_through(shop: clubwright.Shop, clock: Clock) -> None:
    for _, action, hours in actions():
        clock.wait(hours=hours)
        action(shop._session())


def test_a_wedge_in_memory_leaves_what_it_leaves_in_a_folder(tmp_path: Path) -> None:
    found = []
    for folder in (None, tmp_path / "shop"):
        clock = Clock()
        with clubwright.Shop(folder, by="Ann", site="van", now=clock) as shop:
            if folder is not None:
                with pytest.raises(RecordError, match="there is no record"):
                    shop.jobs()
                shop._session(make=True)
            worked_through(shop, clock)
            shop.reopen(JOB, reason="it rattles")
            shop.undo(JOB)
            assert shop.verify() == ()
            assert shop._session().ledger.rebuild() == 1
            found.append((kept(shop), shop.answer(JOB).json(), shop.trail(JOB), shop.picture(JOB)))
    assert found[0] == found[1]
    assert len(found[0][0]) > 25


def test_what_was_done_is_told_with_who_where_and_when(shop: clubwright.Shop) -> None:
    taken = shop.take(IRON)
    assert (taken.job, taken.number, taken.site, taken.by) == (CLUB, 1, "van", "Ann")
    assert taken.at == "2026-03-02T08:00:00.000Z"
    read = shop.read(CLUB, "swing_weight", "D0.3", "dry, gripped", weights=[], gauge="scale")
    assert (read.kind, read.text) == ("reading taken", "swing_weight D0.3")
    assert [line.text for line in shop.trail(CLUB)] == ["ticket from iron.toml", "swing_weight D0.3"]
    assert shop.undo(CLUB).text == "undo 2"
    assert [line.undone for line in shop.trail(CLUB)] == [False, True, False]


def test_the_same_key_keeps_nothing_twice(shop: clubwright.Shop) -> None:
    assert shop.take(IRON, key="k-1") == shop.take(IRON, key="k-1")
    assert shop.fit(CLUB, ["tip 4"], key="k-2") == shop.fit(CLUB, ("tip 4",), key="k-2")
    assert len(kept(shop)) == 2


def test_parts_are_weighed_all_or_none(shop: clubwright.Shop) -> None:
    shop.take(document())
    with pytest.raises(InputError) as refused:
        shop.weigh(JOB, head="296.2 g", grip="heavy", cat="4 g")
    assert len(kept(shop)) == 1
    assert "[cat]: no such table" in str(refused.value)
    shop.pull(JOB, "right")
    done = shop.weigh(JOB, {"grip": "50.1 g"}, head="296.2 g", gauge="gram scale", step="weigh")
    assert done.step == "weigh"
    state = shop._session().job(JOB).document
    assert (state["head"]["mass"], state["grip"]["mass"]) == ("296.2 g", "50.1 g")


def test_the_answer_is_that_of_the_command(tmp_path: Path, capsys: Capture) -> None:
    with clubwright.Shop(tmp_path) as shop:
        shop.take(IRON)
        answer, advice, steps = shop.answer(CLUB), shop.advice(CLUB), shop.plan(CLUB)
        assert shop.next(CLUB).action == "done"
        closing, belief = shop.closing(CLUB), shop.belief(CLUB)
        why = shop.why(CLUB, "finished/swing_weight")
        assert "finished/swing_weight" in shop.why_keys(CLUB)
    shown = command(capsys, "show", CLUB, "--shop", str(tmp_path), "--json").body()
    assert answer.plain() == {key: shown[key] for key in answer}
    assert [item.plain() for item in closing] == shown["closing"]
    assert [item.plain() for item in belief] == shown["belief"]
    assert advice == answer.advice
    assert str(advice[0]) == f"{advice[0].do}; {advice[0].why}"
    assert steps[0].key == shown["next_step"]
    told = command(capsys, "show", CLUB, "--why", "finished/swing_weight", "--shop", str(tmp_path), "--json").body()
    assert told == json.loads(json.dumps(told)) and why.key == told["key"]


def test_a_closed_gate_says_what_is_missing_and_nothing_passes_it(shop: clubwright.Shop) -> None:
    shop.take(IRON)
    with pytest.raises(GateClosed) as refused:
        shop.glue(CLUB, temperature="22 C")
    assert refused.value.step == "glue"
    assert any("nobody has signed" in reason for reason in refused.value.reasons)
    with pytest.raises(GateClosed):
        shop.finish(CLUB)
    shop.take(document())
    with pytest.raises(StepNotReady, match="cannot be said done"):
        shop.done(JOB, "pull")
    with pytest.raises(TypeError, match="name"):
        shop.accept(CLUB, "length", reason="as it is")
    with pytest.raises(InputError):
        shop.accept(CLUB, "length", name="", reason="as it is")
    assert len(kept(shop)) == 2
    assert shop.accept(CLUB, "length", name="R. Ashdown", reason="measured by him").kind == "deviation accepted"


def test_a_value_of_another_kind_is_refused_with_all_the_others(shop: clubwright.Shop) -> None:
    shop.take(IRON)
    with pytest.raises(InputError) as refused:
        shop.read(7, "swing_weight", 3.5, weights="tip 4", gauge=b"scale", repeats=3)
    assert [item.where for item in refused.value.findings] == ["club", "value", "weights", "gauge", "repeats"]
    assert "3.5 is not a text. Write it as it is typed, with its unit" in str(refused.value)
    wrong = {
        "decide": ((CLUB, True), {"keep": "yes"}, ["reading", "keep"]),
        "measure": ((CLUB, "head", {"mass": 298.2}), {}, ["values"]),
        "order": ((CLUB, ["length"]), {"said_by": "me", "reason": None}, ["values", "reason"]),
        "trim": ((CLUB, "middle", "1/2 in"), {}, ["end"]),
        "take": ((["[ticket]"],), {}, None),
    }
    for name, (placed, named, places) in wrong.items():
        with pytest.raises((InputError, TypeError)) as refused_too:
            getattr(shop, name)(*placed, **named)
        if places is not None:
            assert [item.where for item in refused_too.value.findings] == places
    assert len(kept(shop)) == 1


@pytest.mark.parametrize("value", ["", "D", "3,5", "D3 D4", "x" * 5000])
def test_a_wrong_value_is_refused_as_on_the_command_line(
    value: str, tmp_path: Path, capsys: Capture, shop: clubwright.Shop
) -> None:
    shop.take(IRON)
    with pytest.raises(InputError) as refused:
        shop.read(CLUB, "swing_weight", value)
    assert command(capsys, "take", str(IRON), "--shop", str(tmp_path)).code == 0
    ran = command(capsys, "read", CLUB, "swing_weight", value, "--shop", str(tmp_path))
    assert ran.code == 2
    assert ran.err.strip() == str(refused.value)


def test_a_ticket_that_cannot_be_taken_keeps_nothing(shop: clubwright.Shop) -> None:
    with pytest.raises(InputError) as refused:
        shop.take({"ticket": {"id": "X-1", "job": "build"}, "target": {"length": 35.5}})
    assert len(refused.value.findings) > 2
    shop.take(IRON)
    with pytest.raises(RecordError, match=CLUB):
        shop.take(IRON)
    with pytest.raises(NotInRecord, match="X-9"):
        shop.answer("X-9")
    assert len(kept(shop)) == 1


def test_several_shops_are_apart_and_one_record_has_several(tmp_path: Path) -> None:
    with clubwright.Shop() as one, clubwright.Shop() as other, clubwright.Shop(tmp_path / "a", site="a") as here:
        one.take(IRON)
        assert other.jobs() == ()
        here.take(IRON)
        with clubwright.Shop(tmp_path / "a", site="van", by="Bo") as there:
            assert there.fit(CLUB, ["tip 4"]).number == 1
            assert [line.site for line in here.trail(CLUB)] == ["a", "van"]
        assert [job.id for job in here.jobs()] == [job.id for job in one.jobs()] == [CLUB]
        assert len(one.trail(CLUB)) == 1


def test_benches_that_write_at_once_in_memory_wait_for_one_another(shop: clubwright.Shop) -> None:
    shop.take(IRON)
    refused: list[Exception] = []

    def write(number: int) -> None:
        try:
            for value in range(4):
                shop.fit(CLUB, ["tip 4"] if (number + value) % 2 else [])
        except Exception as error:
            refused.append(error)

    threads = [threading.Thread(target=write, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert refused == []
    assert len(kept(shop)) == 17
    assert shop.verify() == ()


def test_a_record_in_memory_can_be_kept_and_opened(tmp_path: Path, shop: clubwright.Shop) -> None:
    shop.take(IRON)
    shop.fit(CLUB, ["tip 4"])
    assert shop.backup(tmp_path / "record.sqlite") == 2
    with clubwright.Shop(tmp_path) as again:
        assert kept(again) == kept(shop)
        assert again.verify() == ()
    with pytest.raises(RecordError, match="is there already"):
        shop.backup(tmp_path / "record.sqlite")


def test_what_is_changed_in_memory_is_found(shop: clubwright.Shop) -> None:
    shop.take(IRON)
    with shop._session().ledger.engine.begin() as connection:
        names = connection.execute(text("SELECT name FROM sqlite_master WHERE type = 'trigger'")).scalars().all()
        for name in names:
            connection.execute(text(f'DROP TRIGGER "{name}"'))
        connection.execute(text("UPDATE fact SET typed = 'another'"))
    assert any(item.severity == "error" for item in shop.verify())


def test_a_shop_that_is_closed_stays_closed(tmp_path: Path) -> None:
    with clubwright.Shop(tmp_path / "shop") as shop:
        shop.take(IRON)
    shop.close()
    assert "closed" in repr(shop)
    for ask in (shop.jobs, lambda: shop.take(IRON), lambda: shop.answer(CLUB)):
        with pytest.raises(RecordError, match="this shop is closed"):
            ask()
    with clubwright.Shop(tmp_path / "shop") as again:
        assert [job.id for job in again.jobs()] == [CLUB]


def test_a_shop_that_nobody_closed_lets_go_of_its_record() -> None:
    program = (
        "import gc, clubwright, clubwright.bootstrap as wiring\n"
        "shop = clubwright.Shop(); shop.take('" + str(IRON) + "')\n"
        "engine = shop._session().ledger.engine\n"
        "del shop; gc.collect()\n"
        "assert engine.pool.checkedin() == 0\n"
        "left = clubwright.Shop()  # goes with the program\n"
    )
    ran = subprocess.run([sys.executable, "-W", "error", "-c", program], capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stderr) == (0, "")


def test_a_slip_in_a_name_makes_no_record(tmp_path: Path) -> None:
    shop = clubwright.Shop(tmp_path / "wrokshop")
    for ask in (shop.jobs, shop.verify, lambda: shop.answer(CLUB), lambda: shop.undo(CLUB)):
        with pytest.raises(RecordError, match=r"wrokshop.*shop\.take"):
            ask()
    assert not (tmp_path / "wrokshop").exists()
    (tmp_path / "file").write_text("no folder", encoding="utf-8")
    with pytest.raises(RecordError, match="is a file"):
        clubwright.Shop(tmp_path / "file").take(IRON)
    with pytest.raises(InputError):
        clubwright.Shop(shop_file=tmp_path / "none.toml")


def test_who_and_where_are_said_by_the_environment(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(BY_VARIABLE, "Bo")
    monkeypatch.setenv(SITE_VARIABLE, "van")
    assert BY_VARIABLE == options.BY_VARIABLE
    assert (clubwright.Shop().by, clubwright.Shop().site) == ("Bo", "van")
    taken = clubwright.Shop(by="Ann", site="bench").take(IRON)
    assert (taken.by, taken.site) == ("Ann", "bench")


def test_papers_and_picture_are_those_of_the_job(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text('[units]\nlength = "mm"\n', encoding="utf-8")
    with clubwright.Shop(tmp_path, now=Clock()) as shop:
        shop.take(IRON)
        sheet = pypdfium2.PdfDocument(shop.sheet(CLUB).content)
        printed = sheet[0].get_textpage().get_text_bounded()
        assert "2026-03-02" in printed
        assert "mm (35 3/4 in" in " ".join(printed.split())
        assert shop.tag(CLUB, dpi=203).format == "png"
        before = shop.picture(CLUB)
        assert "cut 908.18 mm (" in before.svg or "not to saw by" in before.svg
        shop.fit(CLUB, ["tip 4"])
        assert shop.picture(CLUB) != before
        assert shop.cautions(CLUB, "pull-again")


def test_a_player_is_forgotten_once_it_was_looked_at(shop: clubwright.Shop) -> None:
    ticket = document()
    player = ticket["ticket"]["player"]
    shop.take(ticket)
    looked = shop.forgetting(player)
    assert looked.jobs == (JOB,)
    with pytest.raises(InputError):
        shop.forget(player, asked_by="the player", facts=looked.facts + 5)
    done = shop.forget(player, asked_by="the player, by letter", facts=looked.facts)
    assert done.person.startswith("P-")
    assert player not in str(kept(shop))
    assert shop.verify() == ()


def test_a_sqlite_that_cannot_share_memory_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(engines.sqlite3, "sqlite_version_info", (3, 34, 1))
    with pytest.raises(RecordError, match=r"keeps no record in memory.*give a folder"):
        clubwright.Shop()

"""The shop's settings and the record: what the shop says is kept with the ticket on the day it is taken."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import msgspec
import pytest

from clubwright.errors import InputError
from clubwright.services.actions import bench
from clubwright.services.answer.shop_settings import changed_since
from clubwright.services.jobs.job_answer import answer_job
from clubwright.services.record.session import Session
from clubwright.ticket.duplicate import same_order
from clubwright.ticket.shop.laying import own_of
from clubwright.ticket.shop.settings import read_shop
from shopwork import SHOP_TEXT, shop, ticket

JOB = "T-0301"


def with_shop(session: Session, document: dict[str, Any]) -> Session:
    settings = read_shop(document)
    return msgspec.structs.replace(session, settings=lambda: settings)


def changed(section: str, *path: str, text: str) -> dict[str, Any]:
    found = shop()
    table = found[section]
    for name in path[:-1]:
        table = table[name]
    table[path[-1]] = text
    return found


def test_an_old_job_keeps_what_the_shop_said_when_it_was_taken(session: Session) -> None:
    bench.take_ticket(with_shop(session, shop()), ticket(), "T.toml")
    later = with_shop(session, changed("adhesive", "two-part", "pot_life", text="5 min"))
    row = answer_job(later.job(JOB), later.now()).club_state.ticket.row("adhesive")
    assert row.numbers["pot_life"].typed == "30 min"
    bench.take_ticket(later, ticket(ticket={"id": "T-0302", "kind": "wedge", "hand": "right"}), "T.toml")
    assert later.job("T-0302").document["adhesive"]["pot_life"] == "5 min"


def test_what_was_typed_can_still_be_told_from_what_was_laid_in(session: Session) -> None:
    fact = bench.take_ticket(with_shop(session, shop()), ticket(), "T.toml")
    document = session.job(JOB).document
    assert document["adhesive"]["release"][0] == {"temperature": "20 C", "time": "15 h"}
    assert own_of(document) == ticket()
    assert fact.what.job == JOB


def test_a_change_of_the_shop_since_is_told_and_not_taken(session: Session) -> None:
    bench.take_ticket(with_shop(session, shop()), ticket(), "T.toml")
    job = session.job(JOB)
    assert changed_since(job, read_shop(shop())) == ()
    found = changed_since(job, read_shop(changed("adhesive", "two-part", "pot_life", text="20 min")))
    assert [str(item.where) for item in found] == [f"ticket {JOB} [adhesive]"]
    assert "pot life 30 min then, pot life 20 min now" in found[0].what
    assert found[0].severity == "note"
    gone = shop()
    del gone["shop"]
    assert "kerf 1/32 in then, kerf not said now" in changed_since(job, read_shop(gone))[0].what
    more = changed("tolerance", "total_weight", text="2 g")
    assert "total weight not said then, total weight 2 g now" in changed_since(job, read_shop(more))[0].what


def test_a_bad_file_is_told_too_and_stops_no_old_job(session: Session) -> None:
    bench.take_ticket(with_shop(session, shop()), ticket(), "T.toml")
    bad = read_shop(changed("tolerance", "length", text="long"))
    found = changed_since(session.job(JOB), bad)
    assert found[0].severity == "warning"
    assert "shop.toml [tolerance] length" in found[0].mend
    broken = msgspec.structs.replace(session, settings=lambda: bad)
    bench.change_part(broken, JOB, "head", {"mass": "300 g"})
    with pytest.raises(InputError, match=r"shop.toml \[tolerance\] length"):
        bench.take_ticket(broken, ticket(ticket={"id": "T-0302", "kind": "wedge", "hand": "right"}), "T.toml")
    assert "T-0302" not in session.shop().numbers


def test_what_is_written_in_at_the_bench_is_the_jobs_own(session: Session) -> None:
    at = with_shop(session, shop())
    bench.take_ticket(at, ticket(), "T.toml")
    bench.change_order(at, JOB, {"adhesive.pot_life": "20 min"}, said_by="Ann", reason="a warm bench")
    later = read_shop(changed("adhesive", "two-part", "pot_life", text="25 min"))
    assert changed_since(at.job(JOB), later) == ()
    another = changed_since(at.job(JOB), read_shop(changed("adhesive", "two-part", "ratio", text="3:1")))
    assert ["ratio 2:1 then, ratio 3:1 now" in item.what for item in another] == [True]
    bench.lay_tape(at, JOB, "double-sided", "2", "3.4 g")
    assert changed_since(at.job(JOB), read_shop(shop())) == ()
    assert at.job(JOB).document["tape"] == [
        {"name": "double-sided", "layer_mass": "1.6 g", "cg_from_cap": "5.1 in", "layers": "2", "mass": "3.4 g"}
    ]


def test_the_same_ticket_sent_twice_is_one_also_when_the_shop_changed_in_between(session: Session) -> None:
    first = bench.take_ticket(with_shop(session, shop()), ticket(), "T.toml", "once")
    later = with_shop(session, changed("tolerance", "length", text="1/4 in"))
    assert bench.take_ticket(later, ticket(), "T.toml", "once") == first
    assert len(session.ledger.facts()) == 1


def test_a_gauge_of_the_shop_reads_at_the_bench_by_its_usual_name(session: Session) -> None:
    bench.take_ticket(with_shop(session, shop()), ticket(), "T.toml")
    fact = bench.note_reading(session, JOB, "swing_weight", "D3", stage="dry, gripped")
    assert fact.what.instrument == "swing scale"  # type: ignore[union-attr]


def test_the_same_order_again_takes_what_the_shop_says_on_its_own_day(session: Session) -> None:
    bench.take_ticket(with_shop(session, shop()), ticket(tolerance={"length": "1/8 in"}), "T.toml")
    again = same_order(session.job(JOB).document, "T-0303")
    assert again["tolerance"] == {"length": "1/8 in"}
    assert not {"adhesive", "tape", "from_shop", "instrument"} & set(again)


def test_the_folder_of_a_workshop_is_read_when_it_is_asked_for(tmp_path: Path) -> None:
    from clubwright.bootstrap import open_session

    with open_session(str(tmp_path), by="Ann") as session:
        assert session.settings().source == ""
        (tmp_path / "shop.toml").write_text(SHOP_TEXT, encoding="utf-8")
        bench.take_ticket(session, ticket(), "T.toml")
        assert session.job(JOB).document["shop"] == {"kerf": "1/32 in"}
        (tmp_path / "shop.toml").write_text("not toml", encoding="utf-8")
        assert [str(item.where) for item in session.settings().errors] == ["shop.toml line 1"]
        assert session.job(JOB).id == JOB
    other = tmp_path / "other.toml"
    other.write_text('[shop]\nkerf = "1/16 in"\n', encoding="utf-8")
    with open_session(str(tmp_path), by="Ann", shop_file=other) as session:
        assert session.settings().tables == {"shop": {"kerf": "1/16 in"}}
    with (
        pytest.raises(InputError, match="no such file"),
        open_session(str(tmp_path), by="Ann", shop_file=tmp_path / "no"),
    ):
        pass

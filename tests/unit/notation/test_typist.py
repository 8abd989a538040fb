"""How a person types numbers is a setting: what they type becomes canonical text before anything is kept, or is refused."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cli_runs import clubwright, workshop
from clubwright.errors import InputError
from clubwright.notation import CANONICAL, KINDS, Typist, UnitsShown, canonical, parse, render, shown_in
from clubwright.notation.own import own_of
from clubwright.services.actions.orders.new_ticket import new_ticket
from clubwright.services.actions.register.actions import ACTIONS
from clubwright.services.actions.register.fields import OF_THE_PATH, OF_THE_QUANTITY, OF_THE_SECTION, fields_of
from clubwright.services.actions.register.payloads import Cut, Figures, Measured, Reading
from clubwright.services.actions.typed_in import (
    kind_of_figure,
    typed_figures,
    typed_order,
    typed_payload,
    typed_reading,
)
from clubwright.ticket.fields.fields import SECTIONS
from clubwright.ticket.shop.settings import read_shop
from clubwright.ticket.shorthand.reader import read_shorthand
from clubwright.web.typed import canonical_form

COMMA = Typist(decimal="comma")
MM = Typist(bare_length="mm")


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("35,5 in", "35.5 in"),
        (",600 in", ".600 in"),
        ("0,900 in", "0.900 in"),
        ("298,4 g ± 0,3 g", "298.4 g ± 0.3 g"),
        ("-,5 deg", "-.5 deg"),
        ("D4,5", "D4.5"),
        ("54,10", "54.10"),
        ("35.5 in", "35.5 in"),
        ("35 1/2 in", "35 1/2 in"),
        ("1,16 g/cm3, 0,97 g/cm3", "1.16 g/cm3, 0.97 g/cm3"),
        ("1/2 in,1/4 in", "1/2 in,1/4 in"),
        ("1/2 in, 1/4 in", "1/2 in, 1/4 in"),
        ("20 C: 15,5 h; 25 C: 12 h", "20 C: 15.5 h; 25 C: 12 h"),
        ("1,000 g", "1,000 g"),
        ("1,000,000", "1,000,000"),
        ("1.000,5 g", "1.000,5 g"),
        ("1,1,1,0", "1,1,1,0"),
    ],
)
def test_a_decimal_comma_becomes_a_point_and_nothing_else_moves(typed: str, text: str) -> None:
    assert canonical(typed, COMMA) == text
    assert canonical(typed, CANONICAL) == typed


@given(st.decimals(min_value=0, max_value=9999, places=1) | st.decimals(min_value=0, max_value=9999, places=2))
def test_what_the_standard_library_writes_with_a_point_is_read_from_a_comma(number: Decimal) -> None:
    """Held against `decimal` of the standard library: the same number, digit for digit."""
    typed = f"{number}".replace(".", ",")
    assert Decimal(canonical(typed, COMMA)) == number


@pytest.mark.parametrize("typist", [COMMA, CANONICAL])
@pytest.mark.parametrize(("text", "kind"), [("1,000 g", "mass"), ("1,500 g", "mass"), ("1,000 mm", "length")])
def test_a_thousand_is_never_taken_for_one(typist: Typist, text: str, kind: str) -> None:
    with pytest.raises(InputError) as refused:
        parse(kind, canonical(text, typist, kind), where="[head] mass")
    (finding,) = refused.value.findings
    assert "two ways" in finding.what
    assert "1000" in finding.mend


@pytest.mark.parametrize(
    ("typed", "kind", "text"),
    [
        ("34,275 in", "length", "34.275 in"),
        ("298,400 g ± 0,3 g", "mass", "298.400 g ± 0.3 g"),
        ("63,500 deg", "lie", "63.500 deg"),
        ("1,160 g/cm3", "density", "1.160 g/cm3"),
        ("895,400", "length", "895.400 mm"),
        ("34,275 in", "", "34,275 in"),
    ],
)
def test_what_is_no_such_quantity_as_a_thousand_is_a_decimal(typed: str, kind: str, text: str) -> None:
    assert canonical(typed, Typist(decimal="comma", bare_length="mm"), kind) == text


@pytest.mark.parametrize(
    ("kind", "value"), [("length", 0.8706), ("diameter", 0.0232), ("mass", 0.2984), ("density", 1160.0)]
)
def test_what_is_shown_with_a_comma_can_be_typed(kind: str, value: float) -> None:
    with shown_in(UnitsShown(length="decimal inches", decimal="comma")):
        shown = render(kind, value)
    assert "," in shown
    assert parse(kind, canonical(shown, COMMA, kind)).value == parse(kind, render(kind, value)).value


@pytest.mark.parametrize(
    ("typed", "kind", "text"),
    [
        ("900", "length", "900 mm"),
        (" 15.2 ", "diameter", "15.2 mm"),
        ("+6", "length", "+6 mm"),
        ("35 1/2", "length", "35 1/2"),
        ("35.5 in", "length", "35.5 in"),
        ("900", "mass", "900"),
        ("900", "", "900"),
    ],
)
def test_a_bare_length_is_in_millimetres_only_where_a_setting_says_so(typed: str, kind: str, text: str) -> None:
    assert canonical(typed, MM, kind) == text
    assert canonical(typed, CANONICAL, kind) == typed


def test_units_first_shown_say_nothing_of_what_is_typed() -> None:
    shown = read_shop({"units": {"length": "mm"}})
    assert shown.typist() == CANONICAL
    typed = read_shop({"units": {"decimal": "comma", "bare_length": "mm"}})
    assert (typed.typist(), typed.units()) == (Typist(decimal="comma", bare_length="mm"), UnitsShown(decimal="comma"))
    assert [item.what for item in read_shop({"units": {"decimal": ";"}}).errors] == [
        '";" is none of the words used here'
    ]


def test_words_of_a_ticket_keep_their_commas() -> None:
    for section in SECTIONS:
        for field in section.fields:
            kind = kind_of_figure(section.name, field.key)
            words = field.kind in ("text", "choice", "key", "gauges") and section.name != "instrument"
            assert (kind is None) == words, f"{section.name}.{field.key}"
    said = {"name": "Heath, 1,5 wraps", "mass": "49,6 g", "unknown": "1,5"}
    assert typed_figures("grip", said, COMMA) == {**said, "mass": "49.6 g"}
    order = {"target.length": "35,25 in", "ticket.note": "1,5 mm", "weight.port 6,5.mass": "6,1 g", "no path": "1,5"}
    assert typed_order(order, COMMA) == {**order, "target.length": "35.25 in", "weight.port 6,5.mass": "6.1 g"}
    assert typed_order({"adhesive.release": "20,5 C: 15 h"}, COMMA) == {"adhesive.release": "20.5 C: 15 h"}
    assert typed_reading("length", "900,5", Typist(decimal="comma", bare_length="mm")) == "900.5 mm"
    assert typed_reading("grip.mass", "49,6 g", COMMA) == "49.6 g"


def test_every_field_of_an_action_that_shows_a_unit_says_its_notation() -> None:
    """What an example shows with a figure in it is read as one; what is named alike on the page is of one notation."""
    fields = [(action.key, field) for action in ACTIONS.values() for field in fields_of(action.payload)]
    figures = {f"{key} {field.name}" for key, field in fields if field.notation}
    shown = {f"{key} {field.name}" for key, field in fields if any(sign.isdigit() for sign in field.example)}
    assert shown - figures == {"renumber number"}, "a ticket number is no figure"
    assert {"bend loft", "cut cut_mass", "cut cut_balance_from_tip", "order values"} <= figures
    known = {*KINDS, OF_THE_QUANTITY, OF_THE_SECTION, OF_THE_PATH}
    by_name: dict[str, set[str]] = {}
    for _, field in fields:
        if field.notation:
            assert field.notation in known
            by_name.setdefault(field.page, set()).add(field.notation)
    by_name["values"] -= {OF_THE_SECTION, OF_THE_PATH}  # the page has no field of that name
    assert not {name: found for name, found in by_name.items() if len(found) > 1}


def test_what_is_given_with_an_action_is_turned_by_the_register() -> None:
    cut = Cut(job="T-1,5", cut_length="34,5", cut_mass="60,2 g", mass_gauge="scale 1,5", done_at="9:40")
    turned = typed_payload(cut, Typist(decimal="comma", bare_length="mm"))
    assert turned == msgspec.structs.replace(cut, cut_length="34.5 mm", cut_mass="60.2 g")
    assert typed_payload(cut, CANONICAL) is cut
    read = Reading(job="T-1", quantity="grip.mass", value="49,6 g")
    assert typed_payload(read, COMMA).value == "49.6 g"
    measured = Measured(job="T-1", section="grip", values={"mass": "49,6 g", "name": "Heath 1,5"})
    assert typed_payload(measured, COMMA).values == {"mass": "49.6 g", "name": "Heath 1,5"}
    figures = Figures(job="T-1", values={"head.mass": "298,4 g"}, gauges={"mass": "scale 1,5"})
    assert typed_payload(figures, COMMA) == msgspec.structs.replace(figures, values={"head.mass": "298.4 g"})


def test_a_form_is_turned_by_the_names_of_its_fields() -> None:
    sent = {
        "quantity": ["total_weight"],
        "value": ["468,2 g"],
        "confirmed": ["468,2 g"],
        "cut_length": ["34,5 in"],
        "tape:double, 1,5": ["1,6 g"],
        "tape.0.layers": ["1,5"],
        "tape.0.name": ["double, 1,5"],
        "head.mass": ["298,4 g"],
        "reason": ["1,5 mm short"],
        "key": ["k,1"],
        "was:target.length": ["35,5"],
    }
    turned = {
        **sent,
        "value": ["468.2 g"],
        "confirmed": ["468.2 g"],
        "cut_length": ["34.5 in"],
        "tape:double, 1,5": ["1.6 g"],
        "tape.0.layers": ["1.5"],
        "head.mass": ["298.4 g"],
    }
    assert canonical_form(sent, COMMA) == turned
    assert canonical_form(sent, CANONICAL) == sent


def test_the_words_of_an_order_are_kept_as_they_are_said() -> None:
    words = "7 iron, right hand, 37,25 in, D2,5"
    shorthand = read_shorthand(words, COMMA)
    assert not shorthand.left
    assert {key: shorthand.fields[f"target.{key}"] for key in ("length", "swing_weight")} == {
        "length": "37.25 in",
        "swing_weight": "D2.5",
    }
    assert shorthand.text == words
    made = new_ticket(words, "T-1", read_shop({"units": {"decimal": "comma"}}))
    assert made.document["ticket"]["asked"] == words
    assert made.document["target"]["length"] == "37.25 in"
    assert read_shorthand(words).left, "nobody said that commas are typed"


@pytest.mark.usefixtures("played")
def test_a_command_takes_the_comma_of_the_shop_or_of_the_person(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    shop = workshop(tmp_path, "hand")
    job = clubwright(capsys, "jobs", "--shop", shop, "--json").body()[0]["id"]

    def head(mass: str) -> tuple[int, str]:
        ran = clubwright(capsys, "measure", job, "head", f"mass={mass}", "--shop", shop)
        return ran.code, ran.out + ran.err

    code, said = head("298,4 g")
    assert (code, "has a comma" in said) == (2, True)
    monkeypatch.setenv("CLUBWRIGHT_DECIMAL", "comma")
    code, said = head("298,4 g")
    assert (code, "298.4 g" in said, "298,4" in said) == (0, True, False)
    assert head("1,000 g")[0] == 2
    monkeypatch.setenv("CLUBWRIGHT_DECIMAL", "semicolon")
    code, said = head("298.5 g")
    assert (code, "point or comma" in said) == (2, True)
    monkeypatch.delenv("CLUBWRIGHT_DECIMAL")
    (tmp_path / "shop.toml").write_text('[units]\ndecimal = "comma"\n', encoding="utf-8")
    assert head("298,6 g")[0] == 0
    monkeypatch.setenv("CLUBWRIGHT_DECIMAL", "point")
    assert head("298,7 g")[0] == 2


def test_a_session_types_as_its_person_does_and_else_as_the_shop_does() -> None:
    from clubwright.services.record.session import Session

    comma = read_shop({"units": {"decimal": "comma"}})
    session = Session(
        ledger=None,  # type: ignore[arg-type]
        site="bench",
        by="Ann",
        now=lambda: None,  # type: ignore[arg-type,return-value]
        new_key=str,
        settings=lambda: comma,
    )
    assert session.typed("1,5 g", "mass") == "1.5 g"
    assert msgspec.structs.replace(session, own=own_of({"decimal": "point"})).typed("1,5 g", "mass") == "1,5 g"

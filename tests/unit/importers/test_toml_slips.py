"""A file that is no TOML is told its slips in the words of the bench: each with its line and its mend, all at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from clubwright.errors import InputError
from clubwright.importers.shop_file import load_shop
from clubwright.importers.ticket_file import load_ticket, parse_ticket
from clubwright.importers.toml_slips import slips_of
from clubwright.ticket.read import read_ticket

WHOLE = """\
[ticket]
id = "T-1"
asked = '''
a mark: "35 1/4""
'''
[target]
length = "35 1/4 in"
loft = "54 deg"  # "as" drawn
[[adhesive.release]]
temperatures = [
  "20 C",
  "25 C",
]
[[weight]]
name = "port"
[weight.seat]
at = "port"
[[weight]]
name = "tip"
[weight.seat]
at = "tip"
[instrument."swing scale"]
bias = "0.1 pt"
"""
LENGTH, LOFT = 7, 8


def told(before: str, after: str) -> list[str]:
    assert before in WHOLE
    with pytest.raises(InputError) as refused:
        parse_ticket(WHOLE.replace(before, after), "t.toml")
    return [finding.sentence() for finding in refused.value.findings]


def test_what_is_whole_has_no_slips():
    assert parse_ticket(WHOLE)["target"]["length"] == "35 1/4 in"
    assert slips_of(WHOLE, "t.toml") == []


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ('"35 1/4""', "the inch mark within the quotes ends the text too early"),
        ('"35.25""  ', "the inch mark within the quotes ends the text too early"),
        ('35 1/4"', "a value stands between quotes"),
        ("35 1/4 in", "a value stands between quotes"),
        ("\N{LEFT DOUBLE QUOTATION MARK}35 1/4 in\N{RIGHT DOUBLE QUOTATION MARK}", "curly quotes are no quotes here"),
        ("\N{DOUBLE LOW-9 QUOTATION MARK}35 1/4 in\N{LEFT DOUBLE QUOTATION MARK}", "curly quotes are no quotes here"),
        ('"35 1/4 in', "a value stands between quotes"),
        ('"35 1/4 in",', "a value stands between quotes"),
    ],
)
def test_a_value_with_its_quotes_wrong_is_written_right(written: str, said: str):
    (sentence,) = told('"35 1/4 in"', written)
    assert sentence.startswith(f"t.toml line {LENGTH}: {said}")
    mended = sentence.partition("Write ")[2].partition(" with straight")[0].removesuffix(".")
    length = parse_ticket(mended)["length"]
    assert length == ("35.25 in" if "35.25" in written else "35 1/4 in")


def test_a_key_and_a_table_that_stand_twice_are_told_with_both_lines():
    (sentence,) = told('loft = "54 deg"', 'loft = "54 deg"\nlength = "36 in"')
    assert sentence.startswith(f"t.toml line {LOFT + 1}: length stands here and in line {LENGTH} already.")
    (sentence,) = told('[instrument."swing scale"]', "[target]")
    assert "[target] stands here and in line 6 already. Put its lines below those of line 6." in sentence


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ('loft: "54 deg"', 'Write loft = "54 deg".'),
        ('loft "54 deg"', 'Write loft = "54 deg".'),
        ('swing weight = "D4"', "Write swing_weight = ..., with _ for the space."),
        ('loft = "\\5"', "single quotes"),
        ("loft =", "loft has no value"),
        ("[loft", "[loft is no name of a table"),
    ],
)
def test_other_slips(written: str, said: str):
    (sentence,) = told('loft = "54 deg"', written)
    assert sentence.startswith(f"t.toml line {LOFT}: ")
    assert said in sentence


def test_all_slips_are_told_at_once():
    found = told('"35 1/4 in"\nloft = "54 deg"', '"35 1/4""\nloft: "54 deg"')
    assert [sentence.partition(": ")[0] for sentence in found] == [f"t.toml line {LENGTH}", f"t.toml line {LOFT}"]


def test_what_is_no_slip_of_a_pen_is_told_as_the_reader_of_toml_says_it():
    (sentence,) = told('[instrument."swing scale"]', "[target.length]")
    assert sentence.startswith("t.toml: ")


def test_a_byte_order_mark_says_nothing(tmp_path: Path):
    for name, read in (("t.toml", load_ticket), ("shop.toml", load_shop)):
        file = tmp_path / name
        file.write_text('[shop]\ncap = "1/8 in"\n' if name == "shop.toml" else WHOLE, encoding="utf-8-sig")
        found = read(file)
        assert not [item for item in getattr(found, "findings", ()) if "TOML" in item.what or "statement" in item.what]
    assert parse_ticket("\N{ZERO WIDTH NO-BREAK SPACE}" + WHOLE) == parse_ticket(WHOLE)


def _stage_findings(stage: str) -> list[str]:
    document = {
        "ticket": {"id": "T-1"},
        "reading": [{"quantity": "swing_weight", "value": "D1", "stage": stage}],
    }
    found = read_ticket(document, "t.toml")
    findings = found[1] if isinstance(found, tuple) else found.findings
    return [item.sentence() for item in findings if "stage" in str(item.where)]


def test_a_stage_said_short_is_asked_about_in_the_words_of_the_bench():
    (sentence,) = _stage_findings("dry")
    assert '"dry" leaves open which. Write "dry, no grip" or "dry, taped" or "dry, gripped".' in sentence
    (sentence,) = _stage_findings("bare")
    assert sentence.endswith('Write "bare shaft".')
    (sentence,) = _stage_findings("wet")
    assert 'no stage is called "wet". Stages: ' in sentence

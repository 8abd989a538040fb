"""The command on a recorded oscillation: its frequency, and the reading where a job is named."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from clubwright.cli.options import SHOP, By, Json, Key, Shop

if TYPE_CHECKING:
    from clubwright.club.oscillation import Oscillation


def trace(
    record: Annotated[Path, Parameter(help="CSV file (time and value, or value alone) or WAV file.")],
    /,
    *,
    rate: Annotated[str | None, Parameter(help="Samples a second, for a CSV file of values alone.")] = None,
    column: Annotated[str | None, Parameter(help="Column by name, or WAV channel by number.")] = None,
    lowest: Annotated[str | None, Parameter(help='Look from here, such as "200 cpm"; with --highest.')] = None,
    highest: Annotated[str | None, Parameter(help='Look up to here, such as "400 cpm".')] = None,
    job: Annotated[str | None, Parameter(help="Ticket number: keep it as a reading of this job.")] = None,
    stage: Annotated[str, Parameter(help="Stage of the build; as for `clubwright read`.")] = "finished",
    clamp: Annotated[str | None, Parameter(help='What the clamp held, such as "5 in".')] = None,
    shop: Shop = SHOP,
    by: By = None,
    key: Key = None,
    json: Json = False,
) -> None:
    """Read the frequency of a club from a recorded oscillation, with its uncertainty; keep it where a job is named."""
    from clubwright.cli.acting import act
    from clubwright.cli.output import print_json, print_lines
    from clubwright.club.oscillation import read_oscillation
    from clubwright.importers.trace_file import load_trace
    from clubwright.services.actions.register.payloads_record import Recorded
    from clubwright.services.shaft.tracing import texts_of, trace_part

    rate_hz, band_hz = _limits(rate, lowest, highest)
    found = read_oscillation(load_trace(record, rate_hz=rate_hz, column=column), band_hz=band_hz)
    if job is not None:
        if not json:
            print_lines([*_lines(found), ""])
        frequency, second = texts_of(found)
        payload = Recorded(job=job, frequency=frequency, second_plane=second, stage=stage, clamp=clamp)
        act(shop, by, "trace", payload, key, as_json=json)
    elif json:
        print_json(trace_part(found))
    else:
        print_lines(_lines(found))


def _limits(
    rate: str | None, lowest: str | None, highest: str | None
) -> tuple[float | None, tuple[float, float] | None]:
    """Understand the rate and the band; every finding at once."""
    from clubwright.notation import Collector

    notes = Collector()
    typed = {"--rate": ("number", rate), "--lowest": ("frequency", lowest), "--highest": ("frequency", highest)}
    read = {name: None if text is None else notes.take(kind, text, where=name) for name, (kind, text) in typed.items()}
    if (lowest is None) != (highest is None):
        notes.add("trace", "one end of the band is given alone", "Give both --lowest and --highest, or neither.")
    low, high, samples = read["--lowest"], read["--highest"], read["--rate"]
    if low is not None and high is not None and low.value >= high.value:
        notes.add("--lowest", f'"{lowest}" is not below "{highest}"', "Give the lower end first.")
    notes.raise_if_any()
    band = None if low is None or high is None else (low.value, high.value)
    return None if samples is None else samples.value, band


def _lines(found: Oscillation) -> list[str]:
    """What a record says, for a person."""
    from clubwright.cli.output import table, wrapped
    from clubwright.cli.words import finding_lines
    from clubwright.services.shaft.tracing import cpm_text

    rows = [("frequency", cpm_text(found.frequency_hz, found.frequency_sd_hz))]
    if found.second_frequency_hz is not None and found.second_frequency_sd_hz is not None:
        share = f", {found.second_share:.0%} as strong" if found.second_share is not None else ""
        rows.append(("second plane", cpm_text(found.second_frequency_hz, found.second_frequency_sd_hz) + share))
    rows += [
        ("damping ratio", f"{found.damping_ratio:.3%}"),
        ("fitted", f"{found.cycles:.0f} cycles, {found.length_s:.1f} s, from {found.start_s:.2f} s"),
        ("swing to noise", f"{found.signal_to_noise:.3g}"),
    ]
    return [*table(rows), *(line for text in finding_lines(found.findings) for line in wrapped(text, hanging="    "))]

"""What a build sheet and the club's drawing are made of: plain data, texts ready to print (the tag: `tag_data`).

Nothing here is computed from a ticket; whoever asks for a sheet fills these in, so the same sheet can be printed from a
ticket, from the record, or from a file of another shop.
"""

from __future__ import annotations

from typing import Literal

import msgspec

HeadKind = Literal["driver", "fairway", "hybrid", "iron", "wedge", "putter"]
PartName = Literal["head", "shaft", "ferrule", "tape", "grip"]


class TapeExtent(msgspec.Struct, frozen=True, kw_only=True):
    """Where one tape lies on the finished club.

    Attributes:
        name: What it is called on the sheet.
        from_cap_m: Its upper end, in m from the outer face of the grip cap.
        to_cap_m: Its lower end, in m from there.
    """

    name: str
    from_cap_m: float
    to_cap_m: float


class WeightPlace(msgspec.Struct, frozen=True, kw_only=True):
    """Where one weight sits.

    Attributes:
        name: What it is called on the sheet.
        from_ground_m: Its centre of gravity along the axis, in m from the axis' ground point; negative is beyond it.
        off_axis_m: Its distance from the axis towards the toe, in m.
        fitted: Whether it is in the club already.
    """

    name: str
    from_ground_m: float
    off_axis_m: float = 0.0
    fitted: bool = True


class CutPlace(msgspec.Struct, frozen=True, kw_only=True):
    """The cut at the butt of the raw shaft.

    Attributes:
        mark_from_ground_m: The cut mark, in m along the axis from its ground point.
        raw_butt_from_ground_m: Butt end of the uncut shaft, in m from there; what lies between is waste.
        done: Whether the cut has been made: the waste is then only outlined.
        about: Whether its gate is closed still: there is no mark to saw by, and the waste is only outlined.
        text: What is written at the mark.
    """

    mark_from_ground_m: float
    raw_butt_from_ground_m: float
    done: bool = False
    about: bool = False
    text: str = "cut"


class ClubDrawing(msgspec.Struct, frozen=True, kw_only=True):
    """One club to be drawn to scale: lengths in m, angles in rad, along the shaft's axis.

    Attributes:
        kind: Which of our outlines stands for the head.
        length_m: From the outer face of the grip cap along the axis to its ground point.
        lie_rad: Angle between the axis and the ground.
        cap_m: Thickness of the grip's cap.
        shaft_tip_from_ground_m: The tip end, in its bore.
        shaft_butt_from_ground_m: The butt end of the finished club's shaft.
        grip_length_m: From the outer face of the cap to the grip's mouth; none: no grip is drawn.
        hosel_top_from_ground_m: Where the hosel ends.
        ferrule_from_ground_m: Lower end of the ferrule; none: no ferrule is drawn.
        ferrule_to_ground_m: Upper end of the ferrule.
        head_cg_from_ground_m: Centre of gravity of the head along the axis; negative is beyond the ground point.
        head_cg_off_axis_m: Its distance from the axis towards the toe.
        balance_point_m: Balance point from the outer face of the cap, of the finished club.
        fulcrum_m: Fulcrum of the swing-weight scale, from the outer face of the cap.
        tapes: Every tape, where it ends up.
        weights: Every weight of the plan.
        cut: The cut, where one is planned or was made.
        on_club: Parts that are on the club, drawn filled; the others are outlined.
    """

    kind: HeadKind
    length_m: float
    lie_rad: float
    cap_m: float
    shaft_tip_from_ground_m: float
    shaft_butt_from_ground_m: float
    hosel_top_from_ground_m: float
    head_cg_from_ground_m: float
    head_cg_off_axis_m: float
    grip_length_m: float | None = None
    ferrule_from_ground_m: float | None = None
    ferrule_to_ground_m: float | None = None
    balance_point_m: float | None = None
    fulcrum_m: float = 0.3556
    tapes: tuple[TapeExtent, ...] = ()
    weights: tuple[WeightPlace, ...] = ()
    cut: CutPlace | None = None
    on_club: tuple[PartName, ...] = ()


class SheetRow(msgspec.Struct, frozen=True, kw_only=True):
    """One target with what is expected and what was read, as text ready to print.

    Attributes:
        name: The quantity.
        target: What was ordered, with its unit.
        tolerance: The half-width allowed.
        predicted: What the finished club is expected to read, with its uncertainty.
        as_built: What the finished club read.
        verdict: How it stands, in words; empty when nothing was read.
        sign: ``good``, ``bad`` or ``open``, for the sign and colour before it; empty for none.
    """

    name: str
    target: str = ""
    tolerance: str = ""
    predicted: str = ""
    as_built: str = ""
    verdict: str = ""
    sign: Literal["good", "bad", "open", ""] = ""


class Line(msgspec.Struct, frozen=True, kw_only=True):
    """A name and what there is to say about it."""

    name: str
    text: str


class PartLine(msgspec.Struct, frozen=True, kw_only=True):
    """One part: which (``head``), what it is called, and what is known of it."""

    part: str
    name: str
    text: str = ""


class SheetStep(msgspec.Struct, frozen=True, kw_only=True):
    """One step of the build.

    Attributes:
        number: As printed, e.g. ``"7"`` or ``"7a"``.
        title: One verb and its object.
        numbers: The figures the step is done to.
        done: That it is done, by whom and when; empty while it is still to do.
        deeds: What was done of it, with grams, lot, temperature, who and when, a line each.
        cautions: What can hurt here.
    """

    number: str
    title: str
    numbers: str = ""
    done: str = ""
    deeds: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


class GateLine(msgspec.Struct, frozen=True, kw_only=True):
    """A step that cannot be taken back: whether it is open, and why; once its signature has served, as it was signed."""

    step: str
    open: bool
    why: str
    signed: str = ""


class FindingLine(msgspec.Struct, frozen=True, kw_only=True):
    """One finding: ``error`` prints as stop, ``warning`` as look, ``note`` plain."""

    text: str
    severity: Literal["error", "warning", "note"] = "note"


class SheetData(msgspec.Struct, frozen=True, kw_only=True):
    """All that one build sheet shows; every text as it is to be printed.

    Attributes:
        ticket_id: What the code on the sheet says (in capitals).
        player: For whom.
        label: Which club of the bag.
        kind: Kind of club.
        hand: ``right`` or ``left``.
        job: What is asked for.
        date: Date of the sheet, as text.
        asked: The words that it was asked in.
        closed: Whether the job is closed: nothing is then still to come.
        drawing: The club.
        invented: True prints "invented demo data" across the head of the sheet.
        rows: Targets and as built.
        cut: The cut, line by line: mark from the tip, from the ground, offcut, waste side, kerf.
        parts: Parts in hand.
        steps: The build in its order.
        weights: What is fitted where.
        adhesive: Ratio, basis, times.
        bends: Lofts and lies to set.
        gates: Steps that cannot be taken back.
        findings: What is wrong or worth knowing.
        cautions: Cautions for the whole job.
        readings: The trail of readings, newest first; the first that goes on to a second page.
        signed_by: Who signs, or has signed, for what.
        record_hash: Hash of the record this sheet was printed from.
        words: The sheet's own words in the language of whoever prints it; English where none stands here.
    """

    ticket_id: str
    player: str
    label: str
    kind: str
    hand: str
    job: str
    date: str
    drawing: ClubDrawing
    asked: str = ""
    closed: bool = False
    invented: bool = False
    rows: tuple[SheetRow, ...] = ()
    cut: tuple[Line, ...] = ()
    parts: tuple[PartLine, ...] = ()
    steps: tuple[SheetStep, ...] = ()
    weights: tuple[str, ...] = ()
    adhesive: tuple[str, ...] = ()
    bends: tuple[str, ...] = ()
    gates: tuple[GateLine, ...] = ()
    findings: tuple[FindingLine, ...] = ()
    cautions: tuple[str, ...] = ()
    readings: tuple[str, ...] = ()
    signed_by: tuple[str, ...] = ()
    record_hash: str = ""
    words: dict[str, str] = {}

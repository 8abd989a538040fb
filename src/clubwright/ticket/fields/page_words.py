"""The words of the user's page about the ticket file that no list holds: opening, example, the answer's parts."""

OPENING = """\
# The ticket file

One text file (TOML) holds one club: what is wanted, the parts in hand, what was read. Every value stands in quotes and is
written as it is said at the bench: `"35 1/4 in"`, `"D4"`, `"296.4 g"` ([what you may type](notation.md)). Any weight, length
or angle may carry its standard uncertainty: `"296.4 g ± 0.1 g"`. Only `[ticket]` is needed; the more of the rest you fill
in, the narrower the answer. Nothing is guessed in silence: what is not given is taken from the tables below and said so.

Three things may be said in another shape: counts without quotes (`layers = 2`); both densities of an adhesive together
(`densities = ["1.16 g/cm3", "0.97 g/cm3"]`); cure times as pairs (`release_times = [["20 C", "15 h"]]`).

What the workshop uses on every club (adhesives, tapes, gauges, its tolerances) is said once in [the shop's
settings](shop.md); a ticket then has 8 to 12 lines. Whole files to start from, twelve long and two short, are in the folder
`examples`. The same description for other programs is a JSON Schema (`clubwright schema`). A table `[from_shop]` is the
program's own: it says what of a ticket came from the shop's settings on the day it was taken."""

EXAMPLE = """\
# Invented demo data.
[ticket]
id = "T-0042"
player = "A. Example"
label = "54 wedge"
kind = "wedge"
hand = "right"

[target]
length = "35 1/4 in"
loft = "54 deg"
swing_weight = "D4"
total_weight = "466.5 g"

[tolerance]
swing_weight = "1/2 pt"

[head]
name = "Kestrel 54 mid"
hand = "right"
mass = "296.4 g ± 0.1 g"
loft = "54.3 deg"
lie = "64 deg"
bore_to_ground = "1.10 in"
bore_depth = "1.25 in"
bore_diameter = "0.359 in"
cg_from_ground = "-6 mm ± 2 mm"

[shaft]
tip_diameter = "0.355 in"
raw_length = "37 in"
mass = "125.2 g"
balance_from_tip = "19 1/4 in"
butt_density = "3.6 g/in"

[grip]
mass = "49.6 g"
cap = "1/8 in"

[[weight]]
name = "port 2"
mass = "2.02 g"
seat = "port"

[[weight]]
name = "port 4"
mass = "4.05 g"
seat = "port"

[[reading]]
quantity = "swing_weight"
value = "D2.1"
stage = "dry, gripped"
weights = []
instrument = "scale"

[instrument.scale]
resolution = "0.1 pt"
repeatability = "0.1 pt"
bias = "0.1 pt"
"""

READING_WORDS = """\
A reading says at which stage of the build it was taken, since a club without its grip reads otherwise than the finished
one, and where the butt stop of a gauge sits depends on it. A reading that the parts and the readings before it make very
unlikely (one in a thousand) is kept aside with its likeliest causes, until you decide with `keep`."""

ANSWER = """\
The answer is one object: SI inside, text beside it, keys sorted; the same ticket gives the same bytes.

| Part | What it holds |
| --- | --- |
| `schema` | number of the schema that the answer keeps to; [the change log](../../CHANGELOG.md) says what may be added \
under one number |
| `cut` | where to cut: `shaft_length_m` (tip end to butt end after trims), `mark_from_tip_m`, `mark_from_ground_m` \
(along the shaft, head dry-fitted), `butt_cut_m` (the offcut; null when the raw length is not known), `tip_trim_m`, \
`kerf_m`, `short_by_m`, `lifted` (the cut with each weight that holds the shaft off the bottom), `text`; null for \
other work |
| `finished` | each quantity of the finished club with the weights fitted now: `mean`, `sd`, `unit`, `text`, and for a \
target `target`, `tolerance`, `chance` of ending within it |
| `stages` | the same figures at every stage of the build: what a gauge should read there |
| `advice` | what can be done, best first: `do`, `weights` on the club after it, `why`, `chance`, `irreversible`, \
`finished`; as data its `kind` (fit, leave, read, head, trim, bend, tape), an `id` and `data` in SI |
| `gates` | `cut`, `glue`, `release`: whether the step is `open`, `why`, and the `checks` made: `key`, whether it is `met`, \
`figures`, and where it is not `what` is wrong and how to `mend` it |
| `verdicts` | for each target read at the stage "finished": `verdict` (within, outside, cannot tell), the `rule` applied, \
and what would `settle` it |
| `findings` | `where`, `what`, `mend`, `severity` (error, warning, note) |

Units: lengths and diameters m, weights kg, MOI kg m2, angles rad, frequency Hz, swing weight in points above A0."""

REFUSED = """\
Every error is reported at once, with its place, what is wrong and how to mend it; then nothing is stored and the other
parts of the answer are empty. Refused are unknown tables and keys, values that cannot be read one way only, names of
weights, gauges or stages that are not there, and figures that cannot be: a cap thicker than its grip is long, an offcut
heavier than its shaft, more weights fitted than the tray holds. What may be but is rare is taken with a warning.

A glue gate that says "open" looks at figures only. Work with adhesives, solvents, heat, saws and bending bars after the
safety data sheets of the products at hand and the rules of your workshop."""

STIFFNESS = """\
The stiffness of a shaft is that of the raw shaft, before any trim, and counts from its tip: each trim then cuts it. With it
the frequency is predicted at every stage, and a reading of the frequency narrows `stiffness_factor`. Which form is right
depends on what is known: the geometry of a tube, EI measured at stations, or a law that grows straight from a place on."""

CHANGES = """\
The record writes these; a file from elsewhere needs them only for a club that was read, changed and read again. Each entry
has the parts as they stood before the change, under the keys of the part's own table: of head and shaft what changed, or
with `another = "yes"` the whole part that was on. An empty text says that a figure was not known then. A reading from before
the change names it (`before`), and is held against the club as it was."""

KEYS = """\
A key marked * is needed. In brackets stands the notation of the value. The usual uncertainty (one standard deviation) is
taken when none is typed behind the value: an estimate of ours for a careful bench."""

DEFAULTS = """\
None of these is measured on your parts, and each that matters is announced as a finding. Your own weighings are better.
The weight of tape is that of one wrap; `weight.port` and its like are the place of such a weight; `shaft.offcut` is what
comes off the butt of a shaft whose raw length is not given."""

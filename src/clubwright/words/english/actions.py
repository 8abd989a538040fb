"""What the advice says."""

from __future__ import annotations

from clubwright.words.language import Counted, Template

PHRASES: dict[str, Template] = {
    "advice.fit": "fit {weights}",
    "advice.fit or": "fit {weights}, or {others}, which does the same",
    "advice.leave": "leave as it is",
    "advice.take out": "take the weights out",
    "advice.fit nothing": "fit nothing",
    "advice.finished": "finished: {figures}",
    "advice.finished of few": Counted(
        "finished: {figures}; sets of more than 1 piece were not looked at, and bring {most} at most",
        "finished: {figures}; sets of more than {count} pieces were not looked at, and bring {most} at most",
    ),
    "advice.finished of likeliest": (
        "finished: {figures}; of the others not all were worked with the frequency, and they bring {most} at most"
    ),
    "advice.no target": "the ticket sets no target that a weight would move",
    "advice.read": "read the {what} ({stage})",
    "advice.read why": "a reading is expected to bring the best choice to {chance}, now {now}",
    "advice.pull": "take the head off, then fit {weights}",
    "advice.pull why": "the head is glued: as it is, {now} at best; {time} of work and a new cure",
    "advice.cautions": "{why}. {cautions}",
    "advice.head": "take another head, {mass}",
    "advice.head heavier": "{change} heavier than this one; the tray reaches {now} at best",
    "advice.head lighter": "{change} lighter than this one; the tray reaches {now} at best",
    "advice.lever why": "finished: {figures}; the tray alone reaches {now} at best",
    "advice.and fit": ", and fit {weights}",
    "advice.grip": "take another grip, {mass}{weights}",
    "advice.counterweight": "put a counterweight of {mass} under the cap{weights}",
    "advice.lead tape": "put {mass} of lead tape on the head{weights}",
    "advice.tape by length": "put {length} of lead tape ({mass}) on the head{weights}",
    "advice.powder": "put {mass} of powder in the tip{weights}",
    "advice.longer club": "leave the club {change} longer, {length}{weights}",
    "advice.shorter club": "cut the club {change} shorter, {length}{weights}",
    "advice.other port": "put {moved} in the other port, {place} from the ground{weights}",
    "advice.unreached one": "no set of weights brings the {what} within tolerance: {chance} at best, and it ends at {ends}",
    "advice.unreached pair": (
        "no set of weights brings {one} and {other} within tolerance together: {chance} at best; "
        "with the {one} met the {other} ends at {other_ends}, with the {other} met the {one} ends at {one_ends}"
    ),
    "advice.trim": "trim {off} off the tip",
    "advice.trim less": "in all, and cut the butt more; with {weights} finished: {figures}; it cannot be taken back",
    "advice.trim more": "in all, and cut the butt less; with {weights} finished: {figures}; it cannot be taken back",
    "advice.bend": "bend {bends}",
    "advice.one bend": "the {angle} {amount}",
    "advice.no bend": "do not bend",
    "advice.leave angles": "leave loft and lie as they are",
    "advice.no angle off": "no angle is an eighth of a degree off",
    "advice.bend why": "then {moved}",
    "advice.longer": "length +{amount} if it is not cut after",
    "advice.shorter": "length -{amount} if it is not cut after",
    "advice.points": "swing weight {amount}",
    "advice.tape": Counted("lay 1 wrap of build-up tape{lower}", "lay {count} wraps of build-up tape{lower}"),
    "advice.lower hand": " and {count} more under the lower hand",
    "advice.leave tape": "leave the tape as it is",
    "advice.forecast": "{diameter} (additive {additive}, constant volume {volume})",
}

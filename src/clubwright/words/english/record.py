"""What gates and cards say of how a tip fits, and of what the record knows: the club, the mix, the joint."""

from __future__ import annotations

from clubwright.words.language import Template

PHRASES: dict[str, Template] = {
    "fit.does not": "it does not fit",
    "fit.not sure": "the fit is not sure",
    "fit.shim": "a shim over the full glued length, its wall {thin} to {thick} ([shim] thickness), ",
    "fit.loose": (
        "a tip of {tip} in a bore of {bore} leaves a bond line of {line} a side, and {most} is the most ({source})"
    ),
    "fit.loose with shim": (
        "a tip of {tip} in a bore of {bore} with this shim leaves a bond line of {line} a side, and {most} "
        "is the most ({source})"
    ),
    "fit.mend loose": "take the right shaft, {shim}or another head",
    "fit.thick shim": "the shim of {shim} is too thick: it leaves {left} of the diameter for adhesive",
    "fit.mend shim": "take {shim}or leave it out",
    "fit.leave shim out": "leave it out",
    "fit.tight": (
        "a tip of {tip} is too big for a bore of {bore}: it leaves {left}, and {least} is the least ({source})"
    ),
    "fit.mend tight": (
        "take the right shaft or another head; never drive it in. A bore is reamed only where the head's "
        "maker and the wall of the hosel allow it: over the full depth, then measured again (bore_diameter "
        "with bore_reamed)"
    ),
    "fit.open": "a clearance of {clearance} ± {spread} cannot be told from one outside {low} to {high}",
    "fit.finer": (
        "measure the bore with plug gauges and the tip with a micrometer, and write what they are good for "
        'behind the figure, such as "0.3575 in ± 0.0002 in"'
    ),
    "club.also open": "it is in another open job too ({jobs})",
    "club.close one": "close one of them: until then nothing is cut or glued on this club",
    "club.worked since": "work went on in {job} after this job began from the club as that one had left it",
    "club.begin now": "begin from the club as it is now: `clubwright same-club {job} {other}`",
    "mix.throw away": "throw it away, and mix anew",
    "mix.take apart": (
        "nobody plays it. Take the joint apart, clean it, mix anew and glue it again; or, where the mix was "
        "sound after all, undo on the job it was made on that it is bad"
    ),
    "mix.said bad": "{who} says that this mix is bad",
    "mix.bad": "this mix is not to be relied on",
    "mix.bad because": "{said}: {why} ({mixed}, mixed {at} on job {job})",
    "mix.no basis": "a ratio means nothing without its basis",
    "mix.read basis": (
        "read on the data sheet whether the ratio is by weight or by volume, and say it before anything is mixed"
    ),
    "mix.no density": "the density of part {part} is not known, and the ratio is by volume",
    "mix.read density": (
        "read it on the data sheet and say it before anything is mixed, or write the sheet's ratio by weight"
    ),
    "mix.none": "no adhesive is mixed for this joint",
    "mix.used up": "the last mix was used up by the head that was glued before",
    "mix.weigh and record": "weigh both parts into one mixing cup, record the mix, and glue within its pot life",
    "mix.too much": "{mixed} is {off} too much of part B for {ratio}:1 by weight",
    "mix.too little": "{mixed} is {off} too little of part B for {ratio}:1 by weight",
    "mix.add": (
        "not stirred yet: add {amount} of part {part}, and record the mix again. Stirred: throw the mix "
        "away, and mix anew"
    ),
    "pot life.over": "the pot life is over",
    "pot life.throw away": "throw the mix away when it has cooled, and mix anew",
    "pot life.warmer": "the bench is warmer than the data sheet's temperature",
    "pot life.more": "the mix is more than the data sheet's amount",
    "pot life.less time": "expect less time than this",
    "cold.not glued": "the head is not glued by the record",
    "cold.glue it": "glue it, and record it with the temperature of the part",
    "cold.warm first": "warm the part to at least {at} first",
    "cold.warm now": (
        "warm the part to at least {at}. Within the pot life, undo the line of the joint and record it at "
        "that temperature: its time counts from then. After the pot life, take the joint apart, clean it, "
        "mix anew and glue it again"
    ),
    "cold.colder": "{at} is colder than the coldest row of the table, {coldest}, and does not cure",
    "hand.not looked at": "not looked at",
    "hand.look": 'look at the head, and write hand = "{hand}" only if it is',
}

"""English for the ids of a setup: stance, ways in and out, reason; and for its block. Nothing here decides anything.

{leg} is the leg that lies flat, {other} the other one.
"""

from __future__ import annotations

STANCES = {
    "heel-up": "heel up, on both toes",
    "inside-up": "leg {leg} flat, inside up, leg {other} standing",
    "outside-up": "leg {leg} flat on a block, outside up, leg {other} hanging",
}
WAYS_IN = {
    "toe": "at the toe of one leg",
    "end": "through the end",
    "end-and-other-leg": "through the end, down the whole height of leg {other}",
}
WAYS_OUT = {"other-toe": "at the toe of the other", "toe": "at the toe of leg {leg}"}
REASONS = {
    "both-alike": "both outer faces are up, the angle cannot rock, and both legs are sawn alike",
    "line-to-other-leg": "leg {leg} lies steady on the table and the line can be seen up to leg {other}",
    "line-on-both-legs": "the blade cuts leg {other} too, and the line can be seen on both legs",
    "line-on-one-face": "the whole line is on one flat face; the block holds the leg up and is sawn with it",
}
CAUTIONS = {
    "block": "{block} Clamp the work to it, and clamp or guide it on the table: it is sawn too. Set the guide over the work as it sits on it, {high} above the table.",
    "bare-blade": "Set the guide over the standing leg: it must clear {high}. Above the flat leg the blade then runs bare: no hand near it.",
    "sliver": "A close insert round the blade: the sliver that a taper leaves jams beside it, or flies.",
}
BLOCK = (
    "The block is {height} high or more, so that the toe of leg {hangs} hangs {clear} clear of the table; square; {width} wide, "
    "as the leg is beside leg {hangs}"
)
RELIEF = "; its edge taken off by more than {fillet}, to stay off the fillet"

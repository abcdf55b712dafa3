"""What a rack has lost of the marks in its journal, in words.

>>> from anglelib.files.mending import CUT, UNDONE, Lost
>>> print(lost_words((Lost(CUT, "S-05", "2 x A3 at 17 5/16 in as QRE7K6"), Lost(UNDONE, "S-07")), "rack.csv"))
rack.csv does not know marks that are in its journal; an older copy was probably saved over it. It has lost: S-05 was cut into 2 x A3 at 17 5/16 in; the cut of S-07 was taken back. Put them back with --mend, which keeps new sticks, lengths and notes as they are now; or, if the rack is right as it is, say so with --rack-is-right.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from anglelib.files.mending import BOUGHT, CHANGED, CUT, LENGTH, UNDONE, Lost
from anglelib.stock.wording import MOST

_VERSION = re.compile(r" as \w+| for \w+")
_SAYS = {
    CUT: "{0.stick_id} was cut into {1}",
    CHANGED: "{0.stick_id} was cut into {1}, and the rack says otherwise",
    UNDONE: "the cut of {0.stick_id} was taken back",
    LENGTH: "{0.stick_id} was {1} long since",
    BOUGHT: "{0.stick_id}, {1} long, was bought",
}


def lost_words(found: Sequence[Lost], file: str) -> str:
    """What is lost, and what can be done."""
    return (
        f"{file} does not know marks that are in its journal; an older copy was probably saved over it. It has lost: {each(found)}. Put them back "
        "with --mend, which keeps new sticks, lengths and notes as they are now; or, if the rack is right as it is, say so with --rack-is-right."
    )


def each(found: Sequence[Lost]) -> str:
    """What is lost, one after the other."""
    said = [_SAYS[one.id].format(one, _VERSION.sub("", one.said)) for one in found[:MOST]]
    more = len(found) - len(said)
    return "; ".join([*said, *([f"and {more} more"] if more else [])])

"""Names that readings had in the first form of the readings file, by which a file that was typed then is still read.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1L", "Cleat", stock, "6061-T6", "2 1/8", tapers=[Taper("A", 1, "3/8", run="1 1/4")])
>>> old_id("taper start A, from end 1", cleat), old_id("Toe B length", cleat), old_id("shoe size", cleat)
('start.A.1', 'toe.B', '')
"""

from __future__ import annotations

import re

from anglelib.inspection.reading_ids import END, Origin, origin, takeable
from anglelib.part import Part

_NAMES = (
    (r"(?:heel length|length along the heel)(?:, blunted)?", "heel"),
    (r"toe (?P<leg>[ab]) length(?:, blunted)?", "toe.{leg}"),
    (r"taper start (?P<leg>[ab])(?:,| at| from)+ (?:from )?end (?P<end>[12])", "start.{leg}.{end}"),
    (r"inside width (?P<leg>[ab]) at end (?P<end>[12])|leg (?P<leg2>[ab]) inside, at end (?P<end2>[12])", "inside.{leg}.{end}"),
    (r"mid-taper leg (?P<leg>[ab]), end (?P<end>[12])", "mid.{leg}.{end}"),
    (r"width (?P<leg>[ab]) at end (?P<end>[12])|leg (?P<leg2>[ab]) width, at end (?P<end2>[12])", "width.{leg}.{end}"),
    (r"inside width (?P<leg>[ab])|leg (?P<leg2>[ab]), inside width", "inside.{leg}"),
    (r"thickness (?:of leg )?(?P<leg>[ab])", "thickness.{leg}"),
)
CHECK_PRINT = "check print"
"""What the row of the check print was called."""
_HOLE = re.compile(r"hole (?P<number>\d{1,3}) (?P<way>[xy])|(?P<place>far|near) hole [ab], from (?:end 1|heel)")
_FROM_WITNESS = re.compile(r"(?:taper start|far hole) [ab], from witness")


def old_id(name: str, part: Part) -> str:
    """The id of a reading by its old name; "" where the part has no such reading, or reads it from another place now."""
    plain = " ".join(name.lower().split())
    hole = _HOLE.fullmatch(plain)
    if hole:
        return _hole(part, hole)
    for pattern, id_ in _NAMES:
        found = re.fullmatch(pattern, plain)
        if found:
            said = found.groupdict()
            leg, end = (said.get("leg") or said.get("leg2") or ""), (said.get("end") or said.get("end2") or "")
            made = id_.format(leg=leg.upper(), end=end)
            return made if made in takeable(part) else ""
    return ""


def _hole(part: Part, found: re.Match) -> str:
    if not part.holes:
        return ""
    along = found["way"] == "x" or found["place"] == "far"
    if along and origin(part) != Origin(END, 1):
        return ""  # then from end 1, or from the witness line; now from an edge that is there
    places = [hole.x for hole in part.holes]
    if found["place"]:
        number = 1 + places.index(max(places) if found["place"] == "far" else min(places))
    else:
        number = int(found["number"])
    made = f"hole.{number}.{'x' if along else 'y'}"
    return made if made in takeable(part) else ""


def from_witness(name: str) -> bool:
    """Whether an old name reads from the witness line, which is not measured from any more."""
    return bool(_FROM_WITNESS.fullmatch(" ".join(name.lower().split())))

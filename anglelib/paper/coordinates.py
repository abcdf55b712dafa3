"""The coordinate table of a part (CSV), for a height gauge or a digital read-out.

Every corner of the finished faces, every mark, every hole's centre: x from end 1, the datum, along
the heel, and the height from the heel on its face; as a rule has it (a fraction to 1/64, or half
millimetres of a part in millimetres), in decimal inches, in millimetres; and a sentence that names the place. A line square across a face has no height.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> stock = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
>>> bracket = Part("C1L", "Bracket", stock, "6061-T6", "4 3/4", tapers=[Taper("A", 1, run="2 1/8")])
>>> [row.where for row in coordinates(bracket, Shop()) if row.id == "vertex" and not row.saw]
['Mark for end 1: square across the inner face of leg B.']
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from fractions import Fraction

from anglelib.files.cells import guarded
from anglelib.geometry.edges import Bend, Point
from anglelib.geometry.layout import BOTH_OUTER, WITNESS, Mark, cope_marks, face, round_marks, taper_marks, witness_line
from anglelib.geometry.mark_words import face_words, how, name_of, off
from anglelib.geometry.outlines import face_edges
from anglelib.geometry.taper import Number, from_end_1, taper_lines
from anglelib.geometry.throat import shop_for_cope
from anglelib.job import Shop
from anglelib.lengths import decimal, exact, marked, millimetres, own, with_unit, writing
from anglelib.part import Part
from anglelib.section import LEGS
from anglelib.tolerances import Limits

CORNER, ARC_END, ARC_CENTRE, HOLE = "corner", "arc-end", "arc-centre", "hole"
"""What a place is that is neither a mark nor the witness line."""
_WORDS = {CORNER: "corner", ARC_END: "end of an arc", ARC_CENTRE: "arc centre", HOLE: "hole centre"}
COLUMNS = (
    "part", "face", "what", "x", "x_decimal_in", "x_mm", "height", "height_decimal_in", "height_mm", "where",
)  # fmt: skip


@dataclass(frozen=True)
class Row:
    """One place: the ids of its face and of what it is (a mark's is the mark's kind; ``saw``: on its saw line), x from end 1 and height
    from the heel [in] (None: all across the face), and the sentence that names it.
    """

    face: str
    id: str
    x: Number
    height: Number | None
    where: str
    saw: bool = False

    @property
    def what(self) -> str:
        """What it is, in words."""
        words = _WORDS.get(self.id) or name_of(self.id)
        return f"{words}, saw line" if self.saw else words


def coordinates(part: Part, shop: Shop) -> list[Row]:
    """All rows of a part, leg A first, from end 1 on within each kind; the words are in the part's unit."""
    with writing(part.unit):
        return _coordinates(part, shop)


def _coordinates(part: Part, shop: Shop) -> list[Row]:
    struck = [mark for line in taper_lines(part) for mark in taper_marks(line, shop)]
    struck += [mark for cope in part.copes for mark in cope_marks(cope, shop_for_cope(cope, part, shop))] + list(round_marks(part))
    marks = [row for mark in struck for row in _mark(part, mark, shop)]
    rows: list[Row] = []
    for leg in LEGS:
        for inner in (False, True):
            rows += _corners(part, leg, inner)
        for hole in part.holes_in(leg):
            flush = ", for a flush head" if hole.flush else ""
            what = f"Centre of the {own(hole.diameter)} hole{flush} in leg {leg}."
            rows.append(Row(face(leg), HOLE, hole.x, hole.y, what))
    rows += marks
    witness = witness_line(part)
    if witness is not None:
        where = "Line square across both legs, the datum where a cut takes end 1 or end 2 away."
        rows.append(Row(BOTH_OUTER, WITNESS, witness, None, where))
    return rows


def _mark(part: Part, mark: Mark, shop: Shop) -> list[Row]:
    """A mark on the finished line, and the same on the saw line where it still meets the metal."""
    found: list[Row] = []
    pairs = [(False, mark.at, mark.y, f"Mark for end {mark.end}")]
    if mark.saw is not None and shop.allowance:
        saw = (mark.at, mark.saw) if mark.across else (mark.saw, mark.y)
        pairs.append((True, *saw, f"Saw line for end {mark.end}, {own(shop.allowance)} off the finished line"))
    for sawn, at, y, lead in pairs:
        if not 0 <= at <= part.length:
            continue
        x = from_end_1(part, mark.end, at)
        found.append(Row(mark.face, mark.kind, x, y, f"{lead}: {how(mark, part.section)}.", sawn))
    return found


def _corners(part: Part, leg: str, inner: bool) -> list[Row]:
    """The corners of a finished face, and the centres of its arcs."""
    on, rows, listed = face(leg, inner), [], list(face_edges(part, leg, inner))
    for before, edge in zip([*listed[-1:], *listed[:-1]], listed, strict=True):
        touch = isinstance(edge, Bend) or isinstance(before, Bend)
        x, y = _tidy(edge.first)
        lead = "Where an arc of the finished edge begins or ends" if touch else "Corner of the finished face"
        rows.append(Row(on, ARC_END if touch else CORNER, x, y, f"{lead}: {_place(part, leg, x, y)}."))
        if isinstance(edge, Bend):
            (u, v), r = _tidy(edge.centre), Fraction(edge.radius).limit_denominator(10**6)
            rows.append(Row(on, ARC_CENTRE, u, v, f"Centre of the arc of radius {exact(r)} on leg {leg}."))
    return rows


def _tidy(point: Point) -> tuple[Fraction, Fraction]:
    """The point without the last figures of a float, so that a number of the drawing is that number again."""
    x, y = (Fraction(v).limit_denominator(10**7) for v in point)
    return x, y


def _place(part: Part, leg: str, x: Fraction, y: Fraction) -> str:
    """Where on the part a corner is."""
    end = "end 1" if x == 0 else "end 2" if x == part.length else ""
    if y == 0:
        return f"the vertex of {end}, where the heel meets the end" if end else "on the heel"
    if y == part.section.leg(leg):
        return f"the toe of leg {leg} at {end}" if end else f"on the toe of leg {leg}"
    return f"on {end}, across leg {leg}" if end else f"on leg {leg}, between heel and toe"


# --- as a file ------------------------------------------------------------------------------------------
def coordinates_csv(part: Part, shop: Shop, limits: Limits | None = None) -> str:
    """The table as CSV text; a fraction carries its unit, so that no spreadsheet makes a date of it.

    ``limits`` are the job's, by which a graduation is written full or bare as on the card (else those usual for the part's unit).
    """
    limits = limits or Limits.usual(part.unit)
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\n")
    writer.writerow(COLUMNS)
    for row in coordinates(part, shop):
        height = ("", "", "") if row.height is None else _three(row.height, part.unit, limits)
        cells = (part.id, face_words(row.face), row.what, *_three(row.x, part.unit, limits), *height, row.where)
        writer.writerow([guarded(cell) for cell in cells])
    return written.getvalue()


def _three(value: Number, unit: str, limits: Limits) -> tuple[str, str, str]:
    with writing(unit):
        ruled = marked(value, off(value, limits))
    return ruled if unit == "mm" else with_unit(ruled, "in"), decimal(value, 4), millimetres(value, 3)

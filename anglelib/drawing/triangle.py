"""The triangle that a taper cuts off a leg, on its outer face: run along the toe, height across, the tapered edge beside.

The face is seen from outside. End 1 stays at the left, so leg A has its heel at the top and leg B at the
bottom; a taper at end 2 is at the right.

>>> from anglelib.part import Taper
>>> from anglelib.section import Section
>>> line = TaperLine.of(Section("1 1/2", "1 1/2", "3/16", fillet="3/16"), Taper("B", 1, "9/16", run="2 7/8"))
>>> print(triangle_sheet(line).sentence)
Leg B, outer face, tapered at end 1. Run 2 7/8 (2.875) along the toe, height 15/16 (0.938), width left 9/16 (0.563). The tapered edge is 3 1/32 (3.024) long, longer than the run. Angle 18.1 degrees from the heel, 71.9 from square.
>>> triangle_sheet(line, answer=False).sentence.split(". ")[-1]
'P lies along the toe, Q along the slope, R across the leg; which is the run is not shown yet.'
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.drawing.checks import overlaps, struck
from anglelib.drawing.dimensions import angle_dimension, linear_dimension
from anglelib.drawing.letters import text_width
from anglelib.drawing.outer_view import direction
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, Polyline, Sheet
from anglelib.drawing.symbols import zigzag
from anglelib.geometry.taper import Number, TaperLine
from anglelib.inspection.made import MadeTaper
from anglelib.inspection.taper_mistakes import with_run_along_slope
from anglelib.lengths import both, exact

WIDTH, HEIGHT = 226.0, 106.0
LETTER = 3.5
LEFT, RIGHT = 67.0, 205.0
LOW, TOP = 28.0, 80.0
LONGEST = 3.75
"""How much of the leg is drawn at least [in]."""
LETTERS = ("P", "Q", "R")


@dataclass(frozen=True)
class Face:
    """Where a point of the tapered leg's outer face lies on the paper; ``reach`` [in] is how much of the leg is drawn."""

    line: TaperLine
    reach: float

    @property
    def unit(self) -> float:
        """Millimetres an inch."""
        return min((RIGHT - LEFT) / self.reach, (TOP - LOW) / float(self.line.width))

    @property
    def along(self) -> int:
        """1 where x from the tapered end runs to the right."""
        return 1 if self.line.end == 1 else -1

    @property
    def up(self) -> int:
        """1 where the toe is above the heel."""
        return direction(self.line.leg)

    def at(self, x: Number, y: Number) -> Point:
        """x from the tapered end, y from the heel [in], on the paper [mm]."""
        across = float(x) * self.unit
        high = float(y) * self.unit
        middle = (LOW + TOP) / 2 - self.up * float(self.line.width) * self.unit / 2
        return (LEFT + across if self.along > 0 else WIDTH - LEFT - across), middle + self.up * high

    def turned(self, angle: float) -> float:
        """A direction from the tapered end [deg from the heel towards the toe] on the paper."""
        angle *= self.up
        return angle if self.along > 0 else 180 - angle

    def sector(self, start: float, end: float) -> tuple[float, float]:
        """Two directions as the start and end of an arc that runs anticlockwise on the paper."""
        one, two = sorted((self.turned(start), self.turned(end)))
        return one, two


def reach_of(line: TaperLine) -> float:
    """How much of the leg a picture shows for any run that is offered [in]."""
    return max(LONGEST, float(line.run) + 0.4)


# --- the triangle ---------------------------------------------------------------------------------------
def triangle_sheet(line: TaperLine, *, answer: bool = True, few: bool = False) -> Sheet:
    """The leg with its line; before the answer three lengths by letter, then run, height, edge and angle."""
    face = Face(line, reach_of(line))
    items: list[Item] = [*leg_outline(face), *waste(face), *taper_line(face)]
    items += _dimensions(face) if answer else _lettered(face)
    items += names(face, few)
    return Sheet(WIDTH, HEIGHT, tuple(items), "The taper's triangle", triangle_sentence(line, answer))


def leg_outline(face: Face) -> Group:
    """The leg from its tapered end to a break, heel and toe wide."""
    w, far = face.line.width, face.reach
    heel, toe = face.at(0, 0), face.at(0, w)
    end, top = face.at(far, 0), face.at(far, w)
    low, high = sorted((end[1], top[1]))
    return (Polyline((end, heel, toe, top), "outline"), zigzag(end[0], low, high))


def waste(face: Face) -> Group:
    """A cross on what is cut off, where there is room for it."""
    line = face.line
    x, y = face.at(float(line.run) * 0.28, float(line.width) - float(line.width - line.width_left) * 0.28)
    half = min(2.5, float(line.run) * face.unit * 0.08, float(line.width - line.width_left) * face.unit * 0.08)
    return (Line(x - half, y - half, x + half, y + half, "narrow"), Line(x - half, y + half, x + half, y - half, "narrow"))


def taper_line(face: Face, accent: bool = True) -> Group:
    """The line, and the two points that it is joined from."""
    line = face.line
    foot, toe = face.at(0, line.width_left), face.at(line.run, line.width)
    return (Line(*foot, *toe, "mark", accent), Circle(*foot, 1.1, "", "accent", True), Circle(*toe, 1.1, "", "accent", True))


def names(face: Face, few: bool) -> Group:
    """Heel and toe at the far end, the datum, and the face."""
    far = face.at(face.reach, 0)[0] + face.along * 3
    anchor = "start" if face.along > 0 else "end"
    places = (("heel", 0.0), ("toe", face.line.width))
    items: list[Item] = [Label(far, face.at(0, at)[1], name, LETTER, anchor, "middle") for name, at in places]
    if not few:
        items.append(Label(3, 3, f"leg {face.line.leg}, outer face, end 1 at the left; taper at end {face.line.end}", LETTER, "start"))
    return tuple(items)


def _lettered(face: Face) -> Group:
    """Three lengths by letter."""
    line = face.line
    foot, toe, corner = face.at(0, line.width_left), face.at(line.run, line.width), face.at(0, line.width)
    out = 9 * face.up
    items = [i for i in linear_dimension(corner, toe, corner[1] + out, "", letter=LETTER) if not isinstance(i, Label)]
    items += [i for i in linear_dimension(foot, corner, corner[0] - 9 * face.along, "", "y", letter=LETTER) if not isinstance(i, Label)]
    items.append(Label((corner[0] + toe[0]) / 2, corner[1] + out + 3.5 * face.up, LETTERS[0], 5.0, "middle", "middle"))
    x, y = (foot[0] + toe[0]) / 2, (foot[1] + toe[1]) / 2
    angle = math.radians(face.turned(line.angle) - 90 * face.up * face.along)
    items.append(Label(x + 6 * math.cos(angle), y + 6 * math.sin(angle), LETTERS[1], 5.0, "middle", "middle", halo=True))
    items.append(Label(corner[0] - 13.5 * face.along, (corner[1] + foot[1]) / 2, LETTERS[2], 5.0, "middle", "middle"))
    return tuple(items)


def _dimensions(face: Face) -> Group:
    """Run, height, width left, the tapered edge's length and the angle, in words."""
    line = face.line
    foot, toe, corner, heel = face.at(0, line.width_left), face.at(line.run, line.width), face.at(0, line.width), face.at(0, 0)
    outside = "end" if face.along > 0 else "start"
    one, two = sorted((corner, toe))
    items: list[Item] = [*linear_dimension(one, two, corner[1] + 9 * face.up, f"run {both(line.run)}", letter=LETTER, outside=outside, accent=True)]
    column = corner[0] - 9 * face.along
    items += _upright(face, foot, corner, column, f"height {both(line.width - line.width_left)}")
    if line.width_left:
        items += _upright(face, heel, foot, column, f"left {both(line.width_left)}")
    reach = min(max(16.0, 0.42 * float(line.run) * face.unit), 60.0)
    items.append(Line(*foot, foot[0] + face.along * (reach + 6), foot[1], "narrow"))
    start, end = face.sector(0, line.angle)
    wanted = f"{line.angle:.1f}°"
    items += angle_dimension(foot, reach, start, end, wanted, letter=LETTER)
    items += _edge_words(face, (*leg_outline(face), *items))
    return tuple(items)


def _edge_words(face: Face, items: Group) -> Group:
    """The tapered edge's length along the line, where it hides nothing and nothing runs through it; nowhere if there is no such place."""
    line = face.line
    foot, toe = face.at(0, line.width_left), face.at(line.run, line.width)
    text = f"edge {both(line.edge_length)}"
    if math.dist(foot, toe) < text_width(text, LETTER) + 6:
        return ()
    turn = math.degrees(math.atan2(toe[1] - foot[1], toe[0] - foot[0]))
    turn = turn if -90 <= turn <= 90 else turn - math.copysign(180, turn)
    for side, part in ((1, 0.46), (1, 0.52), (1, 0.4), (-1, 0.7), (-1, 0.6)):
        away = math.radians(face.turned(line.angle) + side * 90 * face.up * face.along)  # first on the waste side
        x = foot[0] + part * (toe[0] - foot[0]) + 4.2 * math.cos(away)
        y = foot[1] + part * (toe[1] - foot[1]) + 4.2 * math.sin(away)
        words = Label(x, y, text, LETTER, "middle", "middle", turn, True)
        trial = Sheet(WIDTH, HEIGHT, (*items, words), "trial", text)
        bare = replace(trial, items=(*items, replace(words, halo=False)))
        if not overlaps(trial) and not any(label.text == text for label, _ in struck(bare)):
            return (words,)
    return ()


def _upright(face: Face, one: Point, two: Point, x: float, text: str) -> Group:
    """A height beside the tapered end, its words level and away from the leg."""
    lines = tuple(i for i in linear_dimension(one, two, x, "", "y", letter=LETTER) if not isinstance(i, Label))
    return (*lines, Label(x - 2.5 * face.along, (one[1] + two[1]) / 2, text, LETTER, "end" if face.along > 0 else "start", "middle"))


def triangle_sentence(line: TaperLine, answer: bool = True) -> str:
    """What the picture shows, in words."""
    words = f"Leg {line.leg}, outer face, tapered at end {line.end}."
    if not answer:
        return (
            f"{words} The leg is {both(line.width)} wide. P lies along the toe, Q along the slope, R across the leg; which is the run is not shown yet."
        )
    return (
        f"{words} Run {both(line.run)} along the toe, height {both(line.width - line.width_left)}, width left {both(line.width_left)}. The tapered edge is "
        f"{both(line.edge_length)} long, longer than the run. Angle {line.angle:.1f} degrees from the heel, {line.from_square:.1f} from square."
    )


# --- the run laid along the slope -------------------------------------------------------------------------
def swung_sheet(line: TaperLine, *, answer: bool = True, prediction: Fraction | None = None, few: bool = False) -> Sheet:
    """The right line, and the one that comes of swinging the run from the end on to the toe."""
    face = Face(line, reach_of(line))
    wrong = with_run_along_slope(line)
    items: list[Item] = [*leg_outline(face), *taper_line(face)]
    corner, toe = face.at(0, line.width), face.at(line.run, line.width)
    foot = face.at(0, line.width_left)
    row = corner[1] + 19 * face.up
    one, two = sorted((corner, toe))
    outside = "end" if face.along > 0 else "start"
    items += linear_dimension(one, two, row, f"run {both(line.run)}", letter=LETTER, outside=outside)
    if answer and wrong is not None:
        there = face.at(wrong.run, line.width)
        radius = float(line.run) * face.unit
        over = min(8.0, math.degrees(3.2 / radius))  # past the toe's edge, but not into the figures
        start, end = face.sector(-8, min(wrong.angle + over, 88))
        items += [_arc(foot, radius, start, end), Line(*foot, *there, "blank")]
        one, two = sorted((corner, there))
        items += linear_dimension(one, two, corner[1] + 9 * face.up, f"struck {both(wrong.run)}", letter=LETTER, outside="start" if face.along > 0 else "end", accent=True)
    if prediction is not None:
        x = max(0.0, min(float(prediction), face.reach - 0.3))
        ghost = face.at(x, line.width)
        items.append(Line(*foot, *ghost, "ghost"))
        items.append(Label(ghost[0] + face.along * 3, face.at(0, 0)[1] - face.up * 7, f"you: {exact(prediction)}", LETTER, "middle", "middle"))
    items += names(face, few)
    return Sheet(WIDTH, HEIGHT, tuple(items), "The run laid along the slope", swung_sentence(line, answer, prediction))


def _arc(centre: Point, radius: float, start: float, end: float) -> Polyline:
    steps = [math.radians(start + (end - start) * i / 40) for i in range(41)]
    return Polyline(tuple((centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in steps), "narrow")


def swung_sentence(line: TaperLine, answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    words = f"Leg {line.leg}, outer face: the line falls {both(line.width - line.width_left)} in a run of {both(line.run)}."
    if prediction is not None:
        words += f" Your prediction for the toe mark is {both(prediction)}."
    if not answer:
        return f"{words} Where the mark comes that is laid along the slope is not shown yet."
    wrong = with_run_along_slope(line)
    if wrong is None:
        return f"{words} Laid along the slope it does not even reach the toe."
    return (
        f"{words} The same length swung along the slope strikes the toe at {both(wrong.run)}: {both(float(line.run) - float(wrong.run))} too near the end, and "
        f"the angle comes out {wrong.angle:.1f} degrees in place of {line.angle:.1f}."
    )


# --- a mark to be set ---------------------------------------------------------------------------------------
def toe_mark_sheet(line: TaperLine, mark: Fraction, revealed: bool) -> Sheet:
    """The leg with a toe mark to be moved; the mark on the end is there already, and the line once it is right."""
    face = Face(line, 4.5)
    foot, toe = face.at(0, line.width_left), face.at(min(mark, Fraction(9, 2)), line.width)
    items: list[Item] = [*leg_outline(face), Line(*foot, *toe, "mark" if revealed else "ghost", revealed)]
    items += [Circle(*foot, 1.1, "", "accent", True), Circle(*toe, 1.1, "", "accent", True)]
    column = face.at(0, 0)[0] - 9 * face.along
    if line.width_left:
        items += _upright(face, face.at(0, 0), foot, column, f"left {exact(line.width_left)}")
    items.append(Line(*toe, toe[0], toe[1] + 6 * face.up, "mark", True))
    items.append(Label(toe[0], toe[1] + 9.5 * face.up, exact(mark), LETTER, "middle", "middle", accent=True))
    items += names(face, False)
    sentence = f"Leg {line.leg}, outer face, {both(line.width)} wide: the taper at end {line.end} leaves {both(line.width_left)}. The toe mark stands {both(mark)} from end {line.end}."
    return Sheet(WIDTH, HEIGHT, tuple(items), "A toe mark to set", sentence)


# --- made over wanted ---------------------------------------------------------------------------------------
def made_taper_sheet(line: TaperLine, made: MadeTaper) -> Sheet:
    """A taper as it was made, drawn wide, over the wanted one, dashed; the metal too little or too much hatched."""
    width, thick = float(line.width), float(line.section.thickness(line.leg))
    left = width - made.at_toe / made.slope
    face = Face(line, max(reach_of(line), made.at_toe + 0.4))
    foot = face.at(0, left) if left >= 0 else face.at(-left * made.slope, 0)
    toe = face.at(made.at_toe, width)
    wanted_foot, wanted_toe = face.at(0, line.width_left), face.at(line.run, line.width)
    end, top, heel = face.at(face.reach, 0), face.at(face.reach, width), face.at(0, 0)
    low, high = sorted((end[1], top[1]))
    outline = (end, heel, foot, toe, top) if left >= 0 else (end, foot, toe, top)
    items: list[Item] = [Polyline(outline, "outline"), zigzag(end[0], low, high)]
    if math.dist(foot, wanted_foot) + math.dist(toe, wanted_toe) > 1:
        items.append(Hatch(_simple(foot, toe, wanted_toe, wanted_foot), 45, 1.4))
    items.append(Line(*wanted_foot, *wanted_toe, "blank", True))
    one, two = sorted((face.at(0, width), toe))
    outside = "end" if face.along > 0 else "start"
    items += linear_dimension(one, two, one[1] + 9 * face.up, f"run {both(made.at_toe)}", letter=LETTER, outside=outside)
    column = heel[0] - 9 * face.along
    if left > 0.02:
        items += _upright(face, heel, foot, column, f"left {both(left)}")
    if made.tilt:
        shift = [made.at(y, width, thick) for y in (max(left, 0.0), width)]
        items.append(Line(*face.at(shift[0], max(left, 0.0)), *face.at(shift[1], width), "hidden"))
    items += names(face, False)
    inside = f" The inside edge, dashed, lies {both(abs(made.tilt) * thick)} {'outside' if made.tilt > 0 else 'inside'} the outside edge." if made.tilt else ""
    sentence = (
        f"Leg {line.leg}, outer face, taper at end {line.end}: made, drawn wide, over wanted, dashed. Made: run {both(made.at_toe)}, width left "
        f"{both(max(left, 0.0))}.{inside}"
    )
    return Sheet(WIDTH, HEIGHT, tuple(items), "Made over wanted", sentence)


def _simple(foot: Point, toe: Point, wanted_toe: Point, wanted_foot: Point) -> tuple[Point, ...]:
    """The quadrilateral between two lines; where they cross it is a bow tie, which a hatch fills as it should."""
    return foot, toe, wanted_toe, wanted_foot

"""What each word of the trade is, on a small drawing of its own: the thing in the accent, with its word.

Places of the part are shown on the part in space, as lesson 00 shows them; what lies flat on plain line work.

>>> word_sheet("heel", "heel", "the outside corner line").sentence
'The heel: the outside corner line.'
>>> word_sheet("set-back", "set-back", "belongs to bent sheet")
Traceback (most recent call last):
    ...
KeyError: 'set-back'
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

from anglelib.drawing import letter_bases as base
from anglelib.drawing.checks import bounds
from anglelib.drawing.letter_bases import HEIGHT, MARGIN, WIDTH, across, rect, slant, up
from anglelib.drawing.part_places import PartPlaces
from anglelib.drawing.sheet import Circle, Group, Hatch, Item, Label, Line, Point, Polyline, Sheet, move, polygon, scale
from anglelib.drawing.symbols import datum_sign
from anglelib.part import Part, Taper
from anglelib.section import Section

_LETTER = 3.5
_NO_ARTICLE = ("leg-A", "leg-B", "end-1", "end-2")
"""Words that are names."""
Shown = Callable[[], Group]


def _word(text: str, x: float = 35.0, y: float = 40.0, anchor: str = "middle") -> Label:
    return Label(x, y, text, _LETTER, anchor, accent=True)


# --- in space ---------------------------------------------------------------------------------------------
@cache
def _bracket() -> Part:
    stock = Section("1 1/2", "1 1/2", "3/16", fillet="3/16")
    return Part("P1", "Bracket", stock, "6061-T6", "5 3/8", [Taper("A", 1, "9/16", run="2 7/8")])


def _in_space(word: str, place: str, side: str) -> Shown:
    def draw() -> Group:
        space = PartPlaces(_bracket(), side)
        items = (*space.shape, *space.pointed(place))
        left, low, right, high = bounds(space.shape)
        size = 64 / (right - left)
        return (*move(scale(items, size), 35 - size * (left + right) / 2, 18 - size * (low + high) / 2), _word(word))

    return draw


# --- flat ---------------------------------------------------------------------------------------------------
def _on(drawn: Group, *more: Item | Group) -> Shown:
    def draw() -> Group:
        items: list[Item] = list(drawn)
        for item in more:
            items += item if isinstance(item, tuple) else [item]
        return tuple(items)

    return draw


def _hatched(*points: Point) -> Group:
    return (Hatch(points, 45, 1.2, accent=True), polygon(points, "narrow", accent=True))


def _bar(y: float, long: float, accent: bool = False, tall: float = 6.0) -> Group:
    """A stick in elevation, its heel below."""
    return (Line(4, y + 0.24 * tall, 4 + long, y + 0.24 * tall, "narrow", accent), polygon(((4, y), (4 + long, y), (4 + long, y + tall), (4, y + tall)), "outline", accent=accent))


def _angle_section() -> tuple[Point, ...]:
    return tuple((x - 4, y) for x, y in base.PLAIN_SECTION[0].points)  # type: ignore[union-attr]


SECTION: Group = (polygon(_angle_section()),)
CUT_STICK: Group = (*_bar(16, 62, tall=10), *(Line(x, 16, x, 26, "cut") for x in (7, 21, 23, 37, 39)))
RULE: Group = (rect(4, 8, 66, 15), *(Line(4 + 10 * i, 15, 4 + 10 * i, 12, "narrow") for i in range(1, 6)), *(Label(4 + 10 * i, 8.8, str(i), 2.5) for i in range(1, 6)))
PAGE_LINES = ((16, 33), (16, 29), (16, 25))


def _paper(x: float, y: float, accent: bool = False) -> Group:
    return (polygon(((x, y), (x + 22, y), (x + 22, y + 28), (x, y + 28)), "outline" if accent else "narrow", "paper", accent),)


def _saw_from_above() -> Group:
    """An upright band saw: the column, the blade, and a piece on the table that the blade is in."""
    return (rect(6, 14, 18, 32), rect(24, 20, 64, 26), Line(50, 17, 50, 29, "cut"))


def _cut_bar(y: float, cuts: tuple[float, ...], accent: bool = False) -> Group:
    """A stick with its cuts."""
    return (*_bar(y, 54, accent), *(Line(x, y, x, y + 6, "cut", accent) for x in cuts))


def _tick(x: float, y: float) -> Polyline:
    return Polyline(((x, y), (x + 1.2, y - 1.6), (x + 4, y + 2)), "narrow", accent=True)


def _there() -> Group:
    """The sticks that have come, beside the sheet."""
    return tuple(item for y, long in ((25, 34), (17, 34), (9, 24)) for item in move(_bar(0, long), 30, y))


def _hands() -> Group:
    one: Group = (polygon(((4, 24), (30, 24), (30, 12), (16, 12), (4, 21))), Line(4, 22.5, 30, 22.5, "narrow"))
    two: Group = (polygon(((66, 24), (40, 24), (40, 12), (54, 12), (66, 21)), accent=True), Line(66, 22.5, 40, 22.5, "narrow", True))
    return (*one, *two, Line(35, 6, 35, 32, "centre"), Label(17, 4, "left", _LETTER), Label(53, 4, "right", _LETTER, accent=True), _word("hand"))


def _rack() -> Group:
    return (*_bar(6, 62, True), *_bar(14, 50, True), *_bar(22, 34, True), *_bar(30, 20, True), _word("rack", 50, 31))


def _reading() -> Group:
    fixed = polygon(((22, 38), (22, 14), (27, 14), (30, 20), (30, 33), (64, 33), (64, 38)), "narrow", accent=True)
    sliding = Polyline(((40, 33), (40, 20), (43, 14), (48, 14), (48, 33)), "narrow", accent=True)
    jaws: Group = (fixed, sliding)
    metal: Group = (rect(30, 8, 40, 28),)
    return (*metal, *jaws, *across(30, 40, 0.5, 8)("0.126"), _word("reading", 51, 24, "start"))


WORDS: dict[str, Shown] = {  # by id
    # stock
    "stick": _on((*_bar(16, 62, True, 10),), _word("stick", 35, 30)),
    "rack": _rack,
    "remnant": _on(CUT_STICK, _hatched((39, 16), (66, 16), (66, 26), (39, 26)), _word("remnant", 52, 30)),
    "blank": _on(base.FACE, polygon(((6, 34), (63, 34), (63, 12), (6, 12)), "outline", accent=True), _word("blank", 35, 38)),
    "section": _on(SECTION, _hatched(*_angle_section()), _word("section", 44, 26)),
    "leg-A": _on(SECTION, _hatched((14, 9), (46, 9), (46, 15), (14, 15)), _word("leg A", 44, 19)),
    "leg-B": _on(SECTION, _hatched((14, 9), (20, 9), (20, 33), (14, 33)), _word("leg B", 24, 30, "start")),
    # places of the part
    "heel": _in_space("heel", "heel", "outside"),
    "toe": _in_space("toe", "toe-A", "inside"),
    "outer-face": _in_space("outer face", "outer-B", "outside"),
    "inner-face": _in_space("inner face", "inner-B", "inside"),
    "fillet": _in_space("fillet", "fillet", "inside"),
    "end-1": _in_space("end 1", "end-1", "outside"),
    "end-2": _in_space("end 2", "end-2", "inside"),
    "vertex": _in_space("vertex", "vertex", "outside"),
    "taper": _in_space("taper", "taper", "inside"),
    "run": _in_space("run", "run", "inside"),
    "width-left": _in_space("width left", "width-left", "inside"),
    "datum": lambda: (*base.FACE, *(_accented(item) for item in datum_sign(9, 30.5, "", letter=_LETTER)), Line(9, 27, 9, 34, "mark", True), _word("datum", 9, 38, "start")),
    # marks and lines
    "mark": _on((rect(6, 10, 64, 32),), Line(30, 10, 30, 32, "mark", True), _word("mark", 33, 35)),
    "offset": lambda: (rect(6, 10, 64, 32), Line(30, 10, 30, 32, "mark"), *across(6, 30, 6, 10)(""), _word("offset", 34, 3, "start")),
    "witness-line": _on(base.FACE, Line(46, 12, 46, 34, "mark", True), _word("witness line", 46, 38)),
    "finished-line": _on((Line(8, 12, 47, 38, "cut"), Line(8, 18, 38, 38, "cut")), Line(8, 6, 56, 38, "mark", True), _word("finished line", 40, 12, "start")),
    "saw-line": _on((Line(8, 6, 56, 38, "mark"), Line(8, 18, 38, 38, "cut")), Line(8, 12, 47, 38, "mark", True), _word("saw line", 40, 12, "start")),
    "waste": _on(base.FACE, _hatched((9, 27), (9, 12), (37, 12)), _word("waste", 24, 6)),
    "first-flat-mark": _on(base.INSIDE[:4], Circle(22.9, 22, 1.2, "", "accent", True), Label(57, 18, "fillet", 2.5), _word("first flat mark", 35, 4)),
    "vertex-projection-mark": _on(base.INSIDE, Line(13.7, 10, 13.7, 16, "mark", True), _word("vertex-projection mark", 35, 4)),
    # the saw
    "kerf": _on(base.LINE[:1], _hatched((8, 12), (47, 38), (38, 38), (8, 18)), _word("kerf", 44, 20, "start")),
    "sanding-allowance": _on((Line(8, 18, 38, 38, "cut"),), _hatched((8, 6), (56, 38), (47, 38), (8, 12)), _word("sanding allowance", 68, 4, "end")),
    "trim": _on((*_bar(16, 62, tall=10),), _hatched((4, 16), (8, 16), (8, 26), (4, 26)), _word("trim", 6, 30, "start")),
    "throat": lambda: (*_saw_from_above(), *across(18, 50, 8, 16)(""), _word("throat", 34, 3)),
    "column": lambda: (*_saw_from_above(), *_hatched((6, 14), (18, 14), (18, 32), (6, 32)), _word("column", 6, 36, "start")),
    "rough-cut": _on((*_bar(14, 62, tall=12), Line(34, 11, 34, 29, "mark")), Polyline(((40, 10), (39, 14), (40.4, 18), (39.2, 22), (40.6, 26), (39.6, 30)), "outline", accent=True), _word("rough cut", 43, 31, "start")),
    "set-up": lambda: (*_bar(16, 46, tall=10), Line(20, 12, 20, 30, "cut"), polygon(((50, 13), (58, 13), (58, 31), (50, 31)), "outline", accent=True), *across(20, 50, 8, 14)(""), _word("set-up", 54, 35)),
    "hand": _hands,
    "feather-edge": _on(base.FACE[:0], polygon(((4, 34), (64, 34), (64, 12), (42, 12))), Line(4, 34, 13, 29.2, "mark", True), Line(4, 34, 12, 34, "mark", True), _word("feather edge", 4, 38, "start")),
    # holes
    "edge-distance": lambda: (*base.HOLE, *slant((44, 24), (32.4, 38.8), -5)(""), _word("edge distance", 38, 14, "middle")),
    "pitch": lambda: (rect(6, 10, 64, 34), *(item for x in (22, 46) for item in (Circle(x, 22, 3), Line(x - 5, 22, x + 5, 22, "narrow"), Line(x, 17, x, 27, "narrow"))), *across(22, 46, 6, 17)(""), _word("pitch", 52, 4, "start")),
    "grip": lambda: (*base.RIVET, *up(18, 30, 61, 1, 58)(""), _word("grip", 64, 32, "middle")),
    # checks
    "mistake": _on((Line(9, 27, 37, 12, "hidden"), Polyline(((60, 34), (60, 12)), "blank"), Polyline(((32, 12), (60, 12)), "blank")), polygon(((9, 34), (60, 34), (60, 27), (32, 12), (9, 12)), "outline", accent=True), _word("mistake: at the other end", 35, 38)),
    "slip": lambda: (*RULE, rect(14, 18, 60, 30), Line(14, 15, 14, 34, "mark", True), _word("slip: laid at 1, not at 0", 35, 37)),
    "reading": _reading,
    # paper
    "job": lambda: (*_paper(12, 6, True), *(Line(15, y, 31, y, "narrow") for y in (28, 24, 20, 16, 12)), *move(scale(base.FACE[:1], 0.38), 38, 24), *move(scale(base.HOLE[:1], 0.36), 39, 6), _word("job", 23, 38)),
    "plan": lambda: (*_bar(6, 62), *_bar(16, 48), *_bar(26, 30), *(Line(x, y, x, y + 6, "mark", True) for x, y in ((22, 6), (42, 6), (28, 16), (20, 26))), _word("plan", 20, 37)),
    "runner-up": lambda: (*_cut_bar(26, (24, 44, 53)), *_cut_bar(10, (24, 36), True), _word("runner-up", 35, 3)),
    "pick": lambda: (*_cut_bar(26, (24, 44, 53)), *_cut_bar(10, (24, 36)), Polyline(((62, 13), (64, 10), (69, 19)), "outline", accent=True), _word("pick", 62, 3)),
    "offer": lambda: (*_bar(20, 62, True, 8), *across(4, 66, 12, 19)(""), Label(54, 31, "31.50", 3.0), _word("offer", 30, 33)),
    "purchase": lambda: (*_paper(6, 6, True), *(Line(9, y, 20, y, "narrow") for y in (28, 22, 16)), *(_tick(22, y) for y in (28, 22, 16)), *_there(), _word("purchase", 35, 38)),
    "shop-pack": lambda: (*_paper(30, 9), *_paper(26, 7), *_paper(22, 5, True), *(Line(25, y, 41, y, "narrow") for y in (28, 24)), *move(scale(base.FACE[:1], 0.28), 24, 9), _word("shop pack", 35, 39)),
}  # fmt: skip


def _accented(item: Item) -> Item:
    from dataclasses import replace

    return replace(item, accent=True, fill="accent") if isinstance(item, Polyline) and item.fill else replace(item, accent=True)


def word_sheet(id_: str, word: str, meaning: str) -> Sheet:
    """The small drawing of a word, by its id; KeyError where it has none."""
    items = tuple(item for item in WORDS[id_]() if not (isinstance(item, Label) and not item.text))
    name = word if id_ in _NO_ARTICLE else f"the {word}"
    return Sheet(WIDTH, HEIGHT, move(items, MARGIN, MARGIN), f"The word {word}", f"{name[0].upper()}{name[1:]}: {meaning}.")

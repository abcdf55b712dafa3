"""The two pictures of a lesson's handout: the question first, the answer on the back.

Every lesson shows the class's own stock and cleat. A picture of the front shows no answer.

>>> question, answer = pictures("06")
>>> question.title == answer.title, question.sentence == answer.sentence
(True, False)
>>> sorted(PICTURES) == [f"{n:02d}" for n in range(13)]
True
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

from anglelib.drawing.checks import bounds
from anglelib.drawing.diagnosis_sheets import made_sheet as over_wanted
from anglelib.drawing.edges_view import edges_sheet
from anglelib.drawing.hand_sheets import pair_sheet
from anglelib.drawing.hands import image_of
from anglelib.drawing.look_alikes import look_alikes_sheet
from anglelib.drawing.places import Naming, places_sheet
from anglelib.drawing.saw_line import OUTSIDE, SPLIT, SawLine, made_sheet, saw_line_sheet
from anglelib.drawing.see_through import Shown as Seen
from anglelib.drawing.see_through import see_through_sheet
from anglelib.drawing.sheet import Group, Item, Label, Sheet, move, scale
from anglelib.drawing.sheets import inner_sheet, outer_sheet
from anglelib.drawing.stepping import Shown as Stepped
from anglelib.drawing.stepping import stepping_sheet
from anglelib.drawing.stock_sheets import batch_sheet
from anglelib.drawing.triangle import triangle_sheet
from anglelib.drawing.try_square import Tried, light_sheet
from anglelib.drawing.work_cards import Laid, work_cards_sheet
from anglelib.drawing.work_cards import Shown as Sequenced
from anglelib.geometry.taper import taper_lines
from anglelib.inspection.by_amount import by_amount, one_way
from anglelib.job import Shop
from anglelib.part import Hole, Part, Taper
from anglelib.questions.mark_along_heel import Row
from anglelib.questions.order_of_work import cut_first
from anglelib.questions.plan_stock import Batch
from anglelib.workshop.learner_parts import ALLOY, SECTION, SQUARE_INSIDE

SAMPLE = Part(
    "C00", "Class cleat", SECTION, ALLOY, "4 1/2", [Taper("A", 1, "7/16", run="1 3/8")],
    [Hole("A", "4 1/8", "7/8", "1/8"), Hole("B", "3 1/8", "7/8", "1/8")],
)  # fmt: skip
"""The cleat of the handouts; nobody in the class makes it."""
TO_VERTEX = Part("C00", "Class bracket", SECTION, ALLOY, "4 3/4", [Taper("A", 1, run="2 1/8")])
FOOT = 11.3
"""The foot of a view [mm]; see :func:`anglelib.drawing.frame.footer`."""
NO_LESS = 2.5
"""The least letter on paper [mm]."""


def pictures(lesson: str) -> tuple[Sheet, Sheet]:
    """The picture of the front and that of the back."""
    return PICTURES[lesson]()


def fitted(sheet: Sheet, width: float) -> tuple[Group, float]:
    """A sheet's items, letters and all, no wider than ``width``, and how deep they are [mm]; the top left corner is (0, 0)."""
    factor = min(1.0, width / sheet.width)
    items: list[Item] = []
    for item in scale(sheet.items, factor):
        items.append(replace(item, height=max(NO_LESS, item.height * factor)) if isinstance(item, Label) else item)
    high = sheet.height * factor
    return move(items, (width - sheet.width * factor) / 2, -high), high


def _named() -> tuple[Sheet, Sheet]:
    part = replace(SAMPLE, holes=())
    return places_sheet(part, Naming(names="numbers")), places_sheet(part, Naming(point_at="heel"))


def _alike() -> tuple[Sheet, Sheet]:
    return look_alikes_sheet(SQUARE_INSIDE, SECTION, revealed=False), look_alikes_sheet(SQUARE_INSIDE, SECTION)


def _hands() -> tuple[Sheet, Sheet]:
    part = replace(SAMPLE, holes=())
    return pair_sheet(part, image_of(part), revealed=False), pair_sheet(part, image_of(part))


def _light() -> tuple[Sheet, Sheet]:
    out = (Fraction(1, 32), Fraction(-1, 32))
    return light_sheet(SECTION, out, "A", Tried(both=False, angle=False, silent=True)), light_sheet(SECTION, out, "A")


def _stepped() -> tuple[Sheet, Sheet]:
    row = Row(Fraction(3, 2), 8, Fraction(1, 64))
    return stepping_sheet(row, Stepped(answer=False)), stepping_sheet(row)


def _kerf() -> tuple[Sheet, Sheet]:
    cut = SawLine(SAMPLE.length, Shop().kerf, Shop().allowance)
    return saw_line_sheet(cut, SPLIT, answer=False), saw_line_sheet(cut, OUTSIDE)


def _triangle() -> tuple[Sheet, Sheet]:
    line = taper_lines(SAMPLE)[0]
    return triangle_sheet(line, answer=False), triangle_sheet(line)


def _inside() -> tuple[Sheet, Sheet]:
    line = taper_lines(TO_VERTEX)[0]
    return see_through_sheet(line, Seen(answer=False)), see_through_sheet(line, Seen(opened=1.0))


def _order() -> tuple[Sheet, Sheet]:
    return work_cards_sheet(Laid(SAMPLE, cut_first(SAMPLE, Shop())), Sequenced(answer=False)), work_cards_sheet(Laid(SAMPLE))


def _bare(sheet: Sheet) -> Sheet:
    """A view without its foot, whose scale is not that of the handout; the page has its own."""
    items = tuple(item for item in sheet.items if bounds((item,))[3] > FOOT)
    return Sheet(sheet.width, sheet.height - FOOT, move(items, 0, -FOOT), sheet.title, sheet.sentence)


def _edges() -> tuple[Sheet, Sheet]:
    return _bare(outer_sheet(SAMPLE, "A")), edges_sheet(SAMPLE)


def _checked() -> tuple[Sheet, Sheet]:
    lost = by_amount(one_way("M13", SAMPLE, Shop()), 1)
    return made_sheet(Fraction(-1, 32)), over_wanted(lost, (), "the taper cut on the wrong side of its line")


def _planned() -> tuple[Sheet, Sheet]:
    batch = Batch(3, Fraction(5), Fraction(121, 8), Fraction(1, 16))
    return batch_sheet(batch, answer=False), batch_sheet(batch)


def _own() -> tuple[Sheet, Sheet]:
    return _bare(outer_sheet(SAMPLE, "A")), _bare(inner_sheet(SAMPLE, "A"))


PICTURES: dict[str, Callable[[], tuple[Sheet, Sheet]]] = {
    "00": _named, "01": _alike, "02": _hands, "03": _light, "04": _stepped, "05": _kerf, "06": _triangle,
    "07": _inside, "08": _order, "09": _edges, "10": _checked, "11": _planned, "12": _own,
}  # fmt: skip
"""The lessons' pictures by number."""

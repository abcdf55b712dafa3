"""A blank on its stick, both ends drawn large; and a batch of blanks from one stick.

>>> from anglelib.job import Shop
>>> blank_sheet(BlankView(Fraction(19, 4), Shop())).sentence.split(". ")[-1]
'So the blank is 4 13/16 (4.813) long, and the stick gives 4 7/8 (4.875) for it.'
>>> batch_sheet(BatchView(Fraction(63, 16), 3, Fraction(1, 16))).sentence.split(". ")[1]
'Marked end to end, the saw splitting every mark, they come out 3 29/32, 3 7/8, 3 29/32 long, SHORT'
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from anglelib.drawing.dimensions import linear_dimension
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Polyline, Sheet
from anglelib.drawing.symbols import break_lines, kerf_band, zigzag
from anglelib.geometry.chain import batch_marks, chained_pieces
from anglelib.geometry.lazy import formulas
from anglelib.job import Shop
from anglelib.lengths import both, exact

WIDTH, HEIGHT = 220.0, 92.0
LETTER = 3.5
UNIT = 240.0
"""Millimetres of paper an inch, at the ends of the blank."""
END_1, END_2 = 66.0, 154.0
LOW, TOP = 45.0, 80.0
BATCH_UNIT, PIECE, BATCH_LEFT = 130.0, 34.0, 14.0


# --- one blank ------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class BlankView:
    """A part's length, the shop, and how many of its ends are sawn and sanded (1: end 1 is the stick's squared end)."""

    length: Fraction
    shop: Shop
    sawn: int = 2

    @property
    def blank(self) -> Fraction:
        """Length of the blank [in]."""
        return formulas().blank_length(L=self.length, n_e=self.sawn, e_s=self.shop.allowance)


def blank_sheet(view: BlankView, *, answer: bool = True, prediction: Fraction | None = None, few: bool = False) -> Sheet:
    """The finished part inside its blank, the metal to sand hatched, the kerf beside it."""
    say = exact if few else both
    right = WIDTH - 6
    left = 6.0 if view.sawn == 2 else END_1
    items: list[Item] = [Line(left, TOP, right, TOP, "outline"), Line(left, LOW, right, LOW, "outline"), zigzag(right, LOW, TOP)]
    if view.sawn == 2:
        items.append(zigzag(left, LOW, TOP))
    sand, kerf = float(view.shop.allowance) * UNIT, float(view.shop.kerf) * UNIT
    if answer:
        if view.sawn == 2:
            items += _end(END_1, -1, sand, kerf, named=not few)
        items += _end(END_2, 1, sand, kerf)
    kind = "mark" if view.sawn == 2 else "outline"
    items += [Line(END_1, LOW, END_1, TOP, kind, view.sawn == 2), Line(END_2, LOW, END_2, TOP, "mark", True)]
    items += break_lines((END_1 + END_2) / 2, LOW, TOP, 4.0)
    items += [Label(END_1 + 3, TOP - 6, "end 1", LETTER, "start", "middle"), Label(END_2 - 3, TOP - 6, "end 2", LETTER, "end", "middle")]
    items += linear_dimension((END_1, LOW), (END_2, LOW), LOW - 9, f"part {say(view.length)}", letter=LETTER)
    if answer:
        start = END_1 - (sand if view.sawn == 2 else 0)
        items += linear_dimension((start, LOW), (END_2 + sand, LOW), LOW - 20, f"blank {say(view.blank)}", letter=LETTER, accent=True)
        if not few:
            text = f"off the stick {both(view.blank + view.shop.kerf)}"
            items += linear_dimension((start, LOW), (END_2 + sand + kerf, LOW), LOW - 31, text, letter=LETTER)
    if prediction is not None:
        items += _ghost(view, prediction)
    return Sheet(WIDTH, HEIGHT, tuple(items), "A blank", blank_sentence(view, answer, prediction))


def _end(x: float, way: int, sand: float, kerf: float, named: bool = True) -> Group:
    """Metal to sand and kerf outside a finished end; ``way`` 1 to the right, -1 to the left."""
    near, far = x + way * sand, x + way * (sand + kerf)
    items: list[Item] = []
    if sand:
        items.append(Hatch(((x, LOW), (near, LOW), (near, TOP), (x, TOP)), 45, 1.8))
    if kerf:
        items += kerf_band((near, TOP), (near, LOW), kerf, way)
    if named and kerf > LETTER + 1.6:
        items.append(Label((near + far) / 2, (LOW + TOP) / 2, "kerf", LETTER, "middle", "middle", 90.0))
    if named and sand > LETTER + 1.6:
        items.append(Label((x + near) / 2, (LOW + TOP) / 2, "to sand", LETTER, "middle", "middle", 90.0, True))
    return tuple(items)


def _ghost(view: BlankView, prediction: Fraction) -> Group:
    """The predicted blank's end at end 2, dotted, its other end taken as right."""
    begins = view.shop.allowance if view.sawn == 2 else Fraction(0)
    x = max(END_2 - 30, min(END_2 + float(prediction - view.length - begins) * UNIT, WIDTH - 10))
    text = f"you: {exact(prediction)}"
    middle = min(x, WIDTH - 4 - text_width(text, LETTER) / 2)
    return (Line(x, LOW, x, LOW + 8, "ghost"), Line(x, TOP, x, TOP + 3.4, "ghost"), Label(middle, TOP + 5, text, LETTER))


def blank_sentence(view: BlankView, answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    ends = "both ends are sawn" if view.sawn == 2 else "end 1 is the stick's own squared end, end 2 is sawn"
    words = f"A part {both(view.length)} long on its stick; {ends}."
    if prediction is not None:
        words += f" Your prediction for the blank is {both(prediction)}."
    if not answer:
        return f"{words} The blank is not shown yet."
    each = "each sawn end" if view.sawn == 2 else "end 2"
    return (
        f"{words} Outside the line at {each} lie {both(view.shop.allowance)} to sand, hatched, and then the kerf, {both(view.shop.kerf)}. "
        f"So the blank is {both(view.blank)} long, and the stick gives {both(view.blank + view.shop.kerf)} for it."
    )


# --- a batch --------------------------------------------------------------------------------------------
@dataclass(frozen=True)
class BatchView:
    """A batch of equal blanks from one stick: their length, how many, and the kerf; all [in]."""

    blank: Fraction
    count: int
    kerf: Fraction


def batch_sheet(view: BatchView, *, answer: bool = True, prediction: Fraction | None = None, few: bool = False) -> Sheet:
    """Above, the batch marked end to end and sawn on the marks; below, a kerf left between two blanks."""
    rows = ((64.0, "end to end, sawn on the marks"), (22.0, "a kerf between two blanks"))
    items: list[Item] = []
    for (low, title), spaced in zip(rows, (False, True)):
        items += _row(view, low, title, spaced, answer, few)
    if prediction is not None:
        x = BATCH_LEFT + (view.count - 1) * (PIECE + float(view.kerf) * BATCH_UNIT) + PIECE
        right = batch_marks(view.blank, view.count, view.kerf)[-1]
        x = max(BATCH_LEFT, min(x + float(prediction - right) * BATCH_UNIT, WIDTH - 3))
        text = f"you: {exact(prediction)}"
        items.append(Line(x, 22, x, 36, "ghost"))
        items.append(Label(min(x, WIDTH - 2 - text_width(text, LETTER) / 2), 8, text, LETTER))
    return Sheet(WIDTH, 100, tuple(items), "A batch from one stick", batch_sentence(view, answer, prediction))


def _row(view: BatchView, low: float, title: str, spaced: bool, answer: bool, few: bool) -> Group:
    """One stick with the batch's marks, the saw's bands, and what each piece comes out as."""
    top, kerf = low + 14, float(view.kerf) * BATCH_UNIT
    shown = view.count if answer or not spaced else 1
    step = PIECE + (kerf if spaced else 0)
    end = BATCH_LEFT + step * (view.count - 1) + PIECE if answer or not spaced else WIDTH - 8
    items: list[Item] = [
        Polyline(((end, low), (BATCH_LEFT, low), (BATCH_LEFT, top), (end, top)), "outline"),
        Line(end, low, end, top, "outline") if answer or not spaced else zigzag(end, low, top),
        Label(BATCH_LEFT, top + 9, title, LETTER, "start"),
    ]
    marks = batch_marks(view.blank, view.count, view.kerf if spaced else Fraction(0))
    pieces = [view.blank] * view.count if spaced else list(chained_pieces(view.blank, view.count, view.kerf))
    for i in range(shown):
        x, last = BATCH_LEFT + i * step + PIECE, i == view.count - 1
        if not last:
            start = x if spaced else x - kerf / 2
            if answer or spaced:
                items += kerf_band((start, top), (start, low), kerf)
            items.append(Line(x, low, x, top + 1.4, "mark", True))
        if (last and answer and (spaced or not few)) or not last and not (few and (answer or not spaced)):
            items.append(Label(x, top + 3, exact(marks[i]), LETTER, accent=True))
        left = x - PIECE + (0 if spaced or not i else kerf / 2)
        right = x - (0 if spaced or last else kerf / 2)
        middle = (left + right) / 2
        items += break_lines(middle, low, top, 2.4)
        if answer and not (few and i > (0 if spaced else 1)):
            items.append(Label(middle, low - 6.3, exact(pieces[i]), LETTER))  # clear of the break lines' ends
    return tuple(items)


def batch_sentence(view: BatchView, answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    words = f"{view.count} blanks, each to be {both(view.blank)} long, from one stick; the kerf is {both(view.kerf)}."
    if prediction is not None:
        words += f" Your prediction for the last mark is {both(prediction)}."
    if not answer:
        return f"{words} What comes off, and the marks after the first, are not shown yet."
    chained = ", ".join(exact(piece) for piece in chained_pieces(view.blank, view.count, view.kerf))
    marks = ", ".join(exact(mark) for mark in batch_marks(view.blank, view.count, view.kerf))
    return (
        f"{words} Marked end to end, the saw splitting every mark, they come out {chained} long, SHORT. "
        f"With a kerf between two blanks the marks stand at {marks}, and all come out {exact(view.blank)}."
    )

"""Pictures of the stock for the lessons: one part now, what a dent leaves, kerf by kerf, two racks side by side.

All are drawn with :mod:`anglelib.drawing.rack_rows`; each has one size whatever it shows.

>>> from anglelib.section import Section
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> sticks = [Stick("S-1", stock, "6061-T6", 96), Stick("S-2", stock, "6063-T5", 30)]
>>> part = Part("A1", "Bar", stock, "6061-T6", 28)
>>> print(candidates_sheet(sticks, part, Shop(), answer=False).sentence)
Sticks on the rack, to scale: S-1, 96 long, 6061-T6; S-2, 30 long, 6063-T5. Wanted: bar, 28 long, 3/4 x 3/4 x 1/8, 6061-T6. Which stick it comes from is not shown yet.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from anglelib.drawing.dimensions import Stop, running_dimensions
from anglelib.drawing.frame import wrap
from anglelib.drawing.letters import text_width
from anglelib.drawing.rack_rows import Row, rows
from anglelib.drawing.rack_view import Cut
from anglelib.drawing.running import called
from anglelib.drawing.sheet import Group, Hatch, Item, Label, Line, Sheet, polygon
from anglelib.geometry.lazy import formulas
from anglelib.job import Shop
from anglelib.lengths import both, exact, show
from anglelib.part import Part
from anglelib.stock.by_hand import HandStick
from anglelib.stock.fit import refusals
from anglelib.stock.one import OneNow
from anglelib.stock.plan import StickPlan
from anglelib.stock.rack import Stick
from anglelib.stock.reason_words import brief, sentences
from anglelib.stock.reasons import ALLOY, HANDS_OFF, NO_MARK, OTHER_STICK, SECTION, TOO_SHORT, Reason

WIDTH = 234.0
LETTER = 3.5
RACK_UNIT = 140 / 144
"""Millimetres an inch on a whole rack: a full stick leaves room for what is said of it."""


# --- what is on a stick ---------------------------------------------------------------------------------
def printed_on(stick: Stick, part: Part) -> str:
    """What one sees of a stick that is wanted for a part: its alloy, and in what its section differs."""
    differs = [brief(reason) for reason in refusals(part, stick) if reason.id in SECTION][:1]
    return ", ".join([stick.alloy or "no mark", *differs])


def near(stick: Stick, part: Part) -> bool:
    """Whether a stick could be taken for one that serves: its legs are the part's."""
    return {stick.section.leg_a, stick.section.leg_b} == {part.section.leg_a, part.section.leg_b}


def _against(stick: Stick, part: Part, shop: Shop) -> tuple[Reason, ...]:
    """Why a stick may not be used for a part, as far as one sees it: alloy, section, kept; that it is too short where it is that alone."""
    reasons = [reason for reason in refusals(part, stick, shop) if reason.id != OTHER_STICK]
    seen = [reason for reason in reasons if reason.id in (NO_MARK, ALLOY)]
    seen += [reason for reason in reasons if reason.id in SECTION][:1]
    seen += [reason for reason in reasons if reason.id == HANDS_OFF]
    return tuple(seen or reasons)


# --- one part now ---------------------------------------------------------------------------------------
def candidates_sheet(
    sticks: Sequence[Stick], part: Part, shop: Shop, now: OneNow | None = None, *, answer: bool = True, few: bool = False, low: bool = False
) -> Sheet:
    """The sticks that might serve a part; with the answer the one to cut, drawn once more with its lines.

    ``low``: the sheet has no room for that, for a picture that never shows its answer.
    """
    height = 12.0 + 13 * len(sticks) if low else 138.0
    no = {stick.id: _against(stick, part, shop) for stick in sticks} if answer else {}
    shown = [_candidate(stick, part, no.get(stick.id), now, few) for stick in sticks]
    pitch = min(13.0, 100.0 / max(len(shown), 1))
    items: list[Item] = [*rows(shown, 24, height - 5, RACK_UNIT, pitch)]
    if answer and now is not None and now.stick is not None:
        items += _enlarged(now, part)
    return Sheet(WIDTH, height, tuple(items), "One part now", _candidates_sentence(sticks, part, no, now))


def _candidate(stick: Stick, part: Part, why: tuple[Reason, ...] | None, now: OneNow | None, few: bool) -> Row:
    """A stick as it lies there; with ``why`` (why not; empty where it may) also what came of it."""
    size = show(stick.length)
    if why is None:
        return Row(stick.id, stick.length, (), stick.dents, size if few else f"{size}, {printed_on(stick, part)}")
    if why:
        said = f"{size}, {_brief(why)}"
        words = said if few or why[0].id == TOO_SHORT else f"{said}: not used"
        if not _room(stick, words):
            words = f"{size}: not used"
        return Row(stick.id, stick.length, (), stick.dents, words, "refused")
    if now is not None and now.stick == stick:
        return Row(stick.id, stick.length, (_cut(now),), stick.dents, f"{exact(now.left)} left", "chosen")  # type: ignore[arg-type]
    lost = next((other.lost for other in now.others if other.stick == stick), ()) if now is not None else ()
    if lost:
        words = f"NO METAL then for {', '.join(lost)}"
        if few or not _room(stick, words):
            words = f"NO METAL: {lost[0]}" + (f" and {len(lost) - 1} more" if len(lost) > 1 else "")
        long = f"{size}: {words}"
        return Row(stick.id, stick.length, (), stick.dents, long if _room(stick, long) and not few else words)
    return Row(stick.id, stick.length, (), stick.dents, size)


def _brief(reasons: Sequence[Reason]) -> str:
    return ", ".join(map(brief, reasons))


def _room(stick: Stick, words: str) -> bool:
    """Whether some words find room beside a stick."""
    return text_width(words, LETTER) <= WIDTH - 4 - (27 + float(stick.length) * RACK_UNIT)


def _cut(now: OneNow, name: str = "") -> Cut:
    start = now.interval.start  # type: ignore[union-attr]
    return Cut(name, start, start + now.blank)


def _enlarged(now: OneNow, part: Part) -> Group:
    """The stick to cut, as large as the sheet is wide, from its squared end on."""
    stick, start = now.stick, now.interval.start  # type: ignore[union-attr]
    long = stick.length - start  # type: ignore[union-attr]
    unit, low, tall = (WIDTH - 40) / float(long), 17.0, 8.5
    dents = tuple((a - start, b - start) for a, b in stick.dents if a > start)  # type: ignore[union-attr]
    row = Row(stick.id, long, (Cut(part.id, Fraction(0), now.blank),), dents, "", "chosen")  # type: ignore[union-attr]
    items: list[Item] = [*rows([row], 24, low + tall, unit, tall / 0.58)]
    stops = [Stop(24 + float(now.blank) * unit, low, exact(now.blank), True)]
    items += running_dimensions(24, stops, low - 3, letter=LETTER, low=8, high=WIDTH - 6, foot=low)
    return tuple(items)


def _candidates_sentence(sticks: Sequence[Stick], part: Part, why: Mapping[str, Sequence[Reason]], now: OneNow | None) -> str:
    """What the picture shows, in words."""
    wanted = f"Wanted: {called(part)}, {exact(part.length)} long, {part.section.size}, {part.alloy}."
    if not why or now is None:
        listed = "; ".join(f"{stick.id}, {exact(stick.length)} long, {printed_on(stick, part)}" for stick in sticks)
        return f"Sticks on the rack, to scale: {listed}. {wanted} Which stick it comes from is not shown yet."
    refused = [f"{name} ({_brief(reasons)})" for name, reasons in why.items() if reasons]
    line = f" Part it off at {both(now.line)} from the squared end." if now.line is not None else ""
    no = f" Not: {', '.join(refused)}." if refused else ""
    cost = "".join(f" {other.sentence}" for other in now.others if other.lost)
    return f"{wanted} {now.sentence}{line}{cost}{no}"


# --- sticks that are refused ------------------------------------------------------------------------------
def traps_sheet(pairs: Sequence[tuple[Stick, Part]], shop: Shop, *, answer: bool = True, few: bool = False) -> Sheet:
    """Sticks, each with the part that it might be taken for, and with every reason against it in whole sentences."""
    height = 8.0 + 22 * len(pairs)
    items: list[Item] = []
    for number, (stick, part) in enumerate(pairs):
        top = height - 4 - number * 22
        reasons = refusals(part, stick, shop) if answer else ()
        items += rows([Row(stick.id, stick.length, (), stick.dents, "", "refused" if reasons else "")], 24, top, 196 / 120, 12.0)
        said = _seen(stick, part) if not answer else _reasoned(stick, part, shop) if not few else f"no: {_brief(reasons)}" if reasons else "serves"
        for line, words in enumerate(wrap(said, WIDTH - 30, LETTER)):
            items.append(Label(24, top - 9.2 - 5.6 * line, words, LETTER, "start", "top", accent=answer and not reasons))
    words = " ".join((_reasoned if answer else _asked)(stick, part, shop) for stick, part in pairs)
    return Sheet(WIDTH, height, tuple(items), "Sticks to be noticed", words if answer else f"{words} Whether they serve is not shown yet.")


def _seen(stick: Stick, part: Part) -> str:
    """What one sees of a stick, and what it is wanted for."""
    dents = "".join(f", dent from {exact(a)} to {exact(b)}" for a, b in stick.dents)
    return f"{show(stick.length)} long, {printed_on(stick, part)}{dents}; for a {called(part)}, {exact(part.length)}?"


def _asked(stick: Stick, part: Part, shop: Shop) -> str:
    return f"{stick.id}, {_seen(stick, part)}"


def _reasoned(stick: Stick, part: Part, shop: Shop) -> str:
    """Every reason against a stick for a part; where there is none, what of it can be used."""
    reasons = refusals(part, stick, shop)
    if reasons:
        return sentences(reasons)
    lengths = " and ".join(exact(interval.length) for interval in stick.intervals(shop.kerf))
    return f"{stick.id} serves a {called(part)} of {exact(part.length)}: of its {exact(stick.length)} there can be used {lengths}."


# --- kerf by kerf ---------------------------------------------------------------------------------------
@dataclass(frozen=True)
class Batch:
    """So many equal blanks [in] from one stick of usable length [in], and whether its far end may end a blank."""

    number: int
    blank: Fraction
    usable: Fraction
    kerf: Fraction
    far_end_good: bool = False

    @property
    def needs(self) -> Fraction:
        """The usable length that the blanks take with their cuts [in]."""
        return self.usable - self.left

    @property
    def left(self) -> Fraction:
        """What remains [in]; below 0 it does not fit."""
        cuts = self.number - self.far_end_good
        return formulas().left_of_stick(E_l=self.usable, S_b=self.number * self.blank, n_c=Fraction(cuts), k=self.kerf)


def batch_sheet(batch: Batch, *, answer: bool = True, prediction: Fraction | None = None, few: bool = False) -> Sheet:
    """The blanks on their stick, with every kerf as a band of its width."""
    height, left, low, tall = 66.0, 14.0, 26.0, 15.0
    unit = (WIDTH - 40) / float(max(batch.usable, batch.needs, 16))
    end = left + float(batch.usable) * unit
    items: list[Item] = [Line(left, low + 4, end, low + 4, "narrow")]
    if prediction is not None:
        items += _guessed(prediction, left, low, tall, unit)
    if answer:
        items += _pieces(batch, left, low, tall, unit)
    items.append(polygon(((left, low), (end, low), (end, low + tall), (left, low + tall)), "outline"))
    items.append(Label(left, low + tall + 4, f"usable {both(batch.usable)}", LETTER, "start"))
    if answer and not few:
        items.append(Label(left, low - 10, batch_words(batch), LETTER, "start", "top", accent=True))
    elif answer:
        items.append(Label(left, low - 10, _fit(batch), LETTER, "start", "top", accent=True))
    return Sheet(WIDTH, height, tuple(items), "What blanks need", batch_sentence(batch, answer, prediction))


def _guessed(prediction: Fraction, left: float, low: float, tall: float, unit: float) -> Group:
    """How much somebody expects the blanks to take, dotted."""
    x, text = min(left + float(prediction) * unit, WIDTH - 12), f"you: {exact(prediction)}"
    middle = min(x, WIDTH - 2 - text_width(text, LETTER) / 2)
    return (Line(x, low - 4, x, low + tall + 2.4, "ghost"), Label(max(middle, 12), low + tall + 10, text, LETTER))


def _pieces(batch: Batch, left: float, low: float, tall: float, unit: float) -> Group:
    items: list[Item] = []
    b, k, x, end = float(batch.blank) * unit, float(batch.kerf) * unit, left, left + float(batch.usable) * unit
    for number in range(batch.number):
        over = x + b > end + 0.01
        kind = "hidden" if over else "cut"
        if over:
            items += [Line(max(x, end), y, x + b, y, "hidden", True) for y in (low, low + tall)]
        one, two = max(((x, min(x + b, end)), (max(x, end), x + b)), key=lambda span: span[1] - span[0])
        items.append(Label((one + two) / 2, low + 9.5, str(number + 1), LETTER, "middle", "middle", halo=True))
        last = batch.far_end_good and number == batch.number - 1
        if not last or over:
            band = ((x + b, low), (x + b + k, low), (x + b + k, low + tall), (x + b, low + tall))
            items.append(Hatch(band, 60, 0.7) if not over else polygon(band, "hidden", "", True))
            items += [Line(at, low, at, low + tall, kind, over) for at in (x + b, x + b + k)]
        x += b + k
    return tuple(items)


def _fit(batch: Batch) -> str:
    if batch.left < 0:
        return f"TOO LONG by {exact(-batch.left)}"
    return f"it fits, {exact(batch.left)} left" if batch.left else "it fits exactly"


def batch_words(batch: Batch) -> str:
    """The sum, in words."""
    n, cuts = batch.number, batch.number - batch.far_end_good
    return (
        f"{n} x {exact(batch.blank)} and {cuts} {'kerf' if cuts == 1 else 'kerfs'} of {exact(batch.kerf)}: {exact(batch.needs)}; {_fit(batch)}"
    )


def batch_sentence(batch: Batch, answer: bool = True, prediction: Fraction | None = None) -> str:
    """What the picture shows, in words."""
    words = f"A stick of which {exact(batch.usable)} can be used; {batch.number} blanks of {exact(batch.blank)} are wanted from it."
    if prediction is not None:
        words += f" Your prediction is {both(prediction)}."
    if not answer:
        return f"{words} What they take is not shown yet."
    far = " The far end is square and sound: the last blank may end there, and one cut is saved." if batch.far_end_good else ""
    return f"{words} They take {batch_words(batch)}.{far}"


# --- two racks side by side -------------------------------------------------------------------------------
@dataclass(frozen=True)
class Side:
    """One of two racks: its title, its rows, and what is said under it."""

    title: str
    shown: tuple[Row, ...]
    foot: str = ""


def planned_rows(plans: Sequence[StickPlan], least: Fraction) -> tuple[Row, ...]:
    """Sticks as a plan cuts them; remnants shorter than ``least`` are not spoken of [in]."""
    return tuple(_planned(plan, least) for plan in sorted(plans, key=lambda p: p.stick.id))


def _planned(plan: StickPlan, least: Fraction) -> Row:
    cuts = tuple(Cut(p.blank.part.id, p.start, p.end, p.sawn) for p in plan.placed)
    left = max(plan.left, default=Fraction(0))
    return Row(plan.stick.id, plan.stick.length, cuts, plan.stick.dents, f"{exact(left)} left" if left >= least else "")


def hand_rows(hands: Sequence[HandStick]) -> tuple[Row, ...]:
    """Sticks as somebody gave out parts to them; blanks are drawn as far as the longest stick reaches."""
    most = max(hand.stick.length for hand in hands)
    found = []
    for hand in hands:
        cuts = tuple(Cut(blank.part.id, start, min(end, most)) for blank, start, end in hand.placed if start < most)
        note = f"TOO LONG by {exact(hand.over) if hand.over < 1 else show(hand.over, 8, 'up')}" if hand.over else f"{exact(hand.left)} left"
        found.append(Row(hand.stick.id, hand.stick.length, cuts, (), note, "chosen" if hand.over else ""))
    return tuple(found)


def _bare(row: Row, pitch: float) -> Row:
    """A row for a projector: no note, and in low rows no names in short blanks."""
    cuts = tuple(cut if pitch > 12 or cut.end - cut.start > 60 else replace(cut, name="") for cut in row.cuts)
    return replace(row, cuts=cuts, note="")


def foot_fits(words: str) -> bool:
    """Whether words fit below one rack."""
    return text_width(words, LETTER) <= WIDTH - 16


def one_rack_sheet(side: Side, longest: Fraction, title: str, sentence: str) -> Sheet:
    """One rack, as large as the sheet allows."""
    height = 104.0
    pitch = min(17.0, 84.0 / len(side.shown))
    items: list[Item] = [Label(8, height - 5, side.title, LETTER, "start", "top")]
    items += rows(side.shown, 26, height - 14, 150 / float(longest), pitch, small=2.8 if pitch < 12 else LETTER)
    if side.foot:
        items.append(Label(8, 3.5, side.foot, LETTER, "start", accent=True))
    return Sheet(WIDTH, height, tuple(items), title, sentence)


def two_racks_sheet(one: Side, two: Side, longest: Fraction, title: str, sentence: str, few: bool = False) -> Sheet:
    """Two racks to one scale: what a rule or a person makes of it, and the plan."""
    height = 112.0
    number = max(len(one.shown), len(two.shown))
    pitch = min(16.0, 84.0 / number)
    items: list[Item] = []
    for side, left in ((one, 4.0), (two, 121.0)):
        items.append(Label(left, height - 4, side.title, LETTER, "start", "top"))
        shown = side.shown if not few else tuple(_bare(row, pitch) for row in side.shown)
        items += rows(shown, left + 15, height - 14, 64 / float(longest), pitch, small=2.5)
        for line, words in enumerate(side.foot.split("\n")):
            items.append(Label(left, 10 - 6.4 * line, words, LETTER, "start", accent=True))
    items.append(Line(117, 4, 117, height - 4, "narrow"))
    return Sheet(WIDTH, height, tuple(items), title, sentence)

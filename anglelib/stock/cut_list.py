"""The cuts of one stick as a list: a row each, with its line, the same line on the card, what is made first, what is clamped.

>>> from anglelib.job import Job
>>> from anglelib.part import Part, Taper
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> cleat = Part("A1", "Cleat", stock, "6061-T6", "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")])
>>> planned = plan(Job("Demo", Shop(), [cleat]), Rack([Stick("S-1", stock, "6061-T6", 40)])).sticks[0]
>>> for row in listed(planned, Shop(), Limits()): print(row.what, "|", row.line, "|", row.minded, "|", row.clamp)
A1 | 2 3/16 (2.188) | ('its card: 2 5/32 from end 1, squared', 'end 1 first: taper A') | clamp: the piece that comes off is 2 3/16
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from anglelib.geometry.rough_words import begins_rough
from anglelib.job import Shop
from anglelib.lengths import both, in_unit, own, show, unit_in_head
from anglelib.stock.blank import Blank
from anglelib.stock.cut_words import by_hacksaw, card_line, clamped, first_letters, lies, minded, not_sawn, short_alone
from anglelib.stock.plan import CLEAR, TRIM, Cut, StickPlan
from anglelib.stock.rack import Stick
from anglelib.stock.set_up_words import at_row
from anglelib.stock.set_ups import SetUp
from anglelib.tolerances import Limits

NEAR, NEAR_BRIEF = "the saw on the near side of this line: the next blank begins at it", "saw on the near side"
"""What is minded where a dent is cleared: elsewhere the saw runs on a line's far side."""


@dataclass(frozen=True)
class CutRow:
    """One row: what is parted off, its part's name, its line from the datum end, what is minded, in full and briefly.

    ``head`` stands over it: that the stick is turned before this cut. ``set_up`` says what is set at the saw for this row ("": nothing).
    """

    what: str
    name: str
    line: str
    minded: tuple[str, ...] = ()
    brief: tuple[str, ...] = ()
    clamp: str = ""
    clamp_brief: str = ""
    head: str = ""
    set_up: str = ""
    set_up_brief: str = ""


def listed(planned: StickPlan, shop: Shop, limits: Limits, made: Sequence[SetUp] = ()) -> list[CutRow]:
    """The rows of a stick: its cuts in order, then a blank that ends where the stick does. ``made`` are the set-ups of the saw for its section."""
    rows = [_cut(cut, planned, shop, limits) for cut in planned.cuts]
    for n in range(1, len(planned.cuts)):
        turned = planned.cuts[n].turned
        if turned != planned.cuts[n - 1].turned:
            rows[n] = replace(rows[n], head=turn_words(planned.stick, turned))
    for placed in planned.placed:
        if not placed.sawn:
            part = placed.blank.part
            begins = _begins(placed.blank, planned, shop)
            said, brief = (not_sawn(placed), *begins, *minded(part, shop, limits)), ("it ends where the stick does", *begins, *_brief(placed.blank, shop, limits))
            clamp = short_alone(placed.blank, shop)
            rows.append(CutRow(str(placed.blank), part.name, "not sawn", said, brief, clamp, clamp))
    for n, row in enumerate(rows, 1):
        here = [one for one in made if (one.stick_id, one.row) == (planned.stick.id, n)]
        rows[n - 1] = replace(row, set_up=at_row(here), set_up_brief=at_row(here, brief=True))
    return rows


def _cut(cut: Cut, planned: StickPlan, shop: Shop, limits: Limits) -> CutRow:
    clamp = clamped(cut, shop), clamped(cut, shop, brief=True)
    if cut.blank is None:
        said, brief = ((NEAR,), (NEAR_BRIEF,)) if cut.kind == CLEAR else ((), ())
        return CutRow(what_is_cut(cut, planned), "", line_words(cut), (*by_hacksaw(cut, shop), *said), (*by_hacksaw(cut, shop, True), *brief), *clamp)
    part = cut.blank.part
    said = (*by_hacksaw(cut, shop), *_begins(cut.blank, planned, shop), *minded(part, shop, limits, cut.rough))
    brief = (*by_hacksaw(cut, shop, True), *_begins(cut.blank, planned, shop), *_brief(cut.blank, shop, limits, cut.rough))
    return CutRow(str(cut.blank), part.name, line_words(cut), said, brief, *clamp)


def _begins(blank: Blank, planned: StickPlan, shop: Shop) -> tuple[str, ...]:
    """That a rough cut has left the near end of a blank; nothing else."""
    return (begins_rough(shop),) if any(placed.before for placed in planned.placed if placed.blank == blank) else ()


def _brief(blank: Blank, shop: Shop, limits: Limits, rough: bool = False) -> tuple[str, ...]:
    words = card_line(blank.part, shop.by_hacksaw if rough else shop, limits, brief=True), first_letters(blank.part), lies(blank.part, brief=True)
    return tuple(word for word in words if word)


def what_is_cut(cut: Cut, planned: StickPlan) -> str:
    """What a cut frees."""
    if cut.blank is not None:
        return str(cut.blank)
    trim = planned.stick.length - cut.x if cut.turned else planned.datum
    return {TRIM: f"trim {own(trim)}, square", CLEAR: "clear the dent"}[cut.kind]


def line_words(cut: Cut) -> str:
    """Where a cut's line is, from the datum end; in which unit stands above the list."""
    with unit_in_head():
        return "0" if cut.kind == TRIM and not cut.back else both(cut.mark)


# --- how a stick with unequal legs lies ---------------------------------------------------------------------
def laid_words(planned: StickPlan) -> str:
    """How a stick with unequal legs is laid, so that its datum end is at the left; "" where the legs are equal."""
    stick = planned.stick
    if stick.section.equal_legs:
        return ""
    return f"heel down, {_leg(stick, bool(planned.cuts) and planned.cuts[0].turned)} towards you"


def turn_words(stick: Stick, turned: bool) -> str:
    """That a stick is turned end for end, to be sawn from its end 2; or back."""
    if turned:
        return (
            f"Turn the stick end for end, heel down, {_leg(stick, True)} now towards you: the end at the left is the datum end of "
            "the lines below. With unequal legs the other hand is sawn from this end."
        )
    return f"Turn it again, {_leg(stick, False)} towards you: the lines below were marked, before the first cut, from the end at the left."


def _leg(stick: Stick, turned: bool) -> str:
    """The leg towards you by its width, or by its thickness where the legs are equally wide."""
    leg, section = "A" if turned else "B", stick.section
    if section.leg_a == section.leg_b:
        return f"its {own(section.thickness(leg))} thick leg"
    return f"its leg of {own(section.leg(leg))}"


# --- what is left of it -----------------------------------------------------------------------------------------
def back_on_the_rack(planned: StickPlan, shop: Shop, limits: Limits) -> list[str]:
    """What is held, and what goes back on the rack."""
    words = []
    for held in planned.held:
        blank = held.blank
        then = [*minded(blank.part, shop, limits), *filter(None, [short_alone(blank, shop)])]
        words.append(f"Hold {in_unit(blank.length, blank.part.unit, both)} for {blank}: not cut now. When it is cut, {'; '.join(then)}.")
    back = [remnant for remnant in planned.remnants if remnant.stick.id != planned.stick.id]
    for remnant in back:
        words.append(
            f"Back on the rack: {remnant.stick.id}, {show(remnant.stick.length, 64, 'down')} long; write its tag and {remnant.stick.alloy} on it."
        )
    if planned.touched and not back:
        words.append("Nothing that is left of it is long enough to keep.")
    return words

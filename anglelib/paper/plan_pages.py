"""The plan on paper: the sticks of each section to scale, and for each the cuts in order from its datum end.

>>> from anglelib.job import Job, Shop
>>> from anglelib.paper.page import A4
>>> from anglelib.part import Part
>>> from anglelib.section import Section
>>> from anglelib.stock.planner import plan
>>> from anglelib.stock.rack import Rack, Stick
>>> stock = Section("3/4", "3/4", "1/8", fillet="1/8")
>>> job = Job("Demo", Shop(), [Part("A1", "Bar", stock, "6061-T6", 28)])
>>> rack = Rack([Stick("S-1", stock, "6061-T6", 96), Stick("S-2", stock, "6063-T5", 30)])
>>> page = plan_pages(plan(job, rack), job, rack, A4)[0]
>>> page.title
'Plan for 3/4 x 3/4 x 1/8, 6061-T6'
>>> refused(plan(job, rack), job, rack)[0]
('S-2', ('S-2 is 6063-T5; the part wants 6061-T6.',))
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from anglelib.drawing import rack_view
from anglelib.drawing.checks import bounds
from anglelib.drawing.letters import text_width
from anglelib.drawing.sheet import Group, Item, Label, Line, move
from anglelib.job import Job, Shop
from anglelib.lengths import both, exact, in_unit, own, own_spoken, show, unit_in_head, unit_word
from anglelib.paper.page import FIGURE, SMALL, Block, Page, Paper, block, box, flow, heading, shortened, warning_sign
from anglelib.paper.plan_holes import holes_blocks
from anglelib.part import Part
from anglelib.stock.cut_words import lies, made_first, made_first_letters
from anglelib.stock.fit import refusals
from anglelib.stock.plan import CLEAR, TRIM, Cut, GroupPlan, Plan, StickPlan
from anglelib.stock.rack import Rack, Stick
from anglelib.tolerances import Limits

ROW = 5.5
"""Height of one cut in a list [mm]."""
LEAST = Fraction(1, 64)
"""What is shorter is not drawn as a piece that remains [in]."""
TICK = 3.2
"""A box to tick when the cut is done [mm]."""
LIST = 12
"""A stick with more cuts lists them in two columns."""


def plan_pages(plan: Plan, job: Job, rack: Rack, on: Paper, limits: Limits | None = None) -> list[Page]:
    """The pages of every section of a plan; the last one ends with the sticks that serve no part.

    ``limits`` are those that the holes' edges are reckoned with (else the job's).
    """
    unused = unused_at(plan, job, rack)
    pages: list[Page] = []
    for group in plan.groups:
        pages += _section(group, job, [(name, reasons) for name, reasons, home in unused if home is group], on, limits or job.limits)
    elsewhere = [_refusal(name, reasons, on.room) for name, reasons, home in unused if home is None]
    if elsewhere:
        title = "Sticks that serve no part of this job"
        pages += flow(title, "", elsewhere, on, f"{title}.")
    return pages


# --- sticks that are not used, and why ------------------------------------------------------------------
def refused(plan: Plan, job: Job, rack: Rack) -> list[tuple[str, tuple[str, ...]]]:
    """The sticks that no part of the job may be cut from, each with every reason."""
    return [(name, reasons) for name, reasons, _ in unused_at(plan, job, rack)]


def unused_at(plan: Plan, job: Job, rack: Rack) -> list[tuple[str, tuple[str, ...], GroupPlan | None]]:
    """The same with the section of the plan that the stick resembles most: its legs are alike, the fewest reasons speak against it."""
    usable = {planned.stick.id for group in plan.groups for planned in group.sticks}
    found = []
    for stick in rack.sticks:
        if stick.id in usable:
            continue
        best: tuple[int, int] | None = None
        chosen: tuple[tuple[str, ...], GroupPlan | None] = ((), None)
        for number, group in enumerate(plan.groups):
            if {stick.section.leg_a, stick.section.leg_b} != {group.section.leg_a, group.section.leg_b}:
                continue
            reasons = _reasons(stick, group, job)
            if reasons and (best is None or (len(reasons), number) < best):
                best, chosen = (len(reasons), number), (reasons, group)
        if best is None:
            chosen = ((f"{stick.id} is {stick.section.size}, {stick.alloy or 'alloy unknown'}: no part of this job is.",), None)
        found.append((stick.id, *chosen))
    return found


def _reasons(stick: Stick, group: GroupPlan, job: Job) -> tuple[str, ...]:
    """Why no part of a section may be cut from a stick."""
    parts = parts_of(group, job)
    free = [part for part in parts if not part.only_stick] or parts
    return refusals(free[0], stick) if free else ()


def parts_of(group: GroupPlan, job: Job) -> list[Part]:
    """The parts of a job that a section of its plan is for, those whose legs are named the other way round last."""
    parts = [part for part in job.parts if part.alloy == group.alloy]
    alike = [part for part in parts if part.section == group.section]
    return alike + [part for part in parts if part not in alike and part.section.swapped() == group.section]


# --- one section ------------------------------------------------------------------------------------------
def _section(group: GroupPlan, job: Job, unused: Sequence[tuple[str, tuple[str, ...]]], on: Paper, limits: Limits) -> list[Page]:
    width = on.room
    blocks: list[Block] = [_proof(group, job.shop, width)]
    blocks += [_shortage(shortage, job, width) for shortage in group.shortages]
    longest = max((float(s.stick.length) for s in group.sticks), default=1.0)
    unit = min((width - 14) / longest, 25.4)
    for stick in group.sticks:
        if stick.touched or stick.held:
            blocks.append(_stick(stick, unit, width))
    idle = [s.stick for s in group.sticks if not (s.touched or s.held)]
    if idle:
        words = ", ".join(f"{stick.id} ({exact(stick.length)})" for stick in idle)
        blocks.append(_paragraph(f"Not needed, left as they are: {words}.", width))
    if unused:
        blocks.append(heading(0, 0, "Not to be used for these parts", width))
        blocks[-1] = (blocks[-1][0], -blocks[-1][1])
        blocks += [_refusal(name, reasons, width) for name, reasons in unused]
    blocks += holes_blocks(parts_of(group, job), limits, width)
    title = f"Plan for {group.title}"
    scale = f"lengths 1:{25.4 / unit:.0f}, heights not to scale; {unit_word()}, from the datum end at the left"
    return flow(title, scale, blocks, on, _sentence(group))


def _paragraph(text: str, width: float) -> Block:
    items, low = block(0, 0, text, width)
    return items, -low


def _proof(group: GroupPlan, shop: Shop, width: float) -> Block:
    """What is proven, in words, and how the cuts are read."""
    items, low = block(0, 0, group.sentence, width)
    words = (
        "Trim and square the datum end, mark every line from it, then cut in this order: the saw on the far side of each line, "
        "the edge of the ink next to the blank is the dimension. Taper first (T1, T2): cut the taper at that end before this cut, "
        "while the stick holds the blank. Tick each cut that is done."
    )
    more, low = block(0, low - 1.0, words, width)
    clamp = f"Less than {own_spoken(shop.hand_minimum)} is in the hand at this cut: clamp it, do not hand-hold."
    low -= 0.8
    sign = warning_sign(0, low - 2.9, 3.0)
    return (*items, *more, *sign, Label(4.6, low - 0.2, clamp, SMALL, "start", "top")), 4.0 - low


def _shortage(shortage, job: Job, width: float) -> Block:
    """A part of which not all can be made, and why."""
    part = job.part(shortage.part_id)
    short = f", {both(shortage.short_by, 64, 'up')} short" if shortage.short_by else ""
    proven = "" if shortage.proven else " (not proven)"
    words = (
        f"SHORT: {shortage.missing} of {part.quantity} x {part.name} ({part.id}), blank {in_unit(shortage.blank, part.unit, both)}{short}{proven}. "
        + " ".join(shortage.reasons)
    )
    text, low = block(6, -0.4, words, width - 6)
    return (*warning_sign(0, -3.4, 3.2), *text), -low


def _refusal(name: str, reasons: Sequence[str], width: float) -> Block:
    text, low = block(18, 0, " ".join(reasons), width - 18)
    return (Label(0, 0, shortened(name, 17, SMALL), SMALL, "start", "top"), *text), -low


# --- one stick ----------------------------------------------------------------------------------------------
def drawn_stick(planned: StickPlan) -> rack_view.DrawnStick:
    """The stick as the drawing of a rack wants it, from its datum end."""
    stick, datum = planned.stick, planned.datum
    placed = [*planned.placed, *planned.held]
    cuts = tuple(
        rack_view.Cut(p.blank.part.id + (", held" if p in planned.held else ""), p.start - datum, p.end - datum, p.sawn)
        for p in placed
    )
    kerf = planned.cuts[-1].kerf if planned.cuts else 0
    last = max((p.end + (kerf if p.sawn else 0) for p in placed), default=datum)
    remains = stick.length - last if stick.length - last >= LEAST else None
    dents = tuple((max(a - datum, 0), b - datum) for a, b in stick.dents if b > datum)
    note = f"{exact(stick.length)} long" + (", remnant" if stick.remnant else "")
    kept = next((r.stick.id for r in planned.remnants if r.end == stick.length and r.stick.id != stick.id), "")
    return rack_view.DrawnStick(stick.id, stick.length - datum, cuts, remains, dents, "", note, kept)


def _stick(planned: StickPlan, unit: float, width: float) -> Block:
    """One stick: drawn, its cuts in order, what goes back on the rack."""
    stick = drawn_stick(planned)
    with unit_in_head():  # the page says it under its title
        view = rack_view.stick_view(stick, unit, letter=SMALL, high=width)
        left, low, right, high = bounds(view)
        items: list[Item] = list(move(view, -min(left, 0.0) if left < 0 else 0.5, -high))
        y = low - high - 2.0
        drawn, y = (_rows if len(planned.cuts) <= LIST else _columns)(planned.cuts, planned.datum, y, width)
    items += drawn
    for words in back_on_the_rack(planned):
        text, y = block(0, y - 0.8, words, width)
        items += text
    return tuple(items), -y


def what_is_cut(cut: Cut, datum: Fraction = Fraction(0)) -> str:
    """What a cut frees."""
    return str(cut.blank) if cut.blank is not None else {TRIM: f"trim {own(datum)}, square", CLEAR: "clear the dent"}[cut.kind]


def line_words(cut: Cut) -> str:
    """Where a cut's line is, from the datum end."""
    return "0" if cut.kind == TRIM else both(cut.line)


def _rows(cuts: Sequence[Cut], datum: Fraction, y: float, width: float) -> tuple[Group, float]:
    """The cuts of a stick, one a row: what is parted off, its line, what to mind."""
    items: list[Item] = []
    at = 96.0
    figure = max((text_width(line_words(cut), FIGURE) for cut in cuts), default=0.0) + 4
    for number, cut in enumerate(cuts, 1):
        name = f"{cut.blank.part.name}  {what_is_cut(cut)}" if cut.blank is not None else what_is_cut(cut, datum)
        items.append(box(0.3, y - 4.2, TICK, TICK))
        items.append(Label(9, y - 1.4, str(number), SMALL, "end", "top"))
        items.append(Label(11, y - 1.4, shortened(name, at - 13, SMALL), SMALL, "start", "top"))
        items.append(Label(at, y - 0.7, line_words(cut), FIGURE, "start", "top"))
        x = at + figure
        minded = "; ".join(words for words in (made_first(cut), "lies reversed" if lies(cut) else "") if words)
        items.append(Label(x, y - 1.4, shortened(minded, width - 17 - x, SMALL), SMALL, "start", "top"))
        if cut.clamp:
            items += warning_sign(width - 16.5, y - 4.2, 3.2)
            items.append(Label(width, y - 1.4, "clamp", SMALL, "end", "top"))
        y -= ROW
        items.append(Line(0, y + 0.3, width, y + 0.3, "narrow"))
    return tuple(items), y


def _columns(cuts: Sequence[Cut], datum: Fraction, y: float, width: float) -> tuple[Group, float]:
    """Many cuts in two columns, down the first and then down the second; what to mind is a letter or a sign."""
    deep = (len(cuts) + 1) // 2
    half = width / 2
    items: list[Item] = []
    figure = max(text_width(line_words(cut), FIGURE) for cut in cuts) + 2
    name = half - figure - 23.5
    for i, cut in enumerate(cuts):
        x, top = (half + 1 if i >= deep else 0.0), y - (i % deep) * ROW
        items.append(box(x + 0.3, top - 4.2, TICK, TICK))
        items.append(Label(x + 9, top - 1.4, str(i + 1), SMALL, "end", "top"))
        items.append(Label(x + 11, top - 1.4, shortened(what_is_cut(cut, datum), name - 0.6, SMALL), SMALL, "start", "top"))
        items.append(Label(x + 11 + name, top - 0.7, line_words(cut), FIGURE, "start", "top"))
        at = x + 11 + name + figure
        if made_first_letters(cut):
            items.append(Label(at, top - 1.4, made_first_letters(cut), SMALL, "start", "top"))
        if cut.clamp:
            items += warning_sign(x + half - 6.5, top - 4.2, 3.2)
        items.append(Line(x, top - ROW + 0.3, x + half - 2, top - ROW + 0.3, "narrow"))
    return tuple(items), y - deep * ROW


def back_on_the_rack(planned: StickPlan) -> list[str]:
    """What is held, and what goes back on the rack."""
    words = []
    for held in planned.held:
        words.append(f"Hold {in_unit(held.blank.length, held.blank.part.unit, both)} for {held.blank}: not cut now.")
    back = [remnant for remnant in planned.remnants if remnant.stick.id != planned.stick.id]
    for remnant in back:
        words.append(
            f"Back on the rack: {remnant.stick.id}, {show(remnant.stick.length, 64, 'down')} long; write its id and {remnant.stick.alloy} on it."
        )
    if planned.touched and not back:
        words.append("Nothing that is left of it is long enough to keep.")
    return words


def _sentence(group: GroupPlan) -> str:
    """The plan of a section in words, for those who cannot see the drawing."""
    rows = []
    for planned in group.sticks:
        if not planned.touched:
            continue
        counts = [f"{len(list(run))} x {name}" for name, run in groupby(p.blank.part.id for p in planned.placed)]
        rows.append(f"from {planned.stick.id} {', '.join(counts)}")
    return f"Plan for {group.title}: {'; '.join(rows) or 'nothing is cut'}. {group.sentence}"


def sticks_of(plan: Plan, part_id: str) -> tuple[str, ...]:
    """The sticks that a part's blanks come from, with how many: "S-04 (2)"."""
    found = []
    for planned in plan.sticks:
        count = sum(p.blank.part.id == part_id for p in planned.placed)
        held = sum(p.blank.part.id == part_id for p in planned.held)
        if count:
            found.append(f"{planned.stick.id} ({count})")
        if held:
            found.append(f"{planned.stick.id} (held: {held})")
    return tuple(found)

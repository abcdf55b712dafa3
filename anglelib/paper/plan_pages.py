"""The plan on paper: the sticks of each section to scale, and for each the cuts in order from its datum end.

A cut has two numbers, and both stand in its row: the plan's, from the stick's datum end, where every line is marked before
the first cut; and the one on the part's card, from the end of the blank that is squared first.

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
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby

from anglelib.drawing import rack_view
from anglelib.drawing.checks import bounds
from anglelib.drawing.letters import text_width
from anglelib.drawing.on_stick import on_stick
from anglelib.drawing.sheet import Item, Label, move
from anglelib.geometry.ends import first_end
from anglelib.geometry.rough_words import how_rough
from anglelib.geometry.work_words import hand_words
from anglelib.job import Job, Shop
from anglelib.lengths import exact, own, unit_in_head, unit_word, writing
from anglelib.paper.cut_rows import row_blocks
from anglelib.paper.page import SMALL, Block, Page, Paper, block, flow, heading, shortened, warning_sign
from anglelib.paper.plan_holes import holes_blocks
from anglelib.part import Part, other_end
from anglelib.stock.cut_list import back_on_the_rack, laid_words, listed
from anglelib.stock.cut_words import stand_words
from anglelib.stock.pin_words import sticks_words
from anglelib.stock.plan import CUTS, GroupPlan, Placed, Plan, Shortage, StickPlan
from anglelib.stock.plan_words import held_words, jobs_words, shortage_words
from anglelib.stock.rack import Rack, Stick
from anglelib.stock.reason_words import grouped
from anglelib.stock.reasons import Reason
from anglelib.stock.set_ups import SetUp, set_ups
from anglelib.stock.several_jobs import own_parts
from anglelib.stock.unused import refused, unused_at
from anglelib.stock.wording import and_more
from anglelib.tolerances import Limits

__all__ = ["lots_of", "plan_pages", "refused", "sticks_of", "unused_at"]
LEAST = Fraction(1, 64)
"""What is shorter is not drawn as a piece that remains [in]."""


def plan_pages(plan: Plan, job: Job, rack: Rack, on: Paper, limits: Limits | None = None) -> list[Page]:
    """The pages of every section of a plan, each in its parts' unit; the last one ends with the sticks that serve no part.

    ``limits`` are those that the cards are written with, and that the holes' edges are reckoned with (else the job's).
    """
    with writing(job.unit):
        return _pages(plan, job, rack, on, limits or job.limits)


def _pages(plan: Plan, job: Job, rack: Rack, on: Paper, limits: Limits) -> list[Page]:
    unused = unused_at(plan, job, rack)
    pages: list[Page] = []
    for number, group in enumerate(plan.groups):
        against = [(name, reasons) for name, reasons, home in unused if home is group]
        with writing(job.unit_for(group.section, group.alloy)):
            pages += _section(group, plan, job, against, on, limits, explained=not number)
    elsewhere = [_refusal(*said, on.room) for said in grouped([(name, reasons) for name, reasons, home in unused if home is None])]
    if elsewhere:
        title = "Sticks that serve no part of this job"
        pages += flow(title, "", elsewhere, on, f"{title}.")
    return pages


# --- one section ------------------------------------------------------------------------------------------
def parts_of(group: GroupPlan, job: Job) -> list[Part]:
    """The parts of a job that a section of its plan is for, those whose legs are named the other way round last."""
    parts = [part for part in own_parts(job).parts if part.alloy == group.alloy]
    alike = [part for part in parts if part.section == group.section]
    return alike + [part for part in parts if part not in alike and part.section.swapped() == group.section]


def _section(
    group: GroupPlan, plan: Plan, job: Job, unused: Sequence[tuple[str, tuple[Reason, ...]]], on: Paper, limits: Limits, explained: bool
) -> list[Page]:
    width, shop = on.room, job.shop
    blocks: list[Block] = [_paragraph(proven(group), width)]
    if explained and (of := [*held_words(job, plan), *filter(None, [jobs_words(job)])]):
        blocks.append(_paragraph(" ".join(of), width))
    if asked := sticks_words(parts_of(group, job)):
        blocks.append(_paragraph(asked, width))
    if explained:
        blocks.append(_how(shop, width))
    blocks += [_shortage(shortage, job, width) for shortage in group.shortages]
    longest = max((float(s.stick.length) for s in group.sticks), default=1.0)
    unit = min((width - 14) / longest, 25.4)
    made = set_ups(group.sticks)
    for stick in group.sticks:
        if stick.touched or stick.held:
            blocks += _stick(stick, unit, width, shop, limits, made)
    idle = [s.stick for s in group.sticks if not (s.touched or s.held)]
    if idle:
        words = and_more([f"{stick.id} ({exact(stick.length)})" for stick in idle])
        blocks.append(_paragraph(f"Not needed, left as they are: {words}.", width))
    if unused:
        items, low = heading(0, 0, "Not to be used for these parts", width)
        blocks.append((items, -low))
        blocks += [_refusal(*said, width) for said in grouped(unused)]
    blocks += holes_blocks(parts_of(group, job), limits, width)
    title = f"Plan for {group.title}"
    scale = f"lengths 1:{25.4 / unit:.0f}, heights not to scale; {unit_word()}, from the datum end at the left"
    return flow(title, scale, blocks, on, _sentence(group))


def proven(group: GroupPlan) -> str:
    """What is proven of a section, without the number of cuts: they are listed."""
    return " ".join([*group.said_of_pick, *(proof.sentence for proof in group.proofs if proof.id != CUTS)])


def _paragraph(text: str, width: float) -> Block:
    items, low = block(0, 0, text, width)
    return items, -low


def how_words(shop: Shop) -> list[str]:
    """How the plan is read and followed: a paragraph each."""
    took = f": squaring takes {own(shop.allowance)} off that end, and the line stays where it is" if shop.allowance else ""
    return [
        "Trim and square the datum end, mark every line from it before the first cut, then cut in this order: the saw on the far side of "
        "each line, the edge of the ink next to the blank is the dimension. Tick each cut that is done.",
        "Each line has two numbers. The large one is from the stick's datum end. The small one is its card's: the same line from the "
        f"near end of its own blank, once that end is squared{took}. Where a cut takes the end away, the card reads from the witness line.",
        "A saw set-up is a change of stop, angle or pose, numbered in the order of the plan; a row without one is sawn as the saw stands.",
        '"End 1 first: taper A" is done before the cut of that row, while the stick holds the blank; in letters T1 for a taper at end 1, '
        "C2 for a cope at end 2.",
        "In the picture the stick is seen from outside, heel down; 1 and 2 are the ends of a part. With end 1 at the left its leg B is "
        "towards you, with end 2, reversed, its leg A. Thin lines in a blank are its tapers and copes to come, dashed on the leg behind.",
        *filter(None, [how_rough(shop)]),
    ]


def _how(shop: Shop, width: float) -> Block:
    items, y = heading(0, 0, "How to read the plan", width)
    drawn: list[Item] = [*items]
    for words in how_words(shop):
        text, y = block(0, y, words, width)
        drawn += text
        y -= 0.7
    clamp = f"Clamp: the part is under {hand_words(shop)}, or both pieces that the cut leaves are. Do not hand-hold it."
    drawn += [*warning_sign(0, y - 2.9, 3.0), Label(4.6, y - 0.2, clamp, SMALL, "start", "top")]
    return tuple(drawn), 4.0 - y


def _shortage(shortage: Shortage, job: Job, width: float) -> Block:
    """A part of which not all can be made, and why."""
    text, low = block(6, -0.4, shortage_words(shortage, job), width - 6)
    return (*warning_sign(0, -3.4, 3.2), *text), -low


def _refusal(name: str, why: str, width: float) -> Block:
    text, low = block(18, 0, why, width - 18)
    return (Label(0, 0, shortened(name, 17, SMALL), SMALL, "start", "top"), *text), -low


# --- one stick ----------------------------------------------------------------------------------------------
def drawn_stick(planned: StickPlan, shop: Shop) -> rack_view.DrawnStick:
    """The stick as the drawing of a rack wants it, from its datum end; turned, where all of it is sawn from end 2."""
    stick = planned.stick
    placed = sorted((*planned.placed, *planned.held), key=lambda p: p.start)
    turned = planned.turned_datum is not None and not any(not cut.turned for cut in planned.cuts)
    datum = planned.turned_datum if turned else planned.datum

    def seen(begin: Fraction, end: Fraction) -> tuple[Fraction, Fraction]:
        return (datum - end, datum - begin) if turned else (begin - datum, end - datum)  # type: ignore[operator]

    def lies(p: Placed) -> tuple[Fraction, Fraction]:
        return (p.start + p.back, p.end) if p.turned else (p.start, p.end - p.back)

    drawn = (_drawn(p, stick, *seen(*lies(p)), turned, p in planned.held, shop) for p in placed)
    cuts = tuple(sorted(drawn, key=lambda cut: cut.start))
    bands = [seen(*cut.dust) for cut in planned.cuts]
    length = seen(Fraction(0), stick.length)[1]
    other = seen(planned.turned_datum, planned.turned_datum)[0] if planned.turned_datum is not None and not turned else None
    taken = [band for band in bands if band[1] > 0] + [(cut.start, cut.end) for cut in cuts]
    rest = _longest_gap(taken, other if other is not None else length)
    dents = tuple((max(a, Fraction(0)), b) for a, b in (seen(*dent) for dent in stick.dents) if b > 0)
    note = f"{exact(stick.length)} long" + (", remnant" if stick.remnant else "") + (f", lot {stick.lot}" if stick.lot else "")
    kept = [r for r in planned.remnants if r.stick.id != stick.id and rest is not None and seen(r.start, r.end)[0] <= rest[0] < seen(r.start, r.end)[1]]
    remains = rest[1] - rest[0] if rest is not None and rest[1] - rest[0] >= LEAST else None
    return rack_view.DrawnStick(
        stick.id, length, cuts, remains, tuple(sorted(dents)), "", note, kept[0].stick.id if kept else "", rest[1] if rest is not None else None, other
    )


def _longest_gap(taken: Sequence[tuple[Fraction, Fraction]], length: Fraction) -> tuple[Fraction, Fraction] | None:
    """What lies beyond everything that is sawn from the datum end, up to what is sawn from the other."""
    at, gaps = Fraction(0), []
    for begin, end in sorted(taken):
        if begin > at:
            gaps.append((at, begin))
        at = max(at, end)
    if length > at:
        gaps.append((at, length))
    return gaps[-1] if gaps else None


def _drawn(placed: Placed, stick: Stick, start: Fraction, end: Fraction, turned: bool, held: bool, shop: Shop) -> rack_view.Cut:
    """A blank as it is drawn from ``start`` to ``end``; ``turned``: the whole stick is. With unequal legs the stick says which leg is seen."""
    part = placed.blank.part
    leg = ""
    if not stick.section.equal_legs:
        leg = "A" if turned == (part.section == stick.section) else "B"
    faces = first_end(part)  # towards the datum end that it is sawn from
    at_right = placed.turned and not turned
    left = other_end(faces) if at_right else faces
    return on_stick(part, part.id + (", held" if held else ""), start, end, left, shop.allowance, placed.sawn, at_right, leg)


def _stick(planned: StickPlan, unit: float, width: float, shop: Shop, limits: Limits, made: Sequence[SetUp]) -> list[Block]:
    """One stick: drawn, its cuts in order, what goes back on the rack."""
    drawn, laid = drawn_stick(planned, shop), laid_words(planned)
    titled = replace(drawn, note=f"{drawn.note}; {laid}") if laid else drawn
    beside = text_width(f"{titled.id}, {titled.note}", SMALL) < width - 2
    with unit_in_head():  # the page says it under its title
        view = rack_view.stick_view(titled if beside else drawn, unit, letter=SMALL, high=width)
    left, low, right, high = bounds(view)
    items: list[Item] = list(move(view, -min(left, 0.0) if left < 0 else 0.5, -high))
    y = low - high - 2.0
    if laid and not beside:
        text, y = block(0, y, f"{laid[0].upper()}{laid[1:]}.", width)
        items += text
    if words := stand_words(planned, shop):
        text, y = block(0, y, words, width)
        items += text
    lists = row_blocks(listed(planned, shop, limits, made), width, planned.stick.id)
    blocks: list[Block] = []
    if lists:
        rows, deep = lists[0]
        items += move(rows, 0, y)
        y -= deep
        blocks = list(lists[1:])
    blocks.insert(0, (tuple(items), -y))
    last, y = list(blocks[-1][0]), -blocks[-1][1]
    for words in back_on_the_rack(planned, shop, limits):
        text, y = block(0, y - 0.8, words, width)
        last += text
    blocks[-1] = tuple(last), -y
    return blocks


def _sentence(group: GroupPlan) -> str:
    """The plan of a section in words, for those who cannot see the drawing."""
    rows = []
    for planned in group.sticks:
        if not planned.touched:
            continue
        counts = [f"{len(list(run))} x {name}" for name, run in groupby(p.blank.part.id for p in planned.placed)]
        rows.append(f"from {planned.stick.id} {', '.join(counts)}")
    return f"Plan for {group.title}: {'; '.join(rows) or 'nothing is cut'}. {proven(group)}"


def sticks_of(plan: Plan, part_id: str, lots: bool = True) -> tuple[str, ...]:
    """The sticks that a part's blanks come from, with how many, and with their lot where it is known: "S-04 (2)", "S-07 (1, lot 4711)"."""
    found = []
    for planned in plan.sticks:
        count = sum(p.blank.part.id == part_id for p in planned.placed)
        held = sum(p.blank.part.id == part_id for p in planned.held)
        lot = f", lot {planned.stick.lot}" if lots and planned.stick.lot else ""
        if count:
            found.append(f"{planned.stick.id} ({count}{lot})")
        if held:
            found.append(f"{planned.stick.id} (held: {held}{lot})")
    return tuple(found)


def lots_of(plan: Plan, part_id: str) -> tuple[str, ...]:
    """The lots that a part's blanks come from, with how many, those without one last: "4711 (2)", "none known (1)"; none where no stick of it has one."""
    found: Counter[str] = Counter()
    for planned in plan.sticks:
        found[planned.stick.lot] += sum(p.blank.part.id == part_id for p in planned.placed)
    known = sorted(lot for lot, number in found.items() if lot and number)
    return tuple(f"{lot or 'none known'} ({found[lot]})" for lot in [*known, *([""] if found[""] else [])]) if known else ()

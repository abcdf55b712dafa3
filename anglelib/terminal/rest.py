"""What is left of the plan in hand, on the terminal: the sheets that are not done, as they are on paper."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from anglelib.geometry.rough_words import how_rough
from anglelib.job import Job
from anglelib.lengths import show, unit_word, unit_written, writing
from anglelib.lines import wrapped
from anglelib.paper.plan_in_hand import Shown
from anglelib.stock.in_hand import part_way, to_do
from anglelib.stock.part_way import still_lying
from anglelib.stock.plan import StickPlan
from anglelib.stock.plan_words import held_words, jobs_words, shortage_words
from anglelib.stock.record import Record
from anglelib.stock.set_ups import set_ups
from anglelib.stock.several_jobs import own_parts
from anglelib.stock.wording import and_more, counted
from anglelib.terminal.words import HOW, done_lines, stick_lines


def rest_lines(now: Shown, wanted: Job, job: Job, record: Record, head: Sequence[str] = ()) -> list[str]:
    """What is left of the plan in hand: the sheets that are not done, as they are on paper, with the numbers of their rows.

    ``head`` are lines for behind the first sentence.
    """
    hand, rows = now.hand, part_way(now.hand, record)
    left = {stick.stick.id: stick for stick in to_do(hand, record)}
    own = own_parts(wanted)
    lying = Counter(p.blank.part.id for name, stick in left.items() for p in still_lying(stick, rows.get(name, 0)).placed)
    are = "that is left is" if own.pieces == 1 else "that are left are"
    lines = wrapped(f"{job.name}: {lying.total()} of {counted(own.pieces, 'piece')} {are} planned, from {counted(len(left), 'stick')}.")
    for said in (*held_words(wanted, hand.plan), jobs_words(job)):
        lines += wrapped(said)
    lines += [*head, *_not_planned(now, own, lying), *done_lines(record, job), "", *wrapped(f"{HOW} {unit_word().capitalize()}.")]
    lines += wrapped(how_rough(hand.shop))
    for group in hand.plan.groups:
        sticks = [stick for stick in group.sticks if stick.stick.id in left or (stick.held and not stick.touched)]
        short = [shortage for shortage in group.shortages if any(part.id == shortage.part_id for part in job.parts)]
        if not sticks and not short:
            continue
        with writing(job.unit_for(group.section, group.alloy)):
            title = wrapped(group.title)
            lines += ["", *title, "-" * max(map(len, title))]
            if unit_written() != job.unit:
                lines.append(f"  {unit_word().capitalize()} in this section.")
            for sentence in group.said_of_pick:
                lines += wrapped(sentence, "  ")
            made = set_ups(group.sticks)
            for shortage in short:
                lines += wrapped(shortage_words(shortage, job), "  ", "    ")
            for stick in sticks:
                done = rows.get(stick.stick.id, 0)
                lines += ["", *stick_lines(stick, hand.shop, wanted.limits, done, made, _rest(stick, record) if done else "")]  # type: ignore[arg-type]
    return lines


def _not_planned(now: Shown, wanted: Job, lying: Counter[str]) -> list[str]:
    """What is wanted, and neither on a sheet that is not done, nor held, nor said to be short: it was spoiled, or cut otherwise."""
    have = lying + Counter(placed.blank.part.id for stick in now.hand.plan.sticks for placed in stick.held)
    for shortage in now.hand.plan.shortages:
        have[shortage.part_id] += shortage.missing
    lacking = [f"{more} x {part.id}" if more > 1 else part.id for part in wanted.parts if (more := part.quantity - have[part.id]) > 0]
    return wrapped(f"On no sheet any more, and still wanted: {and_more(lacking)}. To plan that too: --anew.") if lacking else []


def _rest(sheet: StickPlan, record: Record) -> str:
    """What is left of a stick that is cut part-way, and how far its lines are from the end that it has now."""
    waits = record.waiting(sheet, record.cut_stick(sheet.stick.id))
    left = [f"{tag}, {show(there.stick.length, 64, 'down')} long" for there, tag in waits]
    said = f": the rest is {' and '.join(left)}"
    cuts = sheet.cuts[record.cut_stick(sheet.stick.id).rows :]
    if len(waits) != 1 or not cuts:
        return said
    there, _ = waits[0]
    turned = {cut.turned for cut in cuts}
    gone = sheet.turned_datum - there.end if turned == {True} and sheet.turned_datum is not None else there.begin - sheet.datum
    if len(turned) > 1 or gone <= 0:
        return said
    return f"{said}. Its datum end is gone: from the end that it has now each line is {show(gone, 64)} less"

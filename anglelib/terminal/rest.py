"""What is left of the plan in hand, on the terminal: the sheets that are not done, as they are on paper."""

from __future__ import annotations

from anglelib.geometry.rough_words import how_rough
from anglelib.job import Job
from anglelib.lengths import unit_word, unit_written, writing
from anglelib.lines import wrapped
from anglelib.paper.plan_in_hand import Shown
from anglelib.stock.in_hand import part_way, to_do
from anglelib.stock.part_way import still_lying
from anglelib.stock.plan_words import held_words, jobs_words, shortage_words
from anglelib.stock.record import Record
from anglelib.stock.set_ups import set_ups
from anglelib.stock.several_jobs import own_parts
from anglelib.stock.wording import counted
from anglelib.terminal.words import HOW, done_lines, stick_lines


def rest_lines(now: Shown, wanted: Job, job: Job, record: Record) -> list[str]:
    """What is left of the plan in hand: the sheets that are not done, as they are on paper, with the numbers of their rows."""
    hand, rows = now.hand, part_way(now.hand, record)
    left = {stick.stick.id: stick for stick in to_do(hand, record)}
    pieces = sum(len(still_lying(stick, rows.get(name, 0)).placed) for name, stick in left.items())
    lines = wrapped(f"{job.name}: {pieces} of {own_parts(wanted).pieces} pieces that are left are planned, from {counted(len(left), 'stick')}.")
    for said in (*held_words(wanted, hand.plan), jobs_words(job)):
        lines += wrapped(said)
    lines += [*done_lines(record, job), "", *wrapped(f"{HOW} {unit_word().capitalize()}.")]
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
                lines += ["", *stick_lines(stick, hand.shop, wanted.limits, rows.get(stick.stick.id, 0), made)]  # type: ignore[arg-type]
    return lines

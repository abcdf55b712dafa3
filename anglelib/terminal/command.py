"""``python -m anglelib plan``: the plan of a job on a rack, in words and numbers.

Exit codes: 0, everything can be made; 3, something is short; 2, the input has to be put right, and
nothing was written. Ctrl-C ends the search, and the best plan so far is shown.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace

from anglelib.errors import BenchError
from anglelib.job import Job
from anglelib.lines import Parser, say, wrapped
from anglelib.paper.commands import SHORT, Bar, ask_limits, ask_other_jobs, other_jobs, with_limits
from anglelib.paper.plan_in_hand import beside_lines, head_lines, keep, news, noticed, to_show
from anglelib.stock.in_hand import makes_what_is_wanted, marked_from
from anglelib.stock.offers import Offers
from anglelib.stock.record import Record
from anglelib.stock.standing import Standing
from anglelib.terminal import asked as read_as
from anglelib.terminal.bears import BEARS, still_bears
from anglelib.terminal.clock import LATE, Clock
from anglelib.terminal.searching import searched
from anglelib.terminal.words import made_otherwise

PLANNING, SHARE = 0.6, 0.5
"""How much of the time given the plan may take where a purchase is asked for, and each question after it of what is left."""


def main(arguments: Sequence[str]) -> int:
    """What the words after ``plan`` ask for; raises BenchError for what a person can put right."""
    asked = _read(arguments)
    if asked.one:
        from anglelib.terminal.one_now import one_part

        return one_part(asked)
    if asked.done or asked.used or asked.spoiled or asked.undo or asked.serves or asked.mend or asked.rack_is_right:
        from anglelib.terminal.cuts import mark

        return mark(asked)
    return show_plan(asked)


def _read(arguments: Sequence[str]) -> argparse.Namespace:
    parser = Parser(
        prog="python -m anglelib plan",
        description="Which stick each blank comes from, in what order it is cut, what is left, and what is proven of it.",
        epilog="Exit code 0: everything can be made; 3: something is short; 2: something has to be put right first.",
    )
    parser.add_argument("job", nargs="?", help="the job file (TOML); without files the demo kit is planned")
    parser.add_argument("rack", nargs="?", help="the rack file (CSV); once a plan is in hand, its own is known")
    whole = parser.add_argument_group("the whole job")
    whole.add_argument("--buy", nargs="?", const="", metavar="LENGTHS",
                       help=(
        "say the smallest purchase if something is short; the lengths sold, default what RACK.offers.csv beside the rack lists, else "
        f"{read_as.SOLD['in']}, of a job in mm {read_as.SOLD['mm']}; the buy command prints and keeps it"))
    others = parser.add_argument_group("several jobs, one rack")
    ask_other_jobs(others)
    whole.add_argument("--within", type=seconds_typed, metavar="SECONDS", help="be done after so many seconds: with the best plan so far, and what is known by then")
    whole.add_argument("--anew", action="store_true", help="plan what is left anew, though a plan is in hand: what is started stays, and what changes is said")
    whole.add_argument("--pick", type=_sections, metavar="SECTION", help=(
        "cut by the runner-up of this section of the plan (1 is the first; several with commas; 0: by the rule in all); the plan, its sheets and marks are then so"))
    ask_limits(whole, ", where the pack is made with them too")
    one = parser.add_argument_group("one part now")
    one.add_argument("--one", nargs=3, metavar=("SECTION", "ALLOY", "LENGTH"), help='which stick for one part, like --one "3/4 x 3/4 x 1/8" 6061-T6 "17 1/4"')
    one.add_argument("--rack", dest="rack_only", metavar="FILE", help="the rack, where no list of parts is to be thought of")
    one.add_argument("--part", default="", metavar="ID", help="it is one piece of this part of the job")
    one.add_argument("--left-long", default="", metavar="EXTRA", help="so much is left on it, to be trimmed when it is fitted")
    done = parser.add_argument_group("cuts done, marked in the rack file")
    done.add_argument("--done", action="append", metavar="STICK", help=(
        'a stick is cut as its sheet says (S-05), to a row of it (S-05:3), or as you say ("S-05: A4, 2 x A3"); several with commas, or the option again'))
    done.add_argument("--plan", default="", metavar="NUMBER", help="the number on the sheet that was followed; another than the plan in hand is refused")
    done.add_argument("--as-printed", action="store_true", help="it was cut as its sheet says, although job or blade are others since")
    done.add_argument("--used", action="append", metavar="STICK", help='a stick was used for something else (S-07), or a length of it ("S-07: 20")')
    done.add_argument("--spoiled", action="append", metavar="PIECE", help=(
        'a piece that is marked as cut is spoiled and wanted again; what is left of it goes back on the rack ("S-05: A3 leaves 12"), or it is "S-05: A3 scrap"'))
    done.add_argument("--undo", action="append", metavar="STICK", help="a stick was marked as cut by mistake: it is back in its place")
    done.add_argument("--serves", action="append", metavar="PART", help="pieces that were made to another version of a part serve as it is now")
    done.add_argument("--mend", action="store_true", help="an older copy of the rack was saved over it: put back the marks that it has lost")
    done.add_argument("--rack-is-right", action="store_true", help="the rack is right as it is, although its journal says otherwise")
    return parser.parse_args(arguments)


def seconds_typed(text: str) -> float:
    """A number of seconds as it is typed."""
    seconds = float(text)
    if not 0 < seconds < 1e6:
        raise ValueError
    return seconds


def _sections(text: str) -> tuple[int, ...]:
    numbers = tuple(int(word) for word in text.split(","))
    if min(numbers) < 0:
        raise ValueError
    return tuple(sorted({number for number in numbers if number}))


_sections.__name__ = "number of a section"
seconds_typed.__name__ = "number of seconds"  # argparse names it when it refuses a word


def show_plan(asked: argparse.Namespace) -> int:
    """The whole job, planned and said; with files of one's own the plan is kept beside the job."""
    from anglelib.files import plan_home, read_both
    from anglelib.lengths import writing

    clock = Clock(asked.within)
    own = asked.job is not None
    job_file, rack_file = read_as.files(asked.job, asked.rack, asked.together)
    hold, beside = other_jobs(asked)
    if own:
        read_both(job_file, rack_file, hold, beside)  # what is wrong in them is said first
        noticed(rack_file)
    job, record = read_both(job_file, rack_file, hold, beside)
    with writing(job.unit):
        return _show_plan(asked, job, record, plan_home(job_file, beside) if own else "", rack_file, clock)


def _show_plan(asked: argparse.Namespace, job: Job, record: Record, job_file: str, rack_file: str, clock: Clock) -> int:
    from anglelib.terminal.rest import rest_lines
    from anglelib.terminal.words import plan_lines

    limits = with_limits(job, asked).limits
    sold = read_as.sold(asked.buy, "", rack_file, job.unit) if asked.buy is not None else None
    shown = to_show(job_file, job, record, searched, asked.within, asked.anew, share=PLANNING if sold is not None else 1.0, pick=asked.pick)
    if shown is None:
        say(f"{job.name}: everything is marked as made; nothing is left to plan.")
        return 0
    now = replace(shown.standing, job=replace(shown.standing.job, limits=limits))
    fresh = shown.new or not marked_from(shown.hand, record) and makes_what_is_wanted(shown.hand, job, record)
    if fresh:
        from anglelib.stock.checker import check

        check(now.printed, now.job, now.rack)
    if job_file:
        keep(job_file, shown, rack_file)
    head = [*head_lines(shown, record, rack_file, job_file), *beside_lines(job_file, shown.hand)] if job_file else []
    head += made_otherwise(record, job)
    say("\n".join(plan_lines(now, record, head, news(shown, record)) if fresh else rest_lines(shown, now.job, job, record, head)))
    if fresh and not now.plan.interrupted:
        say("\n".join([*_freed(now, clock), *_bears(now, clock)]))
    elif not fresh and (bears := still_bears(shown.hand, job, record, clock.left(SHARE))):
        say("\n".join(["", BEARS, *bears]))
    if sold is not None:
        say("\n".join(["", "To buy", *_bought(now, record, job_file, sold, clock)]))
    if fresh and not now.plan.interrupted:
        say("\n".join(_runner_up(now, clock)))
    if clock.over and not now.plan.interrupted:
        say("\n".join(["", *wrapped(LATE)]))
    return SHORT if any(job.held_for(shortage.part_id) is None for shortage in now.plan.shortages) else 0


def _freed(now: Standing, clock: Clock) -> list[str]:
    """What would free a part that is short, if the kit's plans allow it."""
    from anglelib.stock.shortage import ways_out

    if not now.plan.shortages:
        return []
    ways = _shown("looking for what would free a short part", lambda: ways_out(now.job, now.rack, now.plan, seconds=clock.left(SHARE)))
    said = [way.sentence for way in ways] or ["No part, shortened or spliced, was found that would."]
    lines = [line for sentence in said for line in wrapped(sentence, "  ", "    ")]
    return ["", "What would free what is short, where the kit's plans allow it", *lines]


def _bears(now: Standing, clock: Clock) -> list[str]:
    """Which part may not be spoiled, what blade and tape the plan bears, what could still be made."""
    from anglelib.stock.robust import robustness
    from anglelib.stock.several_jobs import own_parts
    from anglelib.stock.what_if import still_possible

    def look() -> list[str]:
        bears = robustness(now.job, now.rack, now.plan, seconds=clock.left(SHARE))
        return [bears.sentence, still_possible(now.job, now.rack, now.plan, own_parts(now.job).parts, seconds=clock.left(SHARE)).sentence]

    sentences = _shown("looking at what the plan bears", look)
    return ["", BEARS, *[line for sentence in sentences for line in wrapped(sentence, "  ")]]


def _runner_up(now: Standing, clock: Clock) -> list[str]:
    """What the runner-up of each section trades; given up first where the time is over."""
    from anglelib.stock.runner_up import runner_ups
    from anglelib.stock.runner_up_words import GIVEN_UP, HOW, NONE

    lines = ["", "The runner-up"]
    if clock.over:
        return [*lines, *wrapped(GIVEN_UP, "  ")]
    found = _shown("looking for the runner-up", lambda: runner_ups(now.job, now.rack, now.plan, seconds=clock.left()))
    said = [one for one in found if one.group is not None or not one.proven]
    for one in said:
        lines += wrapped(f"{one.number}. {one.title}: {one.sentence}", "  ", "     ")
    if not said and found:
        lines += wrapped(NONE, "  ")
    if any(one.group is not None for one in said):
        lines += wrapped(HOW, "  ")
    return lines if found else []


def _bought(now: Standing, record: Record, job_file: str, sold: tuple[Sequence, Offers | None], clock: Clock) -> list[str]:
    from anglelib.files.purchase_file import read_purchase
    from anglelib.stock.bought_for import bought_for
    from anglelib.stock.purchase import smallest_purchase
    from anglelib.stock.purchase_words import held_short, lines
    from anglelib.stock.to_buy import without_what_came

    try:
        kept = read_purchase(job_file) if job_file else None
    except BenchError:  # the buy command says what is wrong with it
        kept = None
    wanted = bought_for(now.job, without_what_came(kept.purchase if kept is not None else None, record), seconds=clock.left(SHARE))
    purchase = _shown("looking for the smallest purchase", lambda: smallest_purchase(wanted.job, now.rack, sold[0], offers=sold[1], seconds=clock.left()))
    return [line for sentence in (*lines(purchase), *held_short(wanted.short)) for line in wrapped(sentence, "  ", "    ")]


def _shown(words: str, do: Callable):
    """Something that takes a while, with its words on the terminal meanwhile."""
    bar = Bar(sys.stderr)
    try:
        bar(0.0, words)
        return do()
    finally:
        bar.close()

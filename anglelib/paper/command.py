"""``python -m anglelib pack``: from a job file and a rack file to the shop pack.

Exit codes: 0, everything can be made; 3, the pack is made and something is short; 2, the input or
the folder has to be put right, and nothing was written.
"""

from __future__ import annotations

import argparse
import datetime
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from anglelib.errors import BenchError
from anglelib.files import plan_home, read_both
from anglelib.files.rack_of_plan import rack_asked
from anglelib.lines import Parser, say
from anglelib.paper.chapters import SHEETS, chosen
from anglelib.paper.commands import DEMO, SHORT, Bar, ask_limits, ask_other_jobs, other_jobs, with_limits
from anglelib.paper.pack import RACK_NAME, make_pack, write_pack
from anglelib.paper.page import PAPERS, paper
from anglelib.paper.plan_in_hand import beside_lines, change_lines, noticed, printing, to_show
from anglelib.paper.print_scale import AS_PRINTED, measured
from anglelib.stock.plan_words import held_words
from anglelib.stock.reason_words import sentences
from anglelib.storage import shown
from anglelib.whole_sets import refuse_folder


def main(arguments: Sequence[str]) -> int:
    """Make the pack that the words after ``pack`` ask for; raises BenchError for what a person can put right."""
    asked = _read(arguments)
    bar = Bar(sys.stderr)
    try:
        job_file, rack_file = _files(asked)
        refuse_folder(asked.out)
        folder = Path(asked.out)
        _refuse(folder, rack_file)
        sheets, scale = chosen(asked.sheets), measured(asked.bar_measured) if asked.bar_measured else AS_PRINTED
        bar(0.0, "reading")
        hold, beside = other_jobs(asked)
        job, record = read_both(job_file, rack_file, hold, beside)
        own = asked.job is not None
        if own:
            noticed(rack_file)
            job, record = read_both(job_file, rack_file, hold, beside)
        job_file = plan_home(job_file, beside)
        limits = with_limits(job, asked).limits
        now = to_show(job_file if own else "", job, record, _tell(bar), None, asked.anew, to_print=own)
        if now is None:
            raise BenchError(f"Everything of {job.name} is marked as made in {shown(rack_file)}: nothing is left to pack.")
        pack = make_pack(
            now.standing.job, now.standing.rack, paper(asked.paper), date=_date(asked.date), limits=limits, sheets=sheets, scale=scale, progress=bar, plan=now.standing.printed,
            whole=job, number=now.hand.title,
        )  # fmt: skip
        printed, listed = printing(job_file, rack_file, now, lambda: write_pack(pack, folder, bar)) if own else write_pack(pack, folder, bar)
    finally:
        bar.close()
    if pack.unprinted:
        say(pack.unprinted)
    say(f"{pack.made} {len(pack.sheets)} pages: {printed}")
    say(f"The rack after cutting: {listed}")
    if own:
        say(f"It is plan {now.hand.title}: the number stands on every sheet, and cuts are marked from this plan.")
        for line in (*change_lines(now), *beside_lines(job_file, now.hand)):
            say(line)
    for words in pack.holes:
        say(words)
    for words in held_words(now.standing.job, now.standing.printed):
        say(words)
    if pack.plan.shortages:
        say(pack.short)
        for shortage in pack.plan.shortages:
            say(f"  {shortage.part_id}: {sentences(shortage.reasons)}")
        return SHORT if any(job.held_for(shortage.part_id) is None for shortage in pack.plan.shortages) else 0
    return 0


def _read(arguments: Sequence[str]) -> argparse.Namespace:
    parser = Parser(
        prog="python -m anglelib pack",
        description=f"Plan a job on a rack and print the shop pack, in the order of the bench: {', '.join(SHEETS)}.",
        epilog="Exit code 0: everything can be made; 3: made, and something is short; 2: something has to be put right first.",
    )
    parser.add_argument("job", nargs="?", help="the job file (TOML); without files the demo kit is packed")
    parser.add_argument("rack", nargs="?", help="the rack file (CSV)")
    parser.add_argument("--out", default="shop-pack", metavar="DIR", help="the folder to write to (default: shop-pack)")
    parser.add_argument("--paper", default="letter", choices=sorted(PAPERS), help="the paper (default: letter, which an A4 printer can print too)")
    parser.add_argument("--anew", action="store_true", help="plan what is left anew, though a plan is in hand: what is started stays, and what changes is said")
    ask_other_jobs(parser)
    parser.add_argument("--date", default="", metavar="YYYY-MM-DD", help="the date on the pages (default: today)")
    ask_limits(parser, " (plan and check the job by the same ones)")
    parser.add_argument(
        "--sheets",
        default="",
        metavar="NAMES",
        help=f"which sheets, for example plan,tags (default: all): {'; '.join(f'{name}, {what}' for name, what in SHEETS.items())}",
    )
    parser.add_argument(
        "--bar-measured",
        default="",
        metavar="LENGTH",
        help='what a check bar measures on your print: "99.2 mm" for the 100 mm bar, "3.97 in" for the 4 in. bar; two, with a comma, for across '
        "and up the page; what is drawn at 1:1 then makes up for the printer",
    )
    return parser.parse_args(arguments)


def _tell(bar: Bar) -> Callable:
    """What makes a plan with the bar shown."""
    return lambda make: make(progress=lambda share, words: bar(0.5 * share, "planning"), stop=None)


def _files(asked: argparse.Namespace) -> tuple[str, str]:
    if asked.job is not None and asked.rack is not None:
        return asked.job, asked.rack
    if asked.job is not None:
        return asked.job, rack_asked(plan_home(asked.job, asked.together), "python -m anglelib pack JOB RACK --out DIR")
    if not (DEMO / "job.toml").is_file():
        raise BenchError("The demo kit is not beside the package: name a job file and a rack file.")
    return str(DEMO / "job.toml"), str(DEMO / "rack.csv")


def _refuse(folder: Path, rack_file: str) -> None:
    """What would go wrong only after the work is done, or would lose a file."""
    if (folder / RACK_NAME).exists() and os.path.exists(rack_file) and os.path.samefile(folder / RACK_NAME, rack_file):
        raise BenchError(
            f"{RACK_NAME} in {folder} is the rack that is read, and the rack after cutting would take its place: "
            "rename it to rack.csv, or choose another --out."
        )


def _date(text: str) -> datetime.date:
    if not text:
        return datetime.date.today()
    try:
        return datetime.date.fromisoformat(text)
    except ValueError:
        raise BenchError(f'The date "{text[:20]}" is not a day: write it like 2024-05-01.') from None

"""``python -m anglelib class``: from a number of learners to the class pack.

Exit codes: 0, made; 3, made, and the day is longer than wanted; 2, the input or the folder has to be put right, and nothing was written.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path

from anglelib.errors import BenchError
from anglelib.lengths import several
from anglelib.lines import Parser, say
from anglelib.paper.commands import SHORT, Bar
from anglelib.paper.page import PAPERS
from anglelib.stock.purchase import LENGTHS
from anglelib.whole_sets import refuse_folder
from anglelib.workshop.class_pack import make_class_pack, write_class_pack
from anglelib.workshop.class_plan import MINUTES, MOST_LEARNERS, ClassWanted, day, station_minutes


def main(arguments: Sequence[str]) -> int:
    """Make the class pack that the words after ``class`` ask for; raises BenchError for what a person can put right."""
    asked = _read(arguments)
    wanted = ClassWanted(
        _number(asked.learners, "--learners"), asked.hours, _number(asked.saws, "--saws"), _number(asked.discs, "--discs"), _number(asked.wheels, "--wheels"),
        _number(asked.competent, "--competent"), _number(asked.places, "--places"), asked.paper, asked.seed, day(asked.date) if asked.date else None,
        asked.start, station_minutes(asked.minutes), tuple(several(asked.lengths, "in", what="length to buy")),
        bar_measured=asked.bar_measured,
    )  # fmt: skip
    refuse_folder(asked.out)
    folder = Path(asked.out)
    bar = Bar(sys.stderr)
    try:
        pack = make_class_pack(wanted, bar)
        written = write_class_pack(pack, folder, bar)
    finally:
        bar.close()
    say(f"{pack.made} {pack.pages} pages.")
    say(pack.day.proof)
    say(f"Stock to buy:\n{pack.stock.purchase.sentence}")
    for path in written:
        say(path)
    return 0 if pack.day.fits else SHORT


def _read(arguments: Sequence[str]) -> argparse.Namespace:
    parser = Parser(
        prog="python -m anglelib class",
        description="Make the class pack for a day: handouts, a worksheet and a part for each learner, the key, stock to buy, timetable, sheets to sign.",
        epilog="Exit code 0: made; 3: made, and the day is longer than wanted; 2: something has to be put right first. The same seed and date give the same pack.",
    )
    usual = ",".join(f"{name}={number}" for name, number in MINUTES.items())
    parser.add_argument("--learners", required=True, metavar="N", help=f"how many learners, 1 to {MOST_LEARNERS}")
    parser.add_argument("--out", default="class-pack", metavar="DIR", help="the folder to write to (default: class-pack)")
    parser.add_argument("--hours", default="8", metavar="H", help="how long the day may be, breaks counted (default: 8)")
    parser.add_argument("--start", default="09:00", metavar="HH:MM", help="when it begins (default: 09:00)")
    parser.add_argument("--saws", default="1", metavar="N", help="band saws (default: 1)")
    parser.add_argument("--discs", default="1", metavar="N", help="disc sanders (default: 1)")
    parser.add_argument("--wheels", default="1", metavar="N", help="soft finishing wheels (default: 1)")
    parser.add_argument("--places", default="0", metavar="N", help="places at the hand bench (default: one for every two learners)")
    parser.add_argument("--competent", default="1", metavar="N", help="people who may be left with running machines, two machines each (default: 1)")
    parser.add_argument("--minutes", default="", metavar="LIST", help=f"minutes of one learner at the stations (default: {usual})")
    parser.add_argument("--lengths", default=",".join(map(str, LENGTHS)), metavar="LIST", help="lengths that can be bought, in inches (default: %(default)s)")
    parser.add_argument("--paper", default="letter", choices=sorted(PAPERS), help="the paper (default: letter, which an A4 printer can print too)")
    parser.add_argument("--seed", default="1", metavar="WORD", help="a word or number: another one gives other parts and numbers (default: 1)")
    parser.add_argument("--date", default="", metavar="YYYY-MM-DD", help="the date on the pages (default: today)")
    parser.add_argument("--bar-measured", default="", metavar="LENGTH", help='what a check bar measures on your print, like "99.2 mm"; see pack --help')
    return parser.parse_args(arguments)


def _number(text: str, option: str) -> int:
    """A whole number as it is typed."""
    try:
        return int(text)
    except ValueError:
        raise BenchError(f'{option} "{text[:20]}" is not a whole number: write it in figures, for example {option} 12.') from None

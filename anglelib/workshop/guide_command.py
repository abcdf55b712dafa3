"""``python -m anglelib guide``: the instructor's guide as a PDF."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from pathlib import Path

from anglelib.errors import BenchError
from anglelib.lines import Parser, say
from anglelib.paper.page import PAPERS, paper
from anglelib.storage import write_made
from anglelib.workshop.class_plan import day


def main(arguments: Sequence[str]) -> int:
    """Writes the guide; raises BenchError for what a person can put right."""
    parser = Parser(
        prog="python -m anglelib guide",
        description="The instructor's guide as a PDF: the day, each lesson, demonstrations, the table of mistakes, what research says.",
    )
    parser.add_argument("--out", default="guide.pdf", metavar="FILE", help="the file to write (default: guide.pdf)")
    parser.add_argument("--paper", default="letter", choices=sorted(PAPERS), help="the paper (default: letter, which an A4 printer can print too)")
    parser.add_argument("--date", default="", metavar="YYYY-MM-DD", help="the date on the pages (default: today)")
    asked = parser.parse_args(arguments)
    out = Path(asked.out)
    on = day(asked.date) if asked.date else datetime.date.today()
    if out.suffix.lower() != ".pdf":
        raise BenchError(f"{out.name} is no name of a PDF: call it guide.pdf, for example.")
    from anglelib.workshop.guide_pages import guide_pdf

    made = write_made(out, guide_pdf(paper(asked.paper), on))
    say(f"The guide: {made}")
    return 0

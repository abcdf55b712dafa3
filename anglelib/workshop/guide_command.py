"""``python -m anglelib guide``: the instructor's guide as a PDF."""

from __future__ import annotations

import argparse
import datetime
from collections.abc import Sequence
from pathlib import Path

from anglelib.errors import BenchError
from anglelib.paper.page import PAPERS, paper
from anglelib.storage import write_made


def main(arguments: Sequence[str]) -> int:
    """Writes the guide; raises BenchError for what a person can put right."""
    parser = argparse.ArgumentParser(
        prog="python -m anglelib guide",
        description="The instructor's guide as a PDF: the day, each lesson, demonstrations, the table of mistakes, what research says.",
    )
    parser.add_argument("--out", default="guide.pdf", metavar="FILE", help="the file to write (default: guide.pdf)")
    parser.add_argument("--paper", default="letter", choices=sorted(PAPERS), help="the paper (default: letter, which an A4 printer can print too)")
    parser.add_argument("--date", default="", metavar="YYYY-MM-DD", help="the date on the pages (default: today)")
    asked = parser.parse_args(arguments)
    out, day = Path(asked.out), _date(asked.date)
    if out.suffix.lower() != ".pdf":
        raise BenchError(f"{out.name} is no name of a PDF: call it guide.pdf, for example.")
    from anglelib.workshop.guide_pages import guide_pdf

    made = write_made(out, guide_pdf(paper(asked.paper), day))
    print(f"The guide: {made}")
    return 0


def _date(text: str) -> datetime.date:
    try:
        return datetime.date.fromisoformat(text) if text else datetime.date.today()
    except ValueError:
        raise BenchError(f'The date "{text[:20]}" is not a day: write it like 2024-05-01.') from None

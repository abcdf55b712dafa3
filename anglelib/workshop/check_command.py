"""``python -m anglelib check``: made parts by their readings, on the terminal; or an empty form to type them into.

Exit codes: 0, all parts pass; 3, some do not; 2, the input has to be put right.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence

from anglelib.errors import BenchError
from anglelib.files.job_file import read_job
from anglelib.job import Job
from anglelib.lines import Parser, say, wrapped
from anglelib.names import visible
from anglelib.paper.commands import DEMO, SHORT, Bar, ask_limits, with_limits
from anglelib.storage import write_text
from anglelib.workshop.check_parts import PASS, ClassCheck, check_parts, refuse_empty
from anglelib.workshop.readings_file import MOST_ROWS, form_for, made_by, read_readings

_NUMBERED = re.compile(r"\d{1,3}")
MOST_CODES = 200


def main(arguments: Sequence[str]) -> int:
    """What the words after ``check`` ask for; raises BenchError for what a person can put right."""
    asked = _read(arguments)
    job = with_limits(_job(asked.job), asked)
    if asked.form is not None:
        if asked.readings is not None:
            raise BenchError("Either check a readings file or make an empty form: leave one of the two out.")
        ids = asked.parts.replace(",", " ").split()
        text = form_for(made_by(job, codes(asked.codes), ids, asked.each), job.limits)
        rows = text.count("\n") - 1
        if rows > MOST_ROWS:
            raise BenchError(f"The form would have {rows:,} rows, and a readings file at most {MOST_ROWS:,}: name fewer --parts, or make a form for each group.")
        made = write_text(asked.form, text)
        say(f"An empty form of {rows} rows: {made.path}. Type into the column read; leave empty what was not read.")
        return 0
    if asked.readings is None:
        raise BenchError("Name the readings file: python -m anglelib check READINGS.csv; --form makes an empty one.")
    measured = read_readings(asked.readings, job)
    refuse_empty(measured)
    bar = Bar(sys.stderr)
    try:
        found = check_parts(measured, job, bar)
    finally:
        bar.close()
    say("\n".join(class_lines(found) if asked.class_only else [*part_lines(found), "", *class_lines(found)]))
    return 0 if found.count(PASS) == len(found.parts) else SHORT


def _read(arguments: Sequence[str]) -> argparse.Namespace:
    parser = Parser(
        prog="python -m anglelib check",
        description="Made parts by their readings: pass, rework by how much, which mistake they point to; for the class, which and how many.",
        epilog="Exit code 0: all pass; 3: some do not; 2: something has to be put right first.",
    )
    parser.add_argument("readings", nargs="?", help="the readings file (CSV, one row a reading)")
    parser.add_argument("--job", metavar="JOB", help="the job file (TOML) that the parts are of; without it, the demo kit")
    ask_limits(parser, ", where the pack was made with them too")
    parser.add_argument("--class-only", action="store_true", help="only the class's mistakes, no codes: for the projector")
    parser.add_argument("--form", metavar="FILE", help="make an empty readings file instead")
    parser.add_argument(
        "--codes", default="20", metavar="CODES", help='for the form: how many people (K01, K02, ...), or their codes, "K01,K02" (default: 20)'
    )
    parser.add_argument("--parts", default="", metavar="IDS", help='for the form: which parts each of them makes, "A1L,A1R" (default: all of the job)')
    parser.add_argument("--each", action="store_true", help="for the form: the first code makes the first part, the second the second, and so on")
    return parser.parse_args(arguments)


def _job(name: str | None) -> Job:
    if name is not None:
        return read_job(name)
    if not (DEMO / "job.toml").is_file():
        raise BenchError("The demo kit is not beside the package: name a job file, --job JOB.")
    return read_job(DEMO / "job.toml")


def codes(text: str) -> list[str]:
    """The codes that somebody asks for: a number makes K01, K02 and so on.

    >>> codes("3"), codes("K07, K09")
    (['K01', 'K02', 'K03'], ['K07', 'K09'])
    >>> codes("0")
    Traceback (most recent call last):
        ...
    anglelib.errors.BenchError: "0" people cannot have a form: write a number from 1 to 200, or codes like K01,K02.
    """
    if _NUMBERED.fullmatch(text.strip()):
        number = int(text)
        if not 1 <= number <= MOST_CODES:
            raise BenchError(f'"{number}" people cannot have a form: write a number from 1 to {MOST_CODES}, or codes like K01,K02.')
        return [f"K{n:02d}" for n in range(1, number + 1)]
    found = [code for code in text.replace(",", " ").split() if code]
    if any(code.isdigit() for code in found):
        raise BenchError(f'"{visible(text)[:20]}" is no number of people from 1 to {MOST_CODES}, and a code has a letter too: write codes like K01,K02.')
    if not 1 <= len(found) <= MOST_CODES:
        raise BenchError(f"{len(found)} codes cannot have a form: write 1 to {MOST_CODES} of them, or a number.")
    return found


def part_lines(found: ClassCheck) -> list[str]:
    """Every part: its outcome, what to do, what its readings point to. For the instructor."""
    lines = []
    for one in found.parts:
        lines += wrapped(f"{one.measured.code} {one.measured.part.id}  {one.sentence}", "", "    ")
        for said in one.to_say:
            lines += wrapped(said, "    ", "      ")
    return lines


def class_lines(found: ClassCheck) -> list[str]:
    """How many parts came out how, which mistakes their readings point to and how many, what to say. Nobody is named."""
    lines = ["The class", *wrapped(found.sentence, "  ")]
    for mistake in found.mistakes:
        lines += wrapped(f"{mistake.count} x {mistake.name}", "  ", "    ")
        lines += wrapped(mistake.to_say, "      ", "      ")
    return lines

"""What the commands share: the demo kit's folder, the exit code for what is short, other limits than the job's, the progress bar."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path
from typing import TextIO

from anglelib.errors import BenchError
from anglelib.job import Job
from anglelib.lines import WIDTH, columns, shortened
from anglelib.tolerances import Limits

DEMO = Path(__file__).resolve().parents[2] / "notebooks" / "demo"
SHORT = 3


def ask_limits(parser: argparse._ActionsContainer, but: str = "") -> None:
    """Let a command take other limits than its job's; ``but`` is what whoever does so has to mind."""
    rules = 'inch, "ISO 2768-1 m" or f, or one length for every dimension, like "1/32"'
    parser.add_argument("--limits", default="", metavar="L", help=f"other limits than the job's{but}: {rules}")


def with_limits(job: Job, asked: argparse.Namespace) -> Job:
    """The job with the limits that were asked for; LengthError for limits that there are not."""
    return replace(job, limits=Limits.named(asked.limits, job.unit)) if asked.limits else job


class Bar:
    """A progress bar of plain text on a terminal; silent where the stream is none."""

    WIDTH = 30

    def __init__(self, stream: TextIO) -> None:
        self.stream = stream
        self.shown = ""
        self.awake = bool(getattr(stream, "isatty", lambda: False)())

    def __call__(self, share: float, words: str) -> None:
        if not self.awake:
            return
        room = (columns(self.stream) or WIDTH) - 1  # in the last column the cursor would go on to the next line
        long = min(self.WIDTH, room // 3)
        done = round(max(0.0, min(share, 1.0)) * long)
        line = shortened(f"[{'#' * done}{'.' * (long - done)}] {words}", room)
        if line != self.shown:
            self.stream.write("\r" + line.ljust(len(self.shown)))
            self.stream.flush()
            self.shown = line

    def close(self) -> None:
        """Wipe the bar off its line."""
        if self.shown:
            self.stream.write("\r" + " " * len(self.shown) + "\r")
            self.stream.flush()
            self.shown = ""


def ask_other_jobs(group: argparse._ActionsContainer) -> None:
    """The options that name the other jobs of a rack."""
    group.add_argument("--hold", nargs="+", action="extend", default=[], metavar="JOB", help=(
        "other jobs that are cut from the same rack later: what of them is not made yet keeps its metal, and no part of theirs that may not be spliced "
        "becomes impossible"))
    group.add_argument("--together", nargs="+", action="extend", default=[], metavar="JOB", help=(
        "other jobs that are cut at the same time: one plan for all, the first job has the first claim; each piece says its job"))


def other_jobs(asked: argparse.Namespace, command: str = "plan") -> tuple[list[str], list[str]]:
    """The files of the jobs that are held, and of those that are planned together."""
    if asked.job is None and (asked.hold or asked.together):
        raise BenchError(f"Name your own job and rack first: python -m anglelib {command} JOB RACK --hold OTHER-JOB.")
    wrong = next((name for name in (*asked.hold, *asked.together) if name.lower().endswith(".csv")), None)
    if wrong is not None:
        raise BenchError(f"{wrong} is named as a job: name the rack before the other jobs, python -m anglelib {command} JOB RACK --hold OTHER-JOB.")
    return asked.hold, asked.together

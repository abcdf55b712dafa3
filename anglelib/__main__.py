"""The command line: ``python -m anglelib course``, and what else COMMANDS names.

A command's module is imported when the command is called, so that ``--help`` is quick.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from importlib import import_module
from typing import NamedTuple

from anglelib import __version__
from anglelib.errors import BenchError
from anglelib.lines import Parser, say, wrapped


class Command(NamedTuple):
    """Where a command is: ``module.function`` takes the words after the command's name and returns the exit code."""

    module: str
    function: str
    help: str


COMMANDS = {
    "course": Command("anglelib.course", "main", "open the course in the browser"),
    "plan": Command("anglelib.terminal.command", "main", "which stick for each part, or for one part now; cuts done"),
    "pack": Command("anglelib.paper.command", "main", "plan a job on a rack and print its shop pack"),
    "class": Command("anglelib.workshop.command", "main", "a class for a day: parts, worksheets, key, stock, timetable"),
    "export": Command("anglelib.paper.export", "main", "write a job's parts as DXF, SVG, CSV, meshes and marking saddles"),
    "hub": Command("anglelib.hub.command", "main", "write a JupyterHub configuration for a class on one machine"),
    "check": Command("anglelib.workshop.check_command", "main", "made parts by their readings: pass, rework, which mistake; for the class"),
    "stuck": Command("anglelib.workshop.stuck_command", "main", "where a class is stuck, from the learners' answer files"),
    "guide": Command("anglelib.workshop.guide_command", "main", "the instructor's guide as a PDF"),
}

REFUSED, STOPPED, UNREAD = 2, 130, 141
"""Exit codes: something the person can put right; stopped with Ctrl-C; nobody reads on, as after "| head"."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; whatever a person can put right is one sentence on stderr and exit code 2."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # an old console shows a question mark for a fraction, and goes on
    try:
        command, rest = _read(arguments)
        function = getattr(import_module(command.module), command.function)
        code = function(rest) or 0
        sys.stdout.flush()
        return code
    except BenchError as error:
        say(error, sys.stderr)
        return REFUSED
    except ModuleNotFoundError as error:
        if (lacking := (error.name or "").partition(".")[0]) in ("", "anglelib"):
            raise
        say(
            f"{lacking} is not installed for {sys.executable}: run the README's first command line, or take the Python that it made (.venv).", sys.stderr
        )
        return REFUSED
    except BrokenPipeError:  # whoever read the words has enough of them, as head has
        with suppress(OSError, ValueError, AttributeError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # else Python complains when it ends
        return UNREAD
    except OSError as error:
        say(f"{error.filename or 'A file'} cannot be used: {error.strerror or error}.", sys.stderr)
        return REFUSED
    except KeyboardInterrupt:
        say("Stopped.", sys.stderr)
        return STOPPED


def _listed() -> list[str]:
    """The commands, each with what it does."""
    name_width = max(map(len, COMMANDS))
    return [line for name, command in COMMANDS.items() for line in wrapped(command.help, f"  {name:{name_width}}  ", " " * (name_width + 4))]


def _read(arguments: Sequence[str] | None) -> tuple[Command, list[str]]:
    parser = Parser(
        prog="python -m anglelib",
        description="\n".join(wrapped("Making structural parts from aluminium angle.")),
        epilog="\n".join(["commands:", *_listed(), "", "Each command has its own --help."]),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"anglelib {__version__}")
    parser.add_argument("command", metavar="command", choices=COMMANDS, help="one of the commands below")
    parser.add_argument("rest", metavar="...", nargs=argparse.REMAINDER, help="what the command takes")
    read = parser.parse_args(arguments)
    return COMMANDS[read.command], read.rest


if __name__ == "__main__":
    sys.exit(main())

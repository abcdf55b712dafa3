"""``python -m anglelib hub``: a JupyterHub configuration for a class on one machine, and the instructions to it.

Exit codes: 0, both files are written; 3, they are written, and something has to be put right before a
class can use them; 2, nothing was written.

>>> memory_for(12)
7.5
>>> memory_for(0)
Traceback (most recent call last):
    ...
anglelib.errors.BenchError: A class has 1 learner or more: 0 cannot be sized.
"""

from __future__ import annotations

import contextlib
import importlib.util
import math
import os
import re
import shutil
import stat
import sys
import textwrap
from collections.abc import Iterator, Sequence
from pathlib import Path

from anglelib.course import PROJECT
from anglelib.errors import BenchError
from anglelib.hub.texts import CONFIG, INSTRUCTIONS
from anglelib.lines import Parser, say
from anglelib.storage import path_typed

CONFIG_NAME, INSTRUCTIONS_NAME = "jupyterhub_config.py", "instructions.md"
TO_PUT_RIGHT = 3
"""The exit code where the files are written and the machine is not ready for them."""

HUB_MB, SERVER_MB, PAGE_MB = 500, 175, 200
"""The sizing rule [MB]: the system with hub and proxy; a learner's server; each page that a learner has open and has run."""
PAGES = 2
"""How many pages a learner has open, by the rule: the lesson, and one to look back at."""


def memory_for(learners: int, pages: int = PAGES) -> float:
    """How much memory the machine needs for a class [GB], to the next half; measured with five learners."""
    if learners < 1:
        raise BenchError(f"A class has 1 learner or more: {learners} cannot be sized.")
    return math.ceil(2 * (HUB_MB + learners * (SERVER_MB + pages * PAGE_MB)) / 1000) / 2


def sizing() -> str:
    """The rule in words, with a line for each usual class."""
    rows = "\n".join(f"| {learners} | {memory_for(learners):g} GB |" for learners in (6, 12, 20))
    memory = (
        f"Memory: {HUB_MB} MB for the system and the hub, and for each learner {SERVER_MB} MB and {PAGE_MB} MB for each page that is open and was "
        f"run. With {PAGES} pages each:"
    )
    processors = (
        "Processors: on two, busy with other work too, five learners who logged in at once had the first lesson before them within a minute; a "
        "slider takes next to nothing, a plan of the stock takes one processor for some seconds. Have one for each three or four learners, or let "
        "them log in a few at a time."
    )
    return "\n\n".join([textwrap.fill(memory, 140), f"| learners | memory |\n|---|---|\n{rows}", textwrap.fill(processors, 140)])


def config_text(python: Path, group: str, first: str) -> str:
    """The configuration, a Python text that JupyterHub reads."""
    return _filled(CONFIG, PYTHON=repr(str(python)), GROUP=repr(group), FIRST=first, INSTRUCTIONS=INSTRUCTIONS_NAME)


def instructions_text(python: Path, folder: Path, group: str) -> str:
    """What the instructor does, from an empty machine to the end of the class."""
    stuck = f"sudo {python} -m anglelib stuck /home"
    return _filled(INSTRUCTIONS, FOLDER=str(folder), GROUP=group, HUB=str(python.with_name("jupyterhub")), SIZING=sizing(), STUCK=stuck)


def _filled(template: str, **words: str) -> str:
    return re.sub(r"@([A-Z]+)@", lambda found: words[found[1]], template)


def unreadable(path: Path) -> str:
    """The first folder or file on the way to a path, through its links, that another account cannot read; "" where all can.

    >>> unreadable(Path("/"))
    ''
    """
    for step in _steps(path):
        try:
            mode = step.stat().st_mode
        except OSError:
            return str(step)
        wanted = 0o001 if stat.S_ISDIR(mode) else 0o004
        if mode & wanted != wanted:
            return str(step)
    return ""


def _steps(path: Path) -> Iterator[Path]:
    """Every folder on the way to a path, and on the way to what it is a link to."""
    for place in (path, path.resolve()):
        yield from reversed(place.parents)
        yield place


def to_put_right(project: Path, python: Path, folder: Path) -> list[str]:
    """What a class would stumble over on this machine, a sentence each."""
    found = []
    for what, path in (("The project", project / "anglelib" / "__init__.py"), ("The course's Python", python)):
        if closed := unreadable(path):
            found.append(
                f"{what} cannot be read by the learners' accounts, because of {closed}: have the project and its Python in a folder "
                "that every account can read, such as /srv/anglelib, and run this command there."
            )
    if importlib.util.find_spec("jupyterhub") is None:
        found.append(f'JupyterHub is not installed: {python} -m pip install -e ".[hub]" in the project\'s folder.')
    if not (folder / "node_modules/.bin/configurable-http-proxy").exists() and shutil.which("configurable-http-proxy") is None:
        found.append(f"The proxy is not installed: npm install --prefix {folder} configurable-http-proxy.")
    return found


def write(folder: Path, group: str, project: Path = PROJECT, python: Path | None = None) -> tuple[Path, Path]:
    """Write both files into a folder that only its owner can open; returns their paths.

    Raises BenchError, with nothing written, where the folder or the group's name cannot be used or a configuration is there already.
    """
    python = python or Path(sys.executable)
    if os.name == "nt":
        raise BenchError("JupyterHub does not run on Windows: serve the class from a machine with Linux.")
    if not re.fullmatch(r"[a-z_][a-z0-9_-]{0,30}", group):
        raise BenchError(
            f"{group[:40]!r} cannot be the name of a group of the system: use small letters, digits and hyphens, such as anglelib."
        )
    folder = Path(os.path.abspath(folder))
    if folder.exists() and not folder.is_dir():
        raise BenchError(f"The folder {folder} cannot be written: a file has that name; choose another --out.")
    if not re.fullmatch(r"[\w./+-]+", str(folder)):
        raise BenchError(f"{folder} cannot stand in a command line as it is: choose a folder without spaces, such as /srv/anglelib-hub.")
    if folder == project or project in folder.parents:
        raise BenchError(
            f"{folder} is inside the project, which the learners can read: choose a folder of the hub's own, such as /srv/anglelib-hub."
        )
    written = folder / CONFIG_NAME, folder / INSTRUCTIONS_NAME
    for path in written:
        if os.path.lexists(path):
            raise BenchError(f"{path} is there already, perhaps with your changes: move it away, or choose another --out.")
    first = min((path.name for path in (project / "notebooks").glob("*.ipynb")), default="")
    if not first:
        raise BenchError(f"The course's notebooks are not in {project}: install the project from its own folder with -r requirements.txt.")
    texts = config_text(python, group, first), instructions_text(python, folder, group)
    _put(folder, dict(zip(written, texts)))
    return written


def changeable(folder: Path, ours: frozenset[int] | None = None) -> Path | None:
    """The first place, the folder or one above it, in which another account could put its own file or folder; None where there is none.

    ``ours`` are the accounts that may: root and whoever runs this. A sticky folder such as /tmp keeps each account's entries its own.
    """
    ours = frozenset({0, os.geteuid()}) if ours is None else ours
    for place in (folder.resolve(), *folder.resolve().parents):
        found = place.stat()
        loose = found.st_mode & (0o022 if place == folder.resolve() else 0o002)
        if found.st_uid not in ours or (loose and not (found.st_mode & stat.S_ISVTX and place != folder.resolve())):
            return place
    return None


def _put(folder: Path, files: dict[Path, str]) -> None:
    """Both files or none, for their owner alone: the hub holds root's rights."""
    done: list[Path] = []
    made = not folder.exists()
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
        if (place := changeable(folder)) is not None:
            what = "what stands there" if place == folder.resolve() else f"what stands in {folder}"
            raise BenchError(f"Others can write in {place}, and the hub runs {what} with root's rights: choose a folder of its own.")
        for path, text in files.items():
            path.touch(mode=0o600, exist_ok=False)
            done.append(path)
            path.write_text(text, encoding="utf-8")
    except BaseException as error:  # Ctrl-C too
        with contextlib.suppress(OSError):
            for path in done:
                path.unlink(missing_ok=True)
            if made:
                folder.rmdir()
        if not isinstance(error, OSError):
            raise
        raise BenchError(
            f"The folder {folder} cannot be written ({error.strerror or error}): run the command with sudo, or choose another --out."
        ) from None


def main(arguments: Sequence[str]) -> int:
    """Write the hub's files and say what is next; raises BenchError for what a person can put right."""
    parser = Parser(
        prog="python -m anglelib hub",
        description="Write a JupyterHub configuration for a class on one machine, and the instructions to it.",
    )
    parser.add_argument("--out", required=True, metavar="DIR", help="the hub's own folder, such as /srv/anglelib-hub")
    parser.add_argument("--group", default="anglelib", help="the group of the system whose accounts may come in (default: anglelib)")
    wanted = parser.parse_args(arguments)
    config, instructions = write(path_typed(wanted.out), wanted.group)
    say(f"The hub's configuration: {config}\nRead first: {instructions}")
    trouble = to_put_right(PROJECT, Path(sys.executable), config.parent)
    for sentence in trouble:
        say(f"Before the class: {sentence}")
    return TO_PUT_RIGHT if trouble else 0

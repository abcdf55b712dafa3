"""Whether everything the course needs is here, in words: what is missing, what it is for, what to do.

>>> print(check(find=lambda module: None if module == "ortools" else module, version=(3, 12)).sentence)
One thing is missing. ortools, for plans of the stock that are proven. Stop the course with Ctrl-C and start it again with the command line in README.md: it installs what is missing.
>>> check(version=(3, 10)).missing[0]
'This is Python 3.10; the course needs 3.11 or later. Install a later Python first.'
"""

from __future__ import annotations

import importlib.util
import os
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from anglelib import OLDEST
from anglelib.lessons.words import listed, paragraph
from anglelib.questions.answers import home
from anglelib.visiting import visiting

NEEDS = {
    "ipywidgets": "the controls and the questions",
    "jupyterlab_widgets": "showing them in JupyterLab",
    "sympy": "the formulas",
    "ortools": "plans of the stock that are proven",
    "tomlkit": "reading and saving the list of parts",
    "matplotlib": "the ordinary pictures",
    "reportlab": "the prints at full size",
    "shapely": "where a rivet may stand on a coped leg",
    "ezdxf": "drawings for a cutter or a plotter",
    "manifold3d": "the solid, for a trial piece to print",
    "voila": "the lessons as plain pages",
    "segno": "the square that a phone's camera reads",
}
"""What the course imports, by name, and what for."""
REMEDY = "Stop the course with Ctrl-C and start it again with the command line in README.md: it installs what is missing."
HERE_FOR_VISITORS = "Everything that the course needs is here. Your answers stay on this page, and are gone when you leave it. Read on."


@dataclass(frozen=True)
class Environment:
    """What is missing, a sentence each; nothing where all is here."""

    missing: tuple[str, ...]
    remedy: str = REMEDY

    @property
    def sentence(self) -> str:
        """The outcome in one paragraph."""
        if not self.missing:
            return HERE_FOR_VISITORS if visiting() else "Everything that the course needs is here, and your answers can be kept. Read on."
        many = "One thing is missing." if len(self.missing) == 1 else f"{len(self.missing)} things are missing."
        return " ".join([many, *self.missing, self.remedy])

    def _repr_html_(self) -> str:
        if not self.missing:
            return paragraph(f"✓ {self.sentence}")
        return paragraph("! Something is missing", bold=True) + listed(self.missing) + paragraph(self.remedy)

    def __repr__(self) -> str:
        return self.sentence


def check(
    find: Callable[[str], object] = importlib.util.find_spec,
    version: tuple[int, ...] = sys.version_info[:2],
    folder: Path | None = None,
) -> Environment:
    """Looks for everything; ``find`` gives None for a module that is not there."""
    missing = []
    if version < OLDEST:
        missing.append(f"This is Python {_dotted(version)}; the course needs {_dotted(OLDEST)} or later. Install a later Python first.")
    missing += [f"{module}, for {what}." for module, what in NEEDS.items() if not _there(find, module)]
    trouble = "" if folder is None and visiting() else _unwritable(folder if folder is not None else home())
    return Environment((*missing, trouble) if trouble else tuple(missing))


def _there(find: Callable[[str], object], module: str) -> bool:
    try:
        return find(module) is not None
    except (ImportError, ValueError):
        return False


def _unwritable(folder: Path) -> str:
    """Why answers cannot be kept in a folder; "" where they can."""
    place = folder
    while not place.exists() and place != place.parent:
        place = place.parent
    if place.is_dir() and os.access(place, os.W_OK | os.X_OK):
        return ""
    return f"The folder {folder} cannot be written, so your answers are not kept: set ANGLELIB_HOME to a folder of your own."


def _dotted(version: tuple[int, ...]) -> str:
    return ".".join(str(number) for number in version[:2])

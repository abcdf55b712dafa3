"""The room that the course is shown in: on a screen, or by a projector; one switch for all pages.

The choice is kept in the learner's folder, so that every page that is opened afterwards is drawn for
the same room. Where no folder is set (a notebook opened by itself) it lasts as long as the page runs.

>>> from tempfile import TemporaryDirectory
>>> with TemporaryDirectory() as folder:
...     Room(folder).theme = "projector"
...     print(Room(folder).theme)
projector
"""

from __future__ import annotations

import json
import os
from pathlib import Path

import traitlets

THEMES = ("screen", "projector")
NAME = "room.json"


class Room(traitlets.HasTraits):
    """What all pictures share: the theme of the room they are shown in; kept in ``folder`` where one is given."""

    theme = traitlets.Enum(THEMES, THEMES[0])

    def __init__(self, folder: str | os.PathLike | None = None) -> None:
        self.path = Path(folder) / NAME if folder else None
        super().__init__()
        self.observe(self._keep, "theme")

    @traitlets.default("theme")
    def _kept(self) -> str:
        """Looked up when it is first asked for: a kernel that was made ready before the switch was pressed must know."""
        try:
            kept = json.loads(self.path.read_text(encoding="utf-8"))["theme"] if self.path else ""
        except (OSError, ValueError, KeyError, TypeError):
            return THEMES[0]
        return kept if kept in THEMES else THEMES[0]

    def _keep(self, change: dict) -> None:
        if self.path is None:
            return
        try:
            self.path.write_text(json.dumps({"theme": self.theme}) + "\n", encoding="utf-8")
        except OSError:
            pass  # a folder that cannot be written changes nothing on the page


ROOM = Room(os.environ.get("ANGLELIB_HOME"))
"""The room of this notebook."""

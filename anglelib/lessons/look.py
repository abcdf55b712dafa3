"""How the course looks on a page: names of looks that boxes and controls bear, and one style for all of them.

The style is text in a widget that each box shows without taking room: so it is there in plain pages, in JupyterLab and on a hub
alike, with nothing to install, and follows the room. One model serves all boxes of a page.

>>> page_style() is page_style(), page_style().value == shown_by(ROOM.theme)
(True, True)
>>> shown_by("screen").endswith("</style>"), shown_by("projector").endswith("</i>")
(True, True)
"""

from __future__ import annotations

from functools import cache

import ipywidgets as widgets

from anglelib.lessons.controls import in_turn
from anglelib.lessons.look_style import ASK, BARE, BELOW, BOX, CHOICE, DO, HELP, PANEL, PICTURE, ROOM_SWITCH, SWITCH, TOOL, WIDE, shown_by
from anglelib.lessons.room import ROOM

__all__ = ["ASK", "BELOW", "BOX", "CHOICE", "DO", "HELP", "PANEL", "PICTURE", "SWITCH", "TOOL", "WIDE", "ProjectorSwitch", "as_", "page_style", "projector_switch", "when_there"]

PROJECTOR = "Projector"
PROJECTOR_ENDS = "Projector is on, for every page: end it"


def as_(looks_like: str, widget: widgets.DOMWidget) -> widgets.DOMWidget:
    """The widget, which from now on looks like this: one of the names above."""
    widget.add_class(looks_like)
    return widget


def when_there(box: widgets.DOMWidget, picture: widgets.HTML) -> widgets.DOMWidget:
    """The box, whose controls have all of its width as long as its picture is empty.

    >>> picture = widgets.HTML()
    >>> box = when_there(widgets.VBox([picture]), picture)
    >>> picture.value = "<svg></svg>"
    >>> BARE in box._dom_classes
    False
    >>> picture.value = ""
    >>> BARE in box._dom_classes
    True
    """

    def look(change: dict | None = None) -> None:
        (box.remove_class if picture.value else box.add_class)(BARE)

    picture.observe(look, "value")
    look()
    return box


@cache
def page_style() -> widgets.HTML:
    """The style of this page, to be put into a box; it takes no room."""
    made = widgets.HTML(shown_by(ROOM.theme), layout=widgets.Layout(display="none"))
    ROOM.observe(lambda change: setattr(made, "value", shown_by(change["new"])), "theme")
    return made


class ProjectorSwitch(widgets.ToggleButton):
    """The switch of the room: it says when the projector is on, and that it ends it."""

    def __init__(self) -> None:
        super().__init__(ROOM.theme == "projector", layout=widgets.Layout(width="auto"))
        self.add_class(SWITCH)
        self.add_class(ROOM_SWITCH)
        self._show()
        self.observe(self._set, "value")
        ROOM.observe(self._show, "theme")

    @in_turn
    def _set(self, change: dict) -> None:
        ROOM.theme = "projector" if change["new"] else "screen"

    @in_turn
    def _show(self, change: dict | None = None) -> None:
        self.value = ROOM.theme == "projector"
        self.description = PROJECTOR_ENDS if self.value else PROJECTOR


@cache
def projector_switch() -> ProjectorSwitch:
    """The one switch of a page, shown under each picture."""
    return ProjectorSwitch()

"""Every picture of every lesson, as finished SVG text by name: as a page opens, answered, and at places of its controls."""

from __future__ import annotations

import base64
import re
import sys
from collections.abc import Callable, Iterator
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path

from anglelib.drawing.svg import svg
from anglelib.lessons.ask import Ask
from anglelib.lessons.live import LivePicture, View
from anglelib.lessons.room import ROOM

TESTS = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TESTS / "lessons"))
from lesson_checks import PAGES, Page, moves, predict  # noqa: E402
from projector import inside, settings  # noqa: E402

del sys.path[0]

SVG = re.compile(r"<svg .*?</svg>", re.S)
IMAGE = re.compile(r"data:image/svg\+xml;base64,([A-Za-z0-9+/=]+)")
PROJECTOR_LETTER = 0.03
"""The smallest capitals of a picture for a room, as a part of its height."""
MOST_PLACES = 5


def least(picture: str, theme: str) -> float:
    """The smallest capitals that a picture may have [mm]."""
    high = float(re.search(r'viewBox="\S+ \S+ \S+ (\S+)"', picture)[1])
    return PROJECTOR_LETTER * high if theme == "projector" else 2.5


def in_html(text: str) -> Iterator[str]:
    """The drawings in a piece of a page."""
    yield from SVG.findall(text)
    for found in IMAGE.findall(text):
        yield base64.b64decode(found).decode("utf-8")


def shown(box) -> Iterator[str]:
    """The drawings that a box has in sight now, and those of it that a saved notebook keeps."""
    for part in inside(box):
        value = getattr(part, "value", None)
        if isinstance(value, str) and "<svg" in value:
            yield from in_html(value)


def kept(box) -> Iterator[str]:
    """The drawings of a box that a saved notebook keeps."""
    if isinstance(box, str):
        return
    found = box._repr_mimebundle_().get("text/html", "") if hasattr(box, "_repr_mimebundle_") else box._repr_html_() if hasattr(box, "_repr_html_") else ""
    yield from in_html(found or "")


def controls(box) -> Iterator:
    """What can be moved in a box that is no live picture."""
    for part in inside(box):
        if hasattr(part, "slider") or hasattr(part, "buttons") and hasattr(part.buttons, "options"):
            yield part


def of_page(page: Page, theme: str = "screen", most: int = 24, every: bool = False) -> Iterator[tuple[str, str]]:
    """The drawings of a page by the cell that shows them; ``most`` settings of a live picture, or each place of each control."""
    with redirect_stdout(StringIO()):
        for source, box in page.boxes():
            name = f"{page.path.stem}: {source.strip().splitlines()[-1]}"
            if theme == "screen":  # what is saved is drawn for it
                yield from ((name, text) for text in kept(box))
            yield from ((name, text) for text in shown(box))
            for part in inside(box):
                if isinstance(part, LivePicture):
                    yield from ((name, text) for text in _live(part, theme, most, every))
            if isinstance(box, Ask) or hasattr(box, "other"):
                yield from ((name, text) for text in _asked(box))
            elif not isinstance(box, LivePicture):
                yield from ((name, text) for text in _moved(box, every))


def _live(picture: LivePicture, theme: str, most: int, every: bool) -> Iterator[str]:
    told = (False, True) if picture.ask is not None else (True,)
    for values in settings(picture, most):
        for revealed in told:
            yield svg(picture.draw(values, View(theme, revealed)), theme)
    if picture.ask is not None and not picture.ask.committed:
        predict(picture)  # what was predicted stays in sight
    for control in picture.controls.values():
        for _ in moves(control, every):
            yield picture.picture.value
    picture.reset.click()


def _asked(box) -> Iterator[str]:
    for _ in range(3):
        if hasattr(box, "other"):
            box.other.click()
        yield from shown(box)
    if hasattr(box, "check"):
        box.check.click()
        yield from shown(box)


def _moved(box, every: bool) -> Iterator[str]:
    for control in controls(box):
        if getattr(control, "disabled", False):
            continue
        try:
            for _ in moves(control, every):
                yield from shown(box)
        except (AttributeError, ValueError):
            continue


def in_room(theme: str, made: Callable[[], Iterator]) -> Iterator:
    """What is made while the room is as it is said."""
    before = ROOM.theme
    ROOM.theme = theme
    try:
        yield from made()
    finally:
        ROOM.theme = before


__all__ = ["PAGES", "controls", "in_room", "kept", "least", "of_page", "shown"]

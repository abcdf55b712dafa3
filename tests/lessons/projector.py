"""What a picture looks like on a projector of 1920 x 1080 dots: letters, lines, labels, contrast, computed from the drawing's data.

The picture fills as much of the screen as its shape allows. Contrast is that of WCAG 2.2 (1.4.3 and
1.4.11), from its definition of relative luminance.
"""

import importlib
import inspect
import itertools
import pkgutil

from anglelib.drawing.checks import overlaps
from anglelib.drawing.sheet import Circle, Hatch, Label, Polyline
from anglelib.drawing.style import KINDS, THEMES, Theme
from anglelib.lessons import live
from anglelib.lessons.ask_picture import AskPicture
from anglelib.lessons.vote import Vote

WIDE, HIGH = 1920, 1080
LEAST_LETTER, LEAST_LINE, MOST_LABELS = 0.03, 3.0, 7
TEXT_CONTRAST, LINE_CONTRAST = 4.5, 3.0


def luminance(colour: str) -> float:
    """Relative luminance of #rrggbb (WCAG 2.2)."""
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    r, g, b = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, two: str) -> float:
    """Contrast ratio of two colours (WCAG 2.2)."""
    high, low = sorted((luminance(one), luminance(two)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def dots(sheet) -> float:
    """Dots a millimetre of the sheet, where the picture fills the screen."""
    return min(WIDE / sheet.width, HIGH / sheet.height)


def faults(sheet, theme: Theme | None = None, most: int = MOST_LABELS) -> list[str]:
    """What is wrong with a picture on a projector, a sentence each."""
    theme = theme or THEMES["projector"]
    scale, found = dots(sheet), []
    labels = [item for item in sheet.items if isinstance(item, Label) and item.text.strip()]
    least = min((theme.letter(label.height, sheet.height) / sheet.height for label in labels), default=1)
    if least < LEAST_LETTER - 1e-9:
        found.append(f"the smallest letter is {100 * least:.1f} % of the picture's height")
    kinds = {getattr(item, "kind", "") for item in sheet.items if not isinstance(item, Label)} - {""}
    for kind in sorted(kinds):
        if (wide := theme.line(KINDS[kind].width, sheet.height) * scale) < LEAST_LINE - 0.05:
            found.append(f"a line ({kind}) is {wide:.2f} dots wide")
    if len(labels) > most:
        found.append(f"{len(labels)} labels: {'; '.join(label.text for label in labels)}")
    for colour in {theme.accent if label.accent else theme.ink for label in labels}:
        if contrast(colour, theme.paper) < TEXT_CONTRAST:
            found.append(f"text of {colour} on {theme.paper}")
    for colour in (theme.ink, theme.accent):
        if contrast(colour, theme.paper) < LINE_CONTRAST:
            found.append(f"lines of {colour} on {theme.paper}")
    found += [f"{label.text!r} lies on a filled shape" for label in labels if on_ink(label, sheet)]
    found += [f"{one.text!r} over {two.text!r}" for one, two in overlaps(sheet, "projector")]
    return found


def on_ink(label: Label, sheet) -> bool:
    """Whether a label's place is inside a shape that is filled with ink, with nothing to clear it."""
    if label.halo:
        return False
    for item in sheet.items:
        if isinstance(item, Polyline) and item.fill in ("ink", "accent") and _inside(label.x, label.y, item.points):
            return True
        if isinstance(item, Circle) and item.fill in ("ink", "accent") and (label.x - item.x) ** 2 + (label.y - item.y) ** 2 < item.radius**2:
            return True
        assert not isinstance(item, Hatch) or item.spacing > 0
    return False


def _inside(x, y, points) -> bool:
    inside = False
    for (x1, y1), (x2, y2) in zip(points, points[1:] + points[:1], strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
            inside = not inside
    return inside


# --- the pictures of the lessons -------------------------------------------------------------------------
def lesson_modules() -> list[str]:
    """Modules of lessons that have pictures: whatever has a LESSON, and the builder's bench."""
    import anglelib.lessons as lessons

    found = []
    for module in pkgutil.iter_modules(lessons.__path__):
        loaded = importlib.import_module(f"anglelib.lessons.{module.name}")
        if hasattr(loaded, "LESSON"):
            found.append(module.name)
    return found


SHOWN = {"LivePicture", "Ask", "AskPicture", "AskOrder", "Questions", "Game", "Still", "Vote", "OwnReadings", "VBox", "Bench"}
"""What a cell's function returns, where it may hold a picture."""


def made(name: str):
    """(name, what it makes) for every function of a lesson's cells: those that take nothing or a small number."""
    module = importlib.import_module(f"anglelib.lessons.{name}")
    for function_name, function in vars(module).items():
        if not inspect.isfunction(function) or function.__module__ != module.__name__ or function_name.startswith("_"):
            continue
        signature = inspect.signature(function)
        if str(signature.return_annotation).rsplit(".", 1)[-1] not in SHOWN:
            continue
        needed = [p for p in signature.parameters.values() if p.default is p.empty]
        numbered = len(needed) == 1 and str(needed[0].annotation) == "int"
        for arguments in [()] if not needed else [(n,) for n in range(1, 7)] if numbered else []:
            try:
                yield f"{function_name}{arguments or ''}", function(*arguments)
            except (IndexError, KeyError):
                break


def inside(box):
    """A box, and every box in it."""
    yield box
    for child in getattr(box, "children", ()):
        yield from inside(child)


def pictures(name: str):
    """(name, live picture) of a lesson's cells."""
    for label, box in made(name):
        yield from ((label, part) for part in inside(box) if isinstance(part, live.LivePicture))


def asked_pictures(name: str, numbers: int = 3):
    """(name, sheet) of the pictures under which a lesson asks, with their first few sets of numbers, and of those without controls."""
    for label, box in made(name):
        for part in inside(box):
            if isinstance(part, live.Still):
                yield label, part.sheet
            elif isinstance(part, Vote):
                yield from ((label, part._sheet(told, "projector")) for told in (False, True))
            elif isinstance(part, AskPicture):
                yield from ((label, part.draw(n)) for n in range(numbers))


def ends(control) -> list:
    """The values of a control at its ends, or each of its choices."""
    if hasattr(control, "values"):
        return [control.values[0], control.values[-1]]
    if hasattr(control, "slider"):
        return [control.slider.min, control.slider.max]
    if hasattr(control, "items"):  # an order of work
        return [control.value, tuple(reversed(control.items))]
    options = control.buttons.options
    values = [o[1] if isinstance(o, tuple) else o for o in options]
    return values if len(values) <= 4 else [values[0], values[len(values) // 2], values[-1]]


def settings(picture, most: int = 24):
    """The picture's own values, every preset, each control at its ends, and corners: as many as ``most``."""
    start = picture.start
    yield start
    for preset in picture.presets.values():
        yield {**start, **preset.sets}
    own = {name: ends(control) for name, control in picture.controls.items()}
    for name, values in own.items():
        yield from ({**start, name: value} for value in values)
    corners = list(itertools.product(*own.values()))
    step = max(1, len(corners) // most)
    yield from ({**start, **dict(zip(own, corner, strict=True))} for corner in corners[::step][:most])


def seen(picture, most: int = 24):
    """(values, sheet) for every setting, before and after the answer shows."""
    told = (False, True) if picture.ask is not None else (True,)
    for values in settings(picture, most):
        for revealed in told:
            yield values, picture.draw(values, live.View("projector", revealed))

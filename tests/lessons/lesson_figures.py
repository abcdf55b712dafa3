"""What the figures of every lesson must be: drawn from the lesson as it is now, sharp, and in the page with their sentences."""

import struct
from pathlib import Path
from types import ModuleType

from anglelib.drawing.mpl import png_fingerprint
from anglelib.drawing.svg import fingerprint

FIGURES = Path(__file__).resolve().parents[2] / "figures"


def check_figures(lesson: ModuleType, page: str) -> None:
    """Fails for a figure that is old, too small for a projector, or without its sentence in the page."""
    drawn = lesson.figures()
    assert drawn
    for name, sheet in drawn.items():
        path = FIGURES / name
        assert png_fingerprint(path) == fingerprint(sheet), f"{name} is old: python -m tests.refresh"
        width, _ = struct.unpack(">II", path.read_bytes()[16:24])
        assert width > 1000
        assert f"![{sheet.sentence}](../figures/{name})" in page

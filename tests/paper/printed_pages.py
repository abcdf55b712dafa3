"""Parts of every shape, and a page as the printer sees it: a raster with millimetres."""

from __future__ import annotations

import io

import pypdfium2

from anglelib.drawing.pdf import pdf
from anglelib.paper.page import A4, LETTER, Page, Paper
from anglelib.part import Cope, Corner, Hole, Part, Taper
from anglelib.section import Section

SMALL = Section("3/4", "3/4", "1/8", fillet="1/8")
MIDDLE = Section("1 1/4", "1 1/4", "1/8", fillet="1/8")
UNEQUAL = Section("1 1/2", 1, "1/8", fillet="1/8")
ROUND = Section("1 1/2", 1, "3/16", "1/8", fillet="3/16", toe_radius="1/16", heel_radius="3/32")
METRIC = Section("30 mm", "30 mm", "3 mm", fillet="2 mm")
METRIC_UNEQUAL = Section("40 mm", "25 mm", "4 mm", fillet="4 mm", toe_radius="1.5 mm")


def _part(part_id: str, section: Section, length: str, tapers=(), holes=(), **more) -> Part:
    return Part(part_id, f"Trial {part_id}", section, "6061-T6", length, tapers, holes, **more)


PARTS = {
    part.id: part
    for part in (
        _part("flat", SMALL, "2 1/8", [Taper("A", 1, "3/8", run="1 1/4")], [Hole("A", "1 7/16", "7/16", "1/8")]),
        _part("flat-B-2", SMALL, "91 3/4", [Taper("B", 2, "3/8", run="1 7/8")], [Hole("A", "1/2", "3/8", "1/8")], one_piece=True),
        _part("vertex", MIDDLE, "4 3/4", [Taper("A", 1, run="2 1/8")], [Hole("A", "2 7/16", "11/16", "3/16"), Hole("B", "5/8", "11/16", "3/16")]),
        _part("vertex-B-2", MIDDLE, "4 3/4", [Taper("B", 2, run="2 1/8")]),
        _part("both", MIDDLE, "5 3/8", [Taper("A", 1, run="1 5/8"), Taper("A", 2, run="1 5/8")], [Hole("B", 1, "7/8", "1/4")]),
        _part("fillet", MIDDLE, "22 5/8", [Taper("A", 1, "3/16", run="2 3/8")], [Hole("A", 3, "11/16", "3/16")]),
        _part("other", MIDDLE, "12", [Taper("A", 1, "1/16", run="2 1/4")]),
        _part("unequal", UNEQUAL, "31 1/4", [Taper("A", 2, "5/8", run="2 5/8")], [Hole("A", "3/4", "13/16", "3/16")]),
        _part("round", ROUND, "9", [Taper("A", 1, run="2 1/2")]),
        _part("round-B", ROUND, "9", [Taper("B", 2, run="1 3/4")]),
        _part("angle", ROUND, "24", [Taper("A", 1, angle="10")]),
        _part("square", MIDDLE, "17 1/4", [], [Hole("A", "1/2", "11/16", "1/8"), Hole("A", "16 3/4", "11/16", "1/8")]),
        _part("bare", SMALL, "38"),
        _part("two-legs", MIDDLE, "14", [Taper("A", 1, run="2"), Taper("B", 2, "1/2", run="1 1/2")], corners=[Corner("B", 1, "1/8")]),
        _part("mm-both", METRIC, "120 mm", [Taper("A", 1, run="54 mm"), Taper("B", 2, "8 mm", run="31.5 mm")],
              [Hole("A", "75 mm", "15 mm", "3.2 mm"), Hole("B", "40 mm", "15 mm", "1/8")], unit="mm"),
        _part("mm-long", METRIC, "1524 mm", [Taper("A", 1, "6 mm", run="100 mm")],
              [Hole("A", "300 mm", "15 mm", "4 mm"), Hole("A", "762.5 mm", "15 mm", "4 mm"), Hole("B", "1400 mm", "15 mm", "4 mm", True)],
              unit="mm", one_piece=True),
        _part("mm-unequal", METRIC_UNEQUAL, "430 mm", [Taper("A", 1, "3 mm", angle="22.5"), Taper("A", 2, "6 mm", run="80 mm")],
              [Hole("B", "200 mm", "13 mm", "4 mm")], unit="mm"),
        _part("mm-fillet", METRIC, "210.5 mm", [Taper("B", 1, "4 mm", run="60.3 mm")], unit="mm"),
        _part("mm-cope", METRIC, "85 mm", [], [Hole("B", "30 mm", "16 mm", "1/8")], copes=[Cope("A", 1, "20 mm", "10 mm", "4 mm")],
              corners=[Corner("B", 2, "6 mm")], unit="mm"),
        _part("mm-short", METRIC, "20 mm", [], [Hole("B", "10 mm", "15 mm", "3.2 mm")],
              corners=[Corner("A", 1, "8 mm"), Corner("A", 2, "8 mm")], unit="mm"),
    )
}  # fmt: skip


class Raster:
    """A page rendered at 300 dpi; places in millimetres from the lower left corner."""

    DPI = 300

    def __init__(self, page: Page, on: Paper) -> None:
        sheet = page.sheet(on, "Trial", "2024-05-01", 1, 1)
        document = pypdfium2.PdfDocument(io.BytesIO(pdf([sheet], page.title)))
        self.image = document[0].render(scale=self.DPI / 72).to_pil().convert("L")
        self.high = on.height
        # a page is drawn on whole dots, a hair larger than it is, and not by the same hair both ways
        self.across, self.down = self.image.width / on.width, self.image.height / on.height

    def level(self, y: float) -> float:
        """The middle of the row of dots that holds this height: what a row really measures at."""
        return self.high - (int((self.high - y) * self.down) + 0.5) / self.down

    def row(self, y: float, start: float, stop: float) -> list[tuple[float, float]]:
        """The dark runs on a level line, from ``start`` on towards ``stop``, as (nearer edge, farther edge)."""
        line = int((self.high - y) * self.down)
        return self._runs(lambda i: self.image.getpixel((i, line)), start, stop, self.across)

    def column(self, x: float, start: float, stop: float) -> list[tuple[float, float]]:
        """The same on an upright line."""
        line = int(x * self.across)
        found = self._runs(lambda i: self.image.getpixel((line, i)), self.high - start, self.high - stop, self.down)
        return [(self.high - near, self.high - far) for near, far in found]

    def _runs(self, grey, start: float, stop: float, dots: float) -> list[tuple[float, float]]:
        way = 1 if stop > start else -1
        first = int(start * dots)
        values = [grey(i) for i in range(first, int(stop * dots), way)]
        origin = first + 0.5
        runs: list[tuple[float, float]] = []
        i = 1
        while i < len(values) - 1:
            if values[i] > 180:
                i += 1
                continue
            end = i
            while end < len(values) - 1 and values[end] <= 180:
                end += 1
            # an edge lies where half of the ink's own blackness is reached, and inks of two greys may touch
            half = (255 + min(values[i : min(i + 4, end)])) / 2
            near = next(k for k in range(i - 1, end) if values[k + 1] <= half)
            last_half = (255 + min(values[max(i, end - 4) : end])) / 2
            far = next(k for k in range(end, i - 1, -1) if values[k - 1] <= last_half)
            near_at = near + (values[near] - half) / (values[near] - values[near + 1]) if values[near] > half else near
            far_at = far - (values[far] - last_half) / (values[far] - values[far - 1]) if values[far] > last_half else far
            runs.append(((origin + way * near_at) / dots, (origin + way * far_at) / dots))
            i = end
        return runs


PAPERS = [A4, LETTER]

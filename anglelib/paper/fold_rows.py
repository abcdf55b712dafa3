"""The rows of dimensions beyond the toes of an unrolled sheet."""

from __future__ import annotations

from anglelib.drawing.checks import bounds
from anglelib.drawing.dimensions import leader, linear_dimension
from anglelib.drawing.sheet import Group, Line
from anglelib.paper.fold_strip import FoldStrip
from anglelib.paper.page import FIGURE

Frame = tuple[float, float, float, float]
ROWS = 7.0
"""From row to row [mm]."""


class Rows:
    """The rows of dimensions beyond the toes: no two lines of a row run over each other."""

    def __init__(self, strip: FoldStrip) -> None:
        self.strip = strip
        self.used: dict[str, list[Frame]] = {"A": [], "B": []}

    def ways(self, leg: str, end: int, d: float, text: str, longest: bool) -> list[Group]:
        """The ways to dimension a mark at a leg's toe, the nearest row first.

        Figures that do not fit go beyond the end where a longer one's line would strike them through.
        """
        strip = self.strip
        out, edge = strip.out(leg), strip.sheet.toe(leg)
        x, y = strip.at(strip.from_end(end, d), edge)
        words = f"{text} from end {end}"
        leaders = [
            leader((x, y), (x + way * on, y + out * step), words, letter=FIGURE)
            for step in (5.0, 11.0, 17.0, 23.0, -8.0, -14.0) for on in (4, 12, 20, 34, 50) for way in (1, -1)
        ]  # fmt: skip
        if not strip.has_end(end):
            return leaders
        start = strip.at(strip.from_end(end, 0), edge)
        p, q = (start, (x, y)) if start[0] <= x else ((x, y), start)
        found = []
        for row in range(9):
            at = y + out * ((6.0 if out > 0 else 8.5) + ROWS * row)
            for outside in ("end", "start") if (end == 1) == longest else ("start", "end"):
                way = linear_dimension(p, q, at, text, letter=FIGURE, outside=outside)
                low, high = self.span(way)
                if all(high < a or low > b or not low_y < at < high_y for a, low_y, b, high_y in self.used[leg]):
                    found.append(way)
        return found + leaders

    @staticmethod
    def span(way: Group) -> tuple[float, float]:
        """From where to where a dimension's row is taken [mm]."""
        low, _, high, _ = bounds(way)
        return low, high

    def take(self, leg: str, way: Group) -> None:
        """Keeps the row of a dimension that is drawn."""
        if way and isinstance(way[0], Line):
            low, high = self.span(way)
            level = next(item.y1 for item in way if isinstance(item, Line) and item.y1 == item.y2)
            self.used[leg].append((low, level - 3.5, high, level + 3.5))

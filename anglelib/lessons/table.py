"""A table on a lesson's page: plain text in cells, the first row its heads.

>>> Table(("size", "area"), [("3/4 x 3/4 x 1/8", "0.175")])
size | area
3/4 x 3/4 x 1/8 | 0.175
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from anglelib.after import fold
from anglelib.drawing.escape import escape
from anglelib.lessons.words import TEXT


class Table:
    """Rows of text under their heads; with ``after`` it stands folded until these questions are answered."""

    def __init__(self, heads: Sequence[str], rows: Iterable[Sequence[str]], after: Sequence[str] = ()) -> None:
        self.heads, self.rows, self.after = tuple(heads), tuple(tuple(row) for row in rows), tuple(after)

    def _repr_html_(self) -> str:
        def row(tag: str, cells: Sequence[str]) -> str:
            tags = [tag if cell else "td" for cell in cells]  # a head that says nothing is none
            return "<tr>" + "".join(f'<{tag} style="text-align:left">{escape(cell)}</{tag}>' for tag, cell in zip(tags, cells, strict=True)) + "</tr>"

        body = "".join(row("td", cells) for cells in self.rows)
        table = f'<table style="{TEXT}"><thead>{row("th", self.heads)}</thead><tbody>{body}</tbody></table>'
        return fold(self.after, table) if self.after else table

    def __repr__(self) -> str:
        return "\n".join(" | ".join(cells) for cells in (self.heads, *self.rows))

"""Text as HTML for widgets and saved outputs: escaped, sized like the page, read aloud where it changes.

>>> said("1 < 2.", "right").partition(">")[2]
'<b>✓</b> 1 &lt; 2.</div>'
"""

from __future__ import annotations

from collections.abc import Iterable

from anglelib.drawing.escape import escape

TEXT = (
    "font-size:var(--jp-content-font-size1,14px);line-height:1.5;color:var(--jp-content-font-color1,#161616);"
    "white-space:normal"
)
"""How the page sets its own text, so that widgets match it, also in a dark theme."""

SIGNS = {"right": "✓", "wrong": "✗", "mistake": "✗", "unit": "!", "unreadable": "?", "blank": "–", "": ""}
"""A sign beside the words of each grade: never a colour alone."""


def paragraph(text: str, *, bold: bool = False) -> str:
    """A paragraph of plain text."""
    inner = escape(text)
    return f'<div style="{TEXT}">{f"<b>{inner}</b>" if bold else inner}</div>'


def said(text: str, status: str = "", lines: float = 1) -> str:
    """Text that a screen reader says when it changes; its place is kept so many lines high."""
    sign = SIGNS[status]
    mark = f"<b>{sign}</b> " if sign and text else ""
    return (
        f'<div role="status" aria-live="polite" style="min-height:{1.5 * lines:g}em;{TEXT}">{mark}{escape(text)}</div>'
    )


def folded(summary: str, inner: str) -> str:
    """HTML that stays folded away until it is asked for."""
    return f"<details><summary>{escape(summary)}</summary>{inner}</details>"


def listed(lines: Iterable[str], *, ordered: bool = False) -> str:
    """A list of plain texts."""
    tag = "ol" if ordered else "ul"
    return f'<{tag} style="{TEXT}">' + "".join(f"<li>{escape(line)}</li>" for line in lines) + f"</{tag}>"

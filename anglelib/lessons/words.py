"""Text as HTML for widgets and saved outputs: escaped, sized like the page, read aloud where it changes.

>>> said("1 < 2.", "right").partition(">")[2]
'<b>✓</b> 1 &lt; 2.</div>'
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from anglelib.drawing.escape import escape
from anglelib.lengths import decimal, figure, unit_written

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


def latex_length(value: Fraction | float) -> str:
    """A length as a formula shows it: a mixed number where a rule has it, else a decimal; or millimetres, without their name.

    >>> print(latex_length(Fraction(17, 8)), latex_length(Fraction(17, 80)))
    2\\tfrac{1}{8} 0.213
    """
    return figure(value) if unit_written() == "mm" else latex_number(value)


def latex_number(value: Fraction | float) -> str:
    """A number that is no length, a slope: the same in every unit."""
    if not isinstance(value, Fraction) or 128 % value.denominator:
        return decimal(value)
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole or ''}\\tfrac{{{rest.numerator}}}{{{rest.denominator}}}"


class Worked:
    """A worked example: a title, the steps with their numbers, and what to check.

    ``aside`` is a summary with steps that few need: they stay folded away under it.
    """

    def __init__(self, title: str, steps: Iterable[str], check: str, aside: tuple[str, Sequence[str]] | None = None) -> None:
        self.title, self.steps, self.check, self.aside = title, tuple(steps), check, aside

    def _repr_html_(self) -> str:
        more = folded(self.aside[0], listed(self.aside[1], ordered=True)) if self.aside else ""
        return paragraph(self.title, bold=True) + listed(self.steps, ordered=True) + more + paragraph(self.check)

    def __repr__(self) -> str:
        more = (f"{self.aside[0]}:", *_numbered(self.aside[1])) if self.aside else ()
        return "\n".join((self.title, *_numbered(self.steps), *more, self.check))


def _numbered(steps: Iterable[str]) -> list[str]:
    return [f"{i}. {step}" for i, step in enumerate(steps, start=1)]

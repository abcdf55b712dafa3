"""Formulas with somebody's numbers in them: what the library computes with, printed from the same objects."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

import ipywidgets as widgets

from anglelib.lessons.controls import FractionControl, in_turn
from anglelib.lessons.look import BOX, PICTURE, as_
from anglelib.lessons.words import TEXT, said

Written = tuple[list[str], str]
"""LaTeX lines, and the same in a sentence."""


class FormulaCard(widgets.VBox):
    """Formulas over controls: ``write(values)`` gives the LaTeX lines and the sentence for some numbers."""

    def __init__(self, write: Callable[[Mapping[str, Fraction]], Written], controls: Mapping[str, FractionControl]) -> None:
        self.write, self.controls = write, dict(controls)
        self.formulas, self.words = as_(PICTURE, widgets.HTMLMath()), widgets.HTML()
        super().__init__([self.formulas, *self.controls.values(), self.words])
        self.add_class(BOX)
        for control in self.controls.values():
            control.observe(self._changed, "value")
            control.observe(self._refused, "trouble")
        self._start = write(self.values)
        self._changed()

    @property
    def values(self) -> dict[str, Fraction]:
        """The numbers by name."""
        return {name: control.value for name, control in self.controls.items()}

    @in_turn
    def _changed(self, change: dict | None = None) -> None:
        lines, sentence = self.write(self.values)
        self.formulas.value = f'<div style="{TEXT}">' + "".join(f'<div style="margin:0.6em 0">$\\displaystyle {line}$</div>' for line in lines) + "</div>"
        self.words.value = said(sentence)

    @in_turn
    def _refused(self, change: dict) -> None:
        if change["new"]:
            self.words.value = said(change["new"], "unreadable")

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        lines, sentence = self._start
        latex = "$$\\begin{gathered}" + r" \\ ".join(lines) + "\\end{gathered}$$"
        return {**super()._repr_mimebundle_(**kwargs), "text/latex": latex, "text/plain": sentence}

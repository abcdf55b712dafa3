"""A demonstration with a vote: a question, hands counted for each answer, and the picture that shows what is true only after that.

>>> from anglelib.lessons import taper_inside
>>> vote = Vote("Inside corner", taper_inside.inside_corner)
>>> vote.options[0].words, vote.options[1].words, vote.right
('0 (0.000)', '1/8 (0.125)', 'right')
>>> vote.hands[vote.right].value = 5
>>> vote.reveal.click()
>>> vote.told[0]
'5 of 5 hands for 1/8 (0.125), which is right.'
"""

from __future__ import annotations

from collections.abc import Callable

import ipywidgets as widgets

from anglelib.drawing.svg import image, svg
from anglelib.lengths import both
from anglelib.lessons.controls import PressButton, in_turn
from anglelib.lessons.live import LivePicture, View
from anglelib.lessons.look import BOX, DO, PICTURE, as_, page_style
from anglelib.lessons.room import ROOM
from anglelib.lessons.words import folded, listed, paragraph, said
from anglelib.questions.choice import Choice, words_of
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, NumberQuestion, Question

MOST_OPTIONS = 4
MOST_HANDS = 40


RIGHT = "right"


def options(question: Question) -> tuple[tuple[Choice, ...], str, dict[str, str]]:
    """What hands are raised for, the id of the right one, the sentence of each wrong one: the choices, or the numbers that slips give."""
    if isinstance(question, ChoiceQuestion):
        return question.choices, question.answer, {str(w.answer): w.sentence for w in question.wrong}
    show: Callable = question.of.show if isinstance(question, NumberQuestion) else both
    found = [(float(question.answer), Choice(RIGHT, question.answer_text))]  # type: ignore[arg-type]
    wrong: dict[str, str] = {}
    for place, w in enumerate(question.wrong):
        text = show(w.answer, question.places) if isinstance(question, NumberQuestion) else show(w.answer)
        if float(w.answer) >= 0 and text not in (choice.words for _, choice in found) and len(found) < MOST_OPTIONS:  # type: ignore[arg-type]
            id_ = f"{w.slip}.{place}"  # a slip may give two numbers
            found.append((float(w.answer), Choice(id_, text)))  # type: ignore[arg-type]
            wrong[id_] = w.sentence
    return tuple(choice for _, choice in sorted(found, key=lambda row: row[0])), RIGHT, wrong


class Vote(widgets.VBox):
    """A picture of a lesson whose answer stays hidden until the hands are counted; ``told`` is what the vote says."""

    def __init__(self, title: str, make: Callable[[], LivePicture], metal: str = "") -> None:
        live = make()
        if live.ask is None or not isinstance(live.ask.question, ChoiceQuestion | LengthQuestion | NumberQuestion):
            raise ValueError(f"{title}: a vote needs a picture with a question")
        self.title, self.metal = title, metal
        self.question, self.draw, self.start = live.ask.question, live.draw, live.start
        self.options, self.right, self.wrong = options(self.question)
        self.shown = {choice.id: choice.words for choice in self.options}
        self.revealed = False
        self.hands = {
            choice.id: widgets.BoundedIntText(
                0, min=0, max=MOST_HANDS, description=choice.words, style={"description_width": "auto"}, layout=widgets.Layout(width="100%")
            )
            for choice in self.options
        }
        self.reveal = PressButton(DO, description="Reveal")
        self.again = PressButton(description="Vote again")
        self.picture, self.words = as_(PICTURE, widgets.HTML()), widgets.HTML()
        self.reveal.on_press(self._reveal)
        self.again.on_press(self._again)
        ROOM.observe(self._redraw, "theme")
        head = widgets.HTML(paragraph(title, bold=True) + paragraph(self.question.prompt))
        super().__init__(
            [head, self.picture, *self.hands.values(), widgets.HBox([self.reveal, self.again, page_style()]), self.words],
            layout=widgets.Layout(margin="0 0 1.5rem 0"),
        )
        self.add_class(BOX)
        self._redraw()

    @property
    def told(self) -> tuple[str, ...]:
        """The count, and for every wrong answer that hands went up for what makes it; nothing before it is revealed."""
        if not self.revealed:
            return ()
        total = sum(box.value for box in self.hands.values())
        lines = [f"{self.hands[self.right].value} of {total} hands for {self.shown[self.right]}, which is right."]
        lines += [
            f"{box.value} for {self.shown[id_]}: {self.wrong.get(id_, 'not so.')}" for id_, box in self.hands.items() if id_ != self.right and box.value
        ]
        if self.question.working:
            lines.append(self.question.working)
        return tuple(lines)

    def _sheet(self, revealed: bool, theme: str = "screen"):
        return self.draw(self.start, View(theme, revealed))

    @in_turn
    def _redraw(self, change: dict | None = None) -> None:
        sheet = self._sheet(self.revealed, ROOM.theme)
        self.picture.value = svg(sheet, ROOM.theme)
        self.words.value = listed(self.told) + paragraph(sheet.sentence) if self.revealed else said("Hands first: the picture waits.", lines=2)

    @in_turn
    def _reveal(self) -> None:
        self.revealed = True
        for box in self.hands.values():
            box.disabled = True
        self._redraw()

    @in_turn
    def _again(self) -> None:
        """Hands down, the answer hidden again."""
        self.revealed = False
        for box in self.hands.values():
            box.disabled, box.value = False, 0
        self._redraw()

    @property
    def snapshot(self) -> str:
        """As it stands in a saved notebook: the question, its picture, the answer folded away."""
        beside = paragraph(f"In metal: {self.metal}") if self.metal else ""
        after = image(self._sheet(True)) + paragraph(f"{self.shown[self.right]}. {self.question.working}")
        asked = paragraph(self.title, bold=True) + paragraph(self.question.prompt) + listed(words_of(self.options))
        return asked + image(self._sheet(False)) + beside + folded("Hands counted? The picture with its answer", after)

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        words = f"{self.title}. {self.question.prompt}"
        return {**super()._repr_mimebundle_(**kwargs), "text/html": self.snapshot, "text/plain": words}

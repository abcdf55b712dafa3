"""A question as a widget: an answer typed or chosen, what it was understood as, and the slip behind it.

Answers are kept by :mod:`anglelib.questions.answers` in the learner's own folder. In a saved
notebook that has not been run the question stands as text, its answer folded away.

>>> from tempfile import TemporaryDirectory
>>> from anglelib.questions.taper_inside import EXERCISES
>>> with TemporaryDirectory() as folder:
...     box = Ask(lambda number: EXERCISES["project"][number], AnswerBook("07_taper_inside", folder))
...     box.entry.value = "3/16"
...     print(*box.grade.slips, "|", box.grade.understood)
offset-as-thickness | 3/16 (0.188) inches
"""

from __future__ import annotations

from collections.abc import Callable

import ipywidgets as widgets
import traitlets

from anglelib.after import mark
from anglelib.lessons.controls import PressButton, in_turn, toggles
from anglelib.lessons.look import ASK, DO, HELP, page_style
from anglelib.lessons.words import folded, listed, paragraph, said
from anglelib.questions.answer import ANSWERED, PUT_BACK
from anglelib.questions.answers import Answer, AnswerBook
from anglelib.questions.choice import words_of
from anglelib.questions.grading import Grade, Typed, can_be_given, grade
from anglelib.questions.question import ChoiceQuestion, LengthQuestion, NumberQuestion, OrderQuestion, Question

_TELLS: dict[str, str] = {}
"""By lesson, the question over which its page says that a file of answers cannot be read: the page's first, and no other."""


class Ask(widgets.VBox):
    """One question, with Check and Hint, and with other numbers where it can have them.

    ``make`` gives the question for a number (0, 1, ...: its fresh numbers); ``fresh`` offers them.
    ``grade`` is the grade of the last answer.
    """

    grade = traitlets.Instance(Grade, allow_none=True)
    check_words = "Check"
    lines = 1
    """How many lines are kept for what is said."""

    def __init__(self, make: Callable[[int], Question], book: AnswerBook, *, fresh: bool = False, title: str = "") -> None:
        self.make, self.book, self.title, self.fresh = make, book, title, fresh
        self.number = 0
        self.question = make(0)
        self.hints_given = 0
        self._kept: Answer | None = None
        self.again: PressButton | None = None
        self.prompt = widgets.HTML()
        self.feedback = widgets.HTML()
        self.check = PressButton(DO, description=self.check_words)
        self.hint = PressButton(HELP, description="Hint")
        self.other = PressButton(description="Other numbers")
        self.check.on_press(self.answer)
        self.hint.on_press(self.give_hint)
        self.other.on_press(self.ask_next)
        self.entry = self._entry()
        self.row = widgets.HBox(layout=widgets.Layout(flex_flow="row wrap", align_items="center"))
        self.buttons = widgets.HBox([*self._buttons(fresh), page_style()])
        super().__init__([self.prompt, self.row, self.feedback], layout=widgets.Layout(margin="0 0 0.5rem 0"))
        self.add_class(ASK)
        self._show_question()
        self._recall()
        if self.book.unread and _TELLS.setdefault(self.book.lesson, self.question.id) == self.question.id:
            from anglelib.workshop.so_far_words import unread_words  # for few pages, and slow to read

            self.children = (widgets.HTML(said(unread_words(self.book.unread))), *self.children)

    # --- the question ---------------------------------------------------------------------------
    def _buttons(self, fresh: bool) -> list[PressButton]:
        check = [] if isinstance(self.question, ChoiceQuestion) else [self.check]  # choosing is answering
        return check + ([self.hint] if self.question.hints else []) + ([self.other] if fresh else [])

    def _entry(self) -> widgets.Widget:
        if isinstance(self.question, ChoiceQuestion):
            entry = toggles([(choice.words, choice.id) for choice in self.question.choices])
        else:
            entry = widgets.Text(
                description=f"Your answer ({self._unit()})",
                placeholder=_like(self.question),
                continuous_update=False,
                style={"description_width": "initial"},
                layout=widgets.Layout(width="17rem"),
            )
        entry.observe(self._given, "value")
        return entry

    def _unit(self) -> str:
        if isinstance(self.question, NumberQuestion):
            return self.question.of.words or "a number"
        if getattr(self.question, "thousandths", False):
            return "thousandths"
        return "mm" if getattr(self.question, "unit", "in") == "mm" else "in."

    def _show_question(self) -> None:
        self.prompt.value = self._prompt()
        self.row.children = [self.entry, self.buttons]
        self.feedback.value = said("", lines=self.lines)

    def _prompt(self, answered: bool = False) -> str:
        """What is asked, with the mark that the prose waits for which stands under it."""
        title = paragraph(self.title, bold=True) if self.title else ""
        return title + paragraph(self.question.prompt) + mark(self.question.id, answered)

    def _recall(self) -> None:
        """What was answered to these very numbers before, as if it were answered now, but not kept twice.

        What the question does not offer now is left in the file, and is no answer here.
        """
        before = self.book.latest(self.question.id, self.number)
        if before is not None and can_be_given(self.question, before.typed):
            self._show(before.typed, keep=False)

    @in_turn
    def ask_next(self) -> None:
        """The same question with other numbers."""
        self.ask_number(self.number + 1)

    @in_turn
    def ask_number(self, number: int) -> None:
        """The same question with the numbers of a place in its series."""
        self.number = number
        self.question = self.make(number)
        self._begin()
        self._recall()

    @in_turn
    def put_back(self) -> None:
        """The question as it stood before it was answered; what was answered stays in the file."""
        if self.grade is None and self.book.latest(self.question.id, self.number) is None:
            return
        trouble = self.book.add(Answer(self.question.id, self.number, "", PUT_BACK))
        self._kept = None
        self._begin()
        if trouble:
            self.feedback.value = said(trouble, lines=self.lines)

    def _begin(self) -> None:
        self.hints_given = 0
        self.grade = None
        self.entry.unobserve(self._given, "value")
        self.entry = self._entry()
        self._show_question()

    def _offer_again(self) -> None:
        """A way to be asked once more, where the question has no other numbers; made when it is needed, since a page has many questions."""
        if self.again is None and not self.fresh:
            self.again = PressButton(description="Ask again", tooltip="Puts this question back. What you answered stays in your folder.")
            self.again.on_press(self.put_back)
            self.buttons.children = (*self.buttons.children, self.again)

    # --- the answer -----------------------------------------------------------------------------
    def _given(self, change: dict) -> None:
        if change["new"]:
            self.answer()

    @in_turn
    def answer(self) -> Grade:
        """Grades what stands in the entry, keeps it, and says what it means."""
        return self._show(self.entry.value, keep=True)

    @in_turn
    def _show(self, typed: Typed, keep: bool) -> Grade:
        found = grade(self.question, typed)
        if typed and self.entry.value != typed:
            self.entry.unobserve(self._given, "value")
            self.entry.value = typed
            self.entry.observe(self._given, "value")
        return self._tell(found, typed, keep)

    def _tell(self, found: Grade, typed: Typed, keep: bool) -> Grade:
        """Keeps an answer and says what it means."""
        trouble = ""
        if keep and found.status != "blank":
            given = tuple(typed) if isinstance(self.question, OrderQuestion) else str(typed)  # type: ignore[arg-type]
            answer = Answer(self.question.id, self.number, given, found.status, found.slips)
            if answer != self._kept:  # Enter and then Check give one answer, not two
                trouble = self.book.add(answer)
                self._kept = answer
        self.feedback.value = self._feedback(found, trouble)
        self.grade = found
        if found.status in ANSWERED:
            self._offer_again()
            self.prompt.value = self._prompt(answered=True)
        return found

    def _feedback(self, found: Grade, trouble: str) -> str:
        words = found.sentence
        if found.right and self.question.working:
            words += f" {self.question.working}"
        if off_the_mark(found) and self.question.hints and isinstance(self.question, LengthQuestion | NumberQuestion):
            self.hints_given = max(self.hints_given, 1)  # too long or too short says little: the step that is due helps
            words += f" Hint: {self.question.hints[self.hints_given - 1]}"
        return said(f"{words} {trouble}".strip(), found.status, lines=self.lines)

    @in_turn
    def give_hint(self) -> None:
        """The next step of the way; after the last one, all of it."""
        hints = self.question.hints
        if self.hints_given < len(hints):
            self.hints_given += 1
            text = f"Hint {self.hints_given} of {len(hints)}: {hints[self.hints_given - 1]}"
        else:
            more = "Go on, or press “Other numbers”." if self.fresh else self.question.working
            text = f"That was the last hint. The answer is {self.question.answer_text}. {more}".strip()
        self.feedback.value = said(text, lines=self.lines)

    # --- where nothing runs -----------------------------------------------------------------------
    @property
    def snapshot(self) -> str:
        """The question as it stands in a saved notebook."""
        title = paragraph(self.title, bold=True) if self.title else ""
        offered = getattr(self.question, "choices", ()) or getattr(self.question, "items", ())
        options = listed(words_of(offered)) if offered else ""
        answer = f"{self.question.answer_text}. {self.question.working}"
        return title + paragraph(self.question.prompt) + options + folded("Answered it? The answer", paragraph(answer))

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        return {
            **super()._repr_mimebundle_(**kwargs),
            "text/html": self.snapshot,
            "text/plain": self.question.prompt,
        }


def off_the_mark(found: Grade) -> bool:
    """Whether an answer is a number that is wrong, and nobody knows why."""
    return found.status == "wrong" and found.value is not None


def _like(question: Question) -> str:
    """How an answer may be typed."""
    if not isinstance(question, LengthQuestion):
        return "like 12.5"
    if question.thousandths:
        return "like 125 or 0.125"
    return "like 41.5" if question.unit == "mm" else "like 1 5/8"


class Predict(Ask):
    """A prediction: once committed it stays, and ``committed`` lets the picture show what is true.

    A number that is wrong without a slip to name has a second try, with a hint, before it stands. Only what stands is kept.
    """

    committed = traitlets.Bool(False)
    check_words = "Commit"
    _tried: Typed = None

    @property
    def value(self):
        """The predicted length; None for a choice, or before anything is committed."""
        return self.grade.value if self.committed and self.grade is not None else None

    def _buttons(self, fresh: bool) -> list[PressButton]:
        return [self.check]  # a hint would take the guess away

    def _given(self, change: dict) -> None:
        """A prediction waits for Commit: leaving the entry does not seal it."""

    @in_turn
    def _show(self, typed: Typed, keep: bool) -> Grade:
        found = grade(self.question, typed)
        if found.status in ("blank", "unreadable", "unit") or (found.value is not None and found.value < 0):
            self.feedback.value = said(found.sentence, found.status, lines=self.lines)
            return found
        if keep and self._tried is None and off_the_mark(found):
            self._tried = typed
            hint = f"Hint: {self.question.hints[0]}" if self.question.hints else "Look once more at what is given."
            self.feedback.value = said(f"{found.sentence} {hint} This is not the last word: change the answer, or keep it, and commit again.", found.status, lines=self.lines)
            return found
        super()._show(typed, keep)
        self._commit(True)
        return found

    def _commit(self, committed: bool) -> None:
        for part in (self.entry, self.check):
            part.disabled = committed
        self.committed = committed

    def _begin(self) -> None:
        super()._begin()
        self._tried = None
        self._commit(False)

    def _feedback(self, found: Grade, trouble: str) -> str:
        says = "Right is" if isinstance(self.question, ChoiceQuestion) else "The metal says"
        truth = "" if found.right else f"{says}: {self.question.answer_text}. "
        words = f"Committed. {found.sentence} {truth}{self.question.working}"
        return said(f"{words} {trouble}".strip(), found.status, lines=self.lines)


class Questions(widgets.VBox):
    """Several questions, one under the other."""

    def __init__(self, *asked: Ask) -> None:
        super().__init__(asked)

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        return {
            **super()._repr_mimebundle_(**kwargs),
            "text/html": "<hr>".join(box.snapshot for box in self.children),
            "text/plain": "\n".join(box.question.prompt for box in self.children),
        }

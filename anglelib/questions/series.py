"""One question with one set of numbers after another, for as often as a learner asks for other numbers.

>>> from anglelib.questions.question import LengthQuestion
>>> halves = Series(lambda part, id: LengthQuestion(id, f"Half of {part.length}?", part.length / 2), "halves")
>>> halves[0].prompt != halves[1].prompt, halves.thing(0).length == 2 * halves[0].answer
(True, True)
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from anglelib.questions.fresh import fresh_part, seeds
from anglelib.questions.question import ChoiceQuestion, OrderQuestion, Question

_TRIED = 200
"""How many things are tried for one that parts the slips, before the series begins again."""


class Series:
    """One question with one set of numbers after another: the same for the same id, none twice.

    ``fresh(seed, **kind)`` makes the thing that is asked about (a practice part, where nothing else
    is given), and ``make(thing, id)`` the question. Only things count on which every slip in
    ``needs`` gives a number of its own, so that a slip can be named. ``seed`` is what the numbers are
    drawn from: the id, its words apart, where nothing else is given. It stays when an id is improved,
    because an answer is kept with the number of its set.
    """

    def __init__(
        self,
        make: Callable[[Any, str], Question],
        id: str,
        needs: tuple[str, ...] = (),
        *,
        seed: str = "",
        fresh: Callable[..., Any] = fresh_part,
        **kind: Any,
    ) -> None:
        self.make, self.id, self.needs, self.fresh, self.kind = make, id, needs, fresh, kind
        self.seed = seed or id.replace("-", " ")
        self._seeds = seeds(self.seed)
        self._asked: dict[str, tuple[Question, Any]] = {}

    def __getitem__(self, number: int) -> Question:
        return self._of(number)[0]

    def thing(self, number: int) -> Any:
        """What the question with this number is about: for its picture."""
        return self._of(number)[1]

    def _of(self, number: int) -> tuple[Question, Any]:
        tried = 0
        while len(self._asked) <= number and tried < _TRIED:
            tried += 1
            thing = self.fresh(next(self._seeds), **self.kind)
            question = self.make(thing, self.id)
            if _parted(question, self.needs):
                self._asked.setdefault(question.prompt, (question, thing))
        if not self._asked:
            raise ValueError(f"no fresh numbers tell {', '.join(self.needs)} apart in {self.id!r}")
        asked = list(self._asked.values())
        return asked[number % len(asked)]  # all have been asked: begin again


def _parted(question: Question, needs: tuple[str, ...]) -> bool:
    # not what can be named, which may be improved: a set of numbers keeps its place in the series, by which answers are kept
    wrong = question.wrong if isinstance(question, ChoiceQuestion | OrderQuestion) else question.apart
    if not set(needs) <= {w.slip for w in wrong}:
        return False
    if isinstance(question, ChoiceQuestion | OrderQuestion):
        return True
    named = [(w.slip, float(w.answer)) for w in wrong if w.slip in needs]
    gap = 2 * float(question.tolerance)
    return all(abs(x - y) > gap for i, (one, x) in enumerate(named) for two, y in named[i + 1 :] if one != two)

"""Home: where the learner was, every lesson with how far it is, what is worth another try, and the pages beside.

Nothing is asked here. The page is made of the answers in the learner's own folder (:mod:`anglelib.workshop.so_far`,
:mod:`anglelib.workshop.review`).

>>> from anglelib.workshop.so_far import Kept, so_far
>>> page = Ways(so_far(Kept()), {lesson.file for lesson in LESSONS}, "Nothing is due.")
>>> print(repr(page).splitlines()[0])
Begin here: 00 Start here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from anglelib.drawing.escape import escape
from anglelib.lessons.contents import BESIDE, LESSONS, NOTEBOOKS, REVIEW, Lesson, minutes
from anglelib.lessons.words import TEXT
from anglelib.questions import moments
from anglelib.questions.answers import home
from anglelib.workshop.review import review
from anglelib.workshop.review_words import due_words
from anglelib.workshop.so_far import BEGUN, DONE, NOT_BEGUN, SoFar, Standing, kept, so_far
from anglelib.workshop.so_far_words import again_words, standing_words, unread_words

SIGNS = {NOT_BEGUN: "○", BEGUN: "◐", DONE: "●"}
"""A sign beside the words of each state, for the eye alone."""
LINE = "var(--jp-border-color1,#9e9e9e)"
INK = "var(--jp-content-font-color1,#161616)"
ROW = f"display:flex;flex-wrap:wrap;align-items:center;gap:0 1rem;padding:.45rem 0;border-bottom:1px solid {LINE}"
HEAD = "font-size:1.15em;font-weight:600;margin:1.4em 0 .3em"


class Ways:
    """The page: how far the learner is, with links; ``here`` are the notebooks that are there, ``due`` says what is to be reviewed."""

    def __init__(self, found: SoFar, here: Iterable[str], due: str) -> None:
        self.found, self.here, self.due = found, frozenset(here), due
        self._lessons = {lesson.id: lesson for lesson in LESSONS}

    # --- what is said --------------------------------------------------------------------------------
    @property
    def onward(self) -> tuple[str, Lesson | None]:
        """Words before the link to where to go on, and the lesson."""
        last, next_ = self._lessons.get(self.found.last), self._lessons.get(self.found.next)
        if next_ is None:
            return "Every lesson is done. The builder's bench is the place to go on from here.", None
        if last is None:
            return "Begin here:", next_
        if last == next_:
            return "Go on where you were last:", next_
        return f"You were last in {last.name}, and it is done. Go on:", next_

    def _tries(self) -> Iterator[tuple[Lesson, str]]:
        """Each lesson that is worth another try, with what went wrong."""
        for id_, of in groupby(self.found.again, key=lambda one: one.lesson):
            yield self._lessons[id_], again_words(of)

    # --- as a page -----------------------------------------------------------------------------------
    def _link(self, lesson: Lesson, style: str = "") -> str:
        name = escape(lesson.name)
        if lesson.file not in self.here:
            return f"{name} (to come)"
        return f'<a href="{escape(lesson.file)}"{f" style={chr(34)}{style}{chr(34)}" if style else ""}>{name}</a>'

    def _row(self, lesson: Lesson) -> str:
        standing, takes = self.found.of(lesson.id), minutes(lesson)
        mark = ' aria-current="true"' if lesson.id == self.found.last else ""
        state = "" if standing is None else _standing(standing)
        time = f'<span style="flex:0 0 7.5rem">{escape(takes)} minutes</span>' if takes else ""
        weight = "font-weight:600" if mark else ""
        return f'<li style="{ROW}"{mark}><span style="flex:1 1 15rem">{self._link(lesson, weight)}</span>{state}{time}</li>'

    def _repr_html_(self) -> str:
        words, lesson = self.onward
        go = f" {self._link(lesson, 'font-weight:600')}" if lesson is not None else ""
        parts = [f'<p style="font-size:1.15em;margin:.5em 0">{escape(words)}{go}</p>']
        if trouble := unread_words(self.found.unread):
            parts.append(f'<p><b aria-hidden="true">!</b> {escape(trouble)}</p>')
        parts.append(f"<p>{self._link(REVIEW)}: {escape(self.due)}</p>")
        parts += [_head("Lessons"), _list(self._row(lesson) for lesson in LESSONS)]
        if self.found.again:
            rows = (_pair(self._link(lesson), wrong) for lesson, wrong in self._tries())
            parts += [_head("Worth another try"), "<p>The exercises there have other numbers for you.</p>", _list(rows)]
        parts += [_head("Beside the lessons"), _list(_pair(self._link(page), page.learns) for page in BESIDE)]
        return f'<div style="{TEXT};max-width:46rem;padding:0 5px">{"".join(parts)}</div>'

    def __repr__(self) -> str:
        words, lesson = self.onward
        lines = [f"{words} {lesson.name}." if lesson is not None else words]
        lines += [trouble] if (trouble := unread_words(self.found.unread)) else []
        lines.append(f"{REVIEW.name}: {self.due}")
        for lesson in LESSONS:
            standing, takes = self.found.of(lesson.id), minutes(lesson)
            said = [standing_words(standing) if standing is not None else "", f"{takes} minutes" if takes else ""]
            lines.append(f"{lesson.name}: {', '.join(text for text in said if text)}")
        lines += [f"Worth another try: {lesson.name}: {wrong}" for lesson, wrong in self._tries()]
        return "\n".join([*lines, *(f"{page.name}: {page.learns}" for page in BESIDE)])


def _standing(standing: Standing) -> str:
    """A sign, a bar as long as what is answered, and the words, which say it all."""
    part = 100 * standing.answered / standing.asked
    fill = f'<span style="display:block;height:100%;width:{part:.0f}%;background:{INK}"></span>'
    drawn = f'<span style="display:inline-block;width:4rem;height:.55rem;border:1px solid {INK};margin-right:.6rem">{fill}</span>'
    sign = f'<span style="display:inline-block;width:1.4em">{SIGNS[standing.state]}</span>'
    return f'<span style="flex:0 0 17rem"><span aria-hidden="true">{sign}{drawn}</span>{escape(standing_words(standing))}</span>'


def _head(words: str) -> str:
    return f'<h2 style="{HEAD}">{escape(words)}</h2>'


def _list(rows: Iterable[str]) -> str:
    return f'<ul style="list-style:none;margin:0;padding:0;border-top:1px solid {LINE}">{"".join(rows)}</ul>'


def _pair(link: str, words: str) -> str:
    return f'<li style="{ROW}"><span style="flex:1 1 15rem">{link}</span><span style="flex:1 1 20rem">{escape(words)}</span></li>'


def ways() -> Ways:
    """Where the learner is, as the folder has it now."""
    found, now = kept(home() / "answers"), moments.now()
    due = due_words(review(found.answers, now), now)
    return Ways(so_far(found), (path.name for path in NOTEBOOKS.glob("*.ipynb")), due)

"""A learner's answers, kept beside the notebooks as JSON in the learner's own folder.

Every answer is added to what is on the disk, so a second notebook or a second window never
overwrites the first; a file that cannot be read is left as it is, and a new one is begun beside it.
Files hold ids (:mod:`anglelib.questions.answer_file`); those of the first format are read, and written
by ids with the next answer. Nothing is sent anywhere.

>>> from tempfile import TemporaryDirectory
>>> with TemporaryDirectory() as folder:
...     book = AnswerBook("07_taper_inside", folder)
...     book.add(Answer("vertex", 0, "7/32", "right"))
...     AnswerBook("07_taper_inside", folder).latest("vertex", 0).typed
''
'7/32'
"""

from __future__ import annotations

import os
import re
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from anglelib.contents_words import ANSWERS
from anglelib.errors import AnswerError, StorageError
from anglelib.names import check_id
from anglelib.questions import moments, on_the_page
from anglelib.questions.answer import PUT_BACK, Answer
from anglelib.questions.answer_file import Row, joined, parsed, rendered, row_of
from anglelib.storage import Source, read_text, write_text
from anglelib.visiting import visiting

__all__ = ["Answer", "AnswerBook", "Forgotten", "forget", "home", "kept_of", "take_back"]
_FILE = re.compile(r"([0-9a-z_]+?)(?:-\d+)?(?:\.previous)?\.json")
MOST_FILES = 100
PATIENCE = 6.0
"""How long a save is tried again when another window saved in between [s]."""


def home() -> Path:
    """The learner's folder: $ANGLELIB_HOME, else the folder the notebook is in."""
    return Path(os.environ.get("ANGLELIB_HOME") or ".")


@dataclass(frozen=True)
class Forgotten:
    """What was deleted: the answers of each lesson, so that it can be taken back, and the sentence of what could not be deleted."""

    rows: Mapping[str, tuple[Row, ...]] = field(default_factory=dict)
    trouble: str = ""


def kept_of(folder: str | os.PathLike) -> dict[str, list[Path]]:
    """The files of answers in a folder by lesson, previous versions too; a visitor's page keeps them in no file."""
    if visiting():
        return {name: [] for name in on_the_page.ROWS}
    found: dict[str, list[Path]] = {}
    for path in sorted(Path(folder).glob("*.json")):
        if match := _FILE.fullmatch(path.name):
            found.setdefault(match[1], []).append(path)
    return found


def forget(folder: str | os.PathLike, lesson: str | None = None) -> Forgotten:
    """Deletes every file of answers in a folder, previous versions too: of one lesson, or of all."""
    if visiting():
        return Forgotten(on_the_page.forgotten(lesson))
    rows: dict[str, tuple[Row, ...]] = {}
    trouble = ""
    for name, paths in kept_of(folder).items():
        if lesson not in (None, name):
            continue
        try:
            before = AnswerBook(name, folder).rows
        except (AnswerError, StorageError):
            before = ()
        for path in paths:
            try:
                path.unlink()
                rows[name] = before
            except OSError:
                trouble = f"{path.name} could not be deleted: delete it by hand in the folder {path.parent.name}."
    return Forgotten(rows, trouble)


def take_back(folder: str | os.PathLike, forgotten: Forgotten) -> str:
    """Keeps again what was forgotten, before what was answered since; "" or the sentence that says why not."""
    return " ".join(said for lesson, rows in forgotten.rows.items() if (said := AnswerBook(lesson, folder).put(rows)))


class AnswerBook:
    """The answers to one lesson; ``folder`` is where the lesson's answers lie (the learner's folder / answers)."""

    def __init__(self, lesson: str, folder: str | os.PathLike | None = None) -> None:
        self.lesson = check_id(lesson, "lesson", AnswerError)
        self.folder = Path(folder) if folder is not None else home() / "answers"
        self.on_the_page = visiting()
        """Whether the answers stay in this page's memory: it is a visitor's."""
        self.unread: tuple[str, ...] = ()
        """The names of this lesson's files that could not be read, at the last look."""

    # --- reading --------------------------------------------------------------------------------
    @property
    def answers(self) -> tuple[Answer, ...]:
        """All answers so far, oldest first; none where nothing can be read."""
        try:
            return tuple(row.answer for row in self.rows)
        except StorageError:
            return ()

    @property
    def rows(self) -> tuple[Row, ...]:
        """The same as they stand in the files; raises StorageError."""
        return self._current()[2]

    def latest(self, question: str, variant: int) -> Answer | None:
        """The last answer that was given to a question with these numbers; None where there is none, or the question was put back since."""
        found = [a for a in self.answers if (a.question, a.variant) == (question, variant)]
        return found[-1] if found and found[-1].status != PUT_BACK else None

    def _path(self, number: int) -> Path:
        return self.folder / f"{self.lesson}{f'-{number}' if number > 1 else ''}.json"

    def _current(self) -> tuple[Path, Source | None, tuple[Row, ...]]:
        """The file in use: the first that can be read, or the first that is not there yet; with the rows of all that can be read."""
        if self.on_the_page:
            return self._path(1), None, on_the_page.ROWS.get(self.lesson, ())
        read: list[tuple[Path, Source, tuple[Row, ...]]] = []
        self.unread = ()
        for number in range(1, MOST_FILES):
            path = self._path(number)
            if not os.path.exists(path):
                break
            try:
                source = read_text(path, kind=ANSWERS)
                lesson, rows = parsed(source.text)
                if lesson != self.lesson:
                    raise ValueError
                read.append((path, source, rows))
            except (StorageError, ValueError):
                self.unread += (path.name,)
        else:
            if not read:
                raise StorageError(f"None of the answer files of {self.lesson} can be read: move them out of the folder answers.")
        if not read:
            return path, None, ()
        return read[0][0], read[0][1], joined(rows for _, _, rows in read)

    # --- writing --------------------------------------------------------------------------------
    def add(self, answer: Answer) -> str:
        """Keeps one more answer, with the moment. Returns "" when it is on the disk, else the sentence that says why not."""
        answer = answer if answer.at else replace(answer, at=moments.written(moments.now()))
        return self._save(lambda before: (*before, row_of(answer)))

    def put(self, rows: Sequence[Row]) -> str:
        """Keeps rows before those that are there now. Returns "" or a sentence, as :meth:`add` does."""
        return self._save(lambda before: joined((rows, before))) if rows else ""

    def _save(self, changed: Callable[[tuple[Row, ...]], Sequence[Row]]) -> str:
        if self.on_the_page:
            on_the_page.ROWS[self.lesson] = tuple(changed(self.rows))
            return ""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError:
            return f"Your answer is not kept: the folder {self.folder.name} cannot be made here."
        deadline = time.monotonic() + PATIENCE
        while True:
            try:
                path, source, before = self._current()
                write_text(path, rendered(self.lesson, changed(before)), read=source)
                return ""
            except StorageError as error:  # another window may have saved in between: read again
                if time.monotonic() > deadline:
                    return f"Your answer is not kept. {error}"

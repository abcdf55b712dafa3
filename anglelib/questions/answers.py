"""A learner's answers, kept beside the notebooks as JSON in the learner's own folder.

Every answer is added to what is on the disk, so a second notebook or a second window never
overwrites the first; a file that cannot be read is left as it is, and a new one is begun beside it.
Nothing is sent anywhere.

>>> from tempfile import TemporaryDirectory
>>> with TemporaryDirectory() as folder:
...     book = AnswerBook("07_taper_inside", folder)
...     book.add(Answer("vertex", 0, "7/32", "right"))
...     AnswerBook("07_taper_inside", folder).latest("vertex", 0).typed
''
'7/32'
"""

from __future__ import annotations

import json
import os
import re
import time
from collections.abc import Iterable
from dataclasses import asdict, dataclass, fields
from pathlib import Path

from anglelib.errors import AnswerError, StorageError
from anglelib.names import check_id
from anglelib.storage import Source, read_text, write_text

FORMAT = 1
_FILE = re.compile(r"([0-9a-z_]+?)(?:-\d+)?(?:\.previous)?\.json")
PATIENCE = 6.0
"""How long a save is tried again when another window saved in between [s]."""


@dataclass(frozen=True)
class Answer:
    """One answer as it was given: the question's id, which of its fresh numbers, the text, the grade."""

    question: str
    variant: int
    typed: str
    status: str
    mistake: str = ""


def home() -> Path:
    """The learner's folder: $ANGLELIB_HOME, else the folder the notebook is in."""
    return Path(os.environ.get("ANGLELIB_HOME") or ".")


def forget(folder: str | os.PathLike) -> tuple[int, str]:
    """Deletes every file of answers in a folder, previous versions too.

    Returns of how many lessons, and "" or the sentence that says what could not be deleted.
    """
    gone, trouble = set(), ""
    for path in sorted(Path(folder).glob("*.json")):
        lesson = _FILE.fullmatch(path.name)
        if lesson is None:
            continue
        try:
            path.unlink()
            gone.add(lesson[1])
        except OSError:
            trouble = f"{path.name} could not be deleted: delete it by hand in the folder {path.parent.name}."
    return len(gone), trouble


class AnswerBook:
    """The answers to one lesson; ``folder`` is where the lesson's answers lie (the learner's folder / answers)."""

    def __init__(self, lesson: str, folder: str | os.PathLike | None = None) -> None:
        self.lesson = check_id(lesson, "lesson", AnswerError)
        self.folder = Path(folder) if folder is not None else home() / "answers"

    # --- reading --------------------------------------------------------------------------------
    @property
    def answers(self) -> tuple[Answer, ...]:
        """All answers so far, oldest first; none where nothing can be read."""
        try:
            return self._current()[2]
        except StorageError:
            return ()

    def latest(self, question: str, variant: int) -> Answer | None:
        """The last answer that was given to a question with these numbers."""
        found = [a for a in self.answers if (a.question, a.variant) == (question, variant)]
        return found[-1] if found else None

    def _path(self, number: int) -> Path:
        return self.folder / f"{self.lesson}{f'-{number}' if number > 1 else ''}.json"

    def _current(self) -> tuple[Path, Source | None, tuple[Answer, ...]]:
        """The file in use: the first that can be read, or the first that is not there yet."""
        for number in range(1, 100):
            path = self._path(number)
            if not path.exists():
                return path, None, ()
            try:
                source = read_text(path)
                return path, source, self._parsed(source)
            except (StorageError, AnswerError):
                continue
        raise StorageError(f"None of the answer files of {self.lesson} can be read: move them out of the folder answers.")

    def _parsed(self, source: Source) -> tuple[Answer, ...]:
        names = {field.name for field in fields(Answer)}
        try:
            data = json.loads(source.text)
            if data["format"] != FORMAT or data["lesson"] != self.lesson:
                raise KeyError
            return tuple(_checked(entry, names) for entry in data["answers"])
        except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
            raise AnswerError(f"{source.path.name} does not hold answers to {self.lesson}.") from None

    # --- writing --------------------------------------------------------------------------------
    def add(self, answer: Answer) -> str:
        """Keeps one more answer. Returns "" when it is on the disk, else the sentence that says why not."""
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
        except OSError:
            return f"Your answer is not kept: the folder {self.folder.name} cannot be made here."
        deadline = time.monotonic() + PATIENCE
        while True:
            try:
                path, source, before = self._current()
                write_text(path, self._text((*before, answer)), read=source)
                return ""
            except StorageError as error:  # another window may have saved in between: read again
                if time.monotonic() > deadline:
                    return f"Your answer is not kept. {error}"

    def _text(self, answers: Iterable[Answer]) -> str:
        rows = ",\n".join(f"  {json.dumps(asdict(answer), ensure_ascii=False)}" for answer in answers)
        head = json.dumps({"format": FORMAT, "lesson": self.lesson})[:-1]
        return f'{head}, "answers": [\n{rows}\n]}}\n'


def _checked(entry: dict, names: set[str]) -> Answer:
    answer = Answer(**{name: value for name, value in entry.items() if name in names})
    texts = (answer.question, answer.typed, answer.status, answer.mistake)
    if not all(isinstance(text, str) for text in texts) or not isinstance(answer.variant, int):
        raise ValueError
    return answer

"""The text of an answer file: JSON, a line an answer, by ids. Files of the first format are read too.

A row that cannot be told by ids, because no question or choice of the course was ever so called, is kept
as it stands and left alone. What several windows saved beside one another is joined without loss.

>>> text = '{"format": 2, "lesson": "07", "answers": [{"question": "q", "variant": 0, "typed": "1", "status": "right", "slips": []}]}'
>>> lesson, rows = parsed(text)
>>> rows[0].answer
Answer(question='q', variant=0, typed='1', status='right', slips=())
>>> print(rendered(lesson, rows), end="")
{"format": 2, "lesson": "07", "answers": [
  {"question": "q", "variant": 0, "typed": "1", "status": "right", "slips": []}
]}
>>> parsed('{"format": 9}')
Traceback (most recent call last):
    ...
ValueError: no answers to a lesson
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from anglelib.questions.answer import Answer

FORMAT = 2
FORMATS = (1, FORMAT)
"""The formats that are read."""


@dataclass(frozen=True)
class Row:
    """One answer as it is understood, and the text of its line: two rows are the same where their texts are."""

    answer: Answer
    text: str


def row_of(answer: Answer) -> Row:
    """The row of a new answer."""
    entry = asdict(answer)
    if not answer.at:
        del entry["at"]
    return Row(answer, _text(entry))


def _text(entry: Mapping[str, Any]) -> str:
    return json.dumps(entry, ensure_ascii=False)


def parsed(text: str, most: int | None = None) -> tuple[str, tuple[Row, ...]]:
    """The lesson and the rows of a file, at most so many; ValueError where it holds no answers."""
    try:
        data = json.loads(text)
        lesson, answers = data["lesson"], data["answers"]
        if data["format"] not in FORMATS or not isinstance(lesson, str) or not isinstance(answers, list):
            raise ValueError
        return lesson, tuple(_row(lesson, entry) for entry in answers[:most])
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        raise ValueError("no answers to a lesson") from None


def _row(lesson: str, entry: Mapping[str, Any]) -> Row:
    """One row of either format; ValueError, KeyError or TypeError where it is none."""
    text = _text(entry)
    text.encode("utf-8")  # half a character cannot be written again
    for name in ("question", "status"):
        if not isinstance(entry[name], str):
            raise ValueError
    if not isinstance(entry["variant"], int) or isinstance(entry["variant"], bool):
        raise ValueError
    if "slips" not in entry:  # as the first format has it; also a row of it that was left as it stands
        if not isinstance(entry["typed"], str) or not isinstance(entry.get("mistake", ""), str):
            raise ValueError
        from anglelib.questions.format_1 import from_format_1  # its tables are long, and few have an old file

        answer, whole = from_format_1(lesson, entry["question"], entry["variant"], entry["typed"], entry["status"], entry.get("mistake", ""))
        return row_of(answer) if whole else Row(answer, text)
    typed, slips = entry["typed"], entry["slips"]
    if not (isinstance(typed, str) or _texts(typed)) or not _texts(slips):
        raise ValueError
    typed = typed if isinstance(typed, str) else tuple(typed)
    at = entry.get("at", "")  # not in files of earlier
    return Row(Answer(entry["question"], entry["variant"], typed, entry["status"], tuple(slips), at if isinstance(at, str) else ""), text)


def _texts(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(text, str) for text in value)


def rendered(lesson: str, rows: Iterable[Row]) -> str:
    """The text of a file with these rows."""
    lines = ",\n".join(f"  {row.text}" for row in rows)
    head = json.dumps({"format": FORMAT, "lesson": lesson})[:-1]
    return f'{head}, "answers": [\n{lines}\n]}}\n'


def joined(files: Iterable[Iterable[Row]]) -> tuple[Row, ...]:
    """The rows of the first file, then those of the next that are not among them, and so on.

    A window that knows the first format only begins a file beside one of this format. What it saves there
    comes last, and is in the first file too once somebody saves that.
    """
    found: list[Row] = []
    for rows in files:
        there = Counter(found)
        for row in rows:
            if there[row]:
                there[row] -= 1
            else:
                found.append(row)
    return tuple(found)

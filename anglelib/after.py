"""Prose that waits for an answer: it stands folded under its question, and opens when the question is answered, rightly or not.

In a notebook it is a fold of HTML whose class names the questions that it waits for, so it can be read by hand wherever nothing runs::

    <details class="after predict-the-mark"><summary>Answered? Read on</summary>

    The line bends in the fillet.

    </details>

On a page each question carries a mark with its id (:func:`mark`), and a script opens the folds whose questions are answered, and closes
those whose question was put back. No message of the kernel is needed for it.

>>> text = 'Before.\\n\\n<details class="after a b"><summary>Answered? Read on</summary>\\n\\nThe answer.\\n\\n</details>\\n\\nOnward.'
>>> folds(text)
(Fold(questions=('a', 'b'), text='The answer.'),)
>>> standing(text, answered=["a"]).split(), standing(text, answered=["a", "b"]).split()
(['Before.', 'Onward.'], ['Before.', 'The', 'answer.', 'Onward.'])
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

CLASS = "after"
SUMMARY = "Answered? Read on"
_FOLD = re.compile(r'<details class="after ([^"]+)"><summary>[^<]*</summary>\s*(.*?)\s*</details>', re.DOTALL)
_OTHER = re.compile(r"<details\b.*?</details>", re.DOTALL)

_SCRIPT = Path(__file__).resolve().parent / "lab" / "extensions" / "anglelib-lab" / "after.js"
"""Where JupyterLab finds it as a file; a plain page has it in its head."""


def script() -> str:
    """The script that opens and closes the folds of a page."""
    return _SCRIPT.read_text(encoding="utf-8")


@dataclass(frozen=True)
class Fold:
    """Prose that waits: the ids of its questions, and its text."""

    questions: tuple[str, ...]
    text: str


def mark(question: str, answered: bool) -> str:
    """The mark of a question, which nobody sees."""
    return f'<span hidden data-question="{question}" data-answered="{"yes" if answered else "no"}"></span>'


def fold(questions: Collection[str], inner: str, summary: str = SUMMARY) -> str:
    """A fold that waits for some questions, around HTML."""
    return f'<details class="{" ".join([CLASS, *questions])}"><summary>{summary}</summary>{inner}</details>'


def folds(text: str) -> tuple[Fold, ...]:
    """What waits in a text."""
    return tuple(Fold(tuple(found[1].split()), found[2]) for found in _FOLD.finditer(text))


def standing(text: str, answered: Collection[str] = ()) -> str:
    """What of a text stands open to be read when some questions are answered: what waits for others, and every other fold, is closed."""
    opened = _FOLD.sub(lambda found: found[2] if set(found[1].split()) <= set(answered) else "", text)
    return _OTHER.sub("", opened)

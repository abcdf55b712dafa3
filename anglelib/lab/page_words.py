"""Words of the glossary in the prose of a lesson in JupyterLab, which renders the prose itself: by cell, where its words stand, their meanings, and the style of a marked word.

A cell is known by its text, so that a cell that the learner has rewritten has no marks, and the others keep theirs.

>>> page_words("notebooks/home.ipynb"), page_words("../secret.txt")
({}, {})
"""

from __future__ import annotations

import json
from dataclasses import astuple
from typing import Any

from anglelib.copies import PROJECT, shipped
from anglelib.explained import NOT_ON, STYLE, explained, meaning, places


def page_words(name: str) -> dict[str, Any]:
    """Of a page of the course: its cells of prose with ``[term, word, how many equal words stand before it]``, and each word's meaning.

    Nothing of any other file.
    """
    file = shipped(PROJECT).get(name)
    page = file.stem if file is not None and file.suffix == ".ipynb" else ""
    if not page or page in NOT_ON:
        return {}
    cells = json.loads(file.read_text(encoding="utf-8"))["cells"]
    texts = ["".join(cell["source"]) for cell in cells if cell["cell_type"] == "markdown"]
    marked, used = explained(texts, page)
    found = [{"text": text, "words": [astuple(place) for place in places(one)]} for text, one in zip(texts, marked, strict=True)]
    return {"cells": [cell for cell in found if cell["words"]], "meanings": {id: meaning(id) for id in used}, "style": STYLE}

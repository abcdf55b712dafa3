"""A saved lesson shows pictures, never a view of a widget that is gone.

JupyterLab saves with each output which widget was shown, by a number that means something to one kernel alone; on the next day, with
another kernel, it prefers that number to the picture beside it and says "Error displaying widget: model not found". So the number is set
aside when a lesson is saved, and when one is read that was saved otherwise: what is left is the picture. The course's script in
the browser puts the number back where the kernel still has the widget, as after loading the page again.

>>> output = {"output_type": "display_data", "metadata": {}, "data": {VIEW: {"model_id": "7f"}, "text/html": "<img>", "text/plain": "x"}}
>>> set_aside({"cells": [{"cell_type": "code", "outputs": [output]}], "metadata": {}})
1
>>> output["data"], output["metadata"]
({'text/html': '<img>', 'text/plain': 'x'}, {'anglelib_view': '7f'})
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

VIEW = "application/vnd.jupyter.widget-view+json"
ASIDE = "anglelib_view"
"""The key in an output's metadata under which the widget's number is set aside."""
NOT_RUN = "What stands here is shown when the cell is run."
"""In place of an output that has nothing but its widget."""


def set_aside(notebook: Any) -> int:
    """Take the widgets' views and their saved state out of a notebook, in place; how many views there were."""
    count = 0
    for output in _outputs(notebook):
        view = output["data"].pop(VIEW, None)
        if view is None:
            continue
        count += 1
        number = view.get("model_id") if isinstance(view, dict) else None
        metadata = output.setdefault("metadata", {})
        metadata.pop(VIEW, None)
        if isinstance(number, str) and number:
            metadata[ASIDE] = number
        if not output["data"]:
            output["data"]["text/plain"] = NOT_RUN
    # A saved state would show controls that look alive and move nothing.
    _mapping(notebook, "metadata").pop("widgets", None)
    return count


def forget(notebook: Any) -> None:
    """Take the views out for good, in place: for what the project itself saves, which no kernel will know."""
    set_aside(notebook)
    for output in _outputs(notebook):
        _mapping(output, "metadata").pop(ASIDE, None)


def _outputs(notebook: Any) -> Iterator[Any]:
    """The outputs that have data; a file may be anything, and what is no notebook has none."""
    cells = notebook.get("cells") if isinstance(notebook, dict) else None
    for cell in cells if isinstance(cells, list) else ():
        outputs = cell.get("outputs") if isinstance(cell, dict) else None
        for output in outputs if isinstance(outputs, list) else ():
            if isinstance(output, dict) and isinstance(output.get("data"), dict):
                yield output


def _mapping(of: Any, key: str) -> dict:
    found = of.get(key) if isinstance(of, dict) else None
    return found if isinstance(found, dict) else {}

"""Runs every notebook afresh, saves its outputs as they are committed, and draws every figure.

    python -m tests.refresh              all notebooks and figures
    python -m tests.refresh 07           those whose name begins so
    python -m tests.refresh --cells      only what needs no run: no view of a widget, cells that stay

What comes out depends on nothing but the project: execution counts 1 to n, no widget's state and no
view of one, no times, no Python version; and no cell can be deleted by a key that slips. Run it with the
oldest supported Python; a newer one must give the same (the strict run of the notebooks holds it).
"""

from __future__ import annotations

import importlib
import os
import pkgutil
import sys
import tempfile
from pathlib import Path
from typing import Any

import nbformat
from nbclient import NotebookClient

from anglelib.lab.views import forget

PROJECT = Path(__file__).resolve().parent.parent
NOTEBOOKS, FIGURES = PROJECT / "notebooks", PROJECT / "figures"
METADATA = {
    "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
    "language_info": {"file_extension": ".py", "mimetype": "text/x-python", "name": "python", "pygments_lexer": "ipython3"},
}


def notebooks(prefix: str = "") -> list[Path]:
    """The notebooks by name; raises SystemExit where there is none, so that nothing passes for done."""
    found = sorted(path for path in NOTEBOOKS.glob("*.ipynb") if path.name.startswith(prefix))
    if not found:
        raise SystemExit(f"No notebook in {NOTEBOOKS.name}/ begins with {prefix!r}.")
    return found


def executed(path: Path) -> nbformat.NotebookNode:
    """The notebook run from top to bottom in its own folder, with no answers of anybody."""
    notebook = nbformat.read(path, as_version=4)
    with tempfile.TemporaryDirectory() as home:
        before = os.environ.get("ANGLELIB_HOME")
        os.environ["ANGLELIB_HOME"] = home
        try:
            NotebookClient(
                notebook, timeout=120, kernel_name="python3", record_timing=False, resources={"metadata": {"path": str(path.parent)}}
            ).execute()
        finally:
            os.environ.pop("ANGLELIB_HOME")
            if before is not None:
                os.environ["ANGLELIB_HOME"] = before
    return settled(notebook)


def settled(notebook: nbformat.NotebookNode) -> nbformat.NotebookNode:
    """The same without what differs from run to run, and with cells that stay."""
    notebook.metadata = nbformat.from_dict(METADATA)
    forget(notebook)
    for cell in notebook.cells:
        cell.metadata["deletable"] = False
        if cell.cell_type == "code":
            cell.metadata.pop("execution", None)
    return notebook


def figure_modules() -> list[Any]:
    """Every module that has figures: lessons, and the count that the diagnosis is judged by."""
    import anglelib.lessons as lessons

    found = [importlib.import_module(f"anglelib.lessons.{module.name}") for module in pkgutil.iter_modules(lessons.__path__)]
    sys.path.insert(0, str(PROJECT / "tests" / "diagnosis"))
    found.append(importlib.import_module("diagnosis_count"))
    return [module for module in found if hasattr(module, "figures")]


def draw_figures(prefix: str = "") -> list[Path]:
    """Writes the figures that have changed."""
    from anglelib.drawing.mpl import png_fingerprint, save_png
    from anglelib.drawing.svg import fingerprint

    FIGURES.mkdir(exist_ok=True)
    written = []
    for module in figure_modules():
        for name, sheet in module.figures().items():
            path = FIGURES / name
            if name.startswith(prefix) and not (path.exists() and png_fingerprint(path) == fingerprint(sheet)):
                save_png(sheet, path, "screen", dpi=150)
                written.append(path)
    return written + draw_words() if "glossary".startswith(prefix) else written


def draw_words() -> list[Path]:
    """Writes the drawings of the glossary's words that have changed."""
    from anglelib.lessons.glossary import word_pictures

    changed = [(FIGURES / name, text) for name, text in word_pictures().items() if not (FIGURES / name).exists() or (FIGURES / name).read_text() != text]
    for path, text in changed:
        path.write_text(text, encoding="utf-8")
    return [path for path, _ in changed]


def main(words: list[str]) -> None:
    if words[:1] == ["--cells"]:
        for path in notebooks(*words[1:]):
            nbformat.write(settled(nbformat.read(path, as_version=4)), path)
        return
    prefix = words[0] if words else ""
    for path in draw_figures(prefix):
        print(path.relative_to(PROJECT))
    for path in notebooks(prefix):
        nbformat.write(executed(path), path)
        print(path.relative_to(PROJECT))


if __name__ == "__main__":
    main(sys.argv[1:])

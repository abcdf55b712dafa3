"""Where nothing runs: each page as nbconvert's HTML keeps its pictures, sentences and questions, and as Markdown at least one plain PNG."""

import re
from html import unescape
from pathlib import Path

import nbformat
import pytest

NOTEBOOKS = sorted((Path(__file__).resolve().parents[1] / "notebooks").glob("*.ipynb"))
FIGURE = re.compile(r"!\[([^\]]{20,})\]\((\.\./figures/[a-z0-9_]+\.png)\)")


def exported(notebook: nbformat.NotebookNode) -> str:
    from nbconvert import HTMLExporter

    return HTMLExporter(exclude_input=True, embed_images=False).from_notebook_node(notebook)[0]


def saved_pictures(notebook: nbformat.NotebookNode) -> list[str]:
    """The alternative texts of the pictures in the saved outputs."""
    outputs = [output for cell in notebook.cells if cell.cell_type == "code" for output in cell.outputs]
    html = "".join("".join(output.get("data", {}).get("text/html", "")) for output in outputs)
    return [unescape(text) for text in re.findall(r'<img alt="([^"]+)"', html)]


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_the_page_can_be_read_unrun(path):
    notebook = nbformat.read(path, as_version=4)
    html = unescape(exported(notebook))
    wanted = saved_pictures(notebook)
    assert all(f'alt="{text}"' in html for text in wanted)
    assert "Traceback" not in html and "Error displaying widget" not in html
    if path.stem == "home":  # a list and no lesson: what is read there are its links
        assert html.count('href="') >= 18 and "00 Start here" in html
    if path.stem in ("home", "review"):  # what comes back has its pictures when it comes
        return
    figures = [found for cell in notebook.cells if cell.cell_type == "markdown" for found in FIGURE.findall(cell.source)]
    assert figures, "no plain picture for where HTML is stripped"
    assert all((path.parent / target).is_file() for _, target in figures)


def test_a_lost_picture_is_seen():
    notebook = nbformat.read(NOTEBOOKS[0], as_version=4)
    texts = saved_pictures(notebook)
    for cell in notebook.cells:
        if cell.cell_type == "code":
            cell.outputs = []
    html = unescape(exported(notebook))
    assert any(f'alt="{text}"' not in html for text in texts)  # some stand in the page's own Markdown too

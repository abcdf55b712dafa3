"""The way through the course: every lesson once, in order, forwards and back; every link leads to a page that is there."""

import json
import re
from html.parser import HTMLParser
from pathlib import Path
from types import SimpleNamespace

import nbformat
import pytest

from anglelib import pages, way

NOTEBOOKS = Path(__file__).resolve().parents[1] / "notebooks"
LESSONS = sorted(path.name for path in NOTEBOOKS.glob("[0-9][0-9]_*.ipynb"))
"""By their numbers, as the folder has them: not from the table that the links are made from."""
BESIDE = sorted(path.name for path in NOTEBOOKS.glob("[a-z]*.ipynb") if path.name != "home.ipynb")
LINK = re.compile(r"(?<!!)\[([^\]]+)\]\(([^)\s]+\.ipynb)\)")


class Page(HTMLParser):
    """What a piece of HTML has: links (where, rel, words that are heard), ids, landmarks by name."""

    def __init__(self, text: str):
        super().__init__()
        self.links, self.ids, self.landmarks, self.open, self.hidden = [], [], [], None, 0
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        given = dict(attributes)
        self.ids += [given["id"]] if "id" in given else []
        if tag == "a":
            self.open = [given.get("href"), given.get("rel"), ""]
        if tag == "span" and given.get("aria-hidden") == "true":
            self.hidden += 1
        if tag == "nav":
            self.landmarks.append(given.get("aria-label"))

    def handle_endtag(self, tag):
        if tag == "a":
            self.links.append(tuple(self.open))
            self.open = None
        if tag == "span" and self.hidden:
            self.hidden -= 1

    def handle_data(self, data):
        if self.open is not None and not self.hidden:
            self.open[2] += data


def served(name: str, base: str = "/voila/render/notebooks/") -> nbformat.NotebookNode:
    """A notebook as a page, asked for by its address."""
    asked = SimpleNamespace(xsrf_token="", request=SimpleNamespace(path=base + name.replace("_", "%5F", 1)))
    return pages.prepared(asked, nbformat.read(NOTEBOOKS / name, as_version=4), "")


def bars(name: str) -> tuple[Page, Page]:
    """The first and the last cell of a page."""
    cells = served(name).cells
    return Page(cells[0].source), Page(cells[-1].source)


def follow(start: str, rel: str, place: int) -> list[str]:
    found = [start]
    while len(found) <= len(LESSONS):
        onward = [where for where, how, _ in bars(found[-1])[place].links if how == rel]
        if not onward:
            return found
        assert len(onward) == 1
        found += onward
    raise AssertionError(f"{rel} goes round and round: {found}")


@pytest.mark.parametrize("place", [0, 1], ids=["top", "foot"])
def test_the_chain_has_every_lesson_once_in_order_forwards_and_back(place):
    assert follow(LESSONS[0], "next", place) == LESSONS
    assert follow(LESSONS[-1], "prev", place) == LESSONS[::-1]


@pytest.mark.parametrize("name", [*LESSONS, *BESIDE])
def test_every_page_leads_home_and_every_link_has_a_name_and_a_target(name):
    for bar in bars(name):
        assert [where for where, how, _ in bar.links if how == "up"] == ["home.ipynb"]
        for where, how, words in bar.links:
            assert where.startswith("#") or (NOTEBOOKS / where).is_file()
            if how in ("prev", "next"):
                assert words.startswith(f"{'Previous' if how == 'prev' else 'Next'}: {where[:2]} ") and "←" not in words and "→" not in words
            assert words.strip()
        assert len(set(bar.landmarks)) == len(bar.landmarks) and all(bar.landmarks)
    if name in BESIDE:
        assert [words for _, how, words in bars(name)[1].links] == ["Home"]


def test_home_and_a_page_of_ones_own_are_as_they_are():
    assert len(served("home.ipynb").cells) == len(nbformat.read(NOTEBOOKS / "home.ipynb", as_version=4).cells)
    assert way.ways("my_own.ipynb") == () and way.bar((), "x") == "" == way.sections_bar(())


def test_a_base_address_changes_nothing():
    assert [cell.source for cell in served(LESSONS[3], "/user/a/voila/render/notebooks/").cells] == [cell.source for cell in served(LESSONS[3]).cells]


@pytest.mark.parametrize("name", [*LESSONS, *BESIDE])
def test_the_sections_of_a_page_are_its_headings_each_with_its_anchor(name):
    from nbconvert.filters import markdown2html

    cells = served(name).cells
    html = "".join(markdown2html(cell.source) for cell in cells if cell.cell_type == "markdown")
    headings = re.findall(r"<h2[^>]*>(.*?)</h2>", html, re.DOTALL)
    anchors = [Page(heading).ids for heading in headings]
    targets = [(where[1:], words) for where, _, words in Page(cells[0].source).links if where.startswith("#")]
    assert len(headings) >= 3 and [[target] for target, _ in targets] == anchors
    for (_, words), heading in zip(targets, headings, strict=True):
        assert "".join(words.split()) == "".join(re.sub(r"<a .*?</a>|<[^>]+>", "", heading).replace("&quot;", '"').replace("&amp;", "&").split())
    assert cells[0].source.count("<details") == 1 and " open" not in cells[0].source.partition("<summary>")[0]


# --- in the notebooks themselves -----------------------------------------------------------------------------
def closing(name: str) -> str:
    """The last paragraph of a notebook."""
    cells = json.loads((NOTEBOOKS / name).read_text(encoding="utf-8"))["cells"]
    return "".join(cells[-1]["source"]).strip().rpartition("\n")[2]


@pytest.mark.parametrize("name", [*LESSONS, *BESIDE])
def test_the_closing_line_of_a_notebook_links_on_and_home(name):
    links = [where for _, where in LINK.findall(closing(name))]
    assert links[-1] == "home.ipynb" and all((NOTEBOOKS / where).is_file() for where in links)
    if name in LESSONS[:-1]:
        assert links[0] == LESSONS[LESSONS.index(name) + 1] and closing(name).startswith("*Next: [")


def test_home_links_every_page_that_is_there():
    saved = nbformat.read(NOTEBOOKS / "home.ipynb", as_version=4)
    found = Page("".join(output.data["text/html"] for cell in saved.cells if cell.cell_type == "code" for output in cell.outputs)).links
    assert {where for where, _, _ in found} == {*LESSONS, *BESIDE}
    assert all(words.strip() for _, _, words in found)

"""The plain pages: what is left out of a lesson's text, and nothing else; and what Voila is started with."""

import json
import re
from pathlib import Path
from types import SimpleNamespace

import pytest

from anglelib import course, page_parts, pages
from anglelib.errors import BenchError

NOTEBOOKS = sorted((Path(__file__).resolve().parents[1] / "notebooks").glob("*.ipynb"))


def cells(path: Path) -> list[str]:
    saved = json.loads(path.read_text(encoding="utf-8"))
    return ["".join(cell["source"]) for cell in saved["cells"] if cell["cell_type"] == "markdown"]


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_a_page_says_nothing_of_running_and_all_else(path):
    before = cells(path)
    notebook = SimpleNamespace(metadata={}, cells=[SimpleNamespace(cell_type="markdown", source=text) for text in before])
    after = [cell.source for cell in pages.prepared(None, notebook, "").cells]
    assert before[0].startswith(f"# {notebook.metadata['title']}")
    assert not any("Run All" in text or "../figures" in text for text in after)
    for old, new in zip(before, after, strict=True):
        assert len(re.findall(r"\*\*", new)) % 2 == 0
        kept = {p for p in re.split(r"\n{2,}", old) if "Run" not in p}
        assert all(p.replace("](../figures/", "](figures/") in new for p in kept)
    assert any("Run All" in text for text in before) or path.stem[:2].isalpha()


def test_decimals_do_not_end_a_sentence():
    assert pages.as_page("It is 1.625 long. Choose **Run, Run All Cells**. Then 3.5 more.") == "It is 1.625 long. Then 3.5 more."
    assert pages.as_page("*Choose **Run, Run All Cells** once.*") == ""


def test_without_voila_a_sentence(monkeypatch, tmp_path):
    monkeypatch.setitem(__import__("sys").modules, "voila.app", None)
    with pytest.raises(BenchError, match="without --pages"):
        pages.serve(tmp_path, "00_start_here.ipynb", browser=False)


def test_the_script_that_waits_is_found_as_a_lab_extension(tmp_path):
    """As JupyterLab's own server reads it."""
    from jupyterlab_server.config import get_federated_extensions

    page_parts.write(tmp_path)
    found = get_federated_extensions([str(tmp_path / page_parts.EXTENSIONS)])[page_parts.NAME]
    assert (Path(found["ext_path"]) / found["jupyterlab"]["_build"]["load"]).is_file()
    written = "".join(path.read_text(encoding="utf-8") for path in tmp_path.rglob("*") if path.is_file())
    assert not re.search(r"@\w+@", written) and page_parts.ENDED in written


def test_a_folder_that_cannot_be_written_is_said(tmp_path):
    (tmp_path / pages.FOLDER).write_text("a file in the way", encoding="utf-8")
    with pytest.raises(BenchError, match="ANGLELIB_HOME"):
        pages._parts(tmp_path)


def test_the_command_serves_pages_from_the_learners_folder(monkeypatch, tmp_path):
    seen = []
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "mine"))
    monkeypatch.setattr(course, "serve", lambda *where, **how: seen.append((where, how)))
    assert course.main(["--pages", "--no-browser", "--port", "8123"]) == 0
    assert seen == [((tmp_path / "mine", "00_start_here.ipynb"), {"browser": False, "port": 8123})]
    assert (tmp_path / "mine" / "notebooks" / "00_start_here.ipynb").exists()

"""The plain pages: what is left out of a lesson's text, and nothing else; and what Voila is started with."""

import json
import logging
import os
import re
import sys
import warnings
from pathlib import Path
from types import SimpleNamespace

import pytest

from anglelib import course, page_parts, pages, served
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
    with pytest.raises(BenchError, match="with --lab"):
        pages.serve(tmp_path, tmp_path, "00_start_here.ipynb", browser=False)


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


@pytest.mark.parametrize("how", [(), ("--pages",)])
def test_the_command_serves_the_projects_own_pages_and_copies_nothing(how, monkeypatch, tmp_path):
    seen = []
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "mine"))
    monkeypatch.setattr(course, "serve", lambda *where, **how: seen.append((where, how)))
    monkeypatch.setattr(course, "refuse_taken", lambda port: None)
    assert course.main([*how, "--no-browser", "--port", "8123"]) == 0
    assert seen == [((tmp_path / "mine", course.PROJECT, "home.ipynb"), {"browser": False, "port": 8123})]
    assert list((tmp_path / "mine").iterdir()) == []


def test_the_lab_gets_copies(monkeypatch, tmp_path):
    seen = []
    monkeypatch.setenv("ANGLELIB_HOME", str(tmp_path / "mine"))
    monkeypatch.setattr(course, "_open_lab", lambda *how: seen.append(how))
    assert course.main(["--lab", "--no-browser"]) == 0
    assert seen == [(tmp_path / "mine", "00_start_here.ipynb", False, None)]
    assert (tmp_path / "mine" / "notebooks" / "00_start_here.ipynb").exists()


def test_the_options_name_what_voila_has(tmp_path):
    """A misspelt option would be ignored in silence."""
    app = pytest.importorskip("voila.app")
    from jupyter_server.auth.identity import PasswordIdentityProvider
    from jupyter_server.services.kernels.kernelmanager import MappingKernelManager
    from nbclient import NotebookClient

    from anglelib.kernels import CourseKernel

    owners = {"Voila": app.Voila, "Application": app.Voila, "VoilaConfiguration": app.VoilaConfiguration, "MappingKernelManager": MappingKernelManager, "NotebookClient": NotebookClient, "CourseKernel": CourseKernel, "PasswordIdentityProvider": PasswordIdentityProvider}
    for option in pages.server_options(tmp_path, tmp_path, 8123):
        owner, _, trait = option.removeprefix("--").partition("=")[0].partition(".")
        assert trait in owners[owner].class_traits(config=True), option


def test_what_is_served_is_every_lesson_and_every_figure():
    for path in NOTEBOOKS:
        assert re.fullmatch(served.LESSON_PAGE, f"/voila/render/notebooks/{path.name}"), path
    for path in (NOTEBOOKS[0].parents[1] / "figures").iterdir():
        assert re.fullmatch(served.FIGURE, f"figures/{path.name}"), path
    for path in ("notebooks/../a.ipynb", "notebooks/demo/a.ipynb", "notebooks/.a.ipynb", "notebooks/a%2Fb.ipynb", "a.ipynb", "notebooks/job.toml"):
        assert not re.fullmatch(served.LESSON_PAGE, f"/voila/render/{path}"), path
    for path in ("figures/../a.png", "figures/.a.png", "notebooks/a.png", "notebooks/a.svg", "figures/a.html", "figures/b/a.png", "figures/b/a.svg"):
        assert not re.fullmatch(served.FIGURE, path), path


def test_the_opening_file_is_the_learners_alone_and_follows_no_link(tmp_path):
    victim = tmp_path / "victim"
    victim.write_text("kept")
    (tmp_path / served.OPEN_NAME).symlink_to(victim)
    path = served.write_opening(tmp_path, "http://127.0.0.1:1/?token=ab&c=d")
    assert victim.read_text() == "kept" and not path.is_symlink()
    assert path.stat().st_mode & 0o077 == 0 or sys.platform == "win32"
    assert 'href="http://127.0.0.1:1/?token=ab&amp;c=d"' in path.read_text()


def test_libraries_are_quiet_unless_somebody_asks(monkeypatch):
    monkeypatch.setattr(served, "import_module", lambda name: warnings.filterwarnings("default"))
    monkeypatch.delenv("PYTHONWARNINGS", raising=False)
    for asked, heard in ((["default"], 1), ([], 0)):
        monkeypatch.setattr(sys, "warnoptions", asked)
        with warnings.catch_warnings(record=True) as said:
            warnings.simplefilter("always")
            served.quiet()
            warnings.warn("an old name", DeprecationWarning, stacklevel=1)
        assert len(said) == heard, asked
        assert ("PYTHONWARNINGS" in os.environ) is not bool(asked)
    assert not logging.getLogger("tornado.access").isEnabledFor(logging.WARNING)
    assert logging.getLogger("tornado.access").isEnabledFor(logging.ERROR)

"""The course as plain live pages: the same lessons with no code and nothing to run, for those who only want to learn.

Voila serves them from the learner's folder; each page that is opened gets a kernel of its own, which
ends with it. What a page says of running itself is left out, since it runs when it is opened.

>>> as_page("# Mark\\n\\n*25 minutes. In the menu, choose **Run, Run All Cells** once. Read on.*\\n\\n![A rule, seen flat.](../figures/a.png)")
'# Mark\\n\\n*25 minutes. Read on.*\\n\\n![A rule, seen flat.](figures/a.png)'
"""

from __future__ import annotations

import re
import webbrowser
from pathlib import Path
from typing import Any

from anglelib import page_parts
from anglelib.errors import BenchError
from anglelib.prompt_socket import SETTING

IDLE = 3600
"""After so long without a sign from its page a kernel is ended [s]."""
PATIENCE = 600
"""So long Voila waits for what a cell shows, once the cell has run [s]. Its own 4 s pass on a busy machine, and the cell shows nothing."""
FOLDER = ".pages"
_RUNNING = ("Run All Cells", "**Run**")
_WHOLE = "**How to run this page.**"
_SENTENCE = re.compile(r"[^.!?]*(?:\.(?=\d)[^.!?]*)*[.!?]+[*_)]*\s*")


def as_page(text: str) -> str:
    """A cell's Markdown as a page has it: no word of running, and pictures found from the learner's folder."""
    kept = []
    for paragraph in re.split(r"\n{2,}", text):
        if paragraph.startswith(_WHOLE):
            continue
        if any(word in paragraph for word in _RUNNING):
            paragraph = _without_running(paragraph)
        if paragraph:
            kept.append(paragraph)
    return "\n\n".join(kept).replace("](../figures/", "](figures/")


def _without_running(paragraph: str) -> str:
    """The paragraph without the sentences about running; its emphasis stays whole."""
    emphasis = "*" if re.match(r"\*[^*]", paragraph) else ""
    inner = paragraph.strip("*") if emphasis else paragraph
    said = "".join(s for s in _SENTENCE.findall(inner) if not any(word in s for word in _RUNNING)).strip()
    return f"{emphasis}{said}{emphasis}" if said else ""


def prepared(request: Any, notebook: Any, cwd: str) -> Any:
    """Voila's hook before a page's kernel starts: the notebook as a page."""
    if request is not None:
        request.xsrf_token  # noqa: B018  asked for, it is sent as a cookie, without which the leaving page may not end its kernel
    heading = next((cell.source for cell in notebook.cells if cell.cell_type == "markdown"), "").partition("\n")[0]
    notebook.metadata["title"] = heading.lstrip("# ")
    for cell in notebook.cells:
        if cell.cell_type == "markdown":
            cell.source = as_page(cell.source)
    notebook.cells = [shown for cell in notebook.cells for shown in with_its_code(cell)]
    return notebook


def with_its_code(cell: Any) -> list[Any]:
    """A cell, after its own code as text where that is not collapsed: Voila leaves all code out, and lesson 13 is about it."""
    if cell.cell_type != "code" or cell.metadata.get("jupyter", {}).get("source_hidden"):
        return [cell]
    from nbformat.v4 import new_markdown_cell

    return [new_markdown_cell(f"```python\n{cell.source}\n```"), cell]


def serve(folder: Path, first: str, *, browser: bool, port: int | None = None) -> None:
    """Serve the learner's folder on this machine only, behind a token, and open its first page; returns when stopped."""
    try:
        from tornado.web import RedirectHandler
        from voila.app import Voila
    except ImportError as error:
        raise BenchError(
            "Voila, which shows the pages, is not installed: run the README's first command line again, or open the course without --pages."
        ) from error

    class Pages(Voila):  # type: ignore[misc]
        def init_handlers(self) -> list:
            begin = [(r"/?", RedirectHandler, {"url": f"/voila/render/notebooks/{first}", "permanent": False})]
            return begin + super().init_handlers()

        def launch_browser(self) -> None:
            """Called once the port is taken: the address has its token."""
            print(f"The pages are at {self.display_url}", flush=True)
            if browser:
                webbrowser.open(self.display_url)

    given = [
        "--Voila.ip=127.0.0.1", "--Voila.auto_token=True", f"--Voila.root_dir={folder}", "--Application.log_level=ERROR",
        f"--MappingKernelManager.cull_idle_timeout={IDLE}", "--VoilaConfiguration.show_tracebacks=False", f"--Voila.{SETTING}",
        f"--NotebookClient.iopub_timeout={PATIENCE}",
    ]  # fmt: skip
    given += [f"--VoilaConfiguration.extra_labextensions_path={_parts(folder) / page_parts.EXTENSIONS}"]
    given += [f"--port={port}"] if port is not None else []
    app = Pages.instance()
    app.initialize(given)
    app.voila_configuration.prelaunch_hook = prepared
    app.template_paths.insert(0, str(folder / FOLDER))
    app.start()


def _parts(folder: Path) -> Path:
    """The folder of the page's own parts, inside the learner's."""
    place = folder / FOLDER
    try:
        page_parts.write(place)
    except OSError as error:
        raise BenchError(f"The course folder {folder} cannot be written: {error.strerror}. Choose another with ANGLELIB_HOME.") from None
    return place

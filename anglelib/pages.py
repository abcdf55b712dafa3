"""The course as plain live pages: the same lessons with no code and nothing to run, for those who only want to learn.

Voila serves them from the project, so that they are always its newest and nobody can damage them; answers and what is saved go
to the learner's folder. Each page that is opened gets a kernel of its own, which ends with it. What a page says of running itself
is left out, since it runs when it is opened.

>>> as_page("# Mark\\n\\n*25 minutes. In the menu, choose **Run, Run All Cells** once. Read on.*\\n\\n![A rule, seen flat.](../figures/a.png)")
'# Mark\\n\\n*25 minutes. Read on.*\\n\\n![A rule, seen flat.](figures/a.png)'
"""

from __future__ import annotations

import os
import re
import signal
import threading
import webbrowser
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from shutil import rmtree
from typing import Any
from urllib.parse import unquote

from anglelib import page_parts, spare
from anglelib.errors import BenchError
from anglelib.explained import NOT_ON, explained, meanings
from anglelib.lessons.contents import HOME
from anglelib.lessons.look_style import shown_by
from anglelib.lessons.room import THEMES, Room
from anglelib.port import none_free
from anglelib.prompt_socket import SETTING
from anglelib.rendering import say_where_python_ends
from anglelib.served import FIGURE, NO_PASSWORD, OPEN_NAME, end_kernels, kernel_options, only_lessons, port_options, quiet, write_opening
from anglelib.way import STYLE, anchored, bar, sections_bar, ways
from anglelib.within_reach import with_letters

IDLE = 3600
"""After so long without a sign from its page a kernel is ended [s]."""
PATIENCE = 600
"""So long Voila waits for what a cell shows, once the cell has run [s]. Its own 4 s pass on a busy machine, and the cell shows nothing."""
FOLDER = ".pages"
_RUNNING = ("Run All Cells", "**Run**")
_WHOLE = "**How to run this page.**"
_SENTENCE = re.compile(r"[^.!?]*(?:\.(?=\d)[^.!?]*)*[.!?]+[*_)]*\s*")


def as_page(text: str) -> str:
    """A cell's Markdown as a page has it: no word of running, and pictures found from the folder that is served."""
    kept = []
    for paragraph in re.split(r"\n{2,}", text):
        if paragraph.startswith(_WHOLE):
            continue
        if any(word in paragraph for word in _RUNNING):
            paragraph = without(paragraph, _RUNNING)
        if paragraph:
            kept.append(paragraph)
    return with_letters("\n\n".join(kept).replace("](../figures/", "](figures/"))


def without(paragraph: str, words: Sequence[str]) -> str:
    """The paragraph without the sentences that have one of these words; its emphasis stays whole."""
    emphasis = "*" if re.match(r"\*[^*]", paragraph) else ""
    inner = paragraph.strip("*") if emphasis else paragraph
    said = "".join(s for s in _SENTENCE.findall(inner) if not any(word in s for word in words)).strip()
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
    _with_words(notebook, _file(request))
    _with_way(notebook, _file(request))
    _with_room(notebook, _file(request))
    notebook.cells = [shown for cell in notebook.cells for shown in with_its_code(cell)]
    return notebook


def _file(request: Any) -> str:
    """The notebook's file name as its address has it; "" where nobody asked by an address."""
    path = getattr(getattr(request, "request", None), "path", "")
    return unquote(path).rpartition("/")[2]


def _with_words(notebook: Any, file: str) -> None:
    """Marks the words of the glossary in a page's prose, and puts their meanings at its foot, unseen."""
    page = file.removesuffix(".ipynb")
    if page in NOT_ON or not file:
        return
    from nbformat.v4 import new_markdown_cell

    texts = [cell for cell in notebook.cells if cell.cell_type == "markdown"]
    made, used = explained([cell.source for cell in texts], page)
    for cell, source in zip(texts, made, strict=True):
        cell.source = source
    if used:
        notebook.cells = [*notebook.cells, new_markdown_cell(meanings(used))]


def _with_way(notebook: Any, file: str) -> None:
    """Puts the links to the pages before and after, and the sections, at the top of a page, and the links at its foot."""
    links = ways(file)
    if not links:
        return
    from nbformat.v4 import new_markdown_cell

    texts = [cell for cell in notebook.cells if cell.cell_type == "markdown"]
    made, sections = anchored([cell.source for cell in texts])
    for cell, source in zip(texts, made, strict=True):
        cell.source = source
    top = f"{STYLE}{bar(links, 'Way through the course')}{sections_bar(sections)}"
    foot = bar(links, "Way through the course, at the foot")
    notebook.cells = [new_markdown_cell(top), *notebook.cells, new_markdown_cell(foot)]


def _with_room(notebook: Any, file: str) -> None:
    """Home has no widgets that bring the style of the page: where a projector shows the course, it gets it here."""
    if file == HOME.file and (theme := Room(os.environ.get("ANGLELIB_HOME")).theme) != THEMES[0]:
        from nbformat.v4 import new_markdown_cell

        notebook.cells = [new_markdown_cell(shown_by(theme)), *notebook.cells]


def with_its_code(cell: Any) -> list[Any]:
    """A cell, after its own code as text where that is not collapsed: Voila leaves all code out, and lesson 13 is about it."""
    if cell.cell_type != "code" or cell.metadata.get("jupyter", {}).get("source_hidden"):
        return [cell]
    from nbformat.v4 import new_markdown_cell

    return [new_markdown_cell(f"```python\n{cell.source}\n```"), cell]


def serve(folder: Path, project: Path, first: str, *, browser: bool, port: int | None = None, sharing: Any = None) -> None:
    """Serve the project's lessons on this machine only, behind a token, and open the first; returns when stopped.

    What a page saves goes to the learner's ``folder``, which itself is not served. ``sharing`` is a visitors' server that was
    started (:class:`anglelib.visitors.share.Sharing`): the owner is told of it, and has its sheet for the wall.
    """
    try:
        from tornado.ioloop import IOLoop
        from tornado.web import RedirectHandler
        from voila.app import TornadoVoilaHandler, TornadoVoilaTreeHandler, Voila, VoilaContentsHandler
    except ImportError as error:
        raise BenchError(
            "Voila, which shows the pages, is not installed: run the README's first command line again, or open the course with --lab."
        ) from error

    class Pages(Voila):  # type: ignore[misc]
        def init_handlers(self) -> list:
            begin = [(r"/?", RedirectHandler, {"url": f"/voila/render/notebooks/{first}", "permanent": False})]
            begin += [sharing.wall_handler()] if sharing else []
            return begin + only_lessons(super().init_handlers(), TornadoVoilaHandler, (TornadoVoilaTreeHandler, VoilaContentsHandler))

        def random_ports(self, port: int, n: int) -> Iterator[int]:
            """The ports that are tried; who asks for more than there are has found none."""
            yield from super().random_ports(port, n)
            rmtree(self.connection_dir, ignore_errors=True)
            raise none_free(port, n)

        def launch_browser(self) -> None:
            """Called once the port is taken: the address has its token."""
            print(f"The pages are at {self.display_url}", flush=True)
            if sharing:
                sharing.tell(self.display_url)
            _end_by_ctrl_c(IOLoop.current())
            IOLoop.current().add_callback(self.kernel_manager.make_ready)
            if browser:
                with suppress(OSError):  # the address stands there in any case
                    opening = write_opening(place, self.display_url).as_uri()
                    threading.Thread(target=webbrowser.open, args=(opening,), daemon=True).start()

        def stop(self) -> None:
            end_kernels(self)
            super().stop()

    place = _parts(folder)
    if sharing:
        sharing.place = place
    app = Pages.instance()
    app.initialize(server_options(folder, project, port))
    say_where_python_ends(app)
    app.voila_configuration.prelaunch_hook = prepared
    app.voila_configuration.file_allowlist = [FIGURE]
    app.template_paths.insert(0, str(place))
    quiet()
    try:
        app.start()
    finally:
        with suppress(OSError):
            (place / OPEN_NAME).unlink(missing_ok=True)


def _end_by_ctrl_c(loop: Any) -> None:
    """From here on the first Ctrl-C ends the loop between two of its steps, and no kernel in the middle of its start; a second one ends all."""

    def end(*_: Any) -> None:
        signal.signal(signal.SIGINT, signal.default_int_handler)
        loop.add_callback_from_signal(loop.stop)

    signal.signal(signal.SIGINT, end)


def server_options(folder: Path, project: Path, port: int | None = None) -> list[str]:
    """What Voila is told: this machine only, its own token, the project's lessons, kernels that work in the learner's folder."""
    return [
        "--Voila.ip=127.0.0.1", "--Voila.auto_token=True", NO_PASSWORD, f"--Voila.root_dir={project}", "--Application.log_level=ERROR",
        f"--MappingKernelManager.root_dir={folder}", f"--MappingKernelManager.cull_idle_timeout={IDLE}",
        "--VoilaConfiguration.show_tracebacks=False", f"--Voila.{SETTING}", *kernel_options(folder / FOLDER), *port_options("Voila", port),
        f"--NotebookClient.iopub_timeout={PATIENCE}", f"--{spare.SETTING}", f"--VoilaConfiguration.extra_labextensions_path={folder / FOLDER / page_parts.EXTENSIONS}",
    ]  # fmt: skip


def _parts(folder: Path) -> Path:
    """The folder of the page's own parts, inside the learner's."""
    place = folder / FOLDER
    try:
        page_parts.write(place)
    except OSError as error:
        raise BenchError(f"The course folder {folder} cannot be written: {error.strerror}. Choose another with ANGLELIB_HOME.") from None
    return place

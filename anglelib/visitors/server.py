"""The visitors' server: a process of its own, which knows nothing of the owner's pages, their token, their kernels or their folder.

The owner's course starts it with an environment of few words and a folder that is thrown away, tells it on its input what to serve, and ends it by
closing that. What it has to say goes as a line of JSON to its output.
"""

from __future__ import annotations

import json
import os
import secrets
import shutil
import sys
import threading
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from anglelib import kernels, page_parts, pages
from anglelib.rendering import say_where_python_ends
from anglelib.served import FIGURE, end_kernels, kernel_options, quiet
from anglelib.visitors import words
from anglelib.visitors.allowed import USUAL
from anglelib.visitors.handlers import handlers, identity
from anglelib.visitors.house import IDLE, House
from anglelib.visitors.kernels import CANNOT_START
from anglelib.visitors.socket import SETTING

PORT, RETRIES = 8866, 50
OWNERS = "your own folder"
"""A sentence that has this is for the owner: a visitor has none."""
LONGEST_BODY = 1 << 14
"""The longest thing that is sent to it in one request [byte]."""


def prepared(request: Any, notebook: Any, cwd: str) -> Any:
    """A lesson as a visitor's page: as the owner's, with what it is for a visitor at its head."""
    from nbformat.v4 import new_markdown_cell

    made = pages.prepared(request, notebook, cwd)
    for cell in made.cells:
        if cell.cell_type == "markdown" and OWNERS in cell.source:
            cell.source = "\n\n".join(pages.without(text, (OWNERS,)) if OWNERS in text else text for text in cell.source.split("\n\n"))
    made.cells.insert(0, new_markdown_cell(words.note(IDLE)))
    return made


def server_options(project: str, address: str, port: int | None, folder: str) -> list[str]:
    """What Voila is told."""
    given = [
        f"--Voila.ip={address}", f"--Voila.root_dir={project}", "--Application.log_level=CRITICAL", f"--Voila.{SETTING}",
        f"--Voila.port={port or PORT}", f"--Voila.port_retries={0 if port else RETRIES}",
        f"--MappingKernelManager.root_dir={folder}", f"--MappingKernelManager.cull_idle_timeout={60 * IDLE}",
        "--MappingKernelManager.cull_interval=60", "--MappingKernelManager.cull_connected=True", "--MappingKernelManager.allow_tracebacks=False",
        "--VoilaConfiguration.multi_kernel_manager_class=anglelib.visitors.kernels.VisitorKernels",
        "--VoilaConfiguration.kernel_spec_manager_class=anglelib.visitors.kernels.SealedSpecs",
        "--VoilaConfiguration.allow_template_override=NO", "--VoilaConfiguration.allow_theme_override=NO",
        "--VoilaConfiguration.show_tracebacks=False", f"--NotebookClient.iopub_timeout={pages.PATIENCE}",
        f"--VoilaConfiguration.extra_labextensions_path={Path(folder, page_parts.EXTENSIONS)}", *kernel_options(Path(folder)),
    ]  # fmt: skip
    return given


def application(code: str, most: int, heard: Callable[[dict], None]) -> Any:
    """Voila's application with our handlers; ``heard`` gets what is to be told to the owner."""
    from voila.app import Voila

    cookie = f"anglelib-visitor-{secrets.token_hex(4)}"
    strange = threading.Event()

    def heed(why: str) -> None:
        if why not in USUAL and not strange.is_set():
            strange.set()
            heard({"strange": why})

    class Visitors(Voila):  # type: ignore[misc]
        def init_settings(self) -> dict:
            kernels.CourseKernel.tell = staticmethod(lambda said: heard({CANNOT_START: said.text[-LONGEST_BODY:] if said else ""}))
            settings = super().init_settings()
            self.kernel_manager.house, self.kernel_manager.heed = House(most), heed
            return {**settings, "login_url": "/", "websocket_max_message_size": 1 << 17}

        def init_handlers(self) -> list:
            return handlers(super().init_handlers(), code, cookie)

        def listen(self) -> None:
            self.app.listen = partial(self.app.listen, max_body_size=LONGEST_BODY, max_header_size=LONGEST_BODY, body_timeout=20)
            super().listen()

        def launch_browser(self) -> None:
            """Called once the port is taken."""
            heard({"port": self.port})

        def stop(self) -> None:
            end_kernels(self)
            super().stop()

    app = Visitors.instance()
    app.identity_provider_class = identity(cookie)
    return app


def main() -> None:
    """Reads one line, serves until the input ends."""
    given = json.loads(sys.stdin.readline())
    said = threading.Lock()

    def heard(what: dict) -> None:
        with said:
            print(json.dumps(what), flush=True)

    folder = os.getcwd()
    page_parts.write(Path(folder), ended=words.ENDED)
    app = application(given["code"], given["most"], heard)
    app.initialize(server_options(given["project"], given["address"], given["port"], folder))
    say_where_python_ends(app)
    app.voila_configuration.prelaunch_hook = prepared
    app.voila_configuration.file_allowlist = [FIGURE]
    app.template_paths.insert(0, folder)
    quiet()
    threading.Thread(target=_until_the_input_ends, args=(app,), daemon=True).start()
    try:
        app.start()
    finally:
        shutil.rmtree(folder, ignore_errors=True)  # also where the owner's course was killed and cannot


def _until_the_input_ends(app: Any) -> None:
    """The owner's course has ended, whatever way."""
    sys.stdin.read()
    while not hasattr(app, "ioloop"):
        threading.Event().wait(0.1)
    app.ioloop.add_callback(app.ioloop.stop)


if __name__ == "__main__":
    main()

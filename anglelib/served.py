"""What the servers of the course are told alike, and what of the project the pages' server gives out: lessons and their figures.

>>> import re
>>> [bool(re.fullmatch(LESSON_PAGE, f"/voila/render/{path}")) for path in ("notebooks/00_start_here.ipynb", "notebooks/..%2Ftests%2Fa.ipynb")]
[True, False]
"""

from __future__ import annotations

import html
import logging
import os
import sys
import warnings
from collections.abc import Mapping, Sequence
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import Any

from anglelib import kernels
from anglelib.stock.apart import LIGHT

LESSON_PAGE = r"/voila/render/(notebooks/\w[\w-]*\.ipynb)"
"""The pages that there are; no sign of another folder, not even an encoded one."""
FIGURE = r"figures[/\\]\w[\w-]*\.(?:png|svg)"
"""The files that there are, below the project."""
OPEN_NAME = "open.html"


def kernel_options(place: Path) -> list[str]:
    """What every server is told of its kernels: nobody else on this computer reads what they say, and the terminal is not theirs.

    Without the first a kernel sends in plain text, where each account may listen. Their processes' own words go to a file in ``place``.
    """
    import zmq

    encrypted = ["--MappingKernelManager.transport_encryption=auto"] if zmq.has("curve") else []
    return [*encrypted, *kernels.options(place)]


def end_kernels(app: Any) -> None:
    """Called by a Voila that stops, before its own: that one ends kernels in another loop than the one in which they are starting."""
    app.ioloop.run_sync(app.kernel_manager.shutdown_all)


NO_PASSWORD = "--PasswordIdentityProvider.allow_password_change=False"
"""What a server with a login is told. Else whoever has the address could set a password there, which from then on opens the course of every day."""


def port_options(server: str, port: int | None) -> list[str]:
    """The port of a server, and no other where one was asked for.

    >>> port_options("Voila", 8123), port_options("Voila", None)
    (['--Voila.port=8123', '--Voila.port_retries=0'], [])
    """
    return [] if port is None else [f"--{server}.port={port}", f"--{server}.port_retries=0"]


def without_slow_checks() -> None:
    """Called before a server is imported: leaves out a check of addresses of other alphabets, which nothing here asks for.

    Its library reads a grammar whenever it is imported, for two thirds of all the time that a server takes to start; where it is not there,
    the check is passed over.
    """
    sys.modules.setdefault("rfc3987_syntax", None)  # type: ignore[arg-type]


PACKAGE = Path(__file__).resolve().parents[1]
"""Where this library lies."""


def search_path(given: Mapping[str, str]) -> str:
    """PYTHONPATH for kernels: this library is found wherever they run, also after its folder was moved, and what is installed looks elsewhere.

    >>> path = search_path({"PYTHONPATH": os.pathsep.join(["", "mine"])}).split(os.pathsep)
    >>> Path(path[0], "anglelib", "served.py").is_file(), path[1:] == [os.path.abspath("mine")]
    (True, True)
    """
    others = (os.path.abspath(one) for one in given.get("PYTHONPATH", "").split(os.pathsep) if one)
    return os.pathsep.join(dict.fromkeys([str(PACKAGE), *others]))


def keep_light() -> None:
    """Kernels that are started from here on ask the solver in a process of its own: pages that are only open take little memory."""
    os.environ.setdefault(LIGHT, "1")


LEFT_OUT = "ignore::DeprecationWarning,ignore::PendingDeprecationWarning,ignore::FutureWarning"
"""What the kernels' Python is told of warnings."""


def quiet() -> None:
    """Leave out what libraries say to those who develop them, in the server and in its kernels; errors are said.

    A warning that somebody asks for (-W, PYTHONWARNINGS) is given, and in JupyterLab so is one of a person's own cell.
    """
    for log in ("tornado.access", "tornado.general"):  # a page that is not there is said to the browser
        logging.getLogger(log).setLevel(logging.ERROR)
    if not sys.warnoptions or os.environ.get("PYTHONWARNINGS") == LEFT_OUT:  # ours: one course was started from another
        with suppress(ImportError):
            import_module("voila")  # an extension of JupyterLab too; when it is imported it asks for the warnings of others
        warnings.simplefilter("ignore")
        os.environ["PYTHONWARNINGS"] = LEFT_OUT


def only_lessons(handlers: Sequence[tuple], render: type, listings: Sequence[type]) -> list[tuple]:
    """Voila's handlers without its ``listings`` of folders, and with ``render`` for lessons alone."""
    kept = [handler for handler in handlers if handler[1] not in listings]
    return [(LESSON_PAGE, *handler[1:]) if handler[1] is render else handler for handler in kept]


def write_opening(folder: Path, address: str) -> Path:
    """A file that only its owner can read and that leads a browser to the address: a command line, which all can read, has no token."""
    path = folder / OPEN_NAME
    path.unlink(missing_ok=True)
    number = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    there = html.escape(address, quote=True)
    with open(number, "w", encoding="utf-8") as file:
        file.write(
            f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>The course</title>\n'
            f'<meta http-equiv="refresh" content="0; url={there}"></head>\n<body><p><a href="{there}">Open the course</a></p></body></html>\n'
        )
    return path
